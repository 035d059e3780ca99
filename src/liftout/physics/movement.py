"""How far a point of a strapped item moves under load: the straps stretch, the item is rigid, floor and stops give next to nothing.

The method of the unit load: forces that would balance a load of one at the point, in the direction asked about, tell by
how much each stretch moves it; the movement is the sum of force times stretch over all that is taut. Where straps that are
slack let the item move without anything stretching, more than one movement goes with the same stretches. Then the
largest is taken: those unit forces that make the sum least bound every movement there can be (a linear program and its
dual). A point that nothing bounds moves without end, as far as straps that stretch a little can tell.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Final, NamedTuple

from liftout.physics.linear_program import Optimum, Unproved, least_cost
from liftout.physics.restraint import KEPT, SLACK, Item, Sharing, Vector

UNIT_LEAST: Final = 1e-4
"""A unit force below this is none."""


class Movement(NamedTuple):
    """The farthest that a point moves, and its proof.

    Attributes:
        distance_m: how far; inf where nothing bounds it.
        unit_pulls: force in each strap for a load of one at the point; negative where it only lets go of its load.
        unit_pushes: the same of each support.
    """

    distance_m: float
    unit_pulls: tuple[float, ...]
    unit_pushes: tuple[float, ...]


def movement(
    item: Item, share: Sharing, strap_compliances_m_n: Sequence[float], support_compliance_m_n: float, point_m: Vector, towards: Vector
) -> Movement:
    """The farthest that a point of the item moves in a direction while a load is shared elastically.

    Args:
        item: the item and what holds it.
        share: the elastic share of the load.
        strap_compliances_m_n: stretch of each strap for its tension, with which the load was shared.
        support_compliance_m_n: the same of each support.
        point_m: the point, which moves with the item.
        towards: direction that is asked about, of length one.

    Example (one strap straight behind the point stretches by 10 mm):
        >>> from liftout.physics.restraint import Strap, elastic_share
        >>> item = Item(100.0, (0.0, 0.0, 0.0), (Strap("S", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 1e4),), ())
        >>> share = elastic_share(item, (-1.0, 0.0, 0.0), 10.0, [1e-5], 1e-8)
        >>> round(movement(item, share, [1e-5], 1e-8, (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0)).distance_m, 12)
        0.01
    """
    return _movement(item, share, tuple(strap_compliances_m_n), support_compliance_m_n, point_m, towards)


@lru_cache(maxsize=KEPT)
def _movement(
    item: Item, share: Sharing, strap_compliances_m_n: tuple[float, ...], support_compliance_m_n: float, point_m: Vector, towards: Vector
) -> Movement:
    """Sister ships, and one job with another of its values changed, ask for the very same again."""
    size_m = item.size_m
    wrenches = item.wrenches(size_m)
    load = item.wrench(point_m, towards, size_m)
    forces = [*share.tensions_n, *share.pushes_n]
    least = SLACK * max(forces, default=0.0)
    compliances = [*strap_compliances_m_n, *(support_compliance_m_n for _ in item.supports)]
    stretches = [compliance * force for compliance, force in zip(compliances, forces, strict=True)]
    taut = [index for index, force in enumerate(forces) if force > least]
    # A taut member keeps its length but for its stretch, so its unit force may have either sign; a slack one can only come loose.
    columns = [*wrenches, *(tuple(-part for part in wrenches[index]) for index in taut)]
    cost = [stretch if force > least else 0.0 for stretch, force in zip(stretches, forces, strict=True)]
    cost += [-stretches[index] for index in taut]
    size = max(map(abs, cost), default=0.0) or 1.0
    try:
        found = least_cost(columns, [-part for part in load], [math.inf] * len(columns), [part / size for part in cost])
    except Unproved:
        found = None
    straps = len(item.straps)
    if not isinstance(found, Optimum):
        return Movement(math.inf, (0.0,) * straps, (0.0,) * len(item.supports))
    unit = list(found.values[: len(wrenches)])
    for place, index in enumerate(taut, len(wrenches)):
        unit[index] -= found.values[place]
    return Movement(found.cost * size, tuple(unit[:straps]), tuple(unit[straps:]))
