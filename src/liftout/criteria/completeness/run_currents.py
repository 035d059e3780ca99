"""Current of an item's circuits against its demand.

Requires: the currents for which an item's circuits are computed together carry the larger of its steady and peak current.
Because: a wire checked for less than its load draws passes every check and still runs hot.
Method: currents of the circuits that feed the item, summed, against its demand.
Leaves out: starting current.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined


@criterion(each="items")
def run_currents(item: Item, facts: Facts) -> Finding:
    if item.demand.declined is not None:
        return declined(item.demand.declined)
    sheet = Worksheet()
    feeding = [run for run in facts.runs if run.load is item]
    if not feeding:
        sheet.needs(facts.wiring.missing("runs"))
    sheet.given("I_s", item.demand.steady, "steady current of the item")
    sheet.given("I_p", item.demand.peak, "highest lasting current of the item")
    sheet.column("I_run", [(run.name, run.current) for run in feeding], "current for which each circuit is computed")
    sheet.work("I_need", "max(I_s, I_p)", "demand of the item", "A")
    sheet.work("I", "sum(I_run)", "currents for which its circuits are computed, together", "A")
    return sheet.at_least("I", "I_need")
