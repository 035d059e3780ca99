"""A square doubler round an opening, with the same rows of rivets on each of its four sides."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

Point = tuple[float, float]


def rivet_positions_m(opening_m: float, from_opening_m: float, rows: int, row_distance_m: float, in_a_row: int, pitch_m: float) -> tuple[Point, ...]:
    """Where each rivet goes, from the middle of the opening.

    Args:
        opening_m: diameter or side of the opening.
        from_opening_m: from its edge to the middle of the first row.
        rows: rows on each side, one or more.
        row_distance_m: from row to row.
        in_a_row: rivets in a row, one or more.
        pitch_m: from rivet to rivet.

    Raises:
        ValueError: when a count is less than one.

    Example (one rivet on each side of an opening of 40 mm, 10 mm from its edge):
        >>> [(round(x, 3), round(y, 3)) for x, y in rivet_positions_m(0.040, 0.010, 1, 0.0, 1, 0.0)]
        [(0.03, 0.0), (0.0, 0.03), (-0.03, 0.0), (0.0, -0.03)]
    """
    if rows < 1 or in_a_row < 1:
        raise ValueError("a side of a doubler has at least one row with one rivet")
    found: list[Point] = []
    for row in range(rows):
        out = opening_m / 2 + from_opening_m + row * row_distance_m
        for one in range(in_a_row):
            along = (2 * one - in_a_row + 1) / 2 * pitch_m
            found += [(out, along), (-along, out), (-out, -along), (along, -out)]
    return tuple((x + 0.0, y + 0.0) for x, y in found)


def nearest_m(points: Sequence[Point]) -> float:
    """Least distance between two of several points.

    Raises:
        ValueError: when there are fewer than two.

    Example:
        >>> nearest_m([(0.0, 0.0), (3.0, 4.0), (30.0, 0.0)])
        5.0
    """
    return min(math.dist(one, other) for one, other in combinations(points, 2))
