"""Reserve of coolant for the cold.

Requires: the tank of the filled loop holds at least the liquid by which the loop shrinks from filling to the coldest air it stands in.
Because: a loop that shrinks draws air through its tank; the pump then runs on foam, and the equipment has no flow.
Method: the quantity of the loop times one less the ratio of both densities, against the liquid that was measured above the level where air is drawn.
Leaves out: shrinking hose and tank, what seeps away between two looks at the level, and air that freezes the liquid: its coldest start counts then.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.lines import Loop, LoopCase
from liftout.findings import Finding
from liftout.physics.coolant import OutsideTable, freezing_point_k
from liftout.worked.fluids.coolant_state import coolant_grid, coolant_state
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@criterion(each="running_loops")
def contraction_reserve(loop: Loop, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V", liquid_fill(facts.filled(loop), facts).value("V"), "liquid in the loop when it is filled")
    sheet.given("rho_f", coolant_state(LoopCase(loop, "filling", loop.filling), facts).value("rho"), "density of the liquid when filled")
    coldest = _coldest(sheet, loop)
    sheet.given("rho_c", coolant_state(coldest, facts).value("rho"), f"density of the liquid at its {coldest.case}")
    sheet.work("dV", "V * (1 - rho_f / rho_c)", f"shrinkage of the liquid from filling to its {coldest.case}", "mL")
    return sheet.at_most("dV", loop.reserve)


def _coldest(sheet: Worksheet, loop: Loop) -> LoopCase:
    """The coldest air where the job tells it and the coolant is liquid there; else the coldest start, which is never colder."""
    start, air = LoopCase(loop, "coldest start", loop.cold_start), loop.coldest
    if not isinstance(air, Fact):
        return start
    if not isinstance(loop.freezing, Fact) and isinstance(loop.kind, Fact) and isinstance(loop.basis, Fact) and isinstance(loop.fraction, Fact):
        sheet.rests_on(air, loop.fraction)
        try:
            if air.value.si_float <= freezing_point_k(coolant_grid(loop.kind.value, loop.basis.value), loop.fraction.value.si_float):
                return start  # its margin to the freezing point is what does not conform then
        except OutsideTable:
            pass  # its density is asked for
    return LoopCase(loop, "coldest air", air)
