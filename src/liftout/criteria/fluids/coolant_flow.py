"""Coolant flow where the pump meets its loop.

Requires: from the coldest start, at work and at its hottest the loop carries at least the flow that the equipment needs.
Because: too little flow lets the compressor overheat and cut out; cold coolant is many times thicker than warm.
Method: flow at which pump and loop agree, by the larger factor between laminar and turbulent, where on the way to the hottest it is least.
Leaves out: fittings and devices in slow flow, which take more than their figures for turbulent flow; air in the loop, kinks, ageing.
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import Fitting, LoopCase, Segment
from liftout.findings import Finding
from liftout.physics import pipe_flow
from liftout.physics.pipe_flow import Curve, Liquid, NoOperatingPoint, SegmentDrop, operating_point, segment_drop
from liftout.physics.warming_flow import least_flow
from liftout.quantities import Quantity, half_up, unit
from liftout.tables import table
from liftout.worked.fluids.coolant_state import coolant_state, warming
from liftout.worked.fluids.curve_pressure import curve_pressure
from liftout.worked.fluids.friction_law import friction_law
from liftout.worked.fluids.proved_drop import proved_drop
from liftout.worksheet import DIGITS_CARRIED, Absent, Worksheet

methods, roughnesses, fitting_losses = table("methods"), table("roughnesses"), table("fitting_losses")

SLOW = "in laminar flow fittings and devices may take more than their declared losses. Measure the flow with the liquid this cold"
"""Said where a line runs laminar: a declared loss was mostly measured in turbulent flow."""


@criterion(each="loop_cases", tables=(methods, roughnesses, fitting_losses))
def coolant_flow(case: LoopCase, facts: Facts) -> Finding:
    sheet, loop = Worksheet(), case.loop
    regimes, colebrook = methods.row("friction regimes"), methods.row("Colebrook")
    needing = {item.name: item for item in (*([loop.serves] if loop.serves else []), *loop.items)}
    if not loop.serves:
        sheet.needs(loop.place.missing("serves"))
    for n, item in enumerate(needing.values(), 1):
        sheet.given(f"Q_m{n}", item.minimum_flow, f"least flow that the {item.name} needs")
    losses = [_given(sheet, n, part) for n, part in enumerate(loop.segments, 1)]
    for n, device in enumerate(loop.devices, 1):
        sheet.given(f"N_{n}", device.number, f"number of {device.name}")
        sheet.given(f"p_{n}", device.pressure_drop, f"declared drop of one, {device.name}")
        sheet.given(f"Q_{n}", device.flow, f"at the flow, {device.name}")
    sheet.needs(*([] if loop.pump_curve else [loop.place.missing("pump")]), *([] if loop.segments else [loop.place.missing("segments")]))
    sheet.needs(*(value for point in loop.pump_curve for value in point if isinstance(value, Missing)), *coolant_state(case, facts).missing)
    for n, (part, formula) in enumerate(zip(loop.segments, losses, strict=True), 1):
        sheet.work(f"K_{n}", formula, f"loss coefficients of bends and fittings, {part.name}")
    try:
        slowest = _slowest(sheet, case, facts)
        flow = _met(sheet, slowest, facts)
    except NoOperatingPoint as none:
        if none.because == "pump too weak":
            return sheet.refused(str(none))
        sheet.needs(Missing(f"more points of the pump curve: {none}", loop.pump.job.place(loop.pump.path)))
        raise
    state = coolant_state(slowest, facts)
    sheet.given("rho", state.value("rho"), f"density of the liquid, {slowest.case}")
    sheet.given("mu", state.value("mu"), f"viscosity of the liquid, {slowest.case}")
    sheet.found("Q", flow, "flow at which pump and loop agree", "L/min")
    drops = [segment_drop(segment, flow, _liquid(slowest, facts), friction_law()) for segment in _segments(sheet, loop.segments)]
    for n, drop in enumerate(drops, 1):
        proved_drop(sheet, n, drop, regimes, colebrook)
    for n, device in enumerate(loop.devices, 1):
        sheet.work(f"dp_d{n}", f"N_{n} * p_{n} * (Q / Q_{n})**2", f"drop, {device.name}", "kPa")
    parts = [f"dp_{n}" for n in range(1, len(loop.segments) + 1)] + [f"dp_d{n}" for n in range(1, len(loop.devices) + 1)]
    sheet.work("dp", " + ".join(parts), "pressure that the loop takes", "kPa")
    sheet.work("p_pump", curve_pressure(sheet, "p", loop.pump_curve, flow, "pump"), "pressure that the pump gives", "kPa")
    sheet.work("Q_min", f"max({', '.join(f'Q_m{n}' for n in range(1, len(needing) + 1))})", "least flow that the equipment needs", "L/min")
    sheet.work("r", "p_pump - dp", "what is left over, which proves the flow", "kPa", places=2)
    slow = slowest is not case or any(_laminar(drop) for drop in drops)
    return sheet.at_least("Q", "Q_min", case={"liquid": slowest.case}, caution=SLOW if slow else None)


def _given(sheet: Worksheet, n: int, part: Segment) -> str:
    """Put in a line, and return the formula of its loss coefficients."""
    sheet.given(f"d_{n}", part.inside_diameter, f"bore, {part.name}")
    sheet.given(f"L_{n}", part.length, f"length, {part.name}")
    sheet.given(f"e_{n}", sheet.row(roughnesses, part.inside).roughness, f"roughness, {part.name}")
    sheet.given(f"K_{n}b", part.loss_coefficient, f"loss coefficients of bends, {part.name}")
    terms = [f"K_{n}b"]
    for m, fitting in enumerate(part.fittings, 1):
        sheet.given(f"N_{n}f{m}", fitting.number, f"number of {fitting.name}, {part.name}")
        terms.append(f"N_{n}f{m} * {_loss(sheet, n, m, fitting)}")
    if not part.fittings:
        sheet.given(f"K_{n}f", part.place.missing("fittings"), f"fittings, {part.name}")
    return " + ".join(terms)


def _loss(sheet: Worksheet, n: int, m: int, fitting: Fitting) -> str:
    """Put in the loss coefficient of one fitting, as declared or as published, and return its formula."""
    symbol, meaning = f"K_{n}f{m}", f"loss coefficient of one, {fitting.name}"
    if isinstance(fitting.loss_coefficient, Fact) or isinstance(fitting.published, Missing):
        sheet.given(symbol, fitting.loss_coefficient, meaning)
        return symbol
    row = sheet.row(fitting_losses, fitting.published)
    if isinstance(row, Absent) or row.loss.given:
        sheet.given(symbol, row.loss, meaning)
        return symbol
    # Told over the friction factor of fully rough pipe of the same size.
    steel, colebrook = roughnesses.row("commercial steel").roughness, methods.row("Colebrook")
    sheet.given(f"n_{n}f{m}", row.of_rough_friction, f"loss coefficient over the friction factor of fully rough pipe, {fitting.name}")
    for name, cell in (("a", colebrook.a), ("c", colebrook.c), ("e_s", steel)):
        if not sheet.has(name):
            sheet.given(name, cell, cell.meaning)
    return f"n_{n}f{m} / (c * log10(a * d_{n} / e_s))**2"


def _segments(sheet: Worksheet, parts: tuple[Segment, ...]) -> list[pipe_flow.Segment]:
    return [pipe_flow.Segment(part.name, *(sheet.si(f"{name}_{n}") for name in "LdeK")) for n, part in enumerate(parts, 1)]


def _pump(case: LoopCase) -> Curve:
    points = ((flow, rise) for flow, rise in case.loop.pump_curve if isinstance(flow, Fact) and isinstance(rise, Fact))
    return Curve(tuple((flow.value.si_float, rise.value.si_float) for flow, rise in points))


def _liquid(case: LoopCase, facts: Facts) -> Liquid:
    worked = coolant_state(case, facts).sheet
    assert worked is not None
    return Liquid(worked.si("rho"), worked.si("mu"))


def _devices_pa(sheet: Worksheet, case: LoopCase, flow_m3_s: float) -> float:
    numbers = range(1, len(case.loop.devices) + 1)
    return sum(sheet.si(f"N_{n}") * sheet.si(f"p_{n}") * (flow_m3_s / sheet.si(f"Q_{n}")) ** 2 for n in numbers)


def _laminar(drop: SegmentDrop) -> bool:
    return drop.friction is not None and drop.friction.regime == "laminar"


def _met(sheet: Worksheet, case: LoopCase, facts: Facts) -> float:
    """Flow at which pump and loop agree with the liquid of a case."""
    pump, liquid, law, segments = _pump(case), _liquid(case, facts), friction_law(), _segments(sheet, case.loop.segments)

    def circuit_pa(flow: float) -> float:
        return sum(segment_drop(segment, flow, liquid, law).total_pa for segment in segments) + _devices_pa(sheet, case, flow)

    return operating_point(pump, circuit_pa, pump.last_m3_s).flow_m3_s


def _slowest(sheet: Worksheet, case: LoopCase, facts: Facts) -> LoopCase:
    """The case itself, or the loop warmer, where it has ceased to run laminar in a line and carries less."""
    loop, hottest, segments, law = case.loop, case.loop.hottest, _segments(sheet, case.loop.segments), friction_law()
    own, cold = _met(sheet, case, facts), case.temperature
    drops = [segment_drop(segment, own, _liquid(case, facts), law) for segment in segments]
    if not any(_laminar(drop) for drop in drops):
        return case
    sheet.needs(cold, hottest)
    sheet.needs(*coolant_state(LoopCase(loop, "hottest", hottest), facts).missing)
    assert isinstance(hottest, Fact)
    assert isinstance(cold, Fact)
    if hottest.value.si <= cold.value.si:
        return case
    way = warming(loop, cold.value.si_float, hottest.value.si_float)
    found = least_flow(_pump(case), segments, lambda flow: _devices_pa(sheet, case, flow), way, law)
    if found.temperature_k == cold.value.si_float:
        return case
    celsius = unit("°C")
    at = Quantity(half_up(celsius.from_si(Decimal(repr(found.temperature_k))), DIGITS_CARRIED), celsius)
    origin = f"found by search between {cold.origin} and {hottest.origin}: laminar flow ends there"
    return LoopCase(loop, f"{case.case}, on its way to the hottest", Fact(at, origin, cold.evidence, cold.path))
