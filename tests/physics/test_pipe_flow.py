"""Liquid lines, held against the `fluids` package where it knows the same thing."""

import math

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.pipe_flow import (
    Curve,
    Liquid,
    NoOperatingPoint,
    OutsideCurve,
    Segment,
    colebrook,
    friction,
    operating_point,
    reynolds,
    segment_drop,
    velocity_m_s,
)
from tests.strategies import LAW, liquids, numbers, pumps, segments


@given(numbers(2300.0, 1e7), numbers(0.0, 0.05))
def test_colebrook_agrees_with_the_fluids_package(number: float, roughness: float) -> None:
    factor, residual = colebrook(number, roughness, LAW)
    assert factor == pytest.approx(fluids.friction.Colebrook(number, roughness), rel=1e-10)
    assert abs(residual) < 1e-12


@given(numbers(1.0, 1e6), numbers(0.0, 0.01))
def test_the_larger_factor_counts_and_both_are_shown_between_the_regimes(number: float, roughness: float) -> None:
    found = friction(number, roughness, LAW)
    if number <= 2300:
        assert found.factor == 64 / number
        assert found.regime == "laminar"
    elif number < 4000:
        assert found.regime == "transition"
        assert found.laminar is not None
        assert found.turbulent is not None
        assert found.factor == max(found.laminar, found.turbulent)
        assert found.laminar == 64 / number
        assert (found.turbulent, found.residual) == colebrook(number, roughness, LAW)
    else:
        assert found.regime == "turbulent"
        assert found.factor == found.turbulent


@given(segments(), numbers(1e-6, 5e-4), liquids())
def test_a_segment_loses_what_the_fluids_package_says(segment: Segment, flow: float, liquid: Liquid) -> None:
    found = segment_drop(segment, flow, liquid, LAW)
    assert found.friction is not None
    loss = fluids.K_from_f(fd=found.friction.factor, L=segment.length_m, D=segment.diameter_m) + segment.loss_coefficient
    speed = flow / (math.pi * segment.diameter_m**2 / 4)
    assert found.total_pa == pytest.approx(fluids.dP_from_K(loss, rho=liquid.density_kg_m3, V=speed))
    assert found.reynolds == pytest.approx(fluids.Reynolds(D=segment.diameter_m, rho=liquid.density_kg_m3, V=speed, mu=liquid.viscosity_pa_s))


@given(segments(), numbers(0.0, 5e-4), numbers(0.0, 1e-4), liquids())
def test_more_flow_never_loses_less(segment: Segment, flow: float, more: float, liquid: Liquid) -> None:
    less = segment_drop(segment, flow, liquid, LAW).total_pa
    assert segment_drop(segment, flow + more, liquid, LAW).total_pa >= less * (1 - 1e-12)


@given(segments(), liquids())
def test_laminar_loss_is_proportional_to_viscosity_and_flow(segment: Segment, liquid: Liquid) -> None:
    flow = 400.0 * liquid.viscosity_pa_s * segment.diameter_m * math.pi / 4 / liquid.density_kg_m3
    one = segment_drop(segment, flow, liquid, LAW).friction_pa
    assert segment_drop(segment, 2 * flow, liquid, LAW).friction_pa == pytest.approx(2 * one)
    thick = Liquid(liquid.density_kg_m3, 3 * liquid.viscosity_pa_s)
    assert segment_drop(segment, flow, thick, LAW).friction_pa == pytest.approx(3 * one)


def test_nothing_is_lost_where_nothing_flows() -> None:
    assert segment_drop(Segment("line", 1.0, 0.01, 0.0, 5.0), 0.0, Liquid(1000.0, 0.001), LAW).total_pa == 0


@given(numbers(1e-7, 1e-3), numbers(0.003, 0.05))
def test_velocity_times_area_is_flow(flow: float, diameter: float) -> None:
    assert velocity_m_s(flow, diameter) * math.pi * diameter**2 / 4 == pytest.approx(flow)


@given(pumps(), st.lists(segments(), min_size=1, max_size=4), liquids())
def test_pump_and_circuit_meet_where_their_pressures_are_equal(pump: Curve, line: list[Segment], liquid: Liquid) -> None:
    def circuit_pa(flow: float) -> float:
        return math.fsum(segment_drop(segment, flow, liquid, LAW).total_pa for segment in line)

    found = operating_point(pump, circuit_pa, math.inf)
    assert pump.first_m3_s <= found.flow_m3_s <= pump.last_m3_s
    assert found.residual_pa >= 0
    if found.residual_pa > 1e-6 * pump.points[0][1]:  # only where flow in some segment turns turbulent
        just_more = math.nextafter(found.flow_m3_s, math.inf)
        assert pump.pressure_pa(just_more) < circuit_pa(just_more)
        numbers_at = [
            reynolds(liquid.density_kg_m3, velocity_m_s(found.flow_m3_s, part.diameter_m), part.diameter_m, liquid.viscosity_pa_s) for part in line
        ]
        assert any(number == pytest.approx(LAW.laminar_below, rel=1e-9) for number in numbers_at)


@given(pumps(), numbers(1e11, 1e13), numbers(1.05, 3.0))
def test_a_tighter_circuit_passes_less(pump: Curve, resistance: float, tighter: float) -> None:
    free = operating_point(pump, lambda flow: resistance * flow**2, math.inf)
    tight = operating_point(pump, lambda flow: tighter * resistance * flow**2, math.inf)
    assert tight.flow_m3_s < free.flow_m3_s


def test_curves_that_do_not_meet_say_so() -> None:
    pump = Curve(((1e-5, 20e3), (1e-4, 15e3)))
    with pytest.raises(NoOperatingPoint) as weak:
        operating_point(pump, lambda flow: 3e4 + flow, math.inf)
    assert weak.value.because == "pump too weak"
    with pytest.raises(NoOperatingPoint) as strong:
        operating_point(pump, lambda flow: 1e3 + flow, math.inf)
    assert strong.value.because == "curve ends"
    assert strong.value.flow_m3_s == 1e-4
    with pytest.raises(NoOperatingPoint) as unknown:
        operating_point(pump, lambda flow: 2e12 * flow**2, 5e-5)
    assert unknown.value.flow_m3_s == 5e-5


def test_a_pump_whose_pressure_rises_with_flow_is_refused() -> None:
    with pytest.raises(ValueError, match="from the peak on"):
        operating_point(Curve(((0.0, 10e3), (1e-4, 12e3), (2e-4, 0.0))), lambda flow: 1e12 * flow**2, math.inf)


def test_nothing_is_read_outside_a_measured_curve() -> None:
    exchanger = Curve(((0.0, 0.0), (1e-4, 8e3)))
    assert exchanger.pressure_pa(1e-4) == 8e3
    with pytest.raises(OutsideCurve, match="measured from"):
        exchanger.pressure_pa(1.01e-4)


@pytest.mark.parametrize("points", [(), ((1e-5, 2e4),), ((1e-5, 2e4), (1e-5, 1e4)), ((0.0, 3e4), (2e-5, 2e4), (1e-5, 1e4))])
def test_a_curve_has_two_points_or_more_whose_flows_rise(points: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ValueError, match="two points or more"):
        Curve(points)


def test_a_pump_of_the_same_pressure_at_two_flows_is_not_refused_and_may_meet_at_an_end() -> None:
    """Where circuit and pump agree at the least or the largest flow of the curve, that is the flow."""
    flat = Curve(((1e-5, 10e3), (1e-4, 10e3)))
    assert operating_point(flat, lambda flow: 10e3 * flow / 1e-4, math.inf).flow_m3_s == 1e-4
    assert operating_point(flat, lambda flow: 10e3 if flow <= 1e-5 else 11e3, math.inf).flow_m3_s == pytest.approx(1e-5)


@given(numbers(2301.0, 3999.0), numbers(0.0, 0.01))
def test_between_the_regimes_each_factor_is_called_what_it_is(number: float, roughness: float) -> None:
    found = friction(number, roughness, LAW)
    turbulent, residual = colebrook(number, roughness, LAW)
    assert found == (max(64 / number, turbulent), "transition", 64 / number, turbulent, residual)
