"""What may be loaded: persons, baggage, fuel, each with the most of it and its arm."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.aircraft import Aircraft, Station, Tank
from liftout.facts.fact import STATED, Amount, Fact, Missing, off
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


def fuel_arm(aircraft: Aircraft, side: str) -> Amount:
    """Arm of the minimum fuel where it does most: the foremost tank against the forward limit, the rearmost against the aft."""
    arms = [tank.arm for tank in aircraft.tanks]
    missing = [arm for arm in arms if isinstance(arm, Missing)]
    if not arms or missing:
        return missing[0] if missing else aircraft.place.missing("tanks")
    choose = min if side == "forward" else max
    return choose((arm for arm in arms if isinstance(arm, Fact)), key=lambda arm: arm.value.si)
