"""Tanks that are filled, or burnt from, in a published order: their moment depends on the total alone.

The order is a list of stages, each the contents of every tank; between two stages all tanks go in proportion. The fuel is
then one load with one polyline, which has a corner at each stage and wherever a tank passes a corner of its own. Burning
goes through the same stages backwards. What may happen when the order is not kept is the sum of free tanks, a wider set.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from liftout.physics.adverse_loading import Load, tank


def in_order(name: str, tanks: Sequence[Load], stages_kg: Sequence[Sequence[float]], least_kg: float, most_kg: float) -> Load:
    """The fuel of several tanks as one load of their total.

    Args:
        name: name of the fuel.
        tanks: the tanks, from their least contents to their most.
        stages_kg: contents of each tank at each stage; none falls from one stage to the next.
        least_kg: least total.
        most_kg: largest total.

    Raises:
        ValueError: when contents fall from a stage to the next, leave what a tank holds, or the stages do not cover the totals.

    Example (a main tank first, then one in the tail):
        >>> main, tail = tank("main", 0.0, 60.0, ((0.0, 0.0), (60.0, 120.0))), tank("tail", 0.0, 20.0, ((0.0, 0.0), (20.0, 100.0)))
        >>> fuel = in_order("fuel", (main, tail), ((0.0, 0.0), (60.0, 0.0), (60.0, 20.0)), 10.0, 80.0)
        >>> [(part.weight_kg, part.moment_kgm, part.span_kg, part.arm_m) for part in fuel.parts]
        [(10.0, 20.0, 50.0, 2.0), (60.0, 120.0, 20.0, 5.0)]
    """
    points = [_sums(tanks, stages_kg[0])]
    for start, end in itertools.pairwise(stages_kg):
        if any(after < before for before, after in zip(start, end, strict=True)):
            raise ValueError(f"{name}: contents fall from stage {list(start)} to stage {list(end)} kg; give the stages from empty to full")
        shares = {1.0}
        for one, before, after in zip(tanks, start, end, strict=True):
            corners = (part.weight_kg for part in one.parts)
            shares.update((corner - before) / (after - before) for corner in corners if before < corner < after)
        for share in sorted(shares):
            there = [before + share * (after - before) for before, after in zip(start, end, strict=True)] if share < 1 else end
            point = _sums(tanks, there)
            if point[0] > points[-1][0]:
                points.append(point)
    return tank(name, least_kg, most_kg, points)


def contents_kg(stages_kg: Sequence[Sequence[float]], total_kg: float) -> tuple[float, ...]:
    """Contents of each tank at a total.

    Args:
        stages_kg: as for `in_order`.
        total_kg: total of all tanks.

    Raises:
        ValueError: when the stages do not cover the total.

    Example:
        >>> contents_kg(((0.0, 0.0), (60.0, 0.0), (60.0, 20.0)), 70.0)
        (60.0, 10.0)
    """
    for start, end in itertools.pairwise(stages_kg):
        low, high = math.fsum(start), math.fsum(end)
        if low <= total_kg <= high:
            share = (total_kg - low) / (high - low) if high > low else 0.0
            return tuple(before + share * (after - before) for before, after in zip(start, end, strict=True))
    raise ValueError(f"the stages run from {math.fsum(stages_kg[0]):.6g} to {math.fsum(stages_kg[-1]):.6g} kg, not to {total_kg:.6g} kg")


def _sums(tanks: Sequence[Load], contents: Sequence[float]) -> tuple[float, float]:
    """Total contents and total moment."""
    return math.fsum(contents), math.fsum(_moment_kgm(one, amount) for one, amount in zip(tanks, contents, strict=True))


def _moment_kgm(one: Load, contents: float) -> float:
    for part in one.parts:
        if part.weight_kg <= contents <= part.weight_kg + part.span_kg:
            return part.moment_kgm + (contents - part.weight_kg) * part.arm_m
    raise ValueError(f"{one.name}: {contents:.6g} kg lies outside what the tank holds, {one.least_kg:.6g} to {one.most_kg:.6g} kg")
