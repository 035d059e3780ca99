"""What may be loaded: persons, baggage, fuel, each with the most of it and its arm."""

from __future__ import annotations

from dataclasses import dataclass

from liftout.facts.aircraft import Aircraft, Station, Tank
from liftout.facts.fact import STATED, Amount, Fact, Missing
from liftout.quantities import Quantity
from liftout.tables import table


@dataclass(frozen=True)
class PossibleLoad:
    """A load that may be aboard: the most of it, its arm, and whether it comes in any amount or whole."""

    name: str
    most: Amount
    arm: Amount
    any_amount: bool
    fuel: bool = False


def standard_person() -> Fact[Quantity]:
    """Weight of a person where none is measured."""
    cell = table("occupant_weights").row("standard person").weight
    assert cell.quantity is not None
    return Fact(cell.quantity, cell.origin, cell.read)


def possible_loads(aircraft: Aircraft) -> tuple[PossibleLoad, ...]:
    """Everything but the pilot that may be aboard."""
    found: list[PossibleLoad] = []
    for station in aircraft.stations:
        if station.holds == "occupants":
            found.extend(_persons(station))
        elif station.holds == "baggage":
            found.append(PossibleLoad(station.name, station.maximum, station.arm, any_amount=True))
    found.extend(PossibleLoad(f"fuel, {tank.name}", _fuel(tank), tank.arm, any_amount=True, fuel=True) for tank in aircraft.tanks)
    return tuple(found)


def pilot_station(aircraft: Aircraft) -> Station | None:
    """Where the pilot sits."""
    return next((station for station in aircraft.stations if station.holds == "pilot"), None)


def _persons(station: Station) -> list[PossibleLoad]:
    if isinstance(station.seats, Missing):
        return [PossibleLoad(station.name, station.seats, station.arm, any_amount=False)]
    count = int(station.seats.value.magnitude)
    names = [station.name] if count == 1 else [f"{station.name} {seat}" for seat in range(1, count + 1)]
    return [PossibleLoad(name, standard_person(), station.arm, any_amount=False) for name in names]


def _fuel(tank: Tank) -> Amount:
    if isinstance(tank.usable, Missing):
        return tank.usable
    if isinstance(tank.density, Missing):
        return tank.density
    volume, density = tank.usable, tank.density
    pound = standard_person().value.unit
    weight = Quantity(pound.from_si(volume.value.si * density.value.si).normalize(), pound)
    evidence = STATED if STATED in (volume.evidence, density.evidence) else f"{volume.evidence}; {density.evidence}"
    return Fact(weight, f"{volume.value} × {density.value} ({volume.origin}, {density.origin})", evidence, volume.path)
