"""Where a falling function of one value begins to be below zero.

Halving takes some fifty steps to the last float that a number has. Most functions here are smooth, and an inverse parabola through the last
three points then takes a third of them; where such a parabola may not be trusted, at a kink or a step, the bracket is halved. The rule that
tells one from the other is that of Chandrupatla (Advances in Engineering Software 28 (1997), pp. 145 to 149; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

STEPS_MAX: Final = 200


def crossing(function: Callable[[float], float], low: float, high: float) -> float:
    """The last value from `low` to `high` at which a falling function is not below zero, to the last digit.

    Args:
        function: not below zero at `low`; it falls, and may do so in steps.
        low: the least value.
        high: the largest value; the answer where the function is not below zero there either.

    Example (a square, and a step):
        >>> crossing(lambda x: 2.0 - x * x, 0.0, 2.0), crossing(lambda x: 1.0 if x <= 0.3 else -5.0, 0.0, 1.0)
        (1.414213562373095, 0.3)
    """
    here, there = high, low  # the newest point, and the one across
    at_here, at_there = function(here), function(there)
    if at_here >= 0:
        return high
    share = 0.5
    for _ in range(STEPS_MAX):
        low, high, middle = min(here, there), max(here, there), (here + there) / 2
        if not low < middle < high:
            break
        least = math.ulp(high) / (high - low)  # so that the far end comes near too, once the other is as near as floats are
        point = here + min(max(share, least), 1 - least) * (there - here)
        if not low < point < high:
            point = middle
        at_point = function(point)
        if (at_point >= 0) == (at_here >= 0):
            before, at_before = here, at_here
        else:
            before, at_before, there, at_there = there, at_there, here, at_here
        here, at_here = point, at_point
        share = _share(here, there, before, at_here, at_there, at_before)
    return min(here, there)


def _share(here: float, there: float, before: float, at_here: float, at_there: float, at_before: float) -> float:
    """Share of the way from here to there at which the inverse parabola is zero, or a half where it may turn between the three points."""
    if at_before in (at_here, at_there):
        return 0.5
    place, height = (here - there) / (before - there), (at_here - at_there) / (at_before - at_there)
    if height**2 >= place or (1 - height) ** 2 >= 1 - place:
        return 0.5
    straight = at_here / (at_there - at_here) * at_before / (at_there - at_before)
    bent = (before - here) / (there - here) * at_here / (at_before - at_here) * at_there / (at_before - at_there)
    return straight + bent
