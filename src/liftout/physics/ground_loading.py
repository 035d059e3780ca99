"""The loading that turns an aircraft most about a line on the ground: about its main wheels, towards tail or nose.

Persons board, baggage and fuel go in, in any order. Every moment on the way is one set of what may be aboard, so the worst of
all orders is the set with the largest moment about the line: everything beyond it in, everything before it out. Loads that
share a largest weight take of it in the order of their distance from the line; what comes in steps is tried in every
combination. There is no largest weight: nobody flies.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple

from liftout.physics.adverse_loading import COMBINATIONS_MAX, Load, Part, Shared, Side


class Standing(NamedTuple):
    """A loading on the ground.

    Attributes:
        added_kg: weight of each load, in the order given.
        weight_kg: total.
        moment_kgm: total, about the datum.
    """

    added_kg: tuple[float, ...]
    weight_kg: float
    moment_kgm: float


def most_turning(fixed_kg: float, fixed_kgm: float, loads: Sequence[Load], shared: Sequence[Shared], line_m: float, towards: Side) -> Standing:
    """The loading with the largest moment about a line.

    Args:
        fixed_kg: what is always aboard.
        fixed_kgm: its moment about the datum.
        loads: what may be aboard.
        shared: loads that share a largest weight; any two groups are nested or have no load in common.
        line_m: arm of the line.
        towards: aft, where a load behind the line counts, or forward.

    Returns:
        The loading; a load that would change nothing or help stays at its least.

    Raises:
        ValueError: when there are more than `COMBINATIONS_MAX` combinations of loads that come in steps, or no combination
            keeps what is shared.

    Example (AC 43.13-1B figure 10-10 about its forward limit, in lb and in, with a rear seat that stays empty):
        >>> from liftout.physics.adverse_loading import any_amount, in_or_out
        >>> fuel, seat = any_amount("fuel", 83.0, 240.0, 22.0), in_or_out("rear seat", 170.0, 48.0)
        >>> most_turning(1356.0, 14278.0, [fuel, seat], [], 8.5, "forward")
        Standing(added_kg=(83.0, 0.0), weight_kg=1439.0, moment_kgm=16104.0)
    """
    if math.prod(len(load.parts) for load in loads) > COMBINATIONS_MAX:
        raise ValueError(f"more than {COMBINATIONS_MAX} combinations of loads that come in steps")
    sign = 1.0 if towards == "aft" else -1.0
    best: tuple[float, Standing] | None = None
    for parts in itertools.product(*(load.parts for load in loads)):
        added = _filled(loads, parts, shared, line_m, sign)
        if added is None:
            continue
        weight_kg = math.fsum([fixed_kg, *(part.weight_kg + more for part, more in zip(parts, added, strict=True))])
        moment_kgm = math.fsum([fixed_kgm, *(part.moment_kgm + more * part.arm_m for part, more in zip(parts, added, strict=True))])
        turning = sign * (moment_kgm - weight_kg * line_m)
        if best is None or turning > best[0]:
            best = turning, Standing(tuple(part.weight_kg + more for part, more in zip(parts, added, strict=True)), weight_kg, moment_kgm)
    if best is None:
        raise ValueError("no combination of loads keeps what they share")
    return best[1]


def _filled(loads: Sequence[Load], parts: Sequence[Part], shared: Sequence[Shared], line_m: float, sign: float) -> list[float] | None:
    """What is added to each part of one combination: beyond the line all that fits, farthest first; None where the parts alone are too much."""
    room = [
        group.most_kg - math.fsum(part.weight_kg for load, part in zip(loads, parts, strict=True) if load.name in group.names) for group in shared
    ]
    if any(left < 0 for left in room):
        return None
    added = [0.0] * len(parts)
    for index in sorted(range(len(parts)), key=lambda index: -sign * parts[index].arm_m):
        if sign * (parts[index].arm_m - line_m) <= 0:
            break
        within = [number for number, group in enumerate(shared) if loads[index].name in group.names]
        added[index] = min([parts[index].span_kg, *(room[number] for number in within)])
        for number in within:
            room[number] -= added[index]
    return added
