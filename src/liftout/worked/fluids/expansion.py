"""How much the liquid of a filled loop grows from the day it is filled to its hottest."""

from liftout.facts import Facts
from liftout.facts.lines import Loop, LoopCase
from liftout.worked import worked
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@worked
def expansion(loop: Loop, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("V", liquid_fill(facts.filled(loop), facts).value("V"), "liquid in the loop when it is filled")
    sheet.given("rho_f", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.given("rho_h", coolant_state(LoopCase(loop, "hottest", loop.hottest), facts).value("rho"), "density of the liquid at its hottest")
    sheet.work("e", "rho_f / rho_h - 1", "share by which it grows")
    sheet.work("dV", "V * e", "growth of the liquid", "mL")
    return sheet
