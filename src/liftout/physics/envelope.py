"""Limits of the centre of gravity that change with weight: straight lines between points.

Constant below the lowest point, none above the last. On a limit is inside.
Source: FAA-H-8083-30, p. 4-17 (type certificate data sheet example).
"""

from __future__ import annotations

import itertools
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple


class AboveEnvelope(ValueError):
    """There is no limit at a weight above the last point of the envelope.

    Attributes:
        weight_kg: the weight asked for.
        last_kg: the highest weight of the envelope.
    """

    def __init__(self, weight_kg: float, last_kg: float) -> None:
        super().__init__(f"no limit at {weight_kg:.6g} kg: the envelope ends at {last_kg:.6g} kg")
        self.weight_kg = weight_kg
        self.last_kg = last_kg

    def __reduce__(self) -> tuple[type[AboveEnvelope], tuple[float, float]]:
        """Travels between processes with its parts."""
        return type(self), (self.weight_kg, self.last_kg)


@dataclass(frozen=True, slots=True)
class Limit:
    """One side of an envelope.

    Attributes:
        points: weight in kg with arm in m, or with moment in kg·m; weights rise strictly.
        in_moment: whether the second figure of a point is a moment; lines are then straight in moment.
        weights_kg: the weights of the points.
    """

    points: tuple[tuple[float, float], ...]
    in_moment: bool
    weights_kg: tuple[float, ...] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        weights = tuple(weight for weight, _ in self.points)
        object.__setattr__(self, "weights_kg", weights)  # asked for at every weight that is looked at
        if not weights or any(later <= earlier for earlier, later in itertools.pairwise(weights)):
            raise ValueError(f"the weights of an envelope must rise from point to point, not run {list(weights)}")

    def arm_m(self, weight_kg: float) -> float:
        """Arm of the limit at a weight.

        Raises:
            AboveEnvelope: above the last point.

        Example (FAA-H-8083-30, p. 4-17, in lb and in):
            >>> forward = Limit(((2780.0, 80.7), (3400.0, 82.0), (4000.0, 86.4)), in_moment=False)
            >>> [round(forward.arm_m(weight), 3) for weight in (2000.0, 3000.0, 3700.0)]
            [80.7, 81.161, 84.2]
        """
        lower, upper = bracket(self.weights_kg, weight_kg)
        (weight_low, low), (weight_high, high) = self.points[lower], self.points[upper]
        if lower == upper:
            return low / weight_low if self.in_moment else low
        between = low + (high - low) * (weight_kg - weight_low) / (weight_high - weight_low)
        return between / weight_kg if self.in_moment else between


class Position(NamedTuple):
    """Where a centre of gravity lies between its limits; a negative distance is outside."""

    forward_m: float
    aft_m: float
    behind_forward_m: float
    ahead_of_aft_m: float

    @property
    def inside(self) -> bool:
        """Whether it lies on or between the limits."""
        return self.behind_forward_m >= 0 and self.ahead_of_aft_m >= 0


def bracket(weights_kg: Sequence[float], weight_kg: float) -> tuple[int, int]:
    """The two points between which a weight lies, as indices; the same index twice where the limit is constant.

    Args:
        weights_kg: rising weights of the points.
        weight_kg: the weight.

    Returns:
        Indices of the point at or below and of the point at or above; (0, 0) at or below the lowest.

    Raises:
        AboveEnvelope: above the last point.

    Example:
        >>> bracket((2780.0, 3400.0, 4000.0), 3000.0), bracket((2780.0, 3400.0, 4000.0), 1500.0)
        ((0, 1), (0, 0))
    """
    if weight_kg > weights_kg[-1]:
        raise AboveEnvelope(weight_kg, weights_kg[-1])
    if weight_kg <= weights_kg[0]:
        return 0, 0
    upper = bisect_left(weights_kg, weight_kg)
    return upper - 1, upper


def position(forward: Limit, aft: Limit, weight_kg: float, arm_m: float) -> Position:
    """Where a centre of gravity lies at a weight.

    Args:
        forward: the forward limit.
        aft: the aft limit.
        weight_kg: weight.
        arm_m: arm of the centre of gravity, positive aft.

    Raises:
        AboveEnvelope: above the last point of either limit.

    Example:
        >>> sides = Limit(((100.0, 2.0),), in_moment=False), Limit(((100.0, 3.0),), in_moment=False)
        >>> position(*sides, 100.0, 2.0).inside, position(*sides, 100.0, 3.1).inside
        (True, False)
    """
    forward_m, aft_m = forward.arm_m(weight_kg), aft.arm_m(weight_kg)
    return Position(forward_m=forward_m, aft_m=aft_m, behind_forward_m=arm_m - forward_m, ahead_of_aft_m=aft_m - arm_m)
