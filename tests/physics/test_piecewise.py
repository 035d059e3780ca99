"""Functions of weight in straight pieces, against their definitions at every whole weight."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.piecewise import Function, TooManyPieces, between, end_value, highest, sum_of, value_at


@st.composite
def functions(draw: st.DrawFn) -> Function:
    """Up to five pieces and single weights with corners at whole weights, with jumps and gaps."""
    found: Function = []
    low = draw(st.integers(-3, 3))
    for _ in range(draw(st.integers(1, 5))):
        length = draw(st.integers(0, 3))
        slope = float(draw(st.integers(-4, 4))) if length else 0.0
        on = found and draw(st.booleans())
        value = end_value(found[-1]) if on else float(draw(st.integers(-20, 20)))
        start = low if on or not found else low + draw(st.integers(0, 2))
        found.append((float(start), float(start + length), value, slope))
        low = start + max(length, 1) if not length else start + length
    return highest([[piece] for piece in found])


def whole(function: Function) -> dict[int, float]:
    """Values at whole weights."""
    first, last = math.floor(function[0][0]), math.ceil(max(piece[1] for piece in function))
    return {weight: found[1] for weight in range(first, last + 1) if (found := value_at(function, float(weight)))}


@given(st.lists(functions(), min_size=1, max_size=4), st.floats(-5.0, 25.0))
def test_the_highest_is_the_highest_at_any_weight(several: list[Function], weight: float) -> None:
    values = [found[1] for function in several if (found := value_at(function, weight))]
    found = value_at(highest(several), weight)
    assert (found is None) == (not values)
    if found:
        assert found[1] == pytest.approx(max(values), abs=1e-9)


@given(functions(), functions())
def test_the_sum_is_that_of_the_best_division(one: Function, other: Function) -> None:
    """With corners at whole weights a best division of a whole weight is whole."""
    expected: dict[int, float] = {}
    for (first, value), (second, partner) in itertools.product(whole(one).items(), whole(other).items()):
        expected[first + second] = max(expected.get(first + second, -math.inf), value + partner)
    assert whole(sum_of(one, other)) == pytest.approx(expected, abs=1e-9)


@given(functions(), functions(), functions())
def test_the_order_of_sums_does_not_matter(one: Function, two: Function, three: Function) -> None:
    assert whole(sum_of(sum_of(one, two), three)) == pytest.approx(whole(sum_of(one, sum_of(three, two))), abs=1e-9)


@given(functions(), st.integers(-4, 8), st.integers(-2, 8))
def test_between_keeps_what_lies_between(function: Function, least: int, more: int) -> None:
    kept = between(function, least, least + more)
    expected = {weight: value for weight, value in whole(function).items() if least <= weight <= least + more}
    assert (whole(kept) if kept else {}) == pytest.approx(expected, abs=1e-9)
    assert all(least <= end <= least + more for piece in kept for end in piece[:2])


@given(functions(), functions())
def test_pieces_stand_in_order_and_do_not_overlap(one: Function, other: Function) -> None:
    for piece, following in itertools.pairwise(sum_of(one, other)):
        assert piece[0] <= piece[1] <= following[0] + 1e-9


def test_too_many_pieces_are_refused_not_thinned_out() -> None:
    many = [(float(place), float(place), float(place % 7), 0.0) for place in range(1001)]
    with pytest.raises(TooManyPieces, match="more than 1000000 pieces"):
        sum_of(many, many)
