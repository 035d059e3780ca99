"""Curves of pumps and fans: their points, and the faults of one that cannot be read."""

from __future__ import annotations

import itertools

from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault

FEWEST = 2


def curve_points(driven: Place) -> tuple[tuple[Amount, Amount], ...]:
    """Flow and pressure rise, point by point."""
    return tuple((point.quantity("flow"), point.quantity("pressure")) for point in driven.each("curve").values())


def at_no_flow(driven: Place, curve: tuple[tuple[Amount, Amount], ...]) -> tuple[Amount, Amount]:
    """Flow of the first point of a curve, and the pressure rise at no flow; a curve that begins at a flow does not tell it, for it lies higher.

    Args:
        driven: the pump or fan.
        curve: its points, one or more.
    """
    flow, rise = curve[0]
    if isinstance(flow, Fact) and flow.value.si > 0:
        return flow, Missing(f"the pressure at no flow, from the maker's data: its curve begins at {flow.value}", driven.job.place(driven.path))
    return flow, rise


def check_curve(driven: Place, faults: list[Fault]) -> None:
    """Flow rises from point to point and pressure does not."""
    points = list(driven.each("curve").values())
    if driven.there and len(points) < FEWEST:
        faults.append(driven.fault("curve", "has fewer than two points.", "Write pressure rise by flow, from no flow to the largest."))
    for before, after in itertools.pairwise(points):
        if after.said_at("flow").si <= before.said_at("flow").si:
            faults.append(after.fault("flow", "is not more than that of the point before.", "Write the points in order of flow."))
        if after.said_at("pressure").si > before.said_at("pressure").si:
            faults.append(
                after.fault("pressure", "is more than that of the point before.", "Leave out the rising branch: no pump and no fan is steady there.")
            )
