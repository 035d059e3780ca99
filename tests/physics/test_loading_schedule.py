"""Rows of a loading schedule against every count there is."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.physics.adverse_loading import NoLoading, Shared, any_amount
from liftout.physics.envelope import AboveEnvelope, Limit
from liftout.physics.loading_region import Check
from liftout.physics.loading_schedule import KINDS, Aircraft, Fuel, Place, Row, schedule_row

PERSON_KG = 80.0
FUEL_KG = (0.0, 20.0, 40.0, 60.0)


@st.composite
def aircraft(draw: st.DrawFn) -> Aircraft:
    """A small aeroplane; limits are drawn so near that many counts break one."""

    def near(low: float, high: float) -> float:
        return draw(st.integers(round(low * 100), round(high * 100))) / 100

    seats = tuple(Place(f"seat {number}", near(1.5, 3.5)) for number in range(draw(st.integers(0, 3))))
    floors = tuple(Place(f"floor {number}", near(2.5, 4.5)) for number in range(draw(st.integers(1, 2))))
    groups = [Shared(frozenset({floor.name}), draw(st.integers(0, 4)) * 10.0) for floor in floors]
    if seats and draw(st.booleans()):
        groups.append(Shared(frozenset({seats[-1].name, *(floor.name for floor in floors)}), draw(st.integers(60, 140)) * 1.0))
    fuel = Fuel((any_amount("tank", 0.0, FUEL_KG[-1], near(1.5, 3.0)),), ((0.0,), (FUEL_KG[-1],)), FUEL_KG[::-1])
    most = draw(st.integers(600, 900)) * 1.0
    forward = Limit(((500.0, near(1.8, 2.0)), (950.0, near(1.9, 2.2))), in_moment=False)
    aft = Limit(((950.0, near(2.1, 2.6)),), in_moment=False)
    sides = Check("forward", forward), Check("aft", aft)
    return Aircraft(500.0, 500.0 * near(1.9, 2.3), Place("pilot", 2.0), seats, PERSON_KG, floors, 10.0, tuple(groups), fuel, most, most - 20, sides)


def loadings(plane: Aircraft) -> list[tuple[dict[str, int], float, float]]:
    """Every count, spread over the floors in every way, with weight and moment without fuel, that keeps weights and groups."""
    found = []
    for persons in range(len(plane.seats) + 1):
        for steps in itertools.product(range(5), repeat=len(plane.baggage)):
            at = {"pilot": PERSON_KG}
            for seat in plane.seats[:persons]:
                at[seat.name] = PERSON_KG
            for floor, count in zip(plane.baggage, steps, strict=True):
                at[floor.name] = count * 10.0
            if any(sum(at.get(name, 0.0) for name in group.names) > group.most_kg + 1e-9 for group in plane.groups):
                continue
            # Baggage goes on the first floor as far as there is room there.
            if any(
                count
                and all(
                    sum(at.get(name, 0.0) for name in group.names) + 10 <= group.most_kg + 1e-9
                    for group in plane.groups
                    if earlier.name in group.names
                )
                for place, count in enumerate(steps)
                for earlier in plane.baggage[:place]
            ):
                continue
            arms = {place.name: place.arm_m for place in (plane.pilot, *plane.seats, *plane.baggage)}
            weight = plane.fixed_kg + sum(at.values())
            moment = plane.fixed_kgm + sum(load * arms[name] for name, load in at.items())
            if weight <= plane.dry_kg + 1e-9:
                found.append(({"persons": persons, "baggage": sum(steps)}, weight, moment))
    return found


def within(plane: Aircraft, weight: float, moment: float, fuel_kg: float) -> bool:
    """Weight at take-off, and both limits at many amounts of fuel down to none."""
    if weight + fuel_kg > plane.most_kg + 1e-9:
        return False
    arm = plane.fuel.tanks[0].arm_m
    for part in range(101):
        total = weight + fuel_kg * part / 100
        centre = (moment + fuel_kg * part / 100 * arm) / total
        try:
            low, high = (check.limit.arm_m(total) for check in plane.checks)
        except AboveEnvelope:
            return False
        if not low - 1e-9 <= centre <= high + 1e-9:
            return False
    return True


@settings(max_examples=150, deadline=None)
@given(aircraft(), st.permutations(KINDS))
def test_no_loading_that_keeps_every_limit_is_preferred(plane: Aircraft, order: list[str]) -> None:
    kept = [
        {**counts, "fuel": place}
        for counts, weight, moment in loadings(plane)
        for place, fuel_kg in enumerate(FUEL_KG)
        if within(plane, weight, moment, fuel_kg)
    ]
    if not kept:
        with pytest.raises(NoLoading):
            schedule_row(plane, order)
        return
    best = max(tuple(counts[kind] for kind in order) for counts in kept)
    row = schedule_row(plane, order)
    found = {
        "persons": row.persons,
        "baggage": round(sum(row.at_stations_kg[floor.name] for floor in plane.baggage) / 10),
        "fuel": FUEL_KG.index(row.tanks_kg[0]),
    }
    assert tuple(found[kind] for kind in order) == best


@settings(max_examples=60, deadline=None)
@given(aircraft())
def test_a_row_adds_up_and_keeps_what_stations_share(plane: Aircraft) -> None:
    try:
        row: Row = schedule_row(plane, KINDS)
    except NoLoading:
        return
    assert row.at_stations_kg["pilot"] == PERSON_KG
    assert sum(row.at_stations_kg.get(seat.name, 0.0) for seat in plane.seats) == pytest.approx(row.persons * PERSON_KG)
    for group in plane.groups:
        assert sum(row.at_stations_kg.get(name, 0.0) for name in group.names) <= group.most_kg + 1e-9
    assert math.fsum([plane.fixed_kg, *row.at_stations_kg.values(), *row.tanks_kg]) <= plane.most_kg + 1e-9
