"""Heat that the tail exchanger passes to the air.

Requires: with the fan alone on the ground, and aloft, the exchanger passes on at least the cooling and all electricity that goes in.
Because: what is not passed on stays in the loop, which warms until the compressor cuts out or a line lets go.
Method: effectiveness times the heat capacity of the air, by mass and at most as much as it was declared at, times hottest liquid less inlet air.
Leaves out: dirt and insects in the fins, sun on the bay, moisture in the air, wind from behind while the aircraft stands.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.air import ALOFT, AirCase
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.fluids.air_flow import air_flow
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
    sheet.given("eff", path.effectiveness, "effectiveness of the exchanger at the flow of air for which it is declared")
    sheet.given("Q_d", exchanger.flow, "that flow of air")
    sheet.given("rho_d", exchanger.density, "its density")
    sheet.given("c_p", more.c_p, more.c_p.meaning)
    sheet.given("q_rej", rejected_heat(path, facts).value("Q"), "heat to be passed to the air")
    # Less air is used better and more air carries more in all, so the declared effectiveness holds for the lesser of both flows.
    sheet.work("m", "min(Q * rho, Q_d * rho_d)", "mass of air that counts", "kg/s")
    sheet.work("q", "eff * m * c_p * (T_l - T_i)", "heat that the exchanger passes on", "W", by=more)
    return sheet.at_least("q", "q_rej", case={"scoop": _scoop(case)})


def _scoop(case: AirCase) -> str:
    """What the scoop counts for."""
    scoop = case.path.place.part("scoop")
    if not scoop.there:
        return "not told, counted as none"
    return "none" if scoop.declined is not None else "counted aloft" if case.case == ALOFT else "not counted on the ground"
