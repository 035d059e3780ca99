"""Rows of a loading schedule: full fuel, all seats, or all baggage, and what may then be aboard besides, in whole persons, gallons and pounds."""

import itertools
import math
from collections.abc import Iterable
from decimal import ROUND_FLOOR, Decimal
from typing import NamedTuple

from liftout.facts import Amount, Fact, Facts, Missing
from liftout.facts.aircraft import Station
from liftout.facts.fact import CHOSEN
from liftout.facts.limits import Limits
from liftout.facts.loadings import TAKEOFF, Fuel, Loaded, Loading
from liftout.facts.loads import full_tank, seats_taken, standard_person
from liftout.facts.states import Room, State
from liftout.physics import loading_schedule as physics
from liftout.physics.adverse_loading import NoLoading, Shared
from liftout.physics.loading_region import Check
from liftout.quantities import Quantity, Unit, half_up
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worked.balance.filling_stages import filling_stages
from liftout.worked.balance.found_weight import HUNDREDTH
from liftout.worked.balance.limit_line import limit_line, limit_of
from liftout.worked.balance.loaded_weight import loaded_weight
from liftout.worked.balance.tank_load import tank_load
from liftout.worked.balance.without_fuel import without_fuel
from liftout.worksheet import AT_LIMIT, NotAssessed, Worksheet

methods = table("methods")

NO_FUEL = "no usable fuel"
FIRST = {
    "full fuel": ("fuel", "persons", "baggage"),
    "all seats": ("persons", "fuel", "baggage"),
    "all baggage": ("baggage", "fuel", "persons"),
}
"""What each row begins with, and the order in which the rest is filled."""
FRONT, REAR = "front seats first", "rear seats first"


class Scheduled(NamedTuple):
    """A row of the schedule of a state, at take-off or with no usable fuel left.

    Attributes:
        first: what is aboard first, a key of `FIRST`.
        seating: in which seats persons sit down first.
        loaded: the row as a loading at take-off.
        persons: persons besides the pilot.
        fuel: usable fuel in all tanks.
        baggage: baggage at all stations.
        full: whether what comes first is all that there is room for.
        when: take-off, or no usable fuel.
    """

    first: str
    seating: str
    loaded: Loaded
    persons: int
    fuel: Quantity
    baggage: Quantity
    full: bool
    when: str = TAKEOFF

    @property
    def name(self) -> str:
        """What comes first, the seating, and when."""
        return f"{self.loaded.loading.name}, {self.when}"

    @property
    def state(self) -> State:
        """The state."""
        return self.loaded.state


@worked
def loading_schedule(row: Scheduled, facts: Facts) -> Worksheet:
    sheet, limits = Worksheet(), facts.aircraft.on(row.state.undercarriage).limits
    total = loaded_weight(row.loaded, facts) if row.when == TAKEOFF else without_fuel(row.loaded, facts)
    most, what = limits.maximum_takeoff, "maximum take-off weight"
    if row.when == NO_FUEL and limits.maximum_zero_fuel is not None:
        most, what = limits.maximum_zero_fuel, "maximum zero-fuel weight"
    sheet.given("W", total.value("W"), f"weight of this row with {NO_FUEL}" if row.when == NO_FUEL else "weight of this row at take-off")
    sheet.given("M", total.value("M"), "its moment")
    sheet.given("W_max", most, what)
    sheet.work("W_left", "W_max - W", "weight left up to it", "lb", places=2)
    sheet.work("x_cg", "M / W", "centre of gravity", "in", by=methods.row("loading schedule"), places=2)
    for side in ("forward", "aft"):
        limit_line(sheet, limits, side, both=True)
    return sheet


def scheduled(state: State, facts: Facts) -> tuple[Scheduled, ...] | tuple[Missing, ...]:
    """The rows of a state at take-off: one for each thing that may come first, and a second where the seating makes another of it.

    Args:
        state: the state.
        facts: the job.

    Returns:
        The rows, or what is missing for them; nothing where not even the pilot alone keeps every limit.
    """
    limits = facts.aircraft.on(state.undercarriage).limits
    try:
        made = {seating: _aircraft(state, limits, facts, seating) for seating in (FRONT, REAR)}
    except NotAssessed as end:
        return end.missing
    found: list[Scheduled] = []
    for first, order in FIRST.items():
        rows: list[physics.Row] = []
        for seating, aircraft in made.items():
            try:
                row = physics.schedule_row(aircraft, order)
            except NoLoading:
                continue
            if row not in rows:
                rows.append(row)
                found.append(_scheduled(first, seating, row, aircraft, state, facts))
    return tuple(found)


def _aircraft(state: State, limits: Limits, facts: Facts, seating: str) -> physics.Aircraft:
    """The aircraft as physics takes it.

    Raises:
        NotAssessed: when something is missing.
    """
    sheet, plane, empty = Worksheet(), facts.aircraft, amended_empty_weight(state, facts)
    sheet.given("W_e", empty.value("W"), "empty weight")
    sheet.given("M_e", empty.value("M"), "its moment")
    sheet.given("W_max", limits.maximum_takeoff, "maximum take-off weight")
    sheet.given("W_zf", limits.maximum_zero_fuel or limits.maximum_takeoff, "maximum zero-fuel weight")
    rooms = [Room(one, state) for one in plane.compartments]
    for number, room in enumerate(rooms, 1):
        sheet.given(f"R_{number}", compartment_room(room, facts).value("R"), f"room for loads: {room.name}")
    oil = drained_oil(sheet, plane, state)
    stations = stations_of(state, limits, facts)
    pilot = next((one for one in stations if one.holds == "pilot"), None)
    persons = [one for one in stations if one.holds in ("pilot", "occupants")]
    needs: list[Amount] = [value for tank in plane.tanks for value in (full_tank(tank), tank.arm, *(v for point in tank.contents for v in point))]
    needs += [one.arm for one in stations] + [one.seats for one in persons]
    sheet.needs(*needs, *([] if pilot else [plane.place.missing("stations")]), *([] if plane.tanks else [plane.place.missing("tanks")]))
    assert pilot is not None
    checks = tuple(Check(side, limit_of(sheet, limits, side)) for side in ("forward", "aft"))
    seats = [_place(one) for one in persons for _ in range(_count(one) - seats_taken(state, one) - (one is pilot))]
    seats.sort(key=lambda place: place.arm_m, reverse=seating == REAR)
    baggage = tuple(one for one in stations if one.holds == "baggage")
    tanks = tuple(tank_load(tank, tank.name) for tank in plane.tanks)
    stages = filling_stages(plane, tanks)
    density = _si(plane.tanks[0].density)
    whole = _wholes(_unit(tank.usable for tank in plane.tanks), math.fsum(stages[-1]) / density)
    return physics.Aircraft(
        fixed_kg=sheet.si("W_e") + (sheet.si("w_o") if oil.weight else 0),
        fixed_kgm=sheet.si("M_e") + (sheet.si("w_o") * sheet.si("x_o") if oil.weight else 0),
        pilot=_place(pilot),
        seats=tuple(seats),
        person_kg=standard_person().value.si_float,
        baggage=tuple(_place(one) for one in baggage),
        step_kg=float(_unit((one.maximum for one in baggage), standard_person()).to_si(Decimal(1))),
        groups=tuple(Shared(frozenset(room.compartment.stations), max(sheet.si(f"R_{number}"), 0)) for number, room in enumerate(rooms, 1)),
        fuel=physics.Fuel(
            tanks, stages, (math.fsum(stages[-1]), *(volume * density for volume in whole if volume * density < math.fsum(stages[-1])))
        ),
        most_kg=sheet.si("W_max"),
        dry_kg=sheet.si("W_zf"),
        checks=checks,
    )


def stations_of(state: State, limits: Limits, facts: Facts) -> tuple[Station, ...]:
    """Stations that a schedule fills: seats and baggage that are there in the state and category, none that is loaded instead of another."""
    left_empty = limits.empty.value if limits.empty else ()
    here = (one for one in facts.aircraft.stations if one.name not in left_empty and one.there(state.undercarriage) and not one.instead_of)
    return tuple(one for one in here if one.holds in ("pilot", "occupants", "baggage"))


def _scheduled(first: str, seating: str, row: physics.Row, aircraft: physics.Aircraft, state: State, facts: Facts) -> Scheduled:
    """A row with its amounts as a person would write them."""
    plane, kinds = facts.aircraft, {one.name: one.holds for one in facts.aircraft.stations}
    person = standard_person()
    pound = _unit((one.maximum for one in plane.stations if one.holds == "baggage"), person)
    told: dict[str, Amount] = {}
    baggage = Decimal(0)
    for name, weight_kg in row.at_stations_kg.items():
        if kinds[name] == "baggage":
            amount = half_up(pound.from_si(Decimal(repr(weight_kg))), 0)
            baggage += amount
            told[name] = _found(Quantity(amount, pound), f"whole {pound.symbol}, found by search")
        else:
            count = round(weight_kg / aircraft.person_kg)
            told[name] = _found(Quantity(count * person.value.magnitude, person.value.unit), f"{count} × {person.value} ({person.origin})")
    gallon = _unit(tank.usable for tank in plane.tanks)
    fuel = []
    for tank, weight_kg in zip(plane.tanks, row.tanks_kg, strict=True):
        volume = gallon.from_si(Decimal(repr(weight_kg)) / _exact(tank.density)) * (1 + AT_LIMIT)
        amount = min(volume.quantize(HUNDREDTH, ROUND_FLOOR), gallon.from_si(_exact(tank.usable)))
        fuel.append(Fuel(tank, _found(Quantity(amount.normalize(), gallon), "found by search"), by_volume=True))
    full = {
        "full fuel": math.isclose(math.fsum(row.tanks_kg), aircraft.fuel.totals_kg[0]),
        "all seats": row.persons == len(aircraft.seats),
        "all baggage": True,
    }
    loading = Loading(f"{first} first, {seating}", facts.place.part("loadings"), told, tuple(fuel), (), (), (state.undercarriage,))
    total = sum((one.amount.value.magnitude for one in fuel), Decimal(0))
    return Scheduled(first, seating, Loaded(loading, state, TAKEOFF), row.persons, Quantity(total, gallon), Quantity(baggage, pound), full[first])


def _wholes(step: Unit, most_m3: float) -> list[float]:
    """Whole units of volume up to the most, the most first."""
    size_m3 = float(step.to_si(Decimal(1)))
    return [count * size_m3 for count in itertools.takewhile(lambda count: count * size_m3 <= most_m3, itertools.count())][::-1]


def _unit(amounts: Iterable[Amount], otherwise: Amount | None = None) -> Unit:
    """The unit in which the first of these was written."""
    return next(amount.value.unit for amount in (*amounts, otherwise) if isinstance(amount, Fact))


def _found(quantity: Quantity, origin: str) -> Fact[Quantity]:
    return Fact(quantity, origin, CHOSEN)


def _place(station: Station) -> physics.Place:
    return physics.Place(station.name, _si(station.arm))


def _count(station: Station) -> int:
    return int(_exact(station.seats))


def _exact(told: Amount) -> Decimal:
    assert not isinstance(told, Missing)
    return told.value.si


def _si(told: Amount) -> float:
    return float(_exact(told))
