"""Mass of an item with the liquid inside it, and of one that holds lines with what fills them."""

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.lines import LoopCase
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.line_fill import line_fill
from liftout.worksheet import Worksheet


@worked
def filled_mass(item: Item, facts: Facts) -> Worksheet:
    sheet, whole = Worksheet(), "m_dry"
    sheet.given("m_dry", item.mass_dry, "weight of the item, dry")
    loop = next((loop for loop in facts.loops if item.name in [held.name for held in loop.items]), None)
    held = facts.lines_held_by(item)
    if loop is None and not held:
        sheet.work("m", "m_dry", "weight of the item, which holds no liquid", "lb", places=2)
        return sheet
    if loop is not None:
        sheet.given("v", item.holds_liquid, "liquid inside it")
        sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
        whole += " + rho * v"
    for number, one in enumerate(held, 1):
        sheet.given(f"m_{number}", line_fill(one, facts).value("m"), f"liquid in the lines of the {one.name}, which hang on it")
        whole += f" + m_{number}"
    sheet.work("m", whole, "weight of the item, filled", "lb", places=2)
    return sheet
