"""Coolant flow where the pump meets its loop.

Requires: at the coldest start, at work and at its hottest the loop carries at least the flow that the equipment needs.
Because: too little flow lets the compressor overheat and cut out; cold coolant is many times thicker than warm.
Method: the flow is searched at which pump and loop agree; the sheet proves it line by line, laminar or turbulent, the larger of both between.
Leaves out: air in the loop, kinks, and ageing of hose and pump.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import LoopCase
from liftout.findings import Finding
from liftout.physics.pipe_flow import Curve, Liquid, NoOperatingPoint, Segment, operating_point, segment_drop
from liftout.tables import table
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.friction_law import friction_law
from liftout.worked.fluids.proved_drop import proved_drop
from liftout.worksheet import Worksheet

methods, roughnesses = table("methods"), table("roughnesses")


@criterion(each="loop_cases", tables=(methods, roughnesses))
def coolant_flow(case: LoopCase, facts: Facts) -> Finding:
    sheet, loop = Worksheet(), case.loop
    regimes, colebrook = methods.row("friction regimes"), methods.row("Colebrook")
    state = coolant_state(case, facts)
    sheet.given("rho", state.value("rho"), f"density of the liquid, {case.case}")
    sheet.given("mu", state.value("mu"), f"viscosity of the liquid, {case.case}")
    needing = {item.name: item for item in (*([loop.serves] if loop.serves else []), *loop.items)}
    if not loop.serves:
        sheet.needs(loop.place.missing("serves"))
    for n, item in enumerate(needing.values(), 1):
        sheet.given(f"Q_m{n}", item.minimum_flow, f"least flow that the {item.name} needs")
    for n, part in enumerate(loop.segments, 1):
        sheet.given(f"d_{n}", part.inside_diameter, f"bore, {part.name}")
        sheet.given(f"L_{n}", part.length, f"length, {part.name}")
        sheet.given(f"K_{n}", part.loss_coefficient, f"loss coefficients of bends and fittings, {part.name}")
        sheet.given(f"e_{n}", sheet.row(roughnesses, part.inside).roughness, f"roughness, {part.name}")
    for n, device in enumerate(loop.devices, 1):
        sheet.given(f"N_{n}", device.number, f"number of {device.name}")
        sheet.given(f"p_{n}", device.pressure_drop, f"declared drop of one, {device.name}")
        sheet.given(f"Q_{n}", device.flow, f"at the flow, {device.name}")
    sheet.needs(*([] if loop.pump_curve else [loop.place.missing("pump")]), *([] if loop.segments else [loop.place.missing("segments")]))
    sheet.needs(*(value for point in loop.pump_curve for value in point if isinstance(value, Missing)))
    curve = Curve(
        tuple((flow.value.si_float, rise.value.si_float) for flow, rise in loop.pump_curve if isinstance(flow, Fact) and isinstance(rise, Fact))
    )
    law = friction_law()
    liquid = Liquid(sheet.si("rho"), sheet.si("mu"))
    segments = [Segment(part.name, *(sheet.si(f"{name}_{n}") for name in "LdeK")) for n, part in enumerate(loop.segments, 1)]

    def circuit_pa(flow: float) -> float:
        lines = sum(segment_drop(segment, flow, liquid, law).total_pa for segment in segments)
        return lines + sum(sheet.si(f"N_{n}") * sheet.si(f"p_{n}") * (flow / sheet.si(f"Q_{n}")) ** 2 for n in range(1, len(loop.devices) + 1))

    try:
        found = operating_point(curve, circuit_pa, curve.last_m3_s)
    except NoOperatingPoint as none:
        if none.because == "pump too weak":
            return sheet.refused(str(none))
        sheet.needs(Missing(f"more points of the pump curve: {none}", loop.pump.job.place(loop.pump.path)))
        raise
    sheet.found("Q", found.flow_m3_s, "flow at which pump and loop agree", "L/min")
    for n, segment in enumerate(segments, 1):
        proved_drop(sheet, n, segment_drop(segment, found.flow_m3_s, liquid, law), regimes, colebrook)
    for n, device in enumerate(loop.devices, 1):
        sheet.work(f"dp_d{n}", f"N_{n} * p_{n} * (Q / Q_{n})**2", f"drop, {device.name}", "kPa")
    parts = [f"dp_{n}" for n in range(1, len(segments) + 1)] + [f"dp_d{n}" for n in range(1, len(loop.devices) + 1)]
    sheet.work("dp", " + ".join(parts), "pressure that the loop takes", "kPa")
    _prove_pump(sheet, case, found.flow_m3_s)
    sheet.work("Q_min", f"max({', '.join(f'Q_m{n}' for n in range(1, len(needing) + 1))})", "least flow that the equipment needs", "L/min")
    sheet.work("r", "p_pump - dp", "what is left over, which proves the flow", "kPa", places=2)
    return sheet.at_least("Q", "Q_min", case={"liquid": case.case})


def _prove_pump(sheet: Worksheet, case: LoopCase, flow_m3_s: float) -> None:
    points = [(flow, rise) for flow, rise in case.loop.pump_curve if isinstance(flow, Fact) and isinstance(rise, Fact)]
    upper = next(index for index, (flow, _) in enumerate(points) if flow.value.si_float >= flow_m3_s and index > 0)
    for mark, (flow, rise) in (("a", points[upper - 1]), ("b", points[upper])):
        sheet.given(f"Q_p{mark}", flow, "flow, point of the pump curve")
        sheet.given(f"p_p{mark}", rise, "pressure rise at that point")
    sheet.work("p_pump", "p_pa + (p_pb - p_pa) * (Q - Q_pa) / (Q_pb - Q_pa)", "pressure that the pump gives", "kPa")
