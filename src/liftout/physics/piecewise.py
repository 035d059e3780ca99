"""Functions of weight made of straight pieces: what is needed of them to find extreme moments exactly.

A function is a list of pieces in the order of weight; where no piece lies, that weight cannot be reached. A piece may
be a single weight. The function may jump, and the higher value counts. Three operations keep it of this kind:

- `sum_of`: the largest sum of two functions whose weights add up to the weight asked for (sup-convolution). Along a run
  of pieces whose slopes fall, the best division takes the steepest first, so the sum of two runs is their pieces in the
  order of slope. A function that is not one such run is the highest of its runs, and the largest sum of two highests is
  the highest of the sums of all pairs of runs. Nothing is sampled and no hull is taken.
- `highest`: the highest of several functions at each weight; new corners lie where two pieces cross.
- `between`: the function from a least to a most weight.

Source: R. T. Rockafellar, Convex Analysis, 1970, section 16 (from memory), for the sum of two concave functions: it adds
their conjugates, which for straight pieces is to order them by slope. The rest is the distributive law of sum and maximum.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from operator import itemgetter
from typing import Final

Piece = tuple[float, float, float, float]
"""Low end, high end, value at the low end, slope."""
Function = list[Piece]
Run = tuple[float, float, list[tuple[float, float]]]
"""Low end, value there, and (slope, length) of each piece, slopes falling."""

SAME_WEIGHT: Final = 1e-10
"""Weights in kg that differ by no more are one weight: far above rounding, far below any scale."""
SAME_VALUE: Final = 1e-10
"""Values in kg·m that differ by no more are one value."""
PIECES_MAX: Final = 1_000_000
"""More pieces than this in one sum are refused, not thinned out: some seconds."""

_low = itemgetter(0)


class TooManyPieces(ValueError):
    """The function has more pieces than can be carried in reasonable time."""


def end_value(piece: Piece) -> float:
    """Value at the high end of a piece."""
    low, high, value, slope = piece
    return value + slope * (high - low)


def value_at(function: Function, weight_kg: float) -> tuple[float, float] | None:
    """The value at a weight, with the weight as the function has it (the nearest end when it differs by rounding only).

    Args:
        function: the function.
        weight_kg: the weight.

    Returns:
        Weight and value, or None where the function has none.

    Example (the higher value counts where it jumps):
        >>> jump = [(0.0, 2.0, 5.0, 0.0), (2.0, 4.0, 1.0, 1.0)]
        >>> value_at(jump, 2.0), value_at(jump, 3.0), value_at(jump, 4.5)
        ((2.0, 5.0), (3.0, 2.0), None)
    """
    best: tuple[float, float] | None = None
    place = bisect_right(function, weight_kg + SAME_WEIGHT, key=_low) - 1
    while place >= 0:
        low, high, value, slope = function[place]
        if high < weight_kg - SAME_WEIGHT:
            break
        at = low if weight_kg < low else min(weight_kg, high)
        found = value + slope * (at - low)
        if best is None or found > best[1]:
            best = at, found
        place -= 1
    return best


def shifted(function: Function, weight_kg: float, value: float) -> Function:
    """The function moved by a weight and a value."""
    return [(low + weight_kg, high + weight_kg, start + value, slope) for low, high, start, slope in function]


def between(function: Function, least_kg: float, most_kg: float) -> Function:
    """The function from a least to a most weight, both included; a weight beyond one by rounding only still counts.

    Example:
        >>> between([(0.0, 10.0, 0.0, 2.0)], 4.0, 6.0)
        [(4.0, 6.0, 8.0, 2.0)]
    """
    if least_kg > most_kg + SAME_WEIGHT:
        return []
    kept: Function = []
    for low, high, value, slope in function:
        if low > most_kg + SAME_WEIGHT:
            break
        if high < least_kg - SAME_WEIGHT:
            continue
        start, end = max(low, min(least_kg, high)), min(high, max(most_kg, low))
        kept.append((start, max(start, end), value + slope * (start - low), slope))
    return kept


def sum_of(one: Function, other: Function) -> Function:
    """The largest sum of two functions for each weight that a weight of one and a weight of the other add up to.

    Raises:
        TooManyPieces: when the sum has more than `PIECES_MAX`.

    Example (a person of 80 kg or none, and up to 30 kg farther aft):
        >>> sum_of([(0.0, 0.0, 0.0, 0.0), (80.0, 80.0, 160.0, 0.0)], [(0.0, 30.0, 0.0, 3.0)])
        [(0.0, 30.0, 0.0, 3.0), (80.0, 110.0, 160.0, 3.0)]
    """
    if len(one) * len(other) > PIECES_MAX:
        raise TooManyPieces(f"loads that come in so many different steps make more than {PIECES_MAX} pieces; give equal weights where they are equal")
    others = _runs(other)
    return highest([_sum_of_runs(run, partner) for run in _runs(one) for partner in others])


def highest(functions: Sequence[Function]) -> Function:
    """The highest of several functions at each weight.

    Example (two pieces that cross at 5):
        >>> highest([[(0.0, 10.0, 0.0, 1.0)], [(0.0, 10.0, 5.0, 0.0)]])
        [(0.0, 5.0, 5.0, 0.0), (5.0, 10.0, 5.0, 1.0)]
    """
    left = list(functions)
    while len(left) > 1:
        paired = [_higher(left[place], left[place + 1]) for place in range(0, len(left) - 1, 2)]
        left = paired + left[len(left) - len(left) % 2 :]
    return left[0] if left else []


def _runs(function: Function) -> list[Run]:
    """The function cut where it jumps or where its slope grows."""
    runs: list[Run] = []
    steps: list[tuple[float, float]] = []
    end = at = last = float("nan")
    for low, high, value, slope in function:
        if not (steps and abs(low - end) <= SAME_WEIGHT and abs(value - at) <= SAME_VALUE and slope <= last):
            steps = []
            runs.append((low, value, steps))
        if high > low:
            steps.append((slope, high - low))
        end, at, last = high, value + slope * (high - low), slope
    return runs


def _sum_of_runs(one: Run, other: Run) -> Function:
    low, value = one[0] + other[0], one[1] + other[1]
    pieces: Function = []
    last = None
    for slope, length in sorted(one[2] + other[2], reverse=True) if one[2] and other[2] else one[2] or other[2]:
        if slope == last:
            start, high, at, _ = pieces[-1]
            pieces[-1] = (start, high + length, at, slope)
        else:
            pieces.append((low, low + length, value, slope))
            last = slope
        low += length
        value += slope * length
    return pieces or [(low, low, value, 0.0)]


def _higher(one: Function, other: Function) -> Function:
    """The higher of two functions: both are walked at once, from corner to corner."""
    if not one or not other:
        return one or other
    out: Function = []
    a_left, b_left = iter(one), iter(other)
    a, b = next(a_left, None), next(b_left, None)
    while a is not None and b is not None:
        a_low, a_high, a_value, a_slope = a
        b_low, b_high, b_value, b_slope = b
        if a_high <= b_low and (a_high < b_low or a_low < a_high):
            _put(out, a)
            a = next(a_left, None)
            continue
        if b_high <= a_low and (b_high < a_low or b_low < b_high):
            _put(out, b)
            b = next(b_left, None)
            continue
        low = a_low
        if a_low < b_low:
            _put(out, (a_low, b_low, a_value, a_slope))
            low, a_value = b_low, a_value + a_slope * (b_low - a_low)
        elif b_low < a_low:
            _put(out, (b_low, a_low, b_value, b_slope))
            b_value += b_slope * (a_low - b_low)
        high = min(a_high, b_high)
        length = high - low
        ahead = a_value - b_value
        a_end, b_end = a_value + a_slope * length, b_value + b_slope * length
        ahead_end = a_end - b_end
        if ahead >= -SAME_VALUE and ahead_end >= -SAME_VALUE:
            _put(out, (low, high, a_value, a_slope))
        elif ahead <= SAME_VALUE and ahead_end <= SAME_VALUE:
            _put(out, (low, high, b_value, b_slope))
        else:
            cross = low + length * (ahead / (ahead - ahead_end))
            upper, lower = ((a_value, a_slope), (b_value, b_slope)) if ahead > 0 else ((b_value, b_slope), (a_value, a_slope))
            _put(out, (low, cross, *upper))
            _put(out, (cross, high, lower[0] + lower[1] * (cross - low), lower[1]))
        a = (high, a_high, a_end, a_slope) if a_high - high > SAME_WEIGHT else next(a_left, None)
        b = (high, b_high, b_end, b_slope) if b_high - high > SAME_WEIGHT else next(b_left, None)
    for rest, left in ((a, a_left), (b, b_left)):
        if rest is not None:
            _put(out, rest)
            for piece in left:
                _put(out, piece)
    return out


def _put(out: Function, piece: Piece) -> None:
    """Append a piece; one that goes on as the last did lengthens it, a single weight that lies no higher is left out."""
    if out:
        low, high, value, slope = out[-1]
        start, end, at, onward = piece
        reached = value + slope * (high - low)
        if onward == slope and abs(start - high) <= SAME_WEIGHT and abs(at - reached) <= SAME_VALUE:
            out[-1] = (low, max(high, end), value, slope)
            return
        if start == end and end <= high + SAME_WEIGHT and at <= reached + SAME_VALUE:
            return
        if low == high and start <= low + SAME_WEIGHT and at >= value - SAME_VALUE:
            out[-1] = piece
            return
    out.append(piece)
