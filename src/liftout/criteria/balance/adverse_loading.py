"""Centre of gravity of the most adverse loading.

Requires: no loading up to the maximum take-off weight takes the centre of gravity outside a limit, in any state.
Because: sample loadings miss the one that the next pilot flies.
Method: the worst loading is searched among all combinations of persons, baggage and fuel; the sheet proves it by its sum of moments.
Leaves out: fuel burnt in flight below the minimum, and loads outside the stations of the flight manual.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.aircraft import Aircraft, Tank
from liftout.facts.fact import si_of, there
from liftout.facts.loads import PossibleLoad, arms_of_fuel, fuel_tank, pilot_station, possible_loads, standard_person
from liftout.facts.states import Room, StateSide
from liftout.findings import Finding
from liftout.physics.adverse_loading import Aboard, Load, NoLoading, Shared, any_amount, in_or_out, worst
from liftout.physics.adverse_loading import tank as tank_from
from liftout.quantities import Quantity, rounded
from liftout.tables import table
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.found_weight import found_weight
from liftout.worked.balance.limit_line import corners_needed, limit_line, limit_of
from liftout.worked.balance.other_places import other_places
from liftout.worked.balance.pilot_alone import pilot_alone
from liftout.worked.balance.tank_load import tank_load
from liftout.worksheet import DIGITS_CARRIED, Result, Source, Worksheet

methods = table("methods")


@criterion(each="state_sides", tables=(methods,))
def adverse_loading(checked: StateSide, facts: Facts) -> Finding:
    sheet, plane, lightest = Worksheet(), facts.aircraft, pilot_alone(checked, facts)
    rule, loads = methods.row("adverse loading"), possible_loads(plane, checked.state)
    limits = plane.on(checked.state.undercarriage).limits
    sheet.given("W_p", lightest.value("W"), "empty weight in this state, pilot and minimum fuel")
    sheet.given("M_p", lightest.value("M"), "their moment")
    sheet.given("w_f", lightest.value("w_f"), "minimum fuel among them")
    by_contents = any(tank.contents for tank in plane.tanks)
    tank = fuel_tank(plane, checked.side)
    sheet.given("x_f", lightest.value("x_f") if by_contents else tank if isinstance(tank, Missing) else tank.arm, "arm at which it is counted")
    sheet.given("W_max", limits.maximum_takeoff, "maximum take-off weight")
    limited = {f"R_{number}": room for number, room in enumerate(_limited(checked, plane), 1)}
    for symbol, room in limited.items():
        sheet.given(symbol, compartment_room(room, facts).value("R"), f"room for loads: {room.name}")
    # All loads count, also those that the search leaves out: another figure for one of them could change which.
    counted = (*(value for load in loads for value in (load.most, load.arm)), *(arms_of_fuel(plane) if by_contents else ()))
    sheet.needs(*counted, *corners_needed(limits, checked.side))
    limit = limit_of(sheet, limits, checked.side)
    held_in = fuel_tank(plane, checked.side, sheet.exact("w_f")) if by_contents else tank
    tanks = {one.name: one for one in plane.tanks}
    least = Least(held_in.name if isinstance(held_in, Tank) else "", sheet.si("w_f"), sheet.si("w_f") * sheet.si("x_f"))
    choices = [_choice(load, tanks.get(load.station) if load.fuel else None, least) for load in loads]
    shared = [_shared(room, sheet.si(symbol), plane, loads) for symbol, room in limited.items()]
    try:
        found = worst(sheet.si("W_p"), sheet.si("M_p"), choices, shared, sheet.si("W_max"), checked.side, limit)  # type: ignore[arg-type]
    except NoLoading:
        return sheet.refused("empty weight, pilot and minimum fuel together are heavier than the maximum take-off weight")
    aboard = [(load, amount) for load, amount in zip(loads, found.aboard, strict=True) if amount.weight_kg > 0]
    left = ", ".join(amount.name for amount in found.aboard if amount.weight_kg == 0)
    if aboard:
        sheet.column("w", [(load.name, found_weight(amount.weight_kg, load.most)) for load, amount in aboard], "loaded besides, found by search")
        sheet.column("x", [(load.name, _arm(load, amount, tanks)) for load, amount in aboard], "its arm")
    sheet.work("W", "W_p + sum(w)" if aboard else "W_p", "weight of the worst loading", "lb", by=rule, places=2)
    sheet.work("M", "M_p + sum(w * x)" if aboard else "M_p", "its moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "centre of gravity of this loading", "in", places=2)
    if not limit_line(sheet, limits, checked.side):
        return sheet.refused("heavier than the last corner of the envelope")
    compare = sheet.at_least if checked.side == "forward" else sheet.at_most
    otherwise = other_places(checked.state.items, facts)
    return compare("x_cg", "x_limit", distance=True, case={"left empty": left} if left else {}, otherwise=otherwise)


def _limited(checked: StateSide, plane: Aircraft) -> list[Room]:
    """Limits that the search must keep besides the most of each load: those that several loads share, or that equipment takes of."""
    rooms = (Room(compartment, checked.state) for compartment in plane.compartments)
    return [room for room in rooms if room.taken or room.compartment.combined or not room.compartment.baggage]


def _shared(room: Room, left_kg: float, plane: Aircraft, loads: Sequence[PossibleLoad]) -> Shared:
    """The room as the search sees it; a pilot who sits there is aboard already. Where equipment alone is too much, nothing more goes in."""
    seat = pilot_station(plane)
    if seat is not None and seat.name in room.compartment.stations:
        left_kg -= standard_person().value.si_float
    return Shared(frozenset(load.name for load in loads if load.station in room.compartment.stations), max(left_kg, 0))


class Least(NamedTuple):
    """The minimum fuel: the tank that holds it, its weight and its moment."""

    tank: str
    kg: float
    kgm: float


def _choice(load: PossibleLoad, fuel_in: Tank | None, least: Least) -> Load:
    """The load as the search sees it; the tank that holds the minimum fuel has that much less room, and lies there as far as it is full."""
    most_kg, arm_m = si_of(load.most), si_of(load.arm)
    if not load.any_amount:
        return in_or_out(load.name, most_kg, arm_m)
    taken_kg = least.kg if fuel_in is not None and fuel_in.name == least.tank else 0
    if fuel_in is None or not fuel_in.contents or taken_kg >= most_kg:
        return any_amount(load.name, 0, max(most_kg - taken_kg, 0), arm_m)
    whole = tank_load(fuel_in, load.name)
    if not taken_kg:
        return whole
    points = [(0.0, 0.0), *((part.weight_kg + part.span_kg, part.moment_kgm + part.span_kg * part.arm_m) for part in whole.parts)]
    above = tank_from(load.name, least.kg, whole.most_kg, points)
    return Load(load.name, tuple(part._replace(weight_kg=part.weight_kg - least.kg, moment_kgm=part.moment_kgm - least.kgm) for part in above.parts))


def _arm(load: PossibleLoad, amount: Aboard, tanks: Mapping[str, Tank]) -> Source:
    """Its arm as it was told; of fuel in a tank that tells its arm by contents, that of so much, on top of the minimum fuel where that is there."""
    fuel_in = tanks.get(load.station) if load.fuel else None
    if fuel_in is None or not fuel_in.contents:
        return load.arm
    inch = there(load.arm).value.unit
    arm = rounded(inch.from_si(Decimal(repr(amount.moment_kgm / amount.weight_kg))), DIGITS_CARRIED)
    told = (value for point in fuel_in.contents for value in point)
    return Result(Quantity(arm, inch), f"between the points of {fuel_in.name}", (), tuple(value for value in told if isinstance(value, Fact)))
