"""A place in the shedding order for each load that does not stay on.

Requires: each load that flight and landing do not need stands in the order in which loads are switched off, the equipment before what was there before it.
Because: after the loss of the last generator the crew sheds by a list; what is not on it stays on and empties the battery.
Method: places in the order, counted: none for what stays on, one for what does not, and for equipment one ahead of every existing load.
Leaves out: whether each can be switched off with one switch, which the tests ask, and how fast.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.power import Shed
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="shed")
def shedding_order(load: Shed, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(load.essential)
    assert isinstance(load.essential, Fact)
    place = facts.electrical.part("battery")
    if load.essential.value and not isinstance(load.order, Fact):
        sheet.count("n", 0, "places of what stays on in the order", place)
        return sheet.at_most("n", 0)
    sheet.needs(load.order)
    assert isinstance(load.order, Fact)
    order = load.order.value
    if load.essential.value:
        sheet.count("n", int(load.name in order), "places of what stays on in the order", place)
        return sheet.at_most("n", 0)
    others = [other.name for other in facts.shed if not other.equipment]
    ahead = order[: next((n for n, name in enumerate(order) if name in others), len(order))] if load.equipment else order
    sheet.count("n", int(load.name in ahead), f"places in the order{', ahead of what was there before' if load.equipment else ''}", place)
    return sheet.at_least("n", 1)
