"""Centre of gravity of the most adverse loading.

Requires: no loading up to the maximum take-off weight takes the centre of gravity outside a limit, in any state.
Because: sample loadings miss the one that the next pilot flies.
Method: the worst loading is searched among all combinations of persons, baggage and fuel; the sheet proves it by its sum of moments.
Leaves out: fuel burnt in flight below the minimum, and loads outside the stations of the flight manual.
"""

from collections.abc import Sequence

from liftout.criteria import criterion
from liftout.facts import Facts, Missing
from liftout.facts.aircraft import Aircraft
from liftout.facts.loads import PossibleLoad, fuel_arm, pilot_station, possible_loads, standard_person
from liftout.facts.states import Room, StateSide
from liftout.findings import Finding
from liftout.physics.adverse_loading import Load, NoLoading, Shared, any_amount, in_or_out, worst
from liftout.tables import table
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.found_weight import found_weight
from liftout.worked.balance.limit_line import corners_needed, limit_line, limit_of
from liftout.worked.balance.other_places import other_places
from liftout.worked.balance.pilot_alone import pilot_alone
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="state_sides", tables=(methods,))
def adverse_loading(checked: StateSide, facts: Facts) -> Finding:
    sheet, plane, lightest = Worksheet(), facts.aircraft, pilot_alone(checked, facts)
    rule, loads = methods.row("adverse loading"), possible_loads(plane, checked.state)
    limits = plane.on(checked.state.undercarriage).limits
    sheet.given("W_p", lightest.value("W"), "empty weight in this state, pilot and minimum fuel")
    sheet.given("M_p", lightest.value("M"), "their moment")
    sheet.given("w_f", lightest.value("w_f"), "minimum fuel among them")
    sheet.given("x_f", fuel_arm(plane, checked.side), "arm at which it is counted")
    sheet.given("W_max", limits.maximum_takeoff, "maximum take-off weight")
    limited = {f"R_{number}": room for number, room in enumerate(_limited(checked, plane), 1)}
    for symbol, room in limited.items():
        sheet.given(symbol, compartment_room(room, facts).value("R"), f"room for loads: {room.name}")
    # All loads count, also those that the search leaves out: another figure for one of them could change which.
    sheet.needs(*(value for load in loads for value in (load.most, load.arm)), *corners_needed(limits, checked.side))
    limit = limit_of(sheet, limits, checked.side)
    choices = [_choice(load, sheet.si("w_f"), sheet.si("x_f")) for load in loads]
    shared = [_shared(room, sheet.si(symbol), plane, loads) for symbol, room in limited.items()]
    try:
        found = worst(sheet.si("W_p"), sheet.si("M_p"), choices, shared, sheet.si("W_max"), checked.side, limit)  # type: ignore[arg-type]
    except NoLoading:
        return sheet.refused("empty weight, pilot and minimum fuel together are heavier than the maximum take-off weight")
    aboard = [(load, amount) for load, amount in zip(loads, found.aboard, strict=True) if amount.weight_kg > 0]
    left = ", ".join(amount.name for amount in found.aboard if amount.weight_kg == 0)
    if aboard:
        sheet.column("w", [(load.name, found_weight(amount.weight_kg, load.most)) for load, amount in aboard], "loaded besides, found by search")
        sheet.column("x", [(load.name, load.arm) for load, _ in aboard], "its arm")
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


def _choice(load: PossibleLoad, least_fuel_kg: float, least_fuel_m: float) -> Load:
    """The load as the search sees it; the tank that holds the minimum fuel has that much less room."""
    assert not isinstance(load.most, Missing)
    assert not isinstance(load.arm, Missing)
    most_kg, arm_m = load.most.value.si_float, load.arm.value.si_float
    if not load.any_amount:
        return in_or_out(load.name, most_kg, arm_m)
    taken_kg = least_fuel_kg if load.fuel and arm_m == least_fuel_m else 0
    return any_amount(load.name, 0, max(most_kg - taken_kg, 0), arm_m)
