"""A doubler round an opening, with rows of rivets alike on opposite sides of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

Point = tuple[float, float]


class Rows(NamedTuple):
    """Rows of rivets on one pair of opposite sides.

    Attributes:
        first_m: from the middle of the opening to the middle of the first row.
        in_a_row: rivets in the first row.
    """

    first_m: float
    in_a_row: int


def rivet_positions_m(level: Rows, upright: Rows, rows: int, row_distance_m: float, pitch_m: float, *, staggered: bool = False) -> tuple[Point, ...]:
    """Where each rivet goes, from the middle of the opening.

    Args:
        level: rows that run along the first coordinate, above and below the opening.
        upright: rows that run along the second coordinate, beside it.
        rows: rows on each side, one or more.
        row_distance_m: from row to row.
        pitch_m: from rivet to rivet in a row.
        staggered: whether every second row stands half a pitch on and so has one rivet less.

    Raises:
        ValueError: when a row would have no rivet.

    Example (one rivet on each side of an opening of 40 mm, 10 mm from its edge):
        >>> [(round(x, 3), round(y, 3)) for x, y in rivet_positions_m(Rows(0.030, 1), Rows(0.030, 1), 1, 0.0, 0.0)]
        [(0.0, 0.03), (0.0, -0.03), (0.03, 0.0), (-0.03, 0.0)]
    """
    if rows < 1 or min(level.in_a_row, upright.in_a_row) < 1 + (staggered and rows > 1):
        raise ValueError("a side of a doubler has at least one row, and each row at least one rivet")
    found: list[Point] = []
    for side, turned in ((level, False), (upright, True)):
        for row in range(rows):
            count = side.in_a_row - (row % 2 if staggered else 0)
            out = side.first_m + row * row_distance_m
            for one in range(count):
                along = (2 * one - count + 1) / 2 * pitch_m
                found += [(out, along), (-out, along)] if turned else [(along, out), (along, -out)]
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
