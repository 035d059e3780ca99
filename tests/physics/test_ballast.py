"""Weight added, taken out and moved."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftout.physics.ballast import (
    NotReached,
    added_arm_m,
    added_kg,
    added_shift_m,
    ballast_arm_m,
    least_ballast,
    most_addable,
    moved_arm_m,
    moved_kg,
)
from liftout.physics.envelope import Limit
from tests.strategies import limits, numbers

WEIGHTS, ARMS = numbers(300.0, 3000.0), numbers(-1.0, 5.0)
FLAT_FORWARD = Limit(((6000.0, 32.0),), in_moment=False)


@given(WEIGHTS, ARMS, numbers(0.1, 200.0), ARMS)
def test_what_is_added_and_taken_out_again_changes_nothing(weight: float, arm: float, added: float, at: float) -> None:
    with_it = added_arm_m(weight, arm, added, at)
    assert added_arm_m(weight + added, with_it, -added, at) == pytest.approx(arm, abs=1e-9)


@given(WEIGHTS, ARMS, numbers(0.1, 200.0), ARMS)
def test_the_centre_of_gravity_moves_towards_what_is_added_and_away_from_what_is_taken_out(
    weight: float, arm: float, added: float, at: float
) -> None:
    assume(abs(at - arm) > 1e-3)
    assert math.copysign(1, added_shift_m(weight, arm, added, at)) == math.copysign(1, at - arm)
    assert math.copysign(1, added_shift_m(weight, arm, -added, at)) == math.copysign(1, arm - at)


@given(WEIGHTS, ARMS, numbers(0.1, 200.0), ARMS)
def test_the_two_conventions_agree_and_differ_when_mixed(weight: float, arm: float, added: float, at: float) -> None:
    """New total with the distance to the old centre of gravity, old total with the distance to the new one."""
    assume(abs(at - arm) > 1e-2)
    shift = added_shift_m(weight, arm, added, at)
    assert shift == pytest.approx(added * (at - arm) / (weight + added), abs=1e-9)
    assert shift == pytest.approx(added * (at - (arm + shift)) / weight, abs=1e-9)
    assert abs(shift) < abs(added * (at - arm) / weight)


@given(WEIGHTS, ARMS, ARMS, ARMS)
def test_so_much_at_a_place_brings_it_to_the_target_and_no_other_place_needs_the_same(weight: float, arm: float, target: float, at: float) -> None:
    assume(abs(at - target) > 1e-2 and abs(target - arm) > 1e-6)
    amount = added_kg(weight, arm, target, at)
    assume(weight + amount > 1.0)
    assert added_arm_m(weight, arm, amount, at) == pytest.approx(target, abs=1e-6)
    if amount > 0:
        assert ballast_arm_m(weight, arm, target, amount) == pytest.approx(at, abs=1e-6)


@given(limits(), st.sampled_from(("forward", "aft")), numbers(500.0, 900.0), ARMS, ARMS, st.sampled_from((0.45359237, 1.0)))
def test_the_least_ballast_is_inside_and_one_step_less_is_not(limit: Limit, side: str, weight: float, arm: float, at: float, step: float) -> None:
    assume(weight <= limit.weights_kg[-1])
    try:
        found = least_ballast(weight, arm, limit, side, at, step, 80.0)
    except NotReached:
        return
    sign = 1.0 if side == "forward" else -1.0
    assert found.weight_kg == pytest.approx(found.steps * step)
    assert found.weight_kg <= 80.0 + 1e-6
    assert sign * (added_arm_m(weight, arm, found.weight_kg, at) - limit.arm_m(weight + found.weight_kg)) >= -1e-8
    for steps in range(found.steps):
        assert sign * (added_arm_m(weight, arm, steps * step, at) - limit.arm_m(weight + steps * step)) < 0


def test_the_published_ballast_to_two_decimals_is_outside_and_the_next_pound_is_not() -> None:
    """57.16 lb leave 4954 lb at 30.5 in a hair ahead of 32.0 in; 58 lb do not (FAA mechanic bank)."""
    assert added_arm_m(4954.0, 30.5, 57.16, 162.0) < 32.0
    assert added_arm_m(4954.0, 30.5, 57.16, 162.0) == pytest.approx(31.99996, abs=5e-6)
    assert least_ballast(4954.0, 30.5, FLAT_FORWARD, "forward", 162.0, 1.0, 100.0).steps == 58


def test_what_comes_out_at_whole_pounds_is_not_rounded_further() -> None:
    """1000 lb at 30 in come to 32 in with exactly 20 lb at 132 in."""
    assert least_ballast(1000.0, 30.0, FLAT_FORWARD, "forward", 132.0, 1.0, 100.0).steps == 20


@pytest.mark.parametrize(("at", "most"), [(20.0, 1000.0), (32.0, 1000.0), (162.0, 57.0)])
def test_a_place_on_the_wrong_side_or_too_small_does_not_reach(at: float, most: float) -> None:
    with pytest.raises(NotReached):
        least_ballast(4954.0, 30.5, FLAT_FORWARD, "forward", at, 1.0, most)


def test_the_limit_is_taken_at_the_weight_with_the_ballast() -> None:
    """The forward limit runs aft with weight: the formula at the old weight (20 lb) is not enough."""
    slope = Limit(((1000.0, 32.0), (1100.0, 34.0)), in_moment=False)
    found = least_ballast(1000.0, 30.0, slope, "forward", 132.0, 1.0, 100.0)
    assert found.steps > 20
    assert found.arm_m >= found.limit_m > 32.0


@given(WEIGHTS, ARMS, numbers(0.05, 1.0), numbers(0.1, 3.0))
def test_the_most_that_may_be_added_stays_inside_and_one_more_does_not(weight: float, arm: float, left: float, behind: float) -> None:
    target, at = arm + left, arm + left + behind
    most = most_addable(weight, arm, target, at, 1.0)
    assert added_arm_m(weight, arm, most, at) <= target + 1e-9
    assert added_arm_m(weight, arm, most + 1.001, at) > target


def test_a_most_is_rounded_down_and_a_least_up() -> None:
    assert most_addable(2900.0, 115.0, 116.0, 130.0, 1.0) == 207
    assert least_ballast(2900.0, 115.0, Limit(((4000.0, 116.0),), in_moment=False), "forward", 130.0, 1.0, 300.0).steps == 208


@given(WEIGHTS, ARMS, numbers(0.1, 200.0), ARMS, ARMS)
def test_moving_is_taking_out_and_adding(weight: float, arm: float, moved: float, from_m: float, to_m: float) -> None:
    without = added_arm_m(weight, arm, -moved, from_m)
    assert moved_arm_m(weight, arm, moved, from_m, to_m) == pytest.approx(added_arm_m(weight - moved, without, moved, to_m), abs=1e-9)


@given(WEIGHTS, ARMS, ARMS, ARMS, ARMS)
def test_what_must_move_moves_it_there_or_cannot(weight: float, arm: float, target: float, from_m: float, to_m: float) -> None:
    assume(abs(target - arm) > 1e-6 and abs(to_m - from_m) > 1e-3)
    if (target > arm) == (to_m > from_m):
        assert moved_arm_m(weight, arm, moved_kg(weight, arm, target, from_m, to_m), from_m, to_m) == pytest.approx(target, abs=1e-6)
    else:
        with pytest.raises(NotReached):
            moved_kg(weight, arm, target, from_m, to_m)


@pytest.mark.parametrize(
    "impossible",
    [
        lambda: added_kg(1000.0, 30.0, 32.0, 32.0),
        lambda: ballast_arm_m(1000.0, 30.0, 32.0, 0.0),
        lambda: most_addable(1000.0, 30.0, 32.0, 31.0, 1.0),
        lambda: moved_kg(1000.0, 30.0, 32.0, 50.0, 50.0),
    ],
)
def test_what_no_weight_can_do_is_refused(impossible: object) -> None:
    with pytest.raises(NotReached):
        impossible()  # type: ignore[operator]


def test_nothing_to_do_needs_no_weight() -> None:
    assert added_kg(1000.0, 30.0, 30.0, 80.0) == 0
    assert moved_kg(1000.0, 30.0, 30.0, 80.0, 20.0) == 0


def test_more_than_all_of_it_cannot_be_taken_out() -> None:
    with pytest.raises(ValueError, match="leave nothing"):
        added_arm_m(100.0, 30.0, -100.0, 20.0)


def test_a_step_is_a_pound_where_weights_are_in_kilograms() -> None:
    """The published 57.16 lb, in kg and m: 58 steps of 0.45359237 kg, of which the place holds no more."""
    pound, inch = 0.45359237, 0.0254
    limit = Limit(((6000.0 * pound, 32.0 * inch),), in_moment=False)
    found = least_ballast(4954.0 * pound, 30.5 * inch, limit, "forward", 162.0 * inch, pound, 58.0 * pound)
    assert found.steps == 58
    assert found.weight_kg == pytest.approx(58.0 * pound)
    assert found.arm_m == pytest.approx((4954.0 * 30.5 + 58.0 * 162.0) / 5012.0 * inch)
    assert found.limit_m == pytest.approx(32.0 * inch)
    with pytest.raises(NotReached):
        least_ballast(4954.0 * pound, 30.5 * inch, limit, "forward", 162.0 * inch, pound, 57.9 * pound)


def test_a_heavy_tail_is_held_by_ballast_ahead_of_it() -> None:
    """1000 lb at 34 in come to 33 in with 1000 x 1 / (33 - 13) = 50 lb at 13 in, by hand."""
    found = least_ballast(1000.0, 34.0, Limit(((6000.0, 33.0),), in_moment=False), "aft", 13.0, 1.0, 100.0)
    assert (found.steps, found.arm_m) == (50, pytest.approx(33.0))
    with pytest.raises(NotReached):
        least_ballast(1000.0, 34.0, Limit(((6000.0, 33.0),), in_moment=False), "aft", 13.0, 1.0, 49.0)


def test_ballast_up_to_the_end_of_the_envelope_and_no_more() -> None:
    """20 lb are needed: an envelope that ends with them holds them, one that ends a pound before does not."""
    assert least_ballast(1000.0, 30.0, Limit(((1020.0, 32.0),), in_moment=False), "forward", 132.0, 1.0, 100.0).steps == 20
    with pytest.raises(NotReached):
        least_ballast(1000.0, 30.0, Limit(((1019.0, 32.0),), in_moment=False), "forward", 132.0, 1.0, 100.0)


def test_little_that_is_left_has_a_centre_of_gravity_still() -> None:
    """100 at 30 less 99.5 at 30.1: (3000 - 2994.95) / 0.5 = 10.1, by hand."""
    assert added_arm_m(100.0, 30.0, -99.5, 30.1) == pytest.approx(10.1)


def test_a_sloping_limit_is_taken_at_the_same_weight_in_pounds_and_in_kilograms() -> None:
    """By hand at 25 lb: (30000 + 25 x 132) / 1025 = 32.488 in; the limit 32 + 2 x 25 / 100 = 32.5 in. At 26 lb: 32.585 in against 32.52 in."""
    pound = 0.45359237
    in_pounds = least_ballast(1000.0, 30.0, Limit(((1000.0, 32.0), (1100.0, 34.0)), in_moment=False), "forward", 132.0, 1.0, 100.0)
    slope = Limit(((1000.0 * pound, 32.0), (1100.0 * pound, 34.0)), in_moment=False)
    in_kilograms = least_ballast(1000.0 * pound, 30.0, slope, "forward", 132.0, pound, 100.0 * pound)
    assert in_pounds.steps == in_kilograms.steps == 26
    assert in_kilograms.limit_m == pytest.approx(32.52)


def test_less_than_a_step_may_be_all_that_goes_in() -> None:
    """1000 lb at 115 in come to 115.01 in with 1000 x 0.01 / (130 - 115.01) = 0.67 lb at 130 in: no whole pound, and no refusal."""
    assert most_addable(1000.0, 115.0, 115.01, 130.0, 1.0) == 0
