"""Room for the coolant to expand.

Requires: the filled loop leaves at least as much air as its liquid grows from filling to its hottest.
Because: liquid does not give; a loop that is full and closed bursts its weakest joint when it warms.
Method: the quantity of the loop times the ratio of both densities, less one, against the air space that was measured.
Leaves out: growth of hose and tank; air that leaves with the first warm-up; and parts that self-sealing halves close off full, which have neither air
    nor cap.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import Loop, LoopCase
from liftout.findings import Finding
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@criterion(each="running_loops")
def expansion_room(loop: Loop, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V", liquid_fill(facts.filled(loop), facts).value("V"), "liquid in the loop when it is filled")
    sheet.given("rho_f", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.given("rho_h", coolant_state(LoopCase(loop, "hottest", loop.hottest), facts).value("rho"), "density of the liquid at its hottest")
    sheet.work("dV", "V * (rho_f / rho_h - 1)", "growth of the liquid from filling to its hottest", "mL")
    return sheet.at_most("dV", loop.expansion_room)
