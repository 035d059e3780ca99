"""Rivets of a doubler: symmetry, counts, and the nearest two by another way."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftout.physics.doubler import Point, Rows, nearest_m, rivet_positions_m

lengths = st.floats(0.005, 0.3)


def _as_set(some: list[Point]) -> list[Point]:
    return sorted((round(x, 9) + 0.0, round(y, 9) + 0.0) for x, y in some)


@given(lengths, lengths, st.integers(1, 3), lengths, st.integers(2, 9), st.integers(2, 9), lengths, st.booleans())
def test_the_pattern_is_its_own_mirror_image(
    level: float, beside: float, rows: int, apart: float, long: int, short: int, pitch: float, staggered: bool
) -> None:
    points = list(rivet_positions_m(Rows(level, long), Rows(beside, short), rows, apart, pitch, staggered=staggered))
    lost = rows // 2 if staggered else 0
    assert len(points) == 2 * (rows * long - lost) + 2 * (rows * short - lost)
    assert _as_set(points) == _as_set([(-x, y) for x, y in points]) == _as_set([(x, -y) for x, y in points])


@given(lengths, st.integers(1, 3), lengths, st.integers(2, 9), lengths, st.booleans())
def test_that_of_a_square_is_its_own_quarter_turn(first: float, rows: int, apart: float, count: int, pitch: float, staggered: bool) -> None:
    points = list(rivet_positions_m(Rows(first, count), Rows(first, count), rows, apart, pitch, staggered=staggered))
    assert _as_set(points) == _as_set([(-y, x) for x, y in points])


@given(lengths, lengths, st.integers(1, 3), lengths, st.integers(2, 6), st.integers(2, 6), lengths, st.booleans())
def test_no_rivet_lies_nearer_to_the_opening_than_the_first_row(
    level: float, beside: float, rows: int, apart: float, long: int, short: int, pitch: float, staggered: bool
) -> None:
    for x, y in rivet_positions_m(Rows(level, long), Rows(beside, short), rows, apart, pitch, staggered=staggered):
        assert abs(y) >= level - 1e-12 or abs(x) >= beside - 1e-12


@given(lengths, lengths, st.integers(2, 3), lengths, st.integers(2, 6), st.integers(2, 6), lengths, st.booleans())
def test_the_nearest_two_are_those_of_the_distances_of_the_criterion(
    level: float, beside: float, rows: int, apart: float, long: int, short: int, pitch: float, staggered: bool
) -> None:
    """Pitch, next row (aslant where rows are staggered, and the next but one behind each other) and across the corner."""
    reach_long, reach_short = (long - 1) * pitch / 2, (short - 1) * pitch / 2
    assume(reach_long <= beside and reach_short <= level)
    corner = math.hypot(beside - reach_long, level - reach_short)
    row = math.hypot(apart, pitch / 2) if staggered else apart
    behind = [2 * apart] if staggered and rows > 2 else []
    found = nearest_m(rivet_positions_m(Rows(level, long), Rows(beside, short), rows, apart, pitch, staggered=staggered))
    assert found == pytest.approx(min(pitch, row, corner, *behind), rel=1e-9, abs=1e-12)


def test_a_row_without_rivets_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one row"):
        rivet_positions_m(Rows(0.05, 3), Rows(0.05, 3), 0, 0.01, 0.01)
    with pytest.raises(ValueError, match="each row at least one rivet"):
        rivet_positions_m(Rows(0.05, 1), Rows(0.05, 3), 2, 0.01, 0.01, staggered=True)


def test_rows_stand_behind_each_other_where_nobody_says_staggered() -> None:
    """By hand: two rows of one rivet on each of four sides."""
    points = rivet_positions_m(Rows(0.03, 1), Rows(0.04, 1), 2, 0.01, 0.02)
    assert _as_set(list(points)) == _as_set([(0, 0.03), (0, -0.03), (0, 0.04), (0, -0.04), (0.04, 0), (-0.04, 0), (0.05, 0), (-0.05, 0)])


def test_a_single_row_of_one_rivet_may_be_called_staggered() -> None:
    assert len(rivet_positions_m(Rows(0.03, 1), Rows(0.03, 1), 1, 0.01, 0.02, staggered=True)) == 4
