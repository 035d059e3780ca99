"""Wires at work."""

import math

import pytest
from hypothesis import given

from liftout.physics.conductors import (
    NoSteadyCurrent,
    OutsideCurve,
    altitude_factor,
    ampacity_a,
    bundle_factor,
    conductor_temperature_k,
    constant_power_run,
    heat_balance_k,
    resistance_ohm,
    rise_k,
)
from tests.strategies import numbers


@given(numbers(1e-5, 10.0), numbers(200.0, 480.0), numbers(200.0, 480.0))
def test_the_two_published_forms_of_hot_copper_are_one_line(resistance: float, cold: float, hot: float) -> None:
    """R (1 + alpha dT) with alpha 1/254.5, and 254.5/(234.5 + T): AC 43.13-1B par. 11-66d(4)."""
    by_length = resistance * (234.5 + hot - 273.15) / 254.5
    assert resistance_ohm(resistance, 293.15, 1 / 254.5, hot) == pytest.approx(by_length, rel=1e-12)
    assert (resistance_ohm(resistance, 293.15, 0.00393, hot) >= resistance_ohm(resistance, 293.15, 0.00393, cold)) == (hot >= cold)


@given(numbers(250.0, 340.0), numbers(10.0, 180.0), numbers(0.1, 100.0), numbers(0.0, 1.0))
def test_the_estimate_runs_from_ambient_to_the_rating(ambient: float, span: float, largest: float, share: float) -> None:
    found = conductor_temperature_k(ambient, ambient + span, share * largest, largest)
    assert ambient <= found <= ambient + span + 1e-9
    assert found >= ambient + share * span - 1e-9, "the root is never below the straight line"


@given(numbers(1.0, 100.0), numbers(1.0, 60.0), numbers(0.4, 0.5), numbers(1.0, 200.0), numbers(0.3, 1.0), numbers(0.7, 1.0))
def test_ampacity_and_rise_undo_each_other(current: float, at: float, exponent: float, rise: float, bundle: float, altitude: float) -> None:
    derated = ampacity_a(current, at, exponent, rise, [bundle, altitude])
    assert rise_k(current, at, exponent, derated, [altitude, bundle]) == pytest.approx(rise)
    assert derated == pytest.approx(ampacity_a(current, at, exponent, rise, []) * bundle * altitude)
    assert ampacity_a(current, at, exponent, rise * 1.1, []) > ampacity_a(current, at, exponent, rise, [])


@given(numbers(0.3, 0.95), numbers(2.0, 40.0), numbers(0.0, 1.0))
def test_the_bundle_factor_falls_from_one_to_the_quoted_point(factor: float, wires: float, share: float) -> None:
    some = 1 + share * (wires - 1)
    assert bundle_factor(factor, wires, 1.0) == 1.0
    assert bundle_factor(factor, wires, wires) == pytest.approx(factor)
    assert factor - 1e-12 <= bundle_factor(factor, wires, some) <= 1.0


def test_more_wires_than_quoted_are_refused() -> None:
    with pytest.raises(OutsideCurve, match="1 to 12 wires"):
        bundle_factor(0.43, 12, 13)


@given(numbers(0.0, 18288.0))
def test_the_altitude_factor_falls_between_its_points(altitude: float) -> None:
    points = ((0.0, 1.0), (6096.0, 0.91), (18288.0, 0.79))
    assert 0.79 <= altitude_factor(points, altitude) <= 1.0
    with pytest.raises(OutsideCurve):
        altitude_factor(points, 18288.0 + 1.0 + altitude)


@given(numbers(5.0, 600.0), numbers(11.0, 29.0), numbers(0.001, 0.1), numbers(0.0, 0.02), numbers(250.0, 340.0))
def test_a_load_of_constant_power_gets_its_power(power: float, volts: float, wire: float, other: float, ambient: float) -> None:
    largest = 2.5 * power / volts
    try:
        found = constant_power_run(power, volts, wire, other, 293.15, 0.00393, ambient, 423.15, largest)
    except NoSteadyCurrent:
        hottest = resistance_ohm(wire, 293.15, 0.00393, 423.15 + 120.0) + other
        assert power > volts**2 / (4 * hottest) * 0.99, "refused only near or beyond the most that the run can pass on"
        return
    assert found.residual_w == pytest.approx(0.0, abs=1e-8 * power)
    assert found.drop_v == pytest.approx(found.current_a * found.resistance_ohm)
    assert found.current_a >= power / volts
    assert found.drop_v <= volts / 2 * 1.05, "the smaller of the two steady currents"


@given(numbers(100.0, 300.0))
def test_a_thinner_wire_draws_more_current(power: float) -> None:
    thick, thin = (constant_power_run(power, 28.0, wire, 0.003, 293.15, 0.00393, 313.15, 423.15, 30.0) for wire in (0.01, 0.05))
    assert thin.current_a > thick.current_a
    assert thin.conductor_k > thick.conductor_k


def test_a_power_that_the_run_cannot_pass_on_is_refused() -> None:
    with pytest.raises(NoSteadyCurrent, match="no steady current"):
        constant_power_run(1000.0, 14.0, 0.1, 0.0, 293.15, 0.00393, 293.15, 423.15, 100.0)


def test_ampacity_agrees_with_the_readings_quoted_in_the_circular() -> None:
    """No. 14 at 150 K: 47 A; No. 12 at 175 and 140 K: 68 and 61 A (AC 43.13-1B pp. 11-27, 11-29); curves digitised, 3 per cent."""
    readings = [(4.1947, 0.4819, 150.0, 47.0), (5.8107, 0.4727, 175.0, 68.0), (5.8107, 0.4727, 140.0, 61.0)]
    for current, exponent, rise, read in readings:
        assert math.isclose(ampacity_a(current, 1.0, exponent, rise, []), read, rel_tol=0.03)


def test_without_current_a_wire_stays_as_warm_as_the_air_and_a_little_warms_it_a_little() -> None:
    """Heat made over heat given off: (I / Imax)^2 R(T) / R(TR) = (rise / span)^n; at n = 1 and without a coefficient the rise is span (I / Imax)^2."""
    assert heat_balance_k(323.15, 423.15, 0.0, 10.0, 293.15, 0.00393, 1.25) == pytest.approx(323.15, abs=1e-9)
    assert heat_balance_k(323.15, 423.15, 0.5, 10.0, 293.15, 0.0, 1.0) == pytest.approx(323.15 + 0.25, abs=1e-9)
    assert heat_balance_k(323.15, 423.15, 20.0, 10.0, 293.15, 0.0, 1.0) == pytest.approx(323.15 + 400.0, abs=1e-9)


def test_a_drop_of_all_the_voltage_leaves_nothing_to_a_load() -> None:
    """1000 W on 10 V are 100 A, which 0.1 ohm takes whole."""
    with pytest.raises(NoSteadyCurrent):
        constant_power_run(1000.0, 10.0, 0.0, 0.1, 293.15, 0.00393, 293.15, 423.15, 100.0)
