"""Weight and moment while tanks are emptied in their order, from take-off to no usable fuel."""

from __future__ import annotations

import math
from collections.abc import Sequence

from liftout.physics.adverse_loading import Load


def burn_track(
    dry_kg: float, dry_kgm: float, tanks: Sequence[Load], contents_kg: Sequence[float], order: Sequence[int]
) -> tuple[tuple[float, float], ...]:
    """Weight and moment at take-off, wherever a tank is done or passes a corner of its own, and without fuel; straight between.

    Args:
        dry_kg: weight without usable fuel.
        dry_kgm: its moment.
        tanks: the tanks.
        contents_kg: what each holds at take-off.
        order: the tanks, by index, in the order in which they are emptied.

    Example (a tank of 60 kg at 2 m that is emptied before one of 20 kg at 5 m):
        >>> from liftout.physics.adverse_loading import any_amount
        >>> tanks = any_amount("main", 0.0, 60.0, 2.0), any_amount("tail", 0.0, 20.0, 5.0)
        >>> burn_track(500.0, 1000.0, tanks, (60.0, 20.0), (0, 1))
        ((580.0, 1220.0), (520.0, 1100.0), (500.0, 1000.0))
    """
    left = list(contents_kg)
    points = [_sums(dry_kg, dry_kgm, tanks, left)]
    for index in order:
        corners = sorted((part.weight_kg for part in tanks[index].parts if 0 < part.weight_kg < left[index]), reverse=True)
        for contents in [*corners, 0.0] if left[index] > 0 else []:
            left[index] = contents
            points.append(_sums(dry_kg, dry_kgm, tanks, left))
    return tuple(points)


def _sums(dry_kg: float, dry_kgm: float, tanks: Sequence[Load], contents_kg: Sequence[float]) -> tuple[float, float]:
    moments = [_moment_kgm(tank, contents) for tank, contents in zip(tanks, contents_kg, strict=True)]
    return dry_kg + math.fsum(contents_kg), dry_kgm + math.fsum(moments)


def _moment_kgm(tank: Load, contents_kg: float) -> float:
    """Moment of what is in a tank; what fills it by rounding only lies on its last piece."""
    part = next((part for part in tank.parts if contents_kg <= part.weight_kg + part.span_kg), tank.parts[-1])
    return part.moment_kgm + (contents_kg - part.weight_kg) * part.arm_m
