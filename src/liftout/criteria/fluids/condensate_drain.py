"""Flow of a condensate tube.

Requires: the tube, or its pump, carries at least the water that the item makes out of the wettest air.
Because: water that comes faster than it leaves fills the tray and runs over what lies below.
Method: water by the state of moist air at cabin pressure, against the pump's flow, or against the flow that the fall of the full tube drives.
Leaves out: air locks, dirt, suction of a fan at the tray, and a plug that surface tension holds in a narrow tube: only a pour test shows that water runs.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.condensate import Condensate
from liftout.findings import Finding
from liftout.physics.pipe_flow import Curve, Liquid, Segment, operating_point, segment_drop
from liftout.tables import table
from liftout.worked.fluids.condensate_rate import condensate_rate
from liftout.worked.fluids.friction_law import friction_law
from liftout.worked.fluids.proved_drop import proved_drop
from liftout.worksheet import Worksheet

methods, water, roughnesses, losses = table("methods"), table("water"), table("roughnesses"), table("fitting_losses")


@criterion(each="condensates", tables=(methods, water, roughnesses, losses))
def condensate_drain(made: Condensate, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(made.makes)
    assert isinstance(made.makes, Fact)
    if not made.makes.value:
        return sheet.met("it makes no water that would have to drain")
    sheet.described(made.section, facts.place.missing("condensate"))
    sheet.described(made.tube)
    sheet.given("V_w", condensate_rate(made, facts).value("V_w"), "water that is made")
    pump = made.tube.part("pump")
    if pump.there:
        return sheet.at_most("V_w", pump.quantity("flow"))
    sheet.given("z_1", made.tray.height, "height of the tray")
    sheet.given("z_2", made.outlet.height, "height of the outlet")
    sheet.work("h", "z_1 - z_2", "fall from the tray to the outlet", "in")
    if sheet.sign("h") <= 0:
        return sheet.refused("water does not run up a tube, and the job declares no pump")
    _through_tube(sheet, made)
    return sheet.at_most("V_w", "Q")


def _through_tube(sheet: Worksheet, made: Condensate) -> None:
    """Flow at which the full tube takes what the weight of its water gives."""
    state, ends = water.row("60 °F"), (losses.row("sharp-edged entry").loss, losses.row("exit").loss)
    sheet.given("d_1", made.bore, "bore of the tube")
    sheet.given("L_1", made.tube.quantity("length"), "length of the tube")
    sheet.given("e_1", sheet.row(roughnesses, made.tube.word("inside")).roughness, "roughness of the tube")
    sheet.given("K_in", ends[0], "loss at a sharp entry")
    sheet.given("K_out", ends[1], "loss at the exit")
    sheet.given("rho", state.density, "density of water")
    sheet.given("mu", state.viscosity, "viscosity of water")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.work("K_1", "K_in + K_out", "both losses")
    sheet.work("p", "rho * g * h", "pressure that the fall gives", "Pa")
    tube = Segment("tube", *(sheet.si(f"{name}_1") for name in "LdeK"))
    liquid, law, fall = Liquid(sheet.si("rho"), sheet.si("mu")), friction_law(), sheet.si("p")
    # Water that falls freely is faster than any that runs in a tube.
    most = (2 * fall / liquid.density_kg_m3) ** 0.5 * tube.diameter_m**2
    found = operating_point(Curve(((0, fall), (most, fall))), lambda flow: segment_drop(tube, flow, liquid, law).total_pa, most).flow_m3_s
    sheet.found("Q", found, "flow of the full tube", "L/h")
    proved_drop(sheet, 1, segment_drop(tube, found, liquid, law), methods.row("friction regimes"), methods.row("Colebrook"))
    sheet.work("r", "p - dp_1", "what is left over, which proves the flow", "Pa", places=2)
