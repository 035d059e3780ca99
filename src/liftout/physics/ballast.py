"""Weight added, taken out or moved, and what it does to the centre of gravity.

All functions take arms from the datum and never distances, so that two conventions cannot be mixed: what an added weight
does is the new total weight with the distance to the old centre of gravity; what must be added is the old total weight with the
distance to the new one. A weight that is taken out is negative. Any consistent units serve.

Sources: FAA-H-8083-30 p. 4-23 and FAA-H-8083-1B chapter 7 (ballast), FAA-H-8083-25 (weight shift, weight added or removed).
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from liftout.physics.adverse_loading import Side
from liftout.physics.envelope import Limit

AT_LIMIT: Final = 1e-9
"""Of the larger of two figures: closer than that they are the same."""


class NotReached(ValueError):
    """No weight at this place brings the centre of gravity where it should be."""


class Ballast(NamedTuple):
    """An amount of ballast and where it brings the centre of gravity.

    Attributes:
        steps: how many whole steps.
        weight_kg: amount.
        arm_m: centre of gravity with it.
        limit_m: the limit at the new weight.
    """

    steps: int
    weight_kg: float
    arm_m: float
    limit_m: float


def added_arm_m(weight_kg: float, arm_m: float, added_kg: float, at_m: float) -> float:
    """Centre of gravity after a weight is added, or taken out (negative).

    Raises:
        ValueError: when nothing would be left.

    Example (FAA-H-8083-25, 140 lb added at station 150, in lb and in):
        >>> added_arm_m(6860.0, 80.0, 140.0, 150.0)
        81.4
    """
    total_kg = weight_kg + added_kg
    if total_kg <= 0:
        raise ValueError(f"{-added_kg:.6g} kg taken out of {weight_kg:.6g} kg leave nothing")
    return (weight_kg * arm_m + added_kg * at_m) / total_kg


def added_shift_m(weight_kg: float, arm_m: float, added_kg: float, at_m: float) -> float:
    """How far the centre of gravity moves, positive aft: the added weight times its distance to the old one, over the new total.

    Example (EASA question bank, 400 kg added 2 m aft of the centre of gravity of 2000 kg):
        >>> round(added_shift_m(2000.0, 0.0, 400.0, 2.0), 2)
        0.33
    """
    return added_arm_m(weight_kg, arm_m, added_kg, at_m) - arm_m


def added_kg(weight_kg: float, arm_m: float, target_m: float, at_m: float) -> float:
    """Weight that brings the centre of gravity to an arm when it is added at another; negative where it must come out there.

    The old total times how far the centre of gravity must move, over the distance from the place to where it must come. As a least
    (ballast) it is rounded up, as a most (what a compartment may still take) down: see `least_ballast` and `most_addable`.

    Raises:
        NotReached: when the place is where the centre of gravity should come: no weight there moves it so far.

    Example (FAA mechanic bank, least ballast of a loaded aeroplane, in lb and in):
        >>> round(added_kg(4954.0, 30.5, 32.0, 162.0), 2)
        57.16
    """
    if target_m == arm_m:
        return 0.0
    if at_m == target_m:
        raise NotReached(f"a weight at {at_m:.6g} m never brings the centre of gravity there")
    return weight_kg * (target_m - arm_m) / (at_m - target_m)


def ballast_arm_m(weight_kg: float, arm_m: float, target_m: float, ballast_kg: float) -> float:
    """Arm at which so much ballast brings the centre of gravity to an arm.

    Raises:
        NotReached: without ballast.

    Example (the published ballast of 7.7 lb, in lb and in):
        >>> round(ballast_arm_m(1876.0, 32.2, 33.0, 7.69641))
        228
    """
    if ballast_kg <= 0:
        raise NotReached("without ballast the centre of gravity stays where it is")
    return target_m + weight_kg * (target_m - arm_m) / ballast_kg


def least_ballast(weight_kg: float, arm_m: float, limit: Limit, side: Side, at_m: float, step_kg: float, most_kg: float) -> Ballast:
    """The least whole number of steps of ballast at a place that brings the centre of gravity on or inside a limit.

    The limit is taken at the weight with the ballast, and each rounded amount is looked at itself: a published 57.16 lb leaves the
    centre of gravity at 31.99996 in, outside 32.0.

    Args:
        weight_kg: weight of the aircraft as it is loaded.
        arm_m: its centre of gravity.
        limit: the limit that it lies outside.
        side: forward or aft limit.
        at_m: arm of the place for ballast.
        step_kg: step of the amount: a whole pound.
        most_kg: the most that the place may hold.

    Raises:
        NotReached: when no amount that the place may hold helps, or the envelope ends before.

    Example (FAA mechanic bank, in lb and in):
        >>> found = least_ballast(4954.0, 30.5, Limit(((6000.0, 32.0),), in_moment=False), "forward", 162.0, 1.0, 100.0)
        >>> found.steps, round(found.arm_m, 4)
        (58, 32.0217)
    """
    for steps in range(math.floor(most_kg / step_kg * (1 + AT_LIMIT)) + 1):
        total_kg = weight_kg + steps * step_kg
        if total_kg > limit.weights_kg[-1]:
            break
        limit_m, reached_m = limit.arm_m(total_kg), added_arm_m(weight_kg, arm_m, steps * step_kg, at_m)
        outside_m = limit_m - reached_m if side == "forward" else reached_m - limit_m
        if outside_m <= AT_LIMIT * max(abs(limit_m), abs(reached_m)):
            return Ballast(steps, steps * step_kg, reached_m, limit_m)
    raise NotReached(f"no ballast at {at_m:.6g} m brings the centre of gravity inside the {side} limit")


def most_addable(weight_kg: float, arm_m: float, target_m: float, at_m: float, step_kg: float) -> int:
    """Whole steps of weight that may be added at a place before the centre of gravity passes an arm; a most is rounded down.

    Raises:
        NotReached: when weight there never takes the centre of gravity to that arm.

    Example (EASA question bank, 207.14 kg before the aft limit):
        >>> most_addable(2900.0, 115.0, 116.0, 130.0, 1.0)
        207
    """
    exact_kg = added_kg(weight_kg, arm_m, target_m, at_m)
    if exact_kg < 0:
        raise NotReached(f"weight at {at_m:.6g} m takes the centre of gravity away from {target_m:.6g} m")
    return math.floor(exact_kg / step_kg * (1 + AT_LIMIT))


def moved_arm_m(weight_kg: float, arm_m: float, moved_kg: float, from_m: float, to_m: float) -> float:
    """Centre of gravity after a weight aboard is moved.

    Example (FAA-H-8083-25, 100 lb from station 30 to station 150, in lb and in):
        >>> moved_arm_m(8000.0, 77.0, 100.0, 30.0, 150.0)
        78.5
    """
    return arm_m + moved_kg * (to_m - from_m) / weight_kg


def moved_kg(weight_kg: float, arm_m: float, target_m: float, from_m: float, to_m: float) -> float:
    """Weight to move from one arm to another so that the centre of gravity comes to a third.

    Raises:
        NotReached: when moving from there to there takes it away, or moves nothing.

    Example (FAA-H-8083-25, in lb and in):
        >>> moved_kg(7800.0, 81.5, 80.5, 150.0, 30.0)
        65.0
    """
    if target_m == arm_m:
        return 0.0
    if (target_m - arm_m) * (to_m - from_m) <= 0:
        raise NotReached(f"what moves from {from_m:.6g} m to {to_m:.6g} m does not take the centre of gravity from {arm_m:.6g} m to {target_m:.6g} m")
    return weight_kg * (target_m - arm_m) / (to_m - from_m)
