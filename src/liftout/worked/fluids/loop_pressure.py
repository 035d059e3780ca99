"""Highest pressure in a loop: its cap just before it opens, the pump against a closed line, and the weight of the liquid below the cap."""

from liftout.facts import Facts
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
    sheet.given("p_0", loop.pump_curve[0][1] if loop.pump_curve else loop.place.missing("pump"), "pressure rise of the pump at its least flow")
    sheet.given("h", loop.static_head, "height of the cap over the lowest point of the loop")
    sheet.given("rho", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.given("g", gravity, gravity.meaning)
    sheet.work("p_h", "rho * g * h", "weight of the liquid on the lowest point", "kPa")
    sheet.work("p", "p_cap + p_0 + p_h", "highest pressure in the loop, at its lowest point", "kPa")
    return sheet
