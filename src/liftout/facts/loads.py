"""What may be loaded: persons, baggage, fuel, each with the most of it and its arm."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from liftout.facts.aircraft import Aircraft, Station, Tank
from liftout.facts.fact import STATED, Amount, Fact, Missing, off, there
from liftout.facts.states import State
from liftout.quantities import Quantity, half_up
from liftout.tables import table


class PossibleLoad(NamedTuple):
    """A load that may be aboard: the most of it, its arm, and whether it comes in any amount or whole."""

    name: str
    station: str
    most: Amount
    arm: Amount
    any_amount: bool
    fuel: bool = False


def standard_person() -> Fact[Quantity]:
    """Weight of a person where none is measured."""
    cell = table("occupant_weights").row("standard person").weight
    assert cell.quantity is not None
    return Fact(cell.quantity, cell.origin, cell.read)


def possible_loads(aircraft: Aircraft, state: State | None = None) -> tuple[PossibleLoad, ...]:
    """Everything but the pilot that may be aboard, on the seats that the equipment of a state leaves."""
    found: list[PossibleLoad] = []
    for station in aircraft.stations:
        if state is not None and not station.there(state.undercarriage):
            continue
        taken = 0 if state is None else seats_taken(state, station)
        if station.holds == "occupants":
            found.extend(_persons(station, taken))
        elif station.holds == "pilot":
            found.extend(_persons(station, taken + 1))  # the pilot's own seat is never empty
        elif station.holds in ("baggage", "water"):
            found.append(PossibleLoad(station.name, station.name, station.maximum, station.arm, any_amount=True))
    found.extend(PossibleLoad(f"fuel, {tank.name}", tank.name, full_tank(tank), tank.arm, any_amount=True, fuel=True) for tank in aircraft.tanks)
    return tuple(found)


def seats_taken(state: State, station: Station) -> int:
    """Seats of a station that items take, as far as the job says it."""
    return sum(int(seats.value.magnitude) for _, seats in state.seats_taken(station.name) if isinstance(seats, Fact))


def pilot_station(aircraft: Aircraft) -> Station | None:
    """Where the pilot sits."""
    return next((station for station in aircraft.stations if station.holds == "pilot"), None)


def _persons(station: Station, taken: int) -> list[PossibleLoad]:
    if isinstance(station.seats, Missing):
        return [PossibleLoad(station.name, station.name, station.seats, station.arm, any_amount=False)]
    count = max(int(station.seats.value.magnitude) - taken, 0)
    names = [station.name] if count == 1 else [f"{station.name} {seat}" for seat in range(1, count + 1)]
    return [PossibleLoad(name, station.name, standard_person(), station.arm, any_amount=False) for name in names]


def full_tank(tank: Tank) -> Amount:
    """Weight of the usable fuel of a tank."""
    if isinstance(tank.usable, Missing):
        return tank.usable
    if isinstance(tank.density, Missing):
        return tank.density
    volume, density = tank.usable, tank.density
    pound = standard_person().value.unit
    weight = Quantity(half_up(pound.from_si(volume.value.si * density.value.si), 4).normalize(), pound)
    evidence = STATED if STATED in (volume.evidence, density.evidence) else f"{volume.evidence}; {density.evidence}"
    moves = off((volume, density.value.si), (density, volume.value.si))
    return Fact(weight, f"{volume.value} × {density.value} ({volume.origin}, {density.origin})", evidence, volume.path, off=moves)


def arms_of_fuel(aircraft: Aircraft) -> tuple[Amount, ...]:
    """All that says at which arm so much fuel may lie: each tank's arm, or its points with the density of the fuel."""
    return tuple(
        value
        for tank in aircraft.tanks
        for value in ((tank.density, *(value for point in tank.contents for value in point)) if tank.contents else (tank.arm,))
    )


def fuel_tank(aircraft: Aircraft, side: str, weight: Decimal = Decimal(0)) -> Tank | Missing:
    """The tank in which so much fuel does most against a limit: it lies foremost there against the forward one, rearmost against the aft.

    Args:
        aircraft: the aircraft.
        side: which limit.
        weight: the fuel, in SI; it does not matter where no tank tells its arm by its contents.
    """
    missing = [told for told in arms_of_fuel(aircraft) if isinstance(told, Missing)]
    if not aircraft.tanks or missing:
        return missing[0] if missing else aircraft.place.missing("tanks")
    choose = min if side == "forward" else max
    return choose(aircraft.tanks, key=lambda tank: _arm_of(tank, weight))


def _arm_of(tank: Tank, weight: Decimal) -> Decimal:
    """Arm of so much fuel in a tank of which nothing is missing: straight in moment between its points; that of the full tank beyond."""
    if not tank.contents:
        return there(tank.arm).value.si
    volume, before, moment_before = weight / there(tank.density).value.si, Decimal(0), Decimal(0)
    for point in tank.contents:
        here, arm = there(point.volume).value.si, there(point.arm).value.si
        if volume <= here:
            rise = (here * arm - moment_before) / (here - before)
            return (moment_before + rise * (volume - before)) / volume if volume else arm
        before, moment_before = here, here * arm
    return there(tank.contents[-1].arm).value.si
