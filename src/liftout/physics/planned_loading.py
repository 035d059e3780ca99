"""A loading as its pilot plans it: persons, baggage, fuel and what is burnt, held against every limit that is given.

The page on which an owner plans a loading computes the same in the browser, line by line and in the same order of
operations; so sums are plain loops here, and nothing but + - * / and the square root is used, which both round alike.

A loading is held against its limits at take-off, all along the burn and at landing. Along the burn tanks are emptied in
the published order, each down to its next corner, so that weight and moment run straight from point to point; on such a
piece the distance to a limit is a + c/W - k·W, and is least at an end, at a corner of the limit or where W² = -c/k.
Where no order is published, every order in which tank after tank may be emptied counts.

Source: AC 43.13-1B par. 10-16 to 10-18 for what is held against what; limits straight between points FAA-H-8083-30 p. 4-17.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Final, Literal, NamedTuple

from liftout.physics.envelope import Limit

Verdict = Literal["within", "beyond", "not given", "no limit"]
"""`not given`: the limit is missing in the job. `no limit`: the envelope ends below this weight."""

RAMP, TAKEOFF, BURN, LANDING, NO_FUEL = "ramp", "take-off", "burn", "landing", "no fuel"
ORDERS_MAX: Final = 4
"""Tanks without a published order that are still tried in every order: 24 of them."""


class Station(NamedTuple):
    """A place for persons or baggage.

    Attributes:
        name: its name.
        arm_m: its arm.
        places: how many persons sit there; 0 where it holds baggage.
        pilot: whether the pilot sits there.
        least_kg: the lightest pilot; 0 where none is given.
        instead_of: stations, by index, that stay empty while this one is loaded.
    """

    name: str
    arm_m: float
    places: int
    pilot: bool
    least_kg: float
    instead_of: tuple[int, ...]


class Tank(NamedTuple):
    """A tank; `points` are contents in kg with their moment in kg·m, rising, straight between and from nothing to the first."""

    name: str
    usable_m3: float
    density_kg_m3: float
    points: tuple[tuple[float, float], ...]


class Group(NamedTuple):
    """Stations, by index, whose load is limited together; a station with a limit of its own is a group of one."""

    name: str
    stations: tuple[int, ...]


class Limits(NamedTuple):
    """Limits of one category on one undercarriage.

    Attributes:
        name: the category.
        weights: the largest weight at each time that has one, None where it should be there and is missing.
        forward: forward limit.
        aft: aft limit.
        empty: stations, by index, that stay empty in this category.
    """

    name: str
    weights: tuple[tuple[str, float | None], ...]
    forward: Limit
    aft: Limit
    empty: tuple[int, ...]


class State(NamedTuple):
    """A state of the equipment.

    Attributes:
        name: its name.
        weight_kg: empty weight, with full oil.
        moment_kgm: its moment.
        limits: the limits, by index, that it may be flown to.
        seats: places left at each station.
        room_kg: what each group may still hold beside the equipment that stands there; None where that is not known.
        absent: stations, by index, that are not there on this undercarriage.
    """

    name: str
    weight_kg: float
    moment_kgm: float
    limits: tuple[int, ...]
    seats: tuple[int, ...]
    room_kg: tuple[float | None, ...]
    absent: tuple[int, ...]


class Plan(NamedTuple):
    """All that loadings of one aircraft are worked with; `order` is empty where no order of the tanks is published."""

    stations: tuple[Station, ...]
    groups: tuple[Group, ...]
    tanks: tuple[Tank, ...]
    order: tuple[int, ...]
    limits: tuple[Limits, ...]
    states: tuple[State, ...]
    at_limit: float
    """Share of the largest term by which a value may pass a limit and still be on it."""
    span_m: float
    """The largest arm of all, forward or aft: the scale on which distances of arms are judged."""


class Loading(NamedTuple):
    """A loading.

    Attributes:
        state: index of the state.
        limits: index of the limits.
        stations: for each station the weight of each person in kg, or the baggage.
        fuel_m3: fuel in each tank when the engine is started.
        taxi_m3: fuel burnt before take-off: one total where the order of the tanks is published, or of each tank.
        trip_m3: fuel burnt from take-off to landing, likewise.
    """

    state: int
    limits: int
    stations: tuple[tuple[float, ...], ...]
    fuel_m3: tuple[float, ...]
    taxi_m3: tuple[float, ...]
    trip_m3: tuple[float, ...]


class Point(NamedTuple):
    """Weight and moment of the aircraft at one time."""

    name: str
    weight_kg: float
    moment_kgm: float


class Check(NamedTuple):
    """One value against one limit.

    Attributes:
        kind: what is limited: weight, group, pilot, seats, empty, instead, tank, order, left, forward, aft.
        of: of what, or when.
        value: in SI.
        limit: in SI; None where there is none.
        inside: how far inside the limit; negative is beyond.
        weight_kg: of a centre of gravity, the weight at which it lies nearest to the limit.
        verdict: how it stands.
    """

    kind: str
    of: str
    value: float
    limit: float | None
    inside: float | None
    weight_kg: float | None
    verdict: Verdict


class Outcome(NamedTuple):
    """What a loading comes to."""

    points: tuple[Point, ...]
    checks: tuple[Check, ...]


def outcome(plan: Plan, loading: Loading) -> Outcome:
    """Weights and moments of a loading, and how it stands to each limit.

    Args:
        plan: the aircraft.
        loading: the loading.

    Example (600 kg at 2.0 m with a pilot of 80 kg at 2.5 m and 50 kg of fuel at 2.2 m, of which 20 kg are burnt):
        >>> tank = Tank("main", 0.1, 500.0, ((50.0, 110.0),))
        >>> sides = Limit(((900.0, 1.9),), in_moment=False), Limit(((900.0, 2.2),), in_moment=False)
        >>> limits = Limits("normal", (("take-off", 900.0), ("landing", 900.0)), *sides, ())
        >>> state = State("in", 600.0, 1200.0, (0,), (1,), (100.0,), ())
        >>> seat = Station("pilot", 2.5, 1, True, 55.0, ())
        >>> plan = Plan((seat,), (Group("pilot", (0,)),), (tank,), (0,), (limits,), (state,), 1e-9, 2.5)
        >>> found = outcome(plan, Loading(0, 0, ((80.0,),), (0.1,), (0.0,), (0.04,)))
        >>> [(point.name, point.weight_kg, round(point.moment_kgm, 6)) for point in found.points[1:3]]
        [('take-off', 730.0, 1510.0), ('landing', 710.0, 1466.0)]
        >>> {check.verdict for check in found.checks}
        {'within'}
    """
    state, limits = plan.states[loading.state], plan.limits[loading.limits]
    loads = [_sum(persons) for persons in loading.stations]
    dry = Point(NO_FUEL, state.weight_kg, state.moment_kgm)
    for station, load in zip(plan.stations, loads, strict=True):
        dry = Point(NO_FUEL, dry.weight_kg + load, dry.moment_kgm + load * station.arm_m)
    at_takeoff = burnt(plan, loading.fuel_m3, loading.taxi_m3)
    at_landing = burnt(plan, at_takeoff, loading.trip_m3)
    points = (
        _fuelled(plan, dry, RAMP, loading.fuel_m3),
        _fuelled(plan, dry, TAKEOFF, at_takeoff),
        _fuelled(plan, dry, LANDING, at_landing),
        dry,
    )
    checks = [
        *_weights(plan, limits, points),
        *_stations(plan, state, limits, loading, loads),
        *_fuel(plan, loading, at_landing),
    ]
    paths = [_path(plan, dry, at_takeoff, at_landing, order) for order in _orders(plan, at_takeoff, at_landing)]
    for when, lines in ((TAKEOFF, [points[1:2]]), (BURN, paths), (LANDING, [points[2:3]]), (NO_FUEL, [points[3:]])):
        checks.append(_nearest(plan, "forward", when, limits.forward, lines))
        checks.append(_nearest(plan, "aft", when, limits.aft, lines))
    return Outcome(points, tuple(checks))


def burnt(plan: Plan, fuel_m3: Sequence[float], amounts_m3: Sequence[float]) -> tuple[float, ...]:
    """Fuel that is left in each tank; what the tanks do not hold is owed by the last of them, whose contents turn negative.

    Args:
        plan: the aircraft.
        fuel_m3: fuel in each tank before.
        amounts_m3: what is burnt: one total where the order of the tanks is published, or of each tank.
    """
    if not plan.order:
        return tuple(fuel - amount for fuel, amount in zip(fuel_m3, amounts_m3, strict=True))
    left, owed = list(fuel_m3), amounts_m3[0]
    for index in plan.order:
        taken = min(max(left[index], 0.0), owed)
        left[index] -= taken
        owed -= taken
    left[plan.order[-1]] -= owed
    return tuple(left)


def moment_kgm(tank: Tank, weight_kg: float) -> float:
    """Moment of what is in a tank."""
    low_kg, low_kgm = 0.0, 0.0
    for high_kg, high_kgm in tank.points:
        if weight_kg <= high_kg or high_kg == tank.points[-1][0]:
            break
        low_kg, low_kgm = high_kg, high_kgm
    return low_kgm + (high_kgm - low_kgm) * (weight_kg - low_kg) / (high_kg - low_kg)


def limit_m(limit: Limit, weight_kg: float, at_limit: float) -> float | None:
    """Arm of a limit at a weight; None above its last point. On that point counts as below it."""
    last_kg = limit.points[-1][0]
    if weight_kg > last_kg:
        if weight_kg - last_kg > at_limit * last_kg:
            return None
        weight_kg = last_kg
    return limit.arm_m(weight_kg)


# --- what is held against what ----------------------------------------------------------------------------------


def _weights(plan: Plan, limits: Limits, points: Sequence[Point]) -> Iterator[Check]:
    for name, most in limits.weights:
        for point in points:
            if point.name == name:
                yield _at_most(plan, "weight", name, point.weight_kg, most, max(point.weight_kg, most or 0.0))


def _stations(plan: Plan, state: State, limits: Limits, loading: Loading, loads: Sequence[float]) -> Iterator[Check]:
    for group, room in zip(plan.groups, state.room_kg, strict=True):
        load = _sum([loads[index] for index in group.stations])
        yield _at_most(plan, "group", group.name, load, room, max(load, abs(room or 0.0)))
    for index, station in enumerate(plan.stations):
        if station.pilot:
            pilot = loading.stations[index][0]
            found = _at_least(plan, "pilot", station.name, pilot, station.least_kg, station.least_kg)
            yield found if pilot > 0 else found._replace(verdict="beyond")
        if station.places:
            seated = float(sum(1 for person in loading.stations[index] if person > 0))
            yield _at_most(plan, "seats", station.name, seated, float(state.seats[index]), 1.0)
        if index in limits.empty or index in state.absent:
            yield _at_most(plan, "empty", station.name, loads[index], 0.0, 1.0)
        if station.instead_of:
            beside = _sum([loads[other] for other in station.instead_of]) if loads[index] > 0 else 0.0
            yield _at_most(plan, "instead", station.name, beside, 0.0, 1.0)


def _fuel(plan: Plan, loading: Loading, at_landing: Sequence[float]) -> Iterator[Check]:
    for tank, fuel in zip(plan.tanks, loading.fuel_m3, strict=True):
        yield _at_most(plan, "tank", tank.name, fuel, tank.usable_m3, tank.usable_m3)
    for tank, fuel in zip(plan.tanks, at_landing, strict=True):
        yield _at_least(plan, "left", tank.name, fuel, 0.0, tank.usable_m3)
    if len(plan.order) > 1:
        short = 0.0
        for place, index in enumerate(plan.order):
            if loading.fuel_m3[index] > 0:
                for other in plan.order[place + 1 :]:
                    short += max(0.0, plan.tanks[other].usable_m3 - loading.fuel_m3[other])
        yield _at_most(plan, "order", "", short, 0.0, _sum([tank.usable_m3 for tank in plan.tanks]))


def _at_most(plan: Plan, kind: str, of: str, value: float, limit: float | None, scale: float) -> Check:
    if limit is None:
        return Check(kind, of, value, None, None, None, "not given")
    return Check(kind, of, value, limit, limit - value, None, _verdict(plan, limit - value, scale))


def _at_least(plan: Plan, kind: str, of: str, value: float, limit: float, scale: float) -> Check:
    return Check(kind, of, value, limit, value - limit, None, _verdict(plan, value - limit, scale))


def _verdict(plan: Plan, inside: float, scale: float) -> Verdict:
    return "within" if inside >= -plan.at_limit * scale else "beyond"


# --- the centre of gravity along the burn -----------------------------------------------------------------------


def _fuelled(plan: Plan, dry: Point, name: str, fuel_m3: Sequence[float]) -> Point:
    weight, moment = dry.weight_kg, dry.moment_kgm
    for tank, fuel in zip(plan.tanks, fuel_m3, strict=True):
        mass = fuel * tank.density_kg_m3
        weight += mass
        moment += moment_kgm(tank, mass)
    return Point(name, weight, moment)


def _orders(plan: Plan, before: Sequence[float], after: Sequence[float]) -> list[tuple[int, ...]]:
    """Orders in which tanks may be emptied; one where it is published."""
    if plan.order:
        return [plan.order]
    return list(itertools.permutations(index for index in range(len(plan.tanks)) if before[index] != after[index]))


def _path(plan: Plan, dry: Point, before: Sequence[float], after: Sequence[float], order: Sequence[int]) -> list[Point]:
    """Weight and moment from take-off to landing: a point wherever a tank is done or passes a corner of its own."""
    fuel = list(before)
    points = [_fuelled(plan, dry, BURN, fuel)]
    for index in order:
        tank, first, last = plan.tanks[index], fuel[index], after[index]
        corners = [weight / tank.density_kg_m3 for weight, _ in reversed(tank.points)]
        for volume in [*(corner for corner in corners if last < corner < first), last]:
            fuel[index] = volume
            points.append(_fuelled(plan, dry, BURN, fuel))
    return points


def _nearest(plan: Plan, kind: str, when: str, limit: Limit, paths: Sequence[Sequence[Point]]) -> Check:
    """Where the centre of gravity on any path lies least far inside a limit, or farthest outside."""
    nearest: Check | None = None
    for path in paths:
        for start, end in itertools.pairwise(path) if len(path) > 1 else [(path[0], path[0])]:
            for weight in _turnings(limit, start, end):
                arm = _between(start, end, weight) / weight
                at = limit_m(limit, weight, plan.at_limit)
                if at is None:
                    return Check(kind, when, arm, None, None, weight, "no limit")
                inside = arm - at if kind == "forward" else at - arm
                if nearest is None or nearest.inside is None or inside < nearest.inside:
                    nearest = Check(kind, when, arm, at, inside, weight, _verdict(plan, inside, plan.span_m))
    assert nearest is not None
    return nearest


def _turnings(limit: Limit, start: Point, end: Point) -> Iterator[float]:
    """Weights between two points of a path at which the distance to the limit may be least."""
    yield start.weight_kg
    if start.weight_kg == end.weight_kg:
        return
    yield end.weight_kg
    low, high = min(start.weight_kg, end.weight_kg), max(start.weight_kg, end.weight_kg)
    for weight, _ in limit.points:
        if low < weight < high:
            yield weight
    if limit.in_moment:
        return  # a limit straight in moment is p/W + q, so the distance is a + c/W and turns nowhere
    arm_m = (end.moment_kgm - start.moment_kgm) / (end.weight_kg - start.weight_kg)
    lever = start.moment_kgm - arm_m * start.weight_kg
    for (low_kg, low_m), (high_kg, high_m) in itertools.pairwise(limit.points):
        slope = (high_m - low_m) / (high_kg - low_kg)
        if slope != 0 and -lever / slope > 0:
            turning = math.sqrt(-lever / slope)
            if low < turning < high and low_kg < turning < high_kg:
                yield turning


def _between(start: Point, end: Point, weight_kg: float) -> float:
    """Moment on a straight piece of a path."""
    if weight_kg == start.weight_kg:
        return start.moment_kgm
    if weight_kg == end.weight_kg:
        return end.moment_kgm
    return start.moment_kgm + (end.moment_kgm - start.moment_kgm) * (weight_kg - start.weight_kg) / (end.weight_kg - start.weight_kg)


def _sum(values: Sequence[float]) -> float:
    """A plain sum, as the page adds it; Python's own corrects its rounding."""
    total = 0.0
    for value in values:
        total += value
    return total
