"""Rivets of a square doubler: symmetry, and the nearest two by another way."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.doubler import nearest_m, rivet_positions_m

lengths = st.floats(0.005, 0.3)


@given(lengths, lengths, st.integers(1, 3), lengths, st.integers(1, 9), lengths)
def test_the_pattern_is_its_own_mirror_image_and_its_own_quarter_turn(
    opening: float, out: float, rows: int, apart: float, count: int, pitch: float
) -> None:
    points = rivet_positions_m(opening, out, rows, apart, count, pitch)
    assert len(points) == 4 * rows * count

    def as_set(some: list[tuple[float, float]]) -> list[tuple[float, float]]:
        return sorted((round(x, 9) + 0.0, round(y, 9) + 0.0) for x, y in some)

    assert as_set(list(points)) == as_set([(-x, y) for x, y in points]) == as_set([(x, -y) for x, y in points])
    assert as_set(list(points)) == as_set([(-y, x) for x, y in points])


@given(lengths, lengths, st.integers(1, 3), lengths, st.integers(1, 6), lengths)
def test_no_rivet_lies_nearer_to_the_opening_than_the_first_row(
    opening: float, out: float, rows: int, apart: float, count: int, pitch: float
) -> None:
    points = rivet_positions_m(opening, out, rows, apart, count, pitch)
    assert min(max(abs(x), abs(y)) for x, y in points) >= opening / 2 + out - 1e-12


@given(lengths, lengths, st.integers(2, 3), lengths, st.integers(2, 6), lengths)
def test_the_nearest_two_are_those_of_the_three_distances_of_the_criterion(
    opening: float, out: float, rows: int, apart: float, count: int, pitch: float
) -> None:
    first, last = opening / 2 + out, (count - 1) * pitch / 2
    if last > first:
        return
    expected = min(pitch, apart, math.sqrt(2) * (first - last))
    assert nearest_m(rivet_positions_m(opening, out, rows, apart, count, pitch)) == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_a_side_without_rivets_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one row"):
        rivet_positions_m(0.1, 0.01, 0, 0.01, 3, 0.01)
