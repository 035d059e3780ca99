"""Lateral moment of the liquid in a filled loop, right of the centre line positive: of its lines by their routes, of its items by their place."""

from liftout.facts import Facts
from liftout.facts.lines import LoopCase
from liftout.facts.states import Filled
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worksheet import Worksheet


@worked
def liquid_lateral_moment(filled: Filled, facts: Facts) -> Worksheet:
    sheet, loop, terms = Worksheet(), filled.loop, []
    sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    if loop.segments:
        sheet.column("d", [(part.name, part.inside_diameter) for part in loop.segments], "bore of each line")
        sheet.column("l", [(part.name, part.length) for part in loop.segments], "length of each line")
        sheet.column("y", [(part.name, part.route.lateral) for part in loop.segments], "lateral arm of the middle of each line")
        terms.append("sum(pi * (d / 2)**2 * l * y)")
    if filled.items:
        sheet.column("v", [(item.name, item.holds_liquid) for item in filled.items], "liquid in each item")
        sheet.column("y_v", [(item.name, item.lateral) for item in filled.items], "lateral arm of each item")
        terms.append("sum(v * y_v)")
    if not terms:
        sheet.needs(loop.place.missing("segments"))
    sheet.work("L", f"rho * ({' + '.join(terms)})", "lateral moment of the liquid", "lb-in", places=1)
    return sheet
