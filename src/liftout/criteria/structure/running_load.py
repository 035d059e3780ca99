"""Load of an item along the length of a floor.

Requires: the weight of an item over the length on which it stands along the aircraft stays within the running load of the floor.
Because: floor beams and seat rails carry what stands on each length of them; a short heavy item bends one beam alone.
Method: filled weight over the outline on the floor divided by the width of the item's box, which is never more than the length it stands on, and over
  no more than the length of the box; a floor for which the maker gives no running load says so with its reason.
Leaves out: other loads that stand on the same length, and items that lie across.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.floors import OnFloor
from liftout.findings import Finding
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worksheet import Worksheet, declined


@criterion(each="items_on_floors")
def running_load(on: OnFloor, facts: Facts) -> Finding:
    if on.running_declined is not None:
        return declined(on.running_declined)
    sheet = Worksheet()
    sheet.given("m", filled_mass(on.item, facts).value("m"), "weight of the item, filled")
    sheet.given("L_b", on.item.length, "length of the item along the aircraft")
    sheet.given("b", on.item.width, "width of the item")
    sheet.given("A", on.item.standing.footprint, "outline on the floor")
    sheet.given("w_max", on.running_limit, "running load of the floor")
    sheet.work("L", "min(L_b, A / b)", "length on which it stands, no longer than its outline over its width", "ft")
    sheet.work("w", "m / L", "running load of the item", "lb/ft")
    sheet.work("s_w", "w / w_max", "share of the limit that the item takes")
    sheet.work("m_most", "w_max * L", "what could stand on the same length in all", "lb")
    sheet.work("m_left", "m_most - m", "what remains there beside the item", "lb")
    return sheet.at_most("w", "w_max")
