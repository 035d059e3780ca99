"""Moment of one item, dry: what its line of the equipment list adds."""

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def item_moment(item: Item, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("w", item.mass_dry, "weight of the item, dry")
    sheet.given("x", item.arm, "arm of the item")
    sheet.work("M", "w * x", "moment of the item", "lb-in", places=1)
    return sheet
