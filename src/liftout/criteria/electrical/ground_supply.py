"""Source on the ground against the equipment.

Requires: a source on the ground carries the equipment through its connector, and gives no more voltage than any item stands.
Because: an overloaded source sags or trips and leaves the aircraft battery to carry on; a charger without load gives far more than its label.
Method: the larger of steady and highest lasting current of each item, all together, against the smaller of source and connector, and the highest voltage of the source against the
    lowest that an item stands.
Leaves out: polarity and plug, which the connector of the aircraft decides, and loads of the aircraft that run beside the equipment.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Place
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="ground_powers")
def ground_supply(power: Place, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.described(power)
    items = facts.powered_items
    sheet.column("I_s", [(item.name, item.demand.steady) for item in items], "equipment, steady current")
    sheet.column("I_p", [(item.name, item.demand.peak) for item in items], "equipment, highest lasting current")
    sheet.given("I_g", power.quantity("rating"), "rating of the source on the ground")
    sheet.given("I_k", power.quantity("connector_rating"), "rating of its connector")
    sheet.given("V_g", power.quantity("highest"), "highest voltage of the source on the ground")
    sheet.needs(*(item.demand.highest_voltage for item in items))
    stands = [item.demand.highest_voltage for item in items if isinstance(item.demand.highest_voltage, Fact)]
    if not stands:
        return sheet.met("no item draws current")
    sheet.given("V_max", min(stands, key=lambda fact: fact.value.si), "lowest of the highest voltages that items stand")
    if sheet.exceeds("V_g", "V_max"):
        return sheet.at_most("V_g", "V_max")
    sheet.work("I", "sum(max(I_s, I_p))", "current of all equipment together", "A")
    sheet.work("I_max", "min(I_g, I_k)", "current that source and connector give", "A")
    return sheet.at_most("I", "I_max")
