"""Coolant flow where the pump meets its loop.

Requires: from the coldest start, at work and at its hottest the loop carries at least the flow that the equipment needs.
Because: too little flow lets the compressor overheat and cut out; cold coolant is many times thicker than warm.
Method: flow at which pump and loop agree, by the larger factor between laminar and turbulent, where on the way to the hottest it is least.
Leaves out: fittings and devices in slow flow, which take more than their figures; whether each device is told; air in the loop, kinks, ageing, and
    liquid that boils.
"""

from collections.abc import Iterable

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.lines import Fitting, Loop, LoopCase, Segment
from liftout.findings import Finding
from liftout.physics.pipe_flow import NoOperatingPoint
from liftout.tables import table
from liftout.worked.fluids.coolant_state import coolant_state
from liftout.worked.fluids.curve_pressure import curve_pressure
from liftout.worked.fluids.loop_circuit import loop_circuit
from liftout.worked.fluids.proved_drop import proved_drop
from liftout.worked.fluids.slowest_case import slowest_case
from liftout.worksheet import Absent, Worksheet

methods, roughnesses, fitting_losses = table("methods"), table("roughnesses"), table("fitting_losses")

SLOW = "measure the flow with the liquid at the temperature of the case {}. In laminar flow fittings and devices may take more than their declared losses"
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
    sheet.needs(
        *([] if loop.pump_curve else [loop.place.missing("pump")]),
        *([] if loop.segments else [loop.place.missing("segments")]),
        *([_undeclared(loop, needing)] if len(loop.devices) < len(needing) else []),
    )
    sheet.needs(*(value for point in loop.pump_curve for value in point), *coolant_state(case, facts).missing)
    for n, (part, formula) in enumerate(zip(loop.segments, losses, strict=True), 1):
        sheet.work(f"K_{n}", formula, f"loss coefficients of bends and fittings, {part.name}")
    circuit = loop_circuit(sheet, loop)
    try:
        slowest = slowest_case(sheet, circuit, case, facts)
    except NoOperatingPoint as none:
        if none.because == "pump too weak":
            return sheet.refused(str(none))
        sheet.needs(Missing(f"more points of the pump curve: {none}", loop.pump.job.place(loop.pump.path)))
        raise
    at, flow = slowest.case, slowest.flow_m3_s
    state = coolant_state(at, facts)
    sheet.given("rho", state.value("rho"), f"density of the liquid, {at.case}")
    sheet.given("mu", state.value("mu"), f"viscosity of the liquid, {at.case}")
    sheet.found("Q", flow, "flow at which pump and loop agree", "L/min")
    for n, drop in enumerate(slowest.drops, 1):
        proved_drop(sheet, n, drop, regimes, colebrook)
    for n, device in enumerate(loop.devices, 1):
        sheet.work(f"dp_d{n}", f"N_{n} * p_{n} * (Q / Q_{n})**2", f"drop, {device.name}", "kPa")
    parts = [f"dp_{n}" for n in range(1, len(loop.segments) + 1)] + [f"dp_d{n}" for n in range(1, len(loop.devices) + 1)]
    sheet.work("dp", " + ".join(parts), "pressure that the loop takes", "kPa")
    sheet.work("p_pump", curve_pressure(sheet, "p", loop.pump_curve, flow, "pump"), "pressure that the pump gives", "kPa")
    sheet.work("Q_min", f"max({', '.join(f'Q_m{n}' for n in range(1, len(needing) + 1))})", "least flow that the equipment needs", "L/min")
    sheet.work("r", "p_pump - dp", "what is left over, which proves the flow", "kPa", places=2)
    return sheet.at_least("Q", "Q_min", case={"liquid": at.case}, caution=SLOW.format(case.case) if slowest.laminar else None)


def _undeclared(loop: Loop, items: Iterable[str]) -> Missing:
    """Drops to ask for where fewer devices are told than items: what nobody declares would count for nothing."""
    unsaid = loop.place.missing("devices")
    what = f"ask the maker of each of these for a point of flow and pressure drop, and write each among the devices: {', '.join(items)}"
    return Missing(what, unsaid.where, unsaid.path)


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
