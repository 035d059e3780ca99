"""Heat that the tail exchanger passes to the air.

Requires: with the fan alone on the ground, and aloft, the exchanger passes on at least the cooling and all electricity that goes in.
Because: what is not passed on stays in the loop, which warms until the compressor cuts out or a line lets go.
Method: effectiveness, declared or worked from transfer units, times heat capacity of the air at its lesser flow, times hottest liquid less inlet air.
Leaves out: dirt and insects in the fins, sun on the bay, moisture in the air, wind from behind while the aircraft stands, and the thinner air of a high
    airfield on a hot day.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.air import ALOFT, AirCase, AirPath
from liftout.facts.lines import Loop, LoopCase
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.fluids.air_flow import air_flow
from liftout.worked.fluids.coolant_heat import coolant_heat
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.rejected_heat import rejected_heat
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="air_cases", tables=(methods,))
def heat_rejection(case: AirCase, facts: Facts) -> Finding:
    sheet, path, more = Worksheet(), case.path, methods.row("viscosity and sound in air")
    moved = air_flow(case, facts)
    if path.loop is None:
        sheet.needs(facts.place.missing("lines"))
    assert path.loop is not None
    sheet.needs(path.leaves_into)
    exchanger = path.losses[-1]
    sheet.given("Q", moved.value("Q"), f"flow of air, {case.case}")
    sheet.given("rho", moved.value("rho"), "density of the air")
    sheet.given("T_i", moved.value("T_i"), "air at the inlet")
    sheet.given("T_l", path.loop.hottest, "hottest liquid of the loop")
    sheet.given("Q_d", exchanger.flow, "flow of air for which the exchanger is declared")
    sheet.given("rho_d", exchanger.density, "its density")
    sheet.given("c_p", more.c_p, more.c_p.meaning)
    if isinstance(path.transfer_units, Fact):
        _effectiveness(sheet, path, path.loop, facts)
    else:
        sheet.given("eff", path.effectiveness, "effectiveness of the exchanger at that flow of air")
    sheet.given("q_rej", rejected_heat(path, facts).value("Q"), "heat to be passed to the air")
    # Less air is used better and more air carries more in all, so the declared effectiveness holds for the lesser of both flows.
    sheet.work("m", "min(Q * rho, Q_d * rho_d)", "mass of air that counts", "kg/s")
    sheet.work("q", "eff * m * c_p * (T_l - T_i)", "heat that the exchanger passes on", "W", by=more)
    return sheet.at_least("q", "q_rej", case={"scoop": _scoop(case)})


def _effectiveness(sheet: Worksheet, path: AirPath, loop: Loop, facts: Facts) -> None:
    """Effectiveness from transfer units, which count on the stream that carries less heat, told of the air."""
    row, hottest = methods.row("cross-flow exchanger, both unmixed"), LoopCase(loop, "hottest", loop.hottest)
    sheet.given("NTU", path.transfer_units, "transfer units of the exchanger at that flow of air")
    sheet.given("a", row.a, row.a.meaning)
    sheet.given("b", row.b, row.b.meaning)
    sheet.given("Q_l", path.item.minimum_flow if path.item else path.place.missing("cools"), "least flow of coolant")
    sheet.given("rho_l", coolant_state(hottest, facts).value("rho"), "density of the liquid at its hottest")
    sheet.given("c_l", coolant_heat(hottest, facts).value("c_l"), "specific heat of the liquid at its hottest")
    sheet.work("C_a", "Q_d * rho_d * c_p", "heat that the air carries for each degree", "W/K")
    sheet.work("C_l", "Q_l * rho_l * c_l", "heat that the liquid carries for each degree", "W/K")
    sheet.work("C_min", "min(C_a, C_l)", "the smaller of both", "W/K")
    sheet.work("C", "C_min / max(C_a, C_l)", "the smaller over the larger")
    sheet.work("eff_x", "1 - exp(exp(a * ln(NTU)) / C * (exp(-C * exp(b * ln(NTU))) - 1))", "effectiveness of the exchanger", by=row)
    sheet.work("eff", "eff_x * C_min / C_a", "share of the difference by which the air warms")


def _scoop(case: AirCase) -> str:
    """What the scoop counts for."""
    scoop = case.path.place.part("scoop")
    if not scoop.there:
        return "not told, counted as none"
    return "none" if scoop.declined is not None else "counted aloft" if case.case == ALOFT else "not counted on the ground"
