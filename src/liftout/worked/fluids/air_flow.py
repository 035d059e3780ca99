"""Air that a fan moves through its path: outside air, the losses on the way, and the flow at which fan and path agree."""

import math

from liftout.facts import Facts
from liftout.facts.air import GROUND, AirCase
from liftout.facts.fact import Fact, Missing
from liftout.physics.pipe_flow import Curve, Liquid, NoOperatingPoint, Segment, operating_point, segment_drop
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.fluids.curve_pressure import curve_pressure
from liftout.worked.fluids.friction_law import friction_law
from liftout.worked.fluids.proved_drop import proved_drop
from liftout.worksheet import Worksheet

methods, roughnesses = table("methods"), table("roughnesses")


@worked
def air_flow(case: AirCase, facts: Facts) -> Worksheet:
    sheet, path = Worksheet(), case.path
    _air(sheet, case)
    for n, duct in enumerate(path.ducts, 1):
        sheet.given(f"d_{n}", duct.bore, f"bore, {duct.name}")
        sheet.given(f"L_{n}", duct.length, f"length, {duct.name}")
        sheet.given(f"K_{n}", duct.loss_coefficient, f"loss coefficients of entry, bends and exit, {duct.name}")
        sheet.given(f"e_{n}", sheet.row(roughnesses, duct.inside).roughness, f"roughness, {duct.name}")
    for n, loss in enumerate(path.losses, 1):
        sheet.given(f"p_d{n}", loss.pressure_drop, f"declared drop, {loss.name}")
        sheet.given(f"Q_d{n}", loss.flow, f"at the flow, {loss.name}")
        sheet.given(f"rho_d{n}", loss.density, f"and the density of air, {loss.name}")
    sheet.given("rho_f", path.fan_density, "density of the air of the fan curve")
    sheet.needs(*([] if path.fan_curve else [path.place.missing("fan")]), *([] if path.ducts else [path.place.missing("ducts")]))
    sheet.needs(*(value for point in path.fan_curve for value in point))
    _ram(sheet, case)
    _found(sheet, case)
    return sheet


def _air(sheet: Worksheet, case: AirCase) -> None:
    """Outside air, and the air at the inlet: on the ground warmer by what comes round again."""
    place, standard, more, weight = (
        case.path.place,
        methods.row("standard atmosphere"),
        methods.row("viscosity and sound in air"),
        methods.row("standard gravity"),
    )
    for name in ("T_0", "p_0", "R", "L"):
        sheet.given(f"{name}_s" if name in "RL" else name, standard.cells[name], standard.cells[name].meaning)
    sheet.given("g", weight.g, weight.g.meaning)
    for name in ("mu_0", "S"):
        sheet.given(name, more.cells[name], more.cells[name].meaning)
    if case.case == GROUND:
        sheet.given("T_g", place.quantity("hottest_ground"), "hottest outside air on the ground")
        sheet.given("dT_r", place.quantity("recirculation"), "by how much the inlet is warmer")
        sheet.work("p_a", "p_0", "pressure of the air, at sea level", "kPa", by=standard)
        sheet.work("T_i", "T_g + dT_r", "air at the inlet", "°C")
    else:
        sheet.given("H", place.quantity("highest"), "highest pressure altitude with the equipment on")
        sheet.given("dT_w", place.quantity("warmer_aloft"), "how much warmer than standard")
        top = standard.H_top
        if sheet.si("H") > top.si_float:
            sheet.needs(Missing(f"a pressure altitude below {top.quantity}, where this standard atmosphere ends", place.missing("highest").where))
        sheet.work("p_a", "p_0 * exp(g / (R_s * L_s) * ln((T_0 - L_s * H) / T_0))", "pressure of the air", "kPa", by=standard)
        sheet.work("T_i", "T_0 - L_s * H + dT_w", "air at the inlet", "°C", by=standard)
    sheet.work("rho", "p_a / (R_s * T_i)", "density of the air", "kg/m^3", by=standard)
    sheet.work("mu", "mu_0 * T_i / T_0 * sqrt(T_i / T_0) * (T_0 + S) / (T_i + S)", "viscosity of the air", "mPa·s", by=more)


def _ram(sheet: Worksheet, case: AirCase) -> None:
    """What a scoop gives: nothing on the ground, nothing where nobody measured it."""
    scoop = case.path.place.part("scoop")
    if case.case == GROUND or not scoop.there or scoop.declined is not None:
        sheet.work("p_s", "p_a - p_a", "pressure from a scoop, which counts for nothing here", "Pa")
        return
    sheet.given("eta", scoop.quantity("recovery"), "share of the dynamic pressure that the scoop recovers")
    sheet.given("V_a", scoop.quantity("airspeed"), "least true airspeed at which it does")
    sheet.work("q_a", "rho * V_a**2 / 2", "dynamic pressure", "Pa")
    sheet.work("p_s", "eta * q_a", "pressure from the scoop", "Pa")


def _found(sheet: Worksheet, case: AirCase) -> None:
    path, law = case.path, friction_law()
    points = [(flow, rise) for flow, rise in path.fan_curve if isinstance(flow, Fact) and isinstance(rise, Fact)]
    thin = sheet.si("rho") / sheet.si("rho_f")
    curve = Curve(tuple((flow.value.si_float, rise.value.si_float * thin + sheet.si("p_s")) for flow, rise in points))
    air = Liquid(sheet.si("rho"), sheet.si("mu"))
    ducts = [Segment(duct.name, *(sheet.si(f"{name}_{n}") for name in "LdeK")) for n, duct in enumerate(path.ducts, 1)]
    devices = range(1, len(path.losses) + 1)

    def path_pa(flow: float) -> float:
        taken = math.fsum(segment_drop(duct, flow, air, law).total_pa for duct in ducts)
        return taken + sum(sheet.si(f"p_d{n}") * (flow / sheet.si(f"Q_d{n}")) ** 2 * air.density_kg_m3 / sheet.si(f"rho_d{n}") for n in devices)

    try:
        flow = operating_point(curve, path_pa, curve.last_m3_s).flow_m3_s
    except NoOperatingPoint as none:
        said = {"pump too weak": "the path takes more than fan and scoop give at its first point"}
        what = said.get(none.because, "fan and scoop give more than the path takes at its last point")
        sheet.needs(Missing(f"more points of the fan curve: {what}", path.place.job.place(path.place.part("fan").path)))
        raise
    sheet.found("Q", flow, "flow at which fan and path agree", "L/s")
    regimes, colebrook = methods.row("friction regimes"), methods.row("Colebrook")
    for n, duct in enumerate(ducts, 1):
        proved_drop(sheet, n, segment_drop(duct, flow, air, law), regimes, colebrook, "Pa")
    for n in devices:
        sheet.work(f"dp_d{n}", f"p_d{n} * (Q / Q_d{n})**2 * rho / rho_d{n}", f"drop, {path.losses[n - 1].name}", "Pa")
    parts = [f"dp_{n}" for n in range(1, len(ducts) + 1)] + [f"dp_d{n}" for n in devices]
    sheet.work("dp", " + ".join(parts), "pressure that the path takes", "Pa")
    given = curve_pressure(sheet, "f", path.fan_curve, flow, "fan")
    sheet.work("p_fan", f"({given}) * rho / rho_f", "pressure that the fan gives in this air", "Pa")
    sheet.work("r", "p_fan + p_s - dp", "what is left over, which proves the flow", "Pa", places=2)
