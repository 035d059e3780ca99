"""Limits between points."""

import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.envelope import AboveEnvelope, Limit, bracket, position
from tests.strategies import limits, numbers


@given(limits(), st.data())
def test_a_limit_runs_through_its_points_and_stays_between_them(limit: Limit, data: st.DataObject) -> None:
    arms = [second / weight if limit.in_moment else second for weight, second in limit.points]
    for (weight, _), arm in zip(limit.points, arms, strict=True):
        assert limit.arm_m(weight) == pytest.approx(arm, rel=1e-12)
    weight = data.draw(numbers(limit.weights_kg[0], limit.weights_kg[-1]))
    lower, upper = bracket(limit.weights_kg, weight)
    low, high = sorted((arms[lower], arms[upper]))
    assert low - 1e-9 <= limit.arm_m(weight) <= high + 1e-9


@given(limits(), numbers(0.01, 1.0))
def test_below_the_lowest_point_the_arm_is_constant(limit: Limit, share: float) -> None:
    lowest = limit.weights_kg[0]
    assert limit.arm_m(lowest * share) == pytest.approx(limit.arm_m(lowest), rel=1e-12)


@given(limits(), numbers(0.001, 500.0))
def test_above_the_last_point_there_is_no_limit(limit: Limit, more: float) -> None:
    with pytest.raises(AboveEnvelope) as caught:
        limit.arm_m(limit.weights_kg[-1] + more)
    assert caught.value.last_kg == limit.weights_kg[-1]
    assert pickle.loads(pickle.dumps(caught.value)).weight_kg == caught.value.weight_kg


def test_a_moment_limit_is_straight_in_moment() -> None:
    limit = Limit(((1000.0, 2000.0), (1200.0, 3000.0)), in_moment=True)
    assert limit.arm_m(1100.0) == pytest.approx(2500.0 / 1100.0)


def test_weights_that_do_not_rise_are_refused() -> None:
    with pytest.raises(ValueError, match="must rise"):
        Limit(((1000.0, 2.0), (1000.0, 2.1)), in_moment=False)


@given(numbers(1.0, 4.0))
def test_on_a_limit_is_inside(arm: float) -> None:
    forward, aft = Limit(((1000.0, 2.0),), in_moment=False), Limit(((1000.0, 3.0),), in_moment=False)
    found = position(forward, aft, 900.0, arm)
    assert found.inside == (2.0 <= arm <= 3.0)
    assert found.behind_forward_m + found.ahead_of_aft_m == pytest.approx(1.0)
    assert position(forward, aft, 900.0, 2.0).inside
    assert position(forward, aft, 900.0, 3.0).inside
