"""Extreme moments of trees of loads, against every loading in whole units.

With whole-numbered weights an extreme at a whole weight is taken by whole amounts: nested groups give a totally unimodular
matrix, so every vertex is whole (Hoffman and Kruskal 1956, from memory). Listing all whole loadings is then no sample.
"""

import itertools
import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, Shared, any_amount, in_or_out, tank
from liftout.physics.piecewise import value_at
from liftout.physics.reachable import Amount, Either, Extreme, Loads, Together, under

Sums = set[tuple[float, float]]


@st.composite
def whole_loads(draw: st.DrawFn, name: str) -> Load:
    """A load whose weights are whole numbers up to eight; moments are whole multiples of a half."""
    most, arm = draw(st.integers(0, 6)), float(draw(st.integers(-3, 5)))
    match draw(st.sampled_from(("in or out", "taken out", "any amount", "tank"))):
        case "in or out":
            return in_or_out(name, float(most), arm)
        case "taken out":
            return in_or_out(name, -float(most), arm)
        case "any amount":
            return any_amount(name, float(draw(st.integers(0, most))), float(most), arm)
    points = [(0.0, 0.0)]
    for _ in range(draw(st.integers(1, 4))):
        step = draw(st.integers(1, 2))
        points.append((points[-1][0] + step, points[-1][1] + step * draw(st.integers(-3, 5))))
    return tank(name, float(draw(st.integers(0, int(points[-1][0])))), points[-1][0], points)


@st.composite
def trees(draw: st.DrawFn, depth: int = 2, name: str = "x") -> Loads:
    """Groups with a least and a most, and alternatives, up to two deep."""
    kind = draw(st.sampled_from(("load", "together", "together", "either"))) if depth else "load"
    if kind == "load":
        return draw(whole_loads(name))
    members = tuple(draw(trees(depth - 1, f"{name}.{place}")) for place in range(draw(st.integers(1, 3))))
    if kind == "either":
        return Either(name, members)
    most = float(draw(st.integers(0, 20))) if draw(st.booleans()) else math.inf
    least = float(draw(st.integers(0, 6))) if draw(st.booleans()) else -math.inf
    return Together(name, members, most, least)


def every(loads: Loads, step: float) -> Sums:
    """Weight and moment of all loadings in multiples of a step."""
    match loads:
        case Load():
            return {
                (part.weight_kg + count * step, part.moment_kgm + count * step * part.arm_m)
                for part in loads.parts
                for count in range(round(part.span_kg / step) + 1)
            }
        case Either():
            return set[tuple[float, float]]().union(*(every(member, step) for member in loads.members))
    sums: Sums = {(0.0, 0.0)}
    for member in loads.members:
        sums = {(w + x, m + y) for (w, m), (x, y) in itertools.product(sums, every(member, step))}
    return {(weight, moment) for weight, moment in sums if loads.least_kg <= weight <= loads.most_kg}


def weighed(loads: Loads, amounts: tuple[Amount, ...]) -> tuple[float, tuple[Amount, ...]]:
    """Weight of the amounts of a tree, and the amounts after it; each must be one of the load's and keep its groups."""
    match loads:
        case Load():
            amount = amounts[0]
            assert amount.name == loads.name
            assert amount.part in loads.parts
            added = amount.weight_kg - amount.part.weight_kg
            assert 0 <= added <= amount.part.span_kg
            assert amount.moment_kgm == pytest.approx(amount.part.moment_kgm + added * amount.part.arm_m)
            return amount.weight_kg, amounts[1:]
        case Either():
            chosen = next(member for member in loads.members if f"{amounts[0].name}.".startswith(f"{member.name}."))
            return weighed(chosen, amounts)
    total = 0.0
    for member in loads.members:
        weight, amounts = weighed(member, amounts)
        total += weight
    assert loads.least_kg - 1e-9 <= total <= loads.most_kg + 1e-9
    return total, amounts


@settings(max_examples=400)
@given(trees(), st.sampled_from((1.0, 0.5)), st.sampled_from((-1.0, 1.0)))
def test_the_extreme_at_each_weight_is_that_of_every_loading(loads: Loads, step: float, sign: float) -> None:
    expected: dict[float, float] = {}
    for weight, moment in every(loads, step):
        expected[weight] = max(expected.get(weight, -math.inf), sign * moment)
    function = Extreme(sign).of(loads)
    lightest, heaviest = min(expected, default=0.0) - 1, max(expected, default=0.0) + 1
    for count in range(round((heaviest - lightest) / step) + 1):
        weight = lightest + count * step
        found = value_at(function, weight)
        assert (found is None) == (weight not in expected), weight
        if found:
            assert found[1] == pytest.approx(expected[weight], abs=1e-9)


@given(trees(), st.sampled_from((-1.0, 1.0)), st.data())
def test_a_loading_read_back_is_allowed_and_has_the_extreme_moment(loads: Loads, sign: float, data: st.DataObject) -> None:
    extreme = Extreme(sign)
    assume(extreme.of(loads))
    piece = data.draw(st.sampled_from(extreme.of(loads)))
    weight = data.draw(st.floats(piece[0], piece[1]))
    amounts = extreme.amounts(loads, weight)
    total, left = weighed(loads, amounts)
    assert not left
    found = value_at(extreme.of(loads), weight)
    assert found
    assert total == pytest.approx(weight, abs=1e-9)
    assert sign * math.fsum(amount.moment_kgm for amount in amounts) == pytest.approx(found[1], abs=1e-8)


@given(trees(), st.floats(0.1, 3.0))
def test_a_weight_that_cannot_be_reached_has_no_loading(loads: Loads, more: float) -> None:
    extreme = Extreme(1)
    heaviest = max((piece[1] for piece in extreme.of(loads)), default=0.0)
    with pytest.raises(ValueError, match="no loading weighs"):
        extreme.amounts(loads, heaviest + more)


@given(st.lists(st.integers(0, 6), min_size=4, max_size=4), st.integers(0, 12), st.integers(0, 12), st.integers(0, 24))
def test_shared_weights_nest(most: list[int], pair: int, three: int, cap: int) -> None:
    loads = [any_amount(name, 0.0, float(weight), arm) for name, weight, arm in zip("abcd", most, (1.0, 4.0, 2.0, 3.0), strict=True)]
    groups = [Shared(frozenset("abc"), float(three)), Shared(frozenset("ab"), float(pair))]
    expected: dict[float, float] = {}
    for a, b, c, d in itertools.product(*(range(weight + 1) for weight in most)):
        if a + b <= pair and a + b + c <= three and a + b + c + d <= cap:
            expected[a + b + c + d] = max(expected.get(a + b + c + d, -math.inf), a + 4.0 * b + 2.0 * c + 3.0 * d)
    function = Extreme(1).of(under(loads, groups, float(cap)))
    assert {weight: found[1] for weight in range(25) if (found := value_at(function, float(weight)))} == pytest.approx(expected)


def test_a_load_on_the_shared_most_but_for_rounding_is_allowed() -> None:
    """0.1 + 0.2 is more than 0.3 in floats, and not at the bench."""
    loads = [in_or_out("a", 0.1, 1.0), in_or_out("b", 0.2, 2.0)]
    found = value_at(Extreme(1).of(under(loads, [], 0.3)), 0.3)
    assert found
    assert found[1] == pytest.approx(0.5)


def test_two_loads_of_one_name_are_refused() -> None:
    with pytest.raises(ValueError, match="a name of its own"):
        under([in_or_out("bag", 5.0, 1.0), in_or_out("bag", 6.0, 1.0)], [], 20.0)


def test_alternatives_exclude_each_other() -> None:
    seat = Either("seat", (in_or_out("person", 80.0, 2.0), any_amount("freight", 0.0, 50.0, 2.2)))
    function = Extreme(1).of(seat)
    assert function[-1][1] == 80.0
    assert value_at(function, 65.0) is None
    assert [amount.name for amount in Extreme(1).amounts(seat, 50.0)] == ["freight"]


def test_groups_that_overlap_make_no_tree() -> None:
    some = [any_amount(name, 0.0, 100.0, 3.0) for name in "abc"]
    with pytest.raises(ValueError, match="nest them or part them"):
        under(some, [Shared(frozenset("ab"), 120.0), Shared(frozenset("bc"), 120.0)], 250.0)
