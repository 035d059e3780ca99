"""A line straight in moment, as the curve that it is on a chart of weight over arm.

Between two weights the moment is c + s·W, so the arm is s + c/W: a hyperbola. A chord from W1 to W2 leaves it most at the
geometric mean of the two, by |c|·(1/√W1 − 1/√W2)²; so points at equal steps of 1/√W share what is left out evenly.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Final

CHORD_M: Final = 1e-4
"""How far a chord may leave the curve: less than a chart shows."""


def curve(from_kg: float, from_kgm: float, to_kg: float, to_kgm: float, within_m: float = CHORD_M) -> tuple[tuple[float, float], ...]:
    """Weight and arm of points on a line straight in moment, from end to end.

    Args:
        from_kg: weight at one end, not zero.
        from_kgm: moment there.
        to_kg: weight at the other end, not zero.
        to_kgm: moment there.
        within_m: how far straight lines between the points may leave the curve.

    Example:
        >>> [(round(weight, 3), round(arm, 3)) for weight, arm in curve(100.0, 100.0, 400.0, 1000.0, within_m=0.25)]
        [(100.0, 1.0), (177.778, 1.875), (400.0, 2.5)]
    """
    start, end = (from_kg, from_kgm / from_kg), (to_kg, to_kgm / to_kg)
    if from_kg == to_kg:
        return (start,) if from_kgm == to_kgm else (start, end)
    slope = (to_kgm - from_kgm) / (to_kg - from_kg)
    constant = from_kgm - slope * from_kg
    first, last = 1 / math.sqrt(from_kg), 1 / math.sqrt(to_kg)
    pieces = max(1, math.ceil(math.sqrt(abs(constant) / within_m) * abs(last - first) * (1 - 1e-12)))
    between = [(first + (last - first) * n / pieces) ** -2 for n in range(1, pieces)]
    return (start, *((weight_kg, slope + constant / weight_kg) for weight_kg in between), end)


def curved(points: Sequence[tuple[float, float]], within_m: float = CHORD_M) -> tuple[tuple[float, float], ...]:
    """Weight and arm along a polyline that is straight in moment.

    Args:
        points: weight and moment of its corners.
        within_m: as for `curve`.
    """
    if len(points) == 1:
        return ((points[0][0], points[0][1] / points[0][0]),)
    found: list[tuple[float, float]] = []
    for start, end in itertools.pairwise(points):
        piece = curve(*start, *end, within_m)
        found.extend(piece[1:] if found and found[-1] == piece[0] else piece)
    return tuple(found)
