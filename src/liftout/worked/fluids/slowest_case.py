"""The case of a loop that carries least: at its own temperature, or warmer on its way to the hottest."""

from decimal import Decimal
from typing import NamedTuple

from liftout.facts import Fact, Facts
from liftout.facts.lines import LoopCase
from liftout.physics.pipe_flow import Liquid, SegmentDrop
from liftout.physics.warming_flow import least_flow
from liftout.quantities import Quantity, half_up, unit
from liftout.worked.fluids.coolant_state import coolant_state, warming
from liftout.worked.fluids.friction_law import friction_law
from liftout.worked.fluids.loop_circuit import Circuit
from liftout.worksheet import DIGITS_CARRIED, Worksheet


class Slowest(NamedTuple):
    """A case, its flow, what its lines take there, and whether the loop runs laminar in one of them there or when colder."""

    case: LoopCase
    flow_m3_s: float
    drops: list[SegmentDrop]
    laminar: bool


def slowest_case(sheet: Worksheet, circuit: Circuit, case: LoopCase, facts: Facts) -> Slowest:
    """The case itself, or the loop warmer, where it has just ceased to run laminar in a line and carries less.

    Args:
        sheet: asks for what is missing.
        circuit: the loop.
        case: the loop at a temperature at which its coolant is known.
        facts: the facts of the job.

    Raises:
        NoOperatingPoint: when pump and loop do not agree where both are known.
    """
    own = _at(circuit, case, facts)
    if not own.laminar:
        return own
    loop, cold, hottest = case.loop, case.temperature, case.loop.hottest
    sheet.needs(cold, hottest, *coolant_state(LoopCase(loop, "hottest", hottest), facts).missing)
    assert isinstance(cold, Fact)
    assert isinstance(hottest, Fact)
    if hottest.value.si <= cold.value.si:
        return own
    way = warming(loop, cold.value.si_float, hottest.value.si_float)
    found = least_flow(circuit.pump, circuit.lines, circuit.devices_pa, way, friction_law())
    if found.temperature_k == cold.value.si_float:
        return own
    celsius = unit("°C")
    at = Quantity(half_up(celsius.from_si(Decimal(repr(found.temperature_k))), DIGITS_CARRIED), celsius)
    origin = f"found by search between {cold.origin} and {hottest.origin}: laminar flow ends there"
    warmer = LoopCase(loop, f"{case.case}, on its way to the hottest", Fact(at, origin, cold.evidence, cold.path))
    return _at(circuit, warmer, facts)._replace(laminar=True)


def _at(circuit: Circuit, case: LoopCase, facts: Facts) -> Slowest:
    state = coolant_state(case, facts).sheet
    assert state is not None
    liquid = Liquid(state.si("rho"), state.si("mu"))
    flow = circuit.flow_m3_s(liquid)
    drops = circuit.drops(flow, liquid)
    return Slowest(case, flow, drops, any(drop.friction is not None and drop.friction.regime == "laminar" for drop in drops))
