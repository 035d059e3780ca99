"""The most that can be aboard of three kinds of load, in an order of preference: whole persons, whole gallons, whole pounds.

A row of a loading schedule prefers one kind (full fuel, all seats, all baggage), then the second, then the third. So of all
loadings that keep every limit it is the one that is largest in the first, and among those in the second, and then in the
third. Counts are tried downwards in that order; the first that keeps every limit is the answer, since nothing above it
in the order of preference does. What is rounded down is looked at again with everything else aboard, and with every
amount of fuel from that at take-off to none.

Source: AC 43.13-1B par. 10-18 with figures 10-12 to 10-14.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple

from liftout.physics.adverse_loading import Load, NoLoading, Shared
from liftout.physics.filling_order import contents_kg, in_order
from liftout.physics.loading_region import ON_LIMIT_M, Check, Region
from liftout.physics.piecewise import SAME_WEIGHT

KINDS = ("fuel", "persons", "baggage")


class Place(NamedTuple):
    """A station, with the arm at which it is loaded."""

    name: str
    arm_m: float


class Fuel(NamedTuple):
    """The tanks, with the contents of each at every stage of filling, and the totals that may be in them, the most first."""

    tanks: tuple[Load, ...]
    stages_kg: tuple[tuple[float, ...], ...]
    totals_kg: tuple[float, ...]


class Aircraft(NamedTuple):
    """What is always aboard, and what may be aboard besides.

    Attributes:
        fixed_kg: what is always aboard, the pilot left out.
        fixed_kgm: its moment.
        pilot: the pilot's station.
        seats: the station of each other seat, in the order in which they are taken.
        person_kg: what a person weighs, the pilot too.
        baggage: baggage stations in the order in which they are filled.
        step_kg: step in which baggage is loaded.
        groups: stations that share a largest weight, one with a limit of its own among them.
        fuel: the fuel.
        most_kg: largest weight.
        dry_kg: largest weight without fuel.
        checks: limits of the centre of gravity.
    """

    fixed_kg: float
    fixed_kgm: float
    pilot: Place
    seats: tuple[Place, ...]
    person_kg: float
    baggage: tuple[Place, ...]
    step_kg: float
    groups: tuple[Shared, ...]
    fuel: Fuel
    most_kg: float
    dry_kg: float
    checks: tuple[Check, ...]


class Row(NamedTuple):
    """A row of the schedule.

    Attributes:
        persons: persons besides the pilot.
        at_stations_kg: what is at each station, the pilot among it.
        tanks_kg: what is in each tank.
    """

    persons: int
    at_stations_kg: dict[str, float]
    tanks_kg: tuple[float, ...]


def schedule_row(aircraft: Aircraft, order: Sequence[str]) -> Row:
    """The row that prefers kinds of load in this order.

    Args:
        aircraft: the aircraft.
        order: the three `KINDS`, the preferred one first.

    Raises:
        NoLoading: when not even the pilot alone without fuel keeps every limit.

    Example (500 kg at 2 m, two seats besides the pilot's, 60 kg of fuel and 800 kg at most: nothing is left for baggage):
        >>> from liftout.physics.adverse_loading import any_amount
        >>> from liftout.physics.envelope import Limit
        >>> sides = Check("forward", Limit(((900.0, 1.9),), False)), Check("aft", Limit(((900.0, 2.3),), False))
        >>> fuel = Fuel((any_amount("tank", 0.0, 60.0, 2.1),), ((0.0,), (60.0,)), tuple(map(float, range(60, -1, -1))))
        >>> seats, floor = (Place("front", 2.0), Place("rear", 3.0)), Place("floor", 4.0)
        >>> plane = Aircraft(500.0, 1000.0, Place("pilot", 2.0), seats, 80.0, (floor,), 1.0, (Shared(frozenset({"floor"}), 20.0),), fuel, 800.0, 800.0, sides)
        >>> schedule_row(plane, ("fuel", "persons", "baggage"))
        Row(persons=2, at_stations_kg={'pilot': 80.0, 'front': 80.0, 'rear': 80.0, 'floor': 0.0}, tanks_kg=(60.0,))
    """
    counts: dict[str, Sequence[int]] = {
        "fuel": range(len(aircraft.fuel.totals_kg)),
        "persons": range(len(aircraft.seats), -1, -1),
        "baggage": range(_most_baggage(aircraft), -1, -1),
    }
    for chosen in itertools.product(*(counts[kind] for kind in order)):
        row = _row(aircraft, **dict(zip(order, chosen, strict=True)))
        if row is not None:
            return row
    raise NoLoading("not even the pilot alone without fuel keeps every limit")


def _most_baggage(aircraft: Aircraft) -> int:
    """Steps of baggage that go in where nobody but the pilot is aboard."""
    at, steps = {aircraft.pilot.name: aircraft.person_kg}, 0
    for place in aircraft.baggage:
        here = _steps(aircraft, place, at)
        at[place.name] = here * aircraft.step_kg
        steps += here
    return steps


def _row(aircraft: Aircraft, fuel: int, persons: int, baggage: int) -> Row | None:
    """The row of these counts, or None where it breaks a limit."""
    total_kg = aircraft.fuel.totals_kg[fuel]
    dry_kg = aircraft.fixed_kg + (persons + 1) * aircraft.person_kg + baggage * aircraft.step_kg
    if dry_kg > aircraft.dry_kg + SAME_WEIGHT or dry_kg + total_kg > aircraft.most_kg + SAME_WEIGHT:
        return None
    at = _at_stations(aircraft, persons, baggage)
    if at is None:
        return None
    arms = {place.name: place.arm_m for place in (aircraft.pilot, *aircraft.seats, *aircraft.baggage)}
    dry_kgm = math.fsum([aircraft.fixed_kgm, *(weight * arms[name] for name, weight in at.items())])
    burnt = in_order("fuel", aircraft.fuel.tanks, aircraft.fuel.stages_kg, 0.0, total_kg)
    try:
        region = Region(dry_kg, dry_kgm, burnt)
        if any(region.excursion(*check).inside_m < -ON_LIMIT_M for check in aircraft.checks):
            return None
    except NoLoading:
        return None
    return Row(persons, at, contents_kg(aircraft.fuel.stages_kg, total_kg))


def _at_stations(aircraft: Aircraft, persons: int, baggage: int) -> dict[str, float] | None:
    """What is at each station, or None where it does not fit there."""
    at: dict[str, float] = {}
    for seat in (aircraft.pilot, *aircraft.seats[:persons]):
        if _room(aircraft, seat, at) < aircraft.person_kg - SAME_WEIGHT:
            return None
        at[seat.name] = at.get(seat.name, 0.0) + aircraft.person_kg
    for place in aircraft.baggage:
        taken = min(baggage, _steps(aircraft, place, at))
        at[place.name] = taken * aircraft.step_kg
        baggage -= taken
    return None if baggage else at


def _steps(aircraft: Aircraft, place: Place, at: dict[str, float]) -> int:
    """Whole steps of baggage that go in at a station."""
    return max(0, int((_room(aircraft, place, at) + SAME_WEIGHT) / aircraft.step_kg))


def _room(aircraft: Aircraft, place: Place, at: dict[str, float]) -> float:
    """What still goes in at a station; without end where no limit holds there."""
    return min(
        (group.most_kg - math.fsum(at.get(name, 0.0) for name in group.names) for group in aircraft.groups if place.name in group.names),
        default=math.inf,
    )
