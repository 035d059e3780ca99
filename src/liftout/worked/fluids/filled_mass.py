"""Mass of an item with the liquid inside it."""

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.lines import LoopCase
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worksheet import Worksheet


@worked
def filled_mass(item: Item, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("m_dry", item.mass_dry, "weight of the item, dry")
    loop = next((loop for loop in facts.loops if item.name in [held.name for held in loop.items]), None)
    if loop is None:
        sheet.work("m", "m_dry", "weight of the item, which holds no liquid", "lb", places=2)
        return sheet
    sheet.given("v", item.holds_liquid, "liquid inside it")
    sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.work("m", "m_dry + rho * v", "weight of the item, filled", "lb", places=2)
    return sheet
