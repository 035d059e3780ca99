"""Load of an item on the floor under it.

Requires: weight over the item's outline on the floor stays within the limit of that floor.
Because: a light floor is a thin sheet between stiffeners; it dents or tears long before the item is too heavy for the aircraft.
Method: filled weight over outline, static, before any strap is tightened.
Leaves out: the pressure under single feet, which has a criterion of its own, and the pull of tightened straps.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.findings import Finding
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worksheet import Worksheet, declined


@criterion(each="items")
def floor_load(item: Item, facts: Facts) -> Finding:
    if item.standing.declined is not None:
        return declined(item.standing.declined)
    sheet = Worksheet()
    sheet.given("m", filled_mass(item, facts).value("m"), "weight of the item, filled")
    sheet.given("A", item.standing.footprint, "outline on the floor")
    sheet.given("q_max", item.standing.limit, "limit of the floor")
    sheet.work("q", "m / A", "load on the floor", "lb/ft^2")
    sheet.work("s_q", "q / q_max", "share of the limit that the item takes")
    sheet.work("m_most", "q_max * A", "what could stand on the same outline in all", "lb")
    sheet.work("m_left", "m_most - m", "what remains there beside the item", "lb")
    return sheet.at_most("q", "q_max")
