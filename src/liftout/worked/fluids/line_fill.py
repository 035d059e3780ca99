"""Liquid in the filled lines of a loop, its items left out: what the item that holds them carries besides its own weight."""

from liftout.facts import Facts
from liftout.facts.lines import Loop, LoopCase
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worksheet import Worksheet


@worked
def line_fill(loop: Loop, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    if not loop.segments:
        sheet.needs(loop.place.missing("segments"))
    sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.column("d", [(part.name, part.inside_diameter) for part in loop.segments], "bore of each line")
    sheet.column("L", [(part.name, part.length) for part in loop.segments], "length of each line")
    sheet.work("V", "sum(pi * (d / 2)**2 * L)", "liquid in the lines", "L", places=3)
    sheet.work("m", "rho * V", "its mass", "lb", places=2)
    return sheet
