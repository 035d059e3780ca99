"""The loading that turns an aircraft most about its main wheels."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, Shared, any_amount, by_rule, in_or_out
from liftout.physics.ground_loading import most_turning
from tests.strategies import loads, numbers, shares

EMPTY_KG, EMPTY_KGM = 600.0, 1500.0
SIDES = st.sampled_from(("forward", "aft"))


def turning(weight_kg: float, moment_kgm: float, line_m: float, side: str) -> float:
    """Moment about the line, positive towards the side."""
    about = moment_kgm - weight_kg * line_m
    return about if side == "aft" else -about


@settings(max_examples=300)
@given(loads(), SIDES, numbers(-1.0, 5.0), st.data())
def test_nothing_that_may_be_aboard_turns_more(choices: list[Load], side: str, line_m: float, data: st.DataObject) -> None:
    groups = data.draw(shares(tuple(load.name for load in choices)))
    try:
        found = most_turning(EMPTY_KG, EMPTY_KGM, choices, groups, line_m, side)
    except ValueError:
        assert any(sum(load.least_kg for load in choices if load.name in group.names) > group.most_kg for group in groups)
        return
    of = dict(zip((load.name for load in choices), found.added_kg, strict=True))
    assert found.weight_kg == pytest.approx(EMPTY_KG + math.fsum(of.values()))
    assert all(sum(of[name] for name in group.names) <= group.most_kg + 1e-9 for group in groups)
    for _ in range(20):
        weights, moments = {}, []
        for load in choices:
            part = data.draw(st.sampled_from(load.parts))
            added = part.span_kg * data.draw(numbers(0.0, 1.0))
            weights[load.name] = part.weight_kg + added
            moments.append(part.moment_kgm + added * part.arm_m)
        if any(sum(weights[name] for name in group.names) > group.most_kg for group in groups):
            continue
        other = turning(EMPTY_KG + sum(weights.values()), EMPTY_KGM + sum(moments), line_m, side)
        assert other <= turning(found.weight_kg, found.moment_kgm, line_m, side) + 1e-6


@given(loads(kinds=("in or out", "any amount")), SIDES, numbers(-1.0, 5.0))
def test_without_shared_limits_it_is_the_published_rule_about_that_line(choices: list[Load], side: str, line_m: float) -> None:
    """Everything beyond the line in, everything before it at its least: the rule of the adverse loadings, about another line."""
    found = most_turning(EMPTY_KG, EMPTY_KGM, choices, [], line_m, side)
    ruled = by_rule(EMPTY_KG, EMPTY_KGM, choices, side, line_m)
    assert turning(found.weight_kg, found.moment_kgm, line_m, side) == pytest.approx(
        turning(ruled.weight_kg, ruled.moment_kgm, line_m, side), abs=1e-6
    )


@given(st.permutations(range(4)), numbers(1.0, 3.0))
def test_no_order_of_loading_passes_what_it_finds(order: list[int], line_m: float) -> None:
    choices = [in_or_out("front", 77.0, 0.9), in_or_out("rear", 77.0, 1.9), any_amount("baggage", 0.0, 54.0, 2.5), in_or_out("step", 90.0, 2.2)]
    worst = most_turning(EMPTY_KG, EMPTY_KGM, choices, [], line_m, "aft")
    weight, moment = EMPTY_KG, EMPTY_KGM
    for place in order:
        weight, moment = weight + choices[place].most_kg, moment + choices[place].most_kg * choices[place].arm_m
        assert turning(weight, moment, line_m, "aft") <= turning(worst.weight_kg, worst.moment_kgm, line_m, "aft") + 1e-9


def test_two_persons_and_what_is_left_for_baggage_may_turn_more_than_baggage_and_one() -> None:
    """400 lb for seats and shelf together: filled farthest first, 100 lb and one person; two persons and 60 lb turn more."""
    choices = [in_or_out("rear 1", 170.0, 70.0), in_or_out("rear 2", 170.0, 70.0), any_amount("shelf", 0.0, 100.0, 95.0)]
    found = most_turning(1100.0, 39000.0, choices, [Shared(frozenset(load.name for load in choices), 400.0)], 60.0, "aft")
    assert found.added_kg == (170.0, 170.0, 60.0)


def test_what_cannot_be_loaded_at_all_is_refused() -> None:
    with pytest.raises(ValueError, match="no combination"):
        most_turning(600.0, 1500.0, [any_amount("oil", 9.0, 10.0, 1.0)], [Shared(frozenset({"oil"}), 5.0)], 2.0, "aft")


def test_too_many_combinations_are_refused_not_sampled() -> None:
    crowd = [in_or_out(f"item {place}", 1.0, 2.0) for place in range(20)]
    with pytest.raises(ValueError, match="combinations"):
        most_turning(600.0, 1500.0, crowd, [], 2.0, "aft")


def test_a_combination_that_is_too_much_does_not_end_the_search() -> None:
    """60 and 120 lb behind the line, 100 lb for both together: the lighter goes in, whichever is named first."""
    one, other = in_or_out("tray", 60.0, 80.0), in_or_out("person", 120.0, 70.0)
    shared = [Shared(frozenset({"tray", "person"}), 100.0)]
    assert most_turning(1100.0, 39000.0, [one, other], shared, 60.0, "aft").added_kg == (60.0, 0.0)
    assert most_turning(1100.0, 39000.0, [other, one], shared, 60.0, "aft").added_kg == (0.0, 60.0)


def test_what_is_shared_may_be_used_up() -> None:
    found = most_turning(1100.0, 39000.0, [in_or_out("person", 170.0, 70.0)], [Shared(frozenset({"person"}), 170.0)], 60.0, "aft")
    assert (found.added_kg, found.weight_kg, found.moment_kgm) == ((170.0,), 1270.0, 39000.0 + 170.0 * 70.0)


def test_what_lies_on_the_line_stays_out() -> None:
    assert most_turning(1100.0, 39000.0, [in_or_out("person", 170.0, 60.0), any_amount("bag", 5.0, 50.0, 60.0)], [], 60.0, "aft").added_kg == (
        0.0,
        5.0,
    )
