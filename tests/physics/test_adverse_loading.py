"""The farthest loadings: the published rule, and the true extreme."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, Loading, NoLoading, Shared, any_amount, by_rule, in_or_out, tank, worst
from liftout.physics.envelope import Limit
from tests.strategies import limits, loads, numbers, shares

EMPTY_KG, EMPTY_KGM = 600.0, 1500.0


def holds(loading: Loading, fixed_kg: float, fixed_kgm: float) -> None:
    """The proof a sheet prints: the sums are the sums."""
    assert loading.weight_kg == pytest.approx(fixed_kg + math.fsum(load.weight_kg for load in loading.aboard))
    assert loading.moment_kgm == pytest.approx(fixed_kgm + math.fsum(load.moment_kgm for load in loading.aboard))


def anything_allowed(data: st.DataObject, choices: list[Load], groups: list[Shared], cap_kg: float) -> tuple[float, float] | None:
    """Weight and moment of some loading within every cap, or None."""
    weights, moments = [], []
    for load in choices:
        part = data.draw(st.sampled_from(load.parts))
        added = part.span_kg * data.draw(numbers(0.0, 1.0))
        weights.append(part.weight_kg + added)
        moments.append(part.moment_kgm + added * part.arm_m)
    of = {load.name: weight for load, weight in zip(choices, weights, strict=True)}
    if EMPTY_KG + sum(weights) > cap_kg or any(sum(of[name] for name in group.names) > group.most_kg for group in groups):
        return None
    return EMPTY_KG + sum(weights), EMPTY_KGM + sum(moments)


@settings(max_examples=300)
@given(limits(), loads(), st.sampled_from(("forward", "aft")), st.data())
def test_no_loading_is_worse_than_the_worst(limit: Limit, choices: list[Load], side: str, data: st.DataObject) -> None:
    groups = data.draw(shares(tuple(load.name for load in choices)))
    cap_kg = data.draw(numbers(620.0, 1200.0))
    try:
        found = worst(EMPTY_KG, EMPTY_KGM, choices, groups, cap_kg, side, limit)
    except NoLoading:
        assert anything_allowed(data, choices, groups, min(cap_kg, limit.weights_kg[-1])) is None
        return
    holds(found, EMPTY_KG, EMPTY_KGM)
    assert found.weight_kg <= min(cap_kg, limit.weights_kg[-1]) + 1e-9
    of = {load.name: load.weight_kg for load in found.aboard}
    assert all(sum(of[name] for name in group.names) <= group.most_kg + 1e-9 for group in groups)
    for _ in range(20):
        other = anything_allowed(data, choices, groups, min(cap_kg, limit.weights_kg[-1]))
        if other is not None:
            arm, limit_m = other[1] / other[0], limit.arm_m(other[0])
            assert found.inside_m <= (arm - limit_m if side == "forward" else limit_m - arm) + 1e-9


@given(loads(), st.sampled_from(("forward", "aft")), numbers(-0.5, 4.5))
def test_by_rule_each_load_is_in_when_its_arm_is_beyond_the_limit(choices: list[Load], side: str, limit_m: float) -> None:
    found = by_rule(EMPTY_KG, EMPTY_KGM, choices, side, limit_m)
    holds(found, EMPTY_KG, EMPTY_KGM)
    for load, aboard in zip(choices, found.aboard, strict=True):
        beyond = load.arm_m < limit_m if side == "forward" else load.arm_m > limit_m
        assert aboard.weight_kg == pytest.approx(load.most_kg if beyond else load.least_kg)


@given(loads(kinds=("in or out", "any amount")), st.sampled_from(("forward", "aft")), numbers(1.0, 4.0))
def test_with_one_limit_for_all_weights_rule_and_worst_find_the_same_sign(choices: list[Load], side: str, limit_m: float) -> None:
    """The rule makes the moment about the limit as large as it can be: it leaves the limit exactly when some loading does."""
    limit = Limit(((5000.0, limit_m),), in_moment=False)
    ruled = by_rule(EMPTY_KG, EMPTY_KGM, choices, side, limit_m)
    found = worst(EMPTY_KG, EMPTY_KGM, choices, [], 5000.0, side, limit)
    assert found.inside_m <= ruled.inside_m + 1e-9
    assume(abs(ruled.inside_m) > 1e-9)
    assert (found.inside_m < 0) == (ruled.inside_m < 0)


def test_the_cap_makes_the_rule_too_heavy_and_the_worst_lighter() -> None:
    seats = [in_or_out("rear left", 77.0, 3.6), in_or_out("rear right", 77.0, 3.6), any_amount("baggage", 0.0, 54.0, 4.2)]
    aft = Limit(((600.0, 2.9), (800.0, 2.9)), in_moment=False)
    ruled = by_rule(650.0, 1700.0, seats, "aft", 2.9)
    found = worst(650.0, 1700.0, seats, [], 800.0, "aft", aft)
    assert ruled.weight_kg > 800.0
    assert found.weight_kg <= 800.0
    assert [load.at for load in found.aboard] in (["most", "least", "most"], ["least", "most", "most"])


def test_the_extreme_may_lie_inside_a_sloping_piece() -> None:
    """Weight ahead of the centre of gravity moves it forward ever more slowly; the limit runs forward steadily."""
    forward = Limit(((500.0, 2.5), (1500.0, 2.0)), in_moment=False)
    found = worst(600.0, 1500.0, [any_amount("fuel", 0.0, 900.0, 1.0)], [], 1500.0, "forward", forward)
    assert found.weight_kg == pytest.approx(math.sqrt((1500.0 - 600.0 * 1.0) / 0.0005))
    assert found.aboard[0].at == "part"


def test_groups_that_overlap_are_refused() -> None:
    groups = [Shared(frozenset({"a", "b"}), 10.0), Shared(frozenset({"b", "c"}), 10.0)]
    choices = [any_amount(name, 0.0, 10.0, 2.0) for name in "abc"]
    with pytest.raises(ValueError, match="nest them or part them"):
        worst(600.0, 1500.0, choices, groups, 900.0, "aft", Limit(((900.0, 3.0),), in_moment=False))


def test_too_many_combinations_are_refused_not_sampled() -> None:
    crowd = [in_or_out(f"item {place}", 1.0, 2.0) for place in range(20)]
    with pytest.raises(ValueError, match="combinations"):
        worst(600.0, 1500.0, crowd, [], 900.0, "aft", Limit(((900.0, 3.0),), in_moment=False))


def test_a_tank_that_its_points_do_not_cover_is_refused() -> None:
    with pytest.raises(ValueError, match="the points run"):
        tank("wing", 0.0, 80.0, ((0.0, 0.0), (60.0, 120.0)))
