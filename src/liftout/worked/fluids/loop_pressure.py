"""Highest pressure in a loop: its cap just before it opens, the pump against a closed line, and the weight of the liquid below the cap.

A cap opens against the air of a cabin. Parts outside a pressure hull stand in outside air, so that the pressure of the cabin adds to it.
"""

from liftout.facts import Fact, Facts, Missing
from liftout.facts.curves import at_no_flow
from liftout.facts.hull import leaves_hull
from liftout.facts.lines import Loop, LoopCase
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def loop_pressure(loop: Loop, facts: Facts) -> Worksheet:
    sheet, gravity = Worksheet(), methods.row("standard gravity").g
    sheet.given("p_cap", loop.cap_pressure, "pressure at which the cap or relief opens")
    least, rise = at_no_flow(loop.pump, loop.pump_curve) if loop.pump_curve else (loop.place.missing("pump"),) * 2
    sheet.given("p_0", rise, "pressure rise of the pump at no flow")
    sheet.given("h", loop.static_head, "height of the cap over the lowest point of the loop")
    sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.given("g", gravity, gravity.meaning)
    pressurised = facts.aircraft.place.answer("pressurised")
    sheet.needs(least, pressurised)
    reaches_out = isinstance(pressurised, Fact) and pressurised.value and _reaches_out(sheet, loop, facts)
    sheet.work("p_h", "rho * g * h", "weight of the liquid on the lowest point", "kPa")
    sheet.work("p", "p_cap + p_0 + p_h + dp_c" if reaches_out else "p_cap + p_0 + p_h", "highest pressure in the loop, at its lowest point", "kPa")
    return sheet


def _reaches_out(sheet: Worksheet, loop: Loop, facts: Facts) -> bool:
    """Whether a part of the loop lies outside the hull of a pressurised aircraft; the pressure of the cabin is then put in."""
    leaves = leaves_hull(loop, facts.openings)
    if isinstance(leaves, Missing):
        sheet.needs(leaves)
    elif leaves:
        relief = facts.aircraft.place.part("cabin_pressure").quantity("relief")
        sheet.given("dp_c", relief, "highest pressure of the cabin over the air outside")
    return leaves is True
