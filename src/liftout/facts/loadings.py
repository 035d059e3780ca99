"""Loadings that the job names, each in every state in which it may be flown."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from liftout.facts.aircraft import Aircraft, Compartment, Tank
from liftout.facts.equipment import Item
from liftout.facts.fact import CHOSEN, STATED, Amount, Fact, Missing, Place
from liftout.facts.loads import pilot_station
from liftout.facts.states import State
from liftout.job.errors import Fault, one_of
from liftout.quantities import Quantity, unit

TAKEOFF, LANDING = "take-off", "landing"


class Fuel(NamedTuple):
    """Fuel in a tank, told by volume or by weight."""

    tank: Tank
    amount: Fact[Quantity]
    by_volume: bool

    @property
    def weight(self) -> Decimal | None:
        """Its weight in SI; None where the density that it takes is missing."""
        if not self.by_volume:
            return self.amount.value.si
        return None if isinstance(self.tank.density, Missing) else self.amount.value.si * self.tank.density.value.si


class Loading(NamedTuple):
    """A loading: what is at each station, and the fuel in each tank; what it does not name is empty."""

    name: str
    place: Place
    stations: dict[str, Amount]
    at_takeoff: tuple[Fuel, ...]
    at_landing: tuple[Fuel, ...]
    without: tuple[str, ...]
    on: tuple[str, ...]
    """Undercarriages that have all of its stations."""


class Loaded(NamedTuple):
    """A loading in one state, at take-off or at landing."""

    loading: Loading
    state: State
    when: str

    @property
    def name(self) -> str:
        """Loading, and when."""
        return f"{self.loading.name}, {self.when}"

    @property
    def fuel(self) -> tuple[Fuel, ...]:
        """Fuel in each tank, as far as the job says it."""
        return self.loading.at_takeoff if self.when == TAKEOFF else self.loading.at_landing

    @property
    def last_tank(self) -> Tank | Missing:
        """The tank that holds the minimum fuel where no fuel at landing is told: the only one that holds any."""
        holding = self.holding
        return holding[0].tank if len(holding) == 1 else self.loading.place.missing("fuel_at_landing" if holding else "fuel_at_takeoff")

    @property
    def holding(self) -> list[Fuel]:
        """Fuel at take-off in each tank that holds any."""
        return [fuel for fuel in self.loading.at_takeoff if fuel.amount.value.magnitude]

    def inside(self, compartment: Compartment) -> list[tuple[str, Amount]]:
        """What is loaded in a compartment."""
        return [(name, amount) for name, amount in self.loading.stations.items() if name in compartment.stations]


def loadings(whole: Place, aircraft: Aircraft, items: dict[str, Item], faults: list[Fault]) -> tuple[Loading, ...]:
    """The named loadings of the job."""
    tanks = {tank.name: tank for tank in aircraft.tanks}
    found = []
    for name, place in whole.part("loadings").each("named").items():
        without = place.said_at("without") or ()
        removable = [item.name for item in items.values() if item.removable]
        _known(place, "without", "removable item", without, removable, faults)
        stations = _amounts(place, "stations")
        _known(place, "stations", "station", stations, [station.name for station in aircraft.stations], faults)
        faults.extend(_too_light(place, stations, aircraft))
        faults.extend(_never_together(place, stations, aircraft))
        at_takeoff, at_landing = (_fuel(place, field, tanks, faults) for field in ("fuel_at_takeoff", "fuel_at_landing"))
        if _gains_fuel(at_takeoff, at_landing):
            faults.append(place.fault("fuel_at_landing", "is more fuel than at take-off.", "Write no more than there is at take-off."))
        loaded_here = [station for station in aircraft.stations if station.name in stations]
        on = tuple(one.name for one in aircraft.undercarriages if all(station.there(one.name) for station in loaded_here))
        if not on:
            faults.append(
                place.fault("stations", "names stations of different undercarriages.", "Name those of one undercarriage, and make two loadings.")
            )
        found.append(Loading(name, place, stations, at_takeoff, at_landing, without, on))
    return tuple(found)


def loaded(named: tuple[Loading, ...], all_states: tuple[State, ...]) -> tuple[Loaded, ...]:
    """Every named loading in every state in which the items are out that must be, at take-off and at landing."""
    return tuple(
        Loaded(loading, state, when)
        for loading in named
        for state in all_states
        # Where an item travels as baggage, what the loading puts there is not aboard.
        if state.undercarriage in loading.on
        and state.travelling_in not in loading.stations
        and not any(item.name in loading.without for item in state.items)
        for when in (TAKEOFF, LANDING)
    )


def pilot_of(loading: Loading, aircraft: Aircraft) -> Amount:
    """What the pilot of a loading weighs: the pilot's seat is never empty."""
    seat = pilot_station(aircraft)
    if seat is None:
        return aircraft.place.missing("stations")
    told = loading.stations.get(seat.name)
    return told if isinstance(told, Fact) and told.value.magnitude else loading.place.missing("stations")


def _amounts(place: Place, field: str) -> dict[str, Amount]:
    """What is loaded is what the shop chooses to look at, and needs no evidence."""
    return {
        name: replace(told, evidence=CHOSEN) if isinstance(told, Fact) and told.evidence == STATED else told
        for name, told in place.quantities(field).items()
    }


def _too_light(place: Place, told: dict[str, Amount], aircraft: Aircraft) -> list[Fault]:
    """A pilot lighter than the least that is said of the seat: then what is shown for every loading does not hold for this one."""
    seat = pilot_station(aircraft)
    pilot = told.get(seat.name) if seat else None
    if seat is None or not isinstance(pilot, Fact) or not isinstance(seat.least, Fact) or pilot.value.si >= seat.least.value.si:
        return []
    right = f"Write the weight of the pilot, or let the least at {seat.name} be no more than that."
    return [place.fault("stations", f"{pilot.value} at {seat.name} is less than the least told there, {seat.least.value}.", right)]


def _never_together(place: Place, told: dict[str, Amount], aircraft: Aircraft) -> Iterator[Fault]:
    """Stations loaded beside one that they are loaded instead of: the region leaves such a loading out."""
    holding = [name for name, amount in told.items() if isinstance(amount, Fact) and amount.value.magnitude]
    for station in aircraft.stations:
        for other in station.instead_of:
            if station.name in holding and other in holding:
                wrong = f"loads {station.name} and {other}, and {station.name} is loaded instead of {other}."
                yield place.fault("stations", wrong, "Load one of the two, and make two loadings if both are flown.")


def _known(place: Place, field: str, kind: str, told: Collection[str], names: Collection[str], faults: list[Fault]) -> None:
    faults.extend(place.fault(field, f'there is no {kind} "{name}".', one_of(name, names, "some")) for name in told if name not in names)


def _fuel(place: Place, field: str, tanks: dict[str, Tank], faults: list[Fault]) -> tuple[Fuel, ...]:
    told = _amounts(place, field)
    _known(place, field, "tank", told, tanks, faults)
    litre = unit("L").dimension
    fuel = [Fuel(tanks[name], amount, amount.value.dimension == litre) for name, amount in told.items() if name in tanks and isinstance(amount, Fact)]
    faults.extend(
        place.fault(field, f"{one.amount.value} is more than {one.tank.name} holds.", "Write no more than the tank holds.")
        for one in fuel
        if _overfull(one)
    )
    return tuple(fuel)


def _gains_fuel(at_takeoff: tuple[Fuel, ...], at_landing: tuple[Fuel, ...]) -> bool:
    """Whether more fuel is told at landing than at take-off, of all tanks together, for some may be pumped into others."""
    before, after = ([fuel.weight for fuel in told] for told in (at_takeoff, at_landing))
    known = [[weight for weight in told if weight is not None] for told in (before, after)]
    return bool(before) and known == [before, after] and sum(known[1]) > sum(known[0])


def _overfull(fuel: Fuel) -> bool:
    usable, density = fuel.tank.usable, fuel.tank.density
    if isinstance(usable, Missing) or (isinstance(density, Missing) and not fuel.by_volume):
        return False
    most = usable.value.si if fuel.by_volume or isinstance(density, Missing) else usable.value.si * density.value.si
    return fuel.amount.value.si > most
