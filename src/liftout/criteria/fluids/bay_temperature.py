"""Temperature of a bay that the equipment warms.

Requires: at hot idle and after shutdown the bay stays cooler than the least limit of anything in it.
Because: a locator, a servo or a radio fails from heat without a sign, and composite structure loses strength.
Method: hottest outside air and the measured rise, or the warm air itself where it leaves into the bay, against the lowest of all declared limits.
Leaves out: hot spots beside exhaust and exchanger, sun on the skin where the rise was measured in shade, and how long the heat lasts.
"""

from liftout.criteria import criterion
from liftout.facts import Facts, Missing
from liftout.facts.air import GROUND, HOT_IDLE, AirCase, BayCase
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.fluids.air_flow import air_flow
from liftout.worked.fluids.rejected_heat import rejected_heat
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="bay_cases", tables=(methods,))
def bay_temperature(case: BayCase, facts: Facts) -> Finding:
    sheet, bay, more = Worksheet(), case.bay, methods.row("viscosity and sound in air")
    sheet.given("T_g", bay.place.quantity("hottest_outside"), "hottest outside air on the ground")
    sheet.given("dT", case.rise, f"measured rise of the bay, {case.case}")
    for n, held in enumerate(bay.held, 1):
        sheet.given(f"T_{n}", held.hottest, f"limit of the {held.name}")
    where = bay.place.missing("holds").where
    sheet.needs(
        *(Missing(f"name the {kind} in the {bay.name} with its limit, or say under without why there is none", where) for kind in bay.unnamed)
    )
    if not bay.held:
        sheet.needs(bay.place.missing("holds"))
    sheet.work("T_m", "T_g + dT", "bay by its measured rise", "°C")
    warm = ["T_m"]
    for n, path in enumerate(bay.blown_by if case.case == HOT_IDLE else (), 1):
        moved = air_flow(AirCase(path, GROUND), facts)
        if n == 1:
            sheet.given("c_p", more.c_p, more.c_p.meaning)
        sheet.given(f"q_{n}", rejected_heat(path, facts).value("Q"), f"heat that the air of the {path.name} takes")
        sheet.given(f"Q_{n}", moved.value("Q"), f"flow of the {path.name}")
        sheet.given(f"rho_{n}", moved.value("rho"), "density of that air")
        sheet.given(f"T_i{n}", moved.value("T_i"), "that air at the inlet")
        sheet.work(f"T_x{n}", f"T_i{n} + q_{n} / (rho_{n} * Q_{n} * c_p)", f"air that the {path.name} blows into the bay", "°C", by=more)
        warm.append(f"T_x{n}")
    sheet.work("T", f"max({', '.join(warm)})" if len(warm) > 1 else "T_m", f"bay temperature, {case.case}", "°C")
    lowest = [f"T_{n}" for n in range(1, len(bay.held) + 1)]
    sheet.work("T_low", f"min({', '.join(lowest)})" if len(lowest) > 1 else "T_1", "lowest limit of anything in the bay", "°C")
    return sheet.at_most("T", "T_low", distance=True)
