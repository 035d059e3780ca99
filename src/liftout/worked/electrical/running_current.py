"""Current with which an item stands in the sums of a load analysis: the larger of its steady and its highest lasting one."""

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def running_current(item: Item, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("I_s", item.demand.steady, "steady current of the item")
    sheet.given("I_p", item.demand.peak, "highest current of the item that lasts")
    sheet.work("I", "max(I_s, I_p)", "current that counts in sums of loads", "A", places=2)
    return sheet
