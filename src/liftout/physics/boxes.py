"""Boxes square to the axes of the aircraft: how far two of them are apart, and what growing does to them.

Two boxes are apart as soon as they are apart along one axis, so the gap that counts is the largest of the three. Where
it is negative they overlap, and it says how far one of them must be moved, along that axis, to get clear.
"""

from __future__ import annotations

from typing import NamedTuple


class Box(NamedTuple):
    """Least and largest coordinate along each axis: arm aft, lateral to the right, height up."""

    front_m: float
    rear_m: float
    left_m: float
    right_m: float
    bottom_m: float
    top_m: float


class Gaps(NamedTuple):
    """Gap of two boxes along each axis; negative where their shadows on it overlap."""

    arm_m: float
    lateral_m: float
    height_m: float


def grown(box: Box, forward_m: float, aft_m: float, left_m: float, right_m: float, down_m: float, up_m: float) -> Box:
    """The box with each face moved outward.

    Args:
        box: the box.
        forward_m: how far the front face moves forward.
        aft_m: how far the rear face moves aft.
        left_m: how far the left face moves to the left.
        right_m: how far the right face moves to the right.
        down_m: how far the lower face moves down.
        up_m: how far the upper face moves up.
    """
    return Box(box.front_m - forward_m, box.rear_m + aft_m, box.left_m - left_m, box.right_m + right_m, box.bottom_m - down_m, box.top_m + up_m)


def gaps(a: Box, b: Box) -> Gaps:
    """The gaps between two boxes along the axes.

    Example:
        >>> gaps(Box(0.0, 1.0, 0.0, 1.0, 0.0, 1.0), Box(1.5, 2.0, 0.5, 2.0, -3.0, -2.0))
        Gaps(arm_m=0.5, lateral_m=-0.5, height_m=2.0)
    """
    return Gaps(
        max(b.front_m - a.rear_m, a.front_m - b.rear_m),
        max(b.left_m - a.right_m, a.left_m - b.right_m),
        max(b.bottom_m - a.top_m, a.bottom_m - b.top_m),
    )


def separation(a: Box, b: Box) -> float:
    """The largest of the gaps, in m: how far apart two boxes are; negative, how deep they overlap."""
    return max(gaps(a, b))


def axis(a: Box, b: Box) -> str:
    """The axis along which two boxes are farthest apart, or overlap least: fore and aft, side to side, up and down."""
    found = gaps(a, b)
    return ("fore and aft", "side to side", "up and down")[found.index(max(found))]
