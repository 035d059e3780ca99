"""Liquid in a filled loop: volume, mass and moment of lines and items together, and how much glycol and water make it."""

from liftout.facts import Fact, Facts
from liftout.facts.lines import Loop, LoopCase
from liftout.facts.states import Filled
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worksheet import Worksheet


@worked
def liquid_fill(filled: Filled, facts: Facts) -> Worksheet:
    sheet, loop = Worksheet(), filled.loop
    sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    volume, first_moment = [], []
    if loop.segments:
        sheet.column("d", [(part.name, part.inside_diameter) for part in loop.segments], "bore of each line")
        sheet.column("L", [(part.name, part.length) for part in loop.segments], "length of each line")
        sheet.column("x", [(part.name, part.arm) for part in loop.segments], "arm of the middle of each line")
        volume.append("sum(pi * (d / 2)**2 * L)")
        first_moment.append("sum(pi * (d / 2)**2 * L * x)")
    if filled.items:
        sheet.column("v", [(item.name, item.holds_liquid) for item in filled.items], "liquid in each item")
        sheet.column("x_v", [(item.name, item.arm) for item in filled.items], "arm of each item")
        volume.append("sum(v)")
        first_moment.append("sum(v * x_v)")
    if not volume:
        sheet.needs(loop.place.missing("segments"))
    sheet.work("V", " + ".join(volume), "liquid in the loop", "L", places=3)
    sheet.work("m", "rho * V", "its mass", "lb", places=2)
    sheet.work("M", f"rho * ({' + '.join(first_moment)})", "its moment", "lb-in", places=1)
    _parts(sheet, loop)
    return sheet


def _parts(sheet: Worksheet, loop: Loop) -> None:
    """Glycol and water on the basis of the share: weighed where it is by mass, measured out where it is by volume."""
    sheet.given("c", loop.fraction, "glycol concentration")
    whole, printed = ("m", "lb") if isinstance(loop.basis, Fact) and loop.basis.value == "mass" else ("V", "L")
    sheet.work("G", f"c * {whole}", "glycol in it", printed, places=2)
    sheet.work("W", f"{whole} - G", "water in it", printed, places=2)
