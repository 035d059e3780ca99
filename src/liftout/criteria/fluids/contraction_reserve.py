"""Reserve of coolant for the cold.

Requires: the tank of the filled loop holds at least as much liquid in reserve as the loop shrinks by from filling to its coldest start.
Because: a loop that shrinks draws air through its tank; the pump then runs on foam, and the equipment has no flow.
Method: the quantity of the loop times one less the ratio of both densities, against the liquid that was measured above the level where air is drawn.
Leaves out: shrinking hose and tank, what seeps away between two looks at the level, and colder liquid while the loop stands.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import Loop, LoopCase
from liftout.findings import Finding
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@criterion(each="running_loops")
def contraction_reserve(loop: Loop, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V", liquid_fill(facts.filled(loop), facts).value("V"), "liquid in the loop when it is filled")
    sheet.given("rho_f", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    sheet.given(
        "rho_c", coolant_state(LoopCase(loop, "cold start", loop.cold_start), facts).value("rho"), "density of the liquid at its coldest start"
    )
    sheet.work("dV", "V * (1 - rho_f / rho_c)", "shrinkage of the liquid from filling to its coldest start", "mL")
    return sheet.at_most("dV", loop.reserve)
