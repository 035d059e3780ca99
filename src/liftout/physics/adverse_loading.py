"""The loadings that carry the centre of gravity farthest forward and farthest aft.

Two answers to one question, and why there are two:

`by_rule` is the published procedure (AC 43.13-1B par. 10-17; FAA-H-8083-30 p. 4-21). For the forward check
everything whose arm lies ahead of the forward limit is in, everything else is out or at its least; the aft check is
mirrored about the aft limit. It looks at one arm at a time, takes the limit at one stated weight, and knows no
largest weight: its result may be heavier than the aircraft may be.

`worst` is the true extreme: among all loadings not heavier than the cap, the one whose centre of gravity lies least
far inside the limit that holds at its own weight (farthest outside, if any is outside). It is exact, not sampled:

1. Whatever comes in steps (a person, an item of equipment, a segment of a tank whose arm depends on its contents)
   is tried in every combination.
2. Within one combination the divisible amounts are filled in the order of their arms. For each total weight that
   gives the extreme moment, also where stations share a largest weight, as long as such groups are nested or apart.
3. Along that filling the distance to the limit is a + c/W - (l + s·W) from point to point, so its extreme lies at
   an end of a piece or where the weight is sqrt(-c/s).

Both return the loading itself, so that a sheet can print it and its sum of moments as proof.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Final, Literal, NamedTuple

from liftout.physics.envelope import Limit
from liftout.physics.piecewise import SAME_WEIGHT

Side = Literal["forward", "aft"]

COMBINATIONS_MAX: Final = 200_000
"""More combinations than this are refused, not sampled: some ten seconds."""


class NoLoading(ValueError):
    """No loading stays at or below the cap: what is always aboard already exceeds it."""


class Part(NamedTuple):
    """A choice of a load: an amount that is aboard, and a span that may be added to it in any amount.

    Attributes:
        weight_kg: what is aboard with this choice.
        moment_kgm: its moment.
        span_kg: what may be added.
        arm_m: arm at which it is added.
    """

    weight_kg: float
    moment_kgm: float
    span_kg: float
    arm_m: float


class Load(NamedTuple):
    """Something that may be aboard, with the choices there are; make one with `in_or_out`, `any_amount` or `tank`."""

    name: str
    parts: tuple[Part, ...]

    @property
    def least_kg(self) -> float:
        """The least that is aboard."""
        return min(part.weight_kg for part in self.parts)

    @property
    def most_kg(self) -> float:
        """The most that can be aboard."""
        return max(part.weight_kg + part.span_kg for part in self.parts)

    @property
    def arm_m(self) -> float:
        """Arm of what lies between the least and the most."""
        low = min(self.parts, key=lambda part: part.weight_kg)
        high = max(self.parts, key=lambda part: part.weight_kg + part.span_kg)
        weight = high.weight_kg + high.span_kg - low.weight_kg
        return (high.moment_kgm + high.span_kg * high.arm_m - low.moment_kgm) / weight if weight else low.arm_m


class Shared(NamedTuple):
    """Loads that share a largest weight: two baggage spaces, or all that is not fuel."""

    names: frozenset[str]
    most_kg: float


class Aboard(NamedTuple):
    """How much of a load is aboard: at its least, at its most, or a part."""

    name: str
    weight_kg: float
    moment_kgm: float
    at: Literal["least", "most", "part"]


class Loading(NamedTuple):
    """A loading and its proof: what is aboard, its sums, the limit at its weight.

    Attributes:
        aboard: the loads, in the order given.
        weight_kg: total, with what is always aboard.
        moment_kgm: total.
        limit_m: arm of the limit it was held against.
        inside_m: distance from the limit to the inside; negative is outside.
    """

    aboard: tuple[Aboard, ...]
    weight_kg: float
    moment_kgm: float
    limit_m: float
    inside_m: float

    @property
    def arm_m(self) -> float:
        """Centre of gravity."""
        return self.moment_kgm / self.weight_kg


def in_or_out(name: str, weight_kg: float, arm_m: float) -> Load:
    """A load that is aboard or not: a person, an item of equipment.

    Example:
        >>> in_or_out("cooler", 15.0, 3.0).most_kg
        15.0
    """
    return Load(name, (Part(0.0, 0.0, 0.0, arm_m), Part(weight_kg, weight_kg * arm_m, 0.0, arm_m)))


def any_amount(name: str, least_kg: float, most_kg: float, arm_m: float) -> Load:
    """A load in any amount between two weights at one arm: baggage, fuel.

    Example:
        >>> any_amount("baggage", 0.0, 50.0, 3.5).arm_m
        3.5
    """
    return Load(name, (Part(least_kg, least_kg * arm_m, most_kg - least_kg, arm_m),))


def tank(name: str, least_kg: float, most_kg: float, points: Sequence[tuple[float, float]]) -> Load:
    """A tank whose arm depends on its contents.

    Args:
        name: name.
        least_kg: least contents.
        most_kg: largest contents.
        points: contents in kg with moment in kg·m, rising from (0, 0); straight between them.

    Raises:
        ValueError: when the points do not cover the contents.

    Example:
        >>> wing = tank("wing tank", 10.0, 100.0, ((0.0, 0.0), (50.0, 100.0), (100.0, 220.0)))
        >>> [(part.weight_kg, part.moment_kgm, part.span_kg, part.arm_m) for part in wing.parts]
        [(10.0, 20.0, 40.0, 2.0), (50.0, 100.0, 50.0, 2.4)]
    """
    if points[0][0] > least_kg or points[-1][0] < most_kg or not least_kg <= most_kg:
        raise ValueError(f"{name}: the points run from {points[0][0]} to {points[-1][0]} kg, the contents from {least_kg} to {most_kg} kg")
    parts: list[Part] = []
    for (weight_low, moment_low), (weight_high, moment_high) in itertools.pairwise(points):
        arm_m = (moment_high - moment_low) / (weight_high - weight_low)
        low, high = max(weight_low, least_kg), min(weight_high, most_kg)
        if low < high or (low == high == least_kg == most_kg and not parts):
            parts.append(Part(low, moment_low + (low - weight_low) * arm_m, high - low, arm_m))
    return Load(name, tuple(parts))


def by_rule(fixed_kg: float, fixed_kgm: float, loads: Sequence[Load], side: Side, limit_m: float) -> Loading:
    """The adverse loading of the published procedure.

    Args:
        fixed_kg: what is always aboard: empty weight, pilot, oil.
        fixed_kgm: its moment.
        loads: what may be aboard; fuel with its minimum as its least.
        side: which check.
        limit_m: the limit that each arm is compared with, at a weight the caller states.

    Returns:
        The loading, held against that same limit. It may be heavier than allowed.

    Example (AC 43.13-1B figure 10-10, in lb and in, with a rear seat that stays empty):
        >>> fuel, seat = any_amount("fuel", 83.0, 240.0, 22.0), in_or_out("rear seat", 170.0, 48.0)
        >>> found = by_rule(1356.0, 14278.0, [fuel, seat], "forward", 8.5)
        >>> found.weight_kg, found.moment_kgm, round(found.arm_m, 1)
        (1439.0, 16104.0, 11.2)
    """
    aboard = []
    for load in loads:
        beyond = load.arm_m < limit_m if side == "forward" else load.arm_m > limit_m
        if beyond:
            part = max(load.parts, key=lambda part: part.weight_kg + part.span_kg)
            weight, moment = part.weight_kg + part.span_kg, part.moment_kgm + part.span_kg * part.arm_m
        else:
            part = min(load.parts, key=lambda part: part.weight_kg)
            weight, moment = part.weight_kg, part.moment_kgm
        aboard.append(Aboard(load.name, weight, moment, _at(load, weight)))
    weight_kg = math.fsum([fixed_kg, *(load.weight_kg for load in aboard)])
    moment_kgm = math.fsum([fixed_kgm, *(load.moment_kgm for load in aboard)])
    return Loading(tuple(aboard), weight_kg, moment_kgm, limit_m, _inside(side, moment_kgm / weight_kg, limit_m))


def worst(fixed_kg: float, fixed_kgm: float, loads: Sequence[Load], shared: Sequence[Shared], cap_kg: float, side: Side, limit: Limit) -> Loading:
    """The loading, not heavier than the cap, whose centre of gravity lies least far inside the limit at its weight.

    Args:
        fixed_kg: what is always aboard.
        fixed_kgm: its moment.
        loads: what may be aboard.
        shared: loads that share a largest weight; any two groups are nested or have no load in common.
        cap_kg: the largest weight; the last weight of the envelope is one too.
        side: which limit.
        limit: the limit.

    Raises:
        NoLoading: when every loading is heavier than the cap.
        ValueError: when groups overlap, or there are more than `COMBINATIONS_MAX` combinations.

    Example:
        >>> aft = Limit(((600.0, 3.0), (1000.0, 2.9)), in_moment=False)
        >>> found = worst(800.0, 2240.0, [any_amount("baggage", 0.0, 60.0, 4.0), in_or_out("pilot's bag", 10.0, 1.0)], [], 850.0, "aft", aft)
        >>> [(load.name, load.weight_kg, load.at) for load in found.aboard]
        [('baggage', 50.0, 'part'), ("pilot's bag", 0.0, 'least')]
    """
    check_nested(shared)
    if math.prod(len(load.parts) for load in loads) > COMBINATIONS_MAX:
        raise ValueError(f"more than {COMBINATIONS_MAX} combinations of loads that come in steps")
    cap_kg = min(cap_kg, limit.weights_kg[-1])
    groups = [_Group(group.most_kg, frozenset(place for place, load in enumerate(loads) if load.name in group.names)) for group in shared]
    best: tuple[float, tuple[Part, ...], tuple[float, ...]] | None = None
    for parts in itertools.product(*(load.parts for load in loads)):
        for inside_m, added_kg in _fillings(fixed_kg, fixed_kgm, parts, groups, cap_kg, side, limit):
            if best is None or inside_m < best[0]:
                best = inside_m, parts, tuple(added_kg)
    if best is None:
        raise NoLoading(f"the lightest loading is heavier than {cap_kg:.6g} kg")
    return _loading(fixed_kg, fixed_kgm, loads, best[1], best[2], side, limit)


def _loading(
    fixed_kg: float, fixed_kgm: float, loads: Sequence[Load], parts: Sequence[Part], added_kg: Sequence[float], side: Side, limit: Limit
) -> Loading:
    """The loading of one combination with so much added to each part."""
    aboard = tuple(
        Aboard(load.name, part.weight_kg + added, part.moment_kgm + added * part.arm_m, _at(load, part.weight_kg + added))
        for load, part, added in zip(loads, parts, added_kg, strict=True)
    )
    weight_kg = math.fsum([fixed_kg, *(load.weight_kg for load in aboard)])
    moment_kgm = math.fsum([fixed_kgm, *(load.moment_kgm for load in aboard)])
    limit_m = limit.arm_m(min(weight_kg, limit.weights_kg[-1]))
    return Loading(aboard, weight_kg, moment_kgm, limit_m, _inside(side, moment_kgm / weight_kg, limit_m))


class _Group(NamedTuple):
    """Loads, by their places, that share a largest weight."""

    most_kg: float
    places: frozenset[int]


def _fillings(
    fixed_kg: float, fixed_kgm: float, parts: Sequence[Part], groups: Sequence[_Group], cap_kg: float, side: Side, limit: Limit
) -> Iterator[tuple[float, list[float]]]:
    """Distance inside the limit, and what is added to each part (one list, changed as it goes), wherever the extreme of one combination may lie."""
    weight_kg = fixed_kg + math.fsum([part.weight_kg for part in parts])
    moment_kgm = fixed_kgm + math.fsum([part.moment_kgm for part in parts])
    room = [group.most_kg - math.fsum([part.weight_kg for place, part in enumerate(parts) if place in group.places]) for group in groups]
    # What fills a largest weight exactly must not fail it by the rounding of its sum.
    if weight_kg > cap_kg + SAME_WEIGHT or any(left < -SAME_WEIGHT for left in room):
        return
    last_kg = limit.weights_kg[-1]
    added_kg = [0.0] * len(parts)
    yield _inside(side, moment_kgm / weight_kg, limit.arm_m(min(weight_kg, last_kg))), added_kg
    divisible = [place for place, part in enumerate(parts) if part.span_kg > 0]
    for place in sorted(divisible, key=lambda place: parts[place].arm_m, reverse=side == "aft"):
        part = parts[place]
        within = [number for number, group in enumerate(groups) if place in group.places]
        span_kg = min([part.span_kg, cap_kg - weight_kg, *(room[number] for number in within)])
        if span_kg <= 0:
            continue
        for amount_kg in _turning_points(weight_kg, moment_kgm, part.arm_m, span_kg, limit):
            added_kg[place] = amount_kg
            total_kg = min(weight_kg + amount_kg, last_kg)
            yield _inside(side, (moment_kgm + amount_kg * part.arm_m) / total_kg, limit.arm_m(total_kg)), added_kg
        added_kg[place] = span_kg
        weight_kg, moment_kgm = weight_kg + span_kg, moment_kgm + span_kg * part.arm_m
        for number in within:
            room[number] -= span_kg


def _turning_points(weight_kg: float, moment_kgm: float, arm_m: float, span_kg: float, limit: Limit) -> Iterator[float]:
    """Amounts, up to the span, at which the distance to the limit can turn while weight is added at one arm."""
    yield span_kg
    lever = moment_kgm - arm_m * weight_kg
    for (low, low_m), (high, high_m) in itertools.pairwise(limit.points):
        yield from (point - weight_kg for point in (low, high) if 0 < point - weight_kg < span_kg)
        slope = (high_m - low_m) / (high - low)
        if not limit.in_moment and slope and -lever / slope > 0:
            turning_kg = math.sqrt(-lever / slope)
            if low < turning_kg < high and 0 < turning_kg - weight_kg < span_kg:
                yield turning_kg - weight_kg


def _inside(side: Side, arm_m: float, limit_m: float) -> float:
    return arm_m - limit_m if side == "forward" else limit_m - arm_m


def _at(load: Load, weight_kg: float) -> Literal["least", "most", "part"]:
    if weight_kg == load.least_kg:
        return "least"
    return "most" if weight_kg == load.most_kg else "part"


def check_nested(shared: Sequence[Shared]) -> None:
    """Refuse groups that overlap.

    Raises:
        ValueError: when two groups have loads in common and neither holds the other.
    """
    for one, other in itertools.combinations(shared, 2):
        common = one.names & other.names
        if common and common not in (one.names, other.names):
            raise ValueError(
                f"{sorted(one.names)} and {sorted(other.names)} share a largest weight with {sorted(common)} in both: nest them or part them"
            )
