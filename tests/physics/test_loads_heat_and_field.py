"""Inertia, heat and magnetic field: short formulas, their scaling and their ends."""

import math

import pytest
from hypothesis import given

from liftout.physics.heat import cross_flow_effectiveness, flow_for_heat_m3_s, heat_flow_w
from liftout.physics.loads import inertia_n, manoeuvre_factor, margin, ultimate
from liftout.physics.magnetic_field import deflection_rad, pair_a_per_m, straight_wire_a_per_m
from tests.strategies import GRAVITY_M_S2, numbers


@given(numbers(0.1, 100.0), numbers(0.5, 20.0))
def test_a_margin_is_zero_where_the_load_is_the_strength(mass: float, factor: float) -> None:
    load = ultimate(inertia_n(mass, factor, GRAVITY_M_S2), 1.5, 1.0)
    assert load == pytest.approx(1.5 * factor * mass * GRAVITY_M_S2)
    assert margin(1.15 * load, load, 1.15) == pytest.approx(0.0, abs=1e-12)
    assert margin(2.3 * load, load, 1.15) == pytest.approx(1.0)


@given(numbers(300.0, 25000.0), numbers(1.0, 5000.0))
def test_a_heavier_aeroplane_needs_no_larger_factor(weight: float, more: float) -> None:
    light, heavy = (manoeuvre_factor(each, 2.1, 24000.0, 10000.0, 3.8) for each in (weight, weight + more))
    assert 2.1 < heavy <= light <= 3.8


@given(numbers(500.0, 1200.0), numbers(1e-6, 1e-2), numbers(1000.0, 4200.0), numbers(0.5, 60.0))
def test_flow_and_heat_undo_each_other(density: float, flow: float, heat: float, difference: float) -> None:
    assert flow_for_heat_m3_s(heat_flow_w(density, flow, heat, difference), density, heat, difference) == pytest.approx(flow)


@given(numbers(0.05, 10.0), numbers(0.05, 1.0))
def test_effectiveness_lies_between_nothing_and_a_counterflow_exchanger(units: float, ratio: float) -> None:
    found = cross_flow_effectiveness(units, ratio, 0.22, 0.78)
    counter = units / (1 + units) if ratio == 1 else (1 - math.exp(-units * (1 - ratio))) / (1 - ratio * math.exp(-units * (1 - ratio)))
    assert 0 < found < 1
    assert found <= counter * 1.02, "two per cent: the published approximation overshoots a little at small NTU"


@given(numbers(0.1, 300.0), numbers(0.05, 10.0), numbers(0.001, 0.02))
def test_a_pair_disturbs_a_compass_less_than_one_wire(current: float, distance: float, spacing: float) -> None:
    single, pair = straight_wire_a_per_m(current, distance), pair_a_per_m(current, spacing, distance)
    assert pair < single
    exact = straight_wire_a_per_m(current, distance - spacing / 2) - straight_wire_a_per_m(current, distance + spacing / 2)
    assert pair == pytest.approx(exact), "two opposed wires, one after the other"
    assert 0 < deflection_rad(pair, 14.4) < deflection_rad(single, 14.4) < math.pi / 2


def test_between_the_wires_of_a_pair_is_refused() -> None:
    with pytest.raises(ValueError, match="between the two wires"):
        pair_a_per_m(10.0, 0.02, 0.01)
