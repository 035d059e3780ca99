"""Lifting by hand: the revised NIOSH lifting equation, one end of one lift.

Coefficients are handed in, in SI; the manual prints two sets that differ by up to two per cent.
"""

from __future__ import annotations

from typing import NamedTuple


class Law(NamedTuple):
    """Coefficients of the lifting equation.

    Attributes:
        load_kg: load constant, the limit under the best conditions.
        reach_best_m: reach up to which nothing is lost.
        reach_most_m: reach beyond which no load is recommended.
        height_best_m: best height of the hands.
        height_most_m: height beyond which no load is recommended.
        loss_per_m: loss for each metre above or below the best height.
        travel_constant: constant part of the distance multiplier.
        travel_m: over the height lifted.
        travel_least_m: height lifted; a smaller one counts as this.
        loss_per_rad: loss for each radian turned.
        turned_most_rad: turn beyond which no load is recommended.
    """

    load_kg: float
    reach_best_m: float
    reach_most_m: float
    height_best_m: float
    height_most_m: float
    loss_per_m: float
    travel_constant: float
    travel_m: float
    travel_least_m: float
    loss_per_rad: float
    turned_most_rad: float


class Hands(NamedTuple):
    """Where the hands are: level distance from the ankles, height above the ground, angle from straight ahead."""

    reach_m: float
    height_m: float
    turned_rad: float


def beyond(hands: Hands, law: Law) -> tuple[str, ...]:
    """What lies beyond the equation, where it recommends no load: among reach, height and turned.

    Args:
        hands: one end of the lift.
        law: the coefficients.

    Source: DHHS (NIOSH) 94-110, sections 1.3.1 to 1.3.4.
    """
    most = {
        "reach": (hands.reach_m, law.reach_most_m),
        "height": (hands.height_m, law.height_most_m),
        "turned": (hands.turned_rad, law.turned_most_rad),
    }
    return tuple(name for name, (value, limit) in most.items() if value > limit * (1 + 1e-9))


def recommended_kg(hands: Hands, lifted_m: float, frequency: float, grip: float, law: Law) -> float:
    """The recommended weight limit at one end of a lift; zero beyond the equation.

    Args:
        hands: one end of the lift.
        lifted_m: height between both ends, up or down.
        frequency: frequency multiplier.
        grip: coupling multiplier.
        law: the coefficients.

    Source: DHHS (NIOSH) 94-110, section 1.3.

    Example:
        >>> law = Law(23.0, 0.25, 0.63, 0.75, 1.75, 0.3, 0.82, 0.045, 0.25, 0.18, 2.36)
        >>> recommended_kg(Hands(0.25, 0.75, 0.0), 0.25, 1.0, 1.0, law)
        23.0
    """
    if beyond(hands, law):
        return 0.0
    horizontal = law.reach_best_m / max(hands.reach_m, law.reach_best_m)
    vertical = 1 - law.loss_per_m * abs(hands.height_m - law.height_best_m)
    distance = law.travel_constant + law.travel_m / max(lifted_m, law.travel_least_m)
    asymmetry = 1 - law.loss_per_rad * hands.turned_rad
    return law.load_kg * horizontal * vertical * distance * asymmetry * frequency * grip
