"""What physics finds by a search, found again on another way: by direct iteration, by scipy, by summing up small pieces."""

from __future__ import annotations

import itertools
import math

import fluids
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad_vec
from scipy.optimize import brentq

from liftout.physics.conductors import NoSteadyCurrent, constant_power_run, heat_balance_k
from liftout.physics.pipe_flow import Curve, Liquid, Segment, operating_point, segment_drop
from liftout.physics.route_field import nearest_m, route_a_per_m
from tests.strategies import LAW, liquids, numbers, pumps, segments

REFERENCE_K, COEFFICIENT = 293.15, 0.00393


@given(numbers(233.15, 383.15), numbers(20.0, 200.0), numbers(1.0, 200.0), numbers(0.01, 1.5), numbers(1.05, 3.0))
def test_a_wire_in_balance_is_that_of_direct_iteration(ambient_k: float, span_k: float, most_a: float, share: float, exponent: float) -> None:
    """The rise follows from the resistance at the temperature before; each step is a part of the one before it, so it comes to rest."""
    current = share * most_a
    at_rating = 1 + COEFFICIENT * (ambient_k + span_k - REFERENCE_K)
    rise = span_k
    for _ in range(2000):
        at_work = 1 + COEFFICIENT * (ambient_k + rise - REFERENCE_K)
        rise = span_k * (current**2 * at_work / (most_a**2 * at_rating)) ** (1 / exponent)
    assume(rise < 3000)  # with little more heat given off than made, nothing rests before copper is long gone
    found = heat_balance_k(ambient_k, ambient_k + span_k, current, most_a, REFERENCE_K, COEFFICIENT, exponent)
    assert found - ambient_k == pytest.approx(rise, rel=1e-6)


@given(numbers(5.0, 600.0), numbers(11.0, 29.0), numbers(0.001, 0.1), numbers(0.0, 0.02), numbers(250.0, 340.0))
def test_the_steady_current_is_the_first_root_of_the_circuit(power: float, volts: float, wire: float, other: float, ambient: float) -> None:
    """P = I (V - I R(I)), its left-hand root between P / V and the current of the most power, by scipy."""
    largest = 2.5 * power / volts
    try:
        found = constant_power_run(power, volts, wire, other, REFERENCE_K, COEFFICIENT, ambient, 423.15, largest).current_a
    except NoSteadyCurrent:
        assume(False)

    def left(current: float) -> float:
        conductor = ambient + (423.15 - ambient) * math.sqrt(current / largest)
        ohm = wire * (1 + COEFFICIENT * (conductor - REFERENCE_K)) + other
        return power - current * (volts - current * ohm)

    currents = np.linspace(power / volts, volts / (wire + other) + power / volts, 20001)
    first = next((pair for pair in itertools.pairwise(currents) if left(pair[0]) >= 0 >= left(pair[1])), None)
    assume(first is not None)  # both roots between two of the points: the nose of the curve
    assert first is not None
    assert found == pytest.approx(brentq(left, *first, xtol=1e-12), rel=1e-5)


def _loses_pa(part: Segment, flow: float, liquid: Liquid) -> float:
    """Pressure that a segment takes, by the fluids package."""
    if flow <= 0:
        return 0.0
    speed = 4 * flow / (math.pi * part.diameter_m**2)
    number = fluids.Reynolds(V=speed, D=part.diameter_m, rho=liquid.density_kg_m3, mu=liquid.viscosity_pa_s)
    laminar = number < 2300  # the package itself begins turbulent flow at 2040
    factor = fluids.friction.friction_laminar(number) if laminar else fluids.friction.Colebrook(number, part.roughness_m / part.diameter_m)
    return float(fluids.dP_from_K(factor * part.length_m / part.diameter_m + part.loss_coefficient, rho=liquid.density_kg_m3, V=speed))


@settings(max_examples=60)
@given(pumps(), st.lists(segments(), min_size=1, max_size=4), liquids())
def test_a_pump_on_a_circuit_moves_what_scipy_finds_with_the_fluids_package(pump: Curve, line: list[Segment], liquid: Liquid) -> None:
    """Where each segment is laminar or turbulent at that flow; between the two the larger factor counts, which the package does not know."""
    found = operating_point(pump, lambda flow: math.fsum(segment_drop(part, flow, liquid, LAW).total_pa for part in line), math.inf)
    regimes = [4 * found.flow_m3_s * liquid.density_kg_m3 / (math.pi * part.diameter_m * liquid.viscosity_pa_s) for part in line]
    assume(all(not 2250 < number < 4050 for number in regimes))
    flow = brentq(
        lambda flow: pump.pressure_pa(flow) - math.fsum(_loses_pa(part, flow, liquid) for part in line), pump.first_m3_s, pump.last_m3_s, xtol=1e-15
    )
    assert found.flow_m3_s == pytest.approx(flow, rel=1e-5)


@settings(max_examples=60)
@given(segments(), numbers(0.02, 1.5))
def test_a_full_tube_runs_as_fast_as_its_fall_drives_it(tube: Segment, fall_m: float) -> None:
    """Water at 60 °F, 999.0 kg/m³ and 1.12 mPa·s (from memory)."""
    water = Liquid(999.0, 0.00112)
    pressure = water.density_kg_m3 * 9.80665 * fall_m
    most = math.sqrt(2 * 9.80665 * fall_m) * tube.diameter_m**2
    ends = tube._replace(loss_coefficient=tube.loss_coefficient + 1.5)
    found = operating_point(Curve(((0, pressure), (most, pressure))), lambda flow: segment_drop(ends, flow, water, LAW).total_pa, most).flow_m3_s
    number = 4 * found * water.density_kg_m3 / (math.pi * tube.diameter_m * water.viscosity_pa_s)
    assume(not 2250 < number < 4050)
    assert found == pytest.approx(brentq(lambda flow: pressure - _loses_pa(ends, flow, water), 0.0, most, xtol=1e-15), rel=1e-5)


coordinates = st.tuples(numbers(-2.0, 2.0), numbers(-2.0, 2.0), numbers(-2.0, 2.0))


@settings(max_examples=30)
@given(st.lists(coordinates, min_size=2, max_size=5, unique=True), coordinates, numbers(0.1, 100.0))
def test_the_field_of_a_route_is_the_sum_of_its_small_pieces(
    route: list[tuple[float, float, float]], at: tuple[float, float, float], current: float
) -> None:
    """dH = I dl x r / (4 pi r^3), integrated along the route by scipy."""
    assume(nearest_m(route, at) > 0.05)
    total = np.zeros(3)
    for start, end in itertools.pairwise(np.array(route)):

        def piece(share: float, start: np.ndarray = start, along: np.ndarray = end - start) -> np.ndarray:
            to = np.array(at) - (start + share * along)
            return np.cross(along, to) / float(np.linalg.norm(to)) ** 3

        total += current / (4 * math.pi) * quad_vec(piece, 0.0, 1.0, epsabs=1e-9, epsrel=1e-9)[0]
    assert np.allclose(route_a_per_m(current, route, at), total, rtol=1e-5, atol=1e-6 * current)
