"""Highest pressure in a loop: its cap just before it opens, and the pump against a closed line."""

from liftout.facts import Facts
from liftout.facts.lines import Loop
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def loop_pressure(loop: Loop, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("p_cap", loop.cap_pressure, "pressure at which the cap or relief opens")
    sheet.given("p_0", loop.pump_curve[0][1] if loop.pump_curve else loop.place.missing("pump"), "pressure rise of the pump at its least flow")
    sheet.work("p", "p_cap + p_0", "highest pressure in the loop", "kPa")
    return sheet
