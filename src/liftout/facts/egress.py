"""From which seats which exits are reached, with each set of items in."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.aircraft import Aircraft, Station
from liftout.facts.clearance import HEADS, KeepClear, Volume
from liftout.facts.fact import Fact, Missing
from liftout.facts.loads import seats_taken
from liftout.facts.restraint import Restraint
from liftout.facts.states import State
from liftout.job.errors import Fault, one_of

EXIT = "exit opening"


class SeatsInState(NamedTuple):
    """Seats of a station that somebody can sit on while some items are in."""

    station: Station
    state: State
    taken: int
    exits: tuple[tuple[Volume, tuple[Volume, ...]], ...]
    """Exits that are reached from here, each with all that must be clear on the way to it."""
    keep_clear: KeepClear

    @property
    def name(self) -> str:
        """The station."""
        return self.station.name

    @property
    def empty(self) -> bool:
        """Whether equipment takes all its seats."""
        return isinstance(self.station.seats, Fact) and self.taken >= self.station.seats.value.magnitude

    @property
    def unsaid(self) -> Missing:
        """What to write where no exit is named for these seats."""
        return Missing(
            f"name the exits that are reached from the {self.station.name}, and by way of what",
            f"{' / '.join(self.keep_clear.place.path)} / volumes / (an exit) / reached from",
        )


def unused_head_paths(
    aircraft: Aircraft, kept: KeepClear, restraints: tuple[Restraint, ...], faults: list[Fault] | None = None
) -> frozenset[tuple[str, str]]:
    """Head paths through which no head moves while an item is in: item and path, by name.

    They are those of seats of which the item takes all, and of the one that it is belted on in place of an occupant.
    """
    heads = {volume.name: volume for volume in kept.volumes if volume.kind == HEADS}
    seats = {station.name: station.seats for station in aircraft.stations}
    found = set()
    for held in restraints:
        for name in held.belted.frees if held.belted is not None else ():
            if name in heads:
                found.add((held.item.name, name))
            elif faults is not None and held.belted is not None:
                right = one_of(name, heads, "some")
                faults.append(held.belted.place.fault("frees", f'there is no head path "{name}".', right))
        taken = held.item.takes_seats
        if taken is None or not isinstance(taken.station, Fact) or not isinstance(taken.seats, Fact):
            continue
        there = seats.get(taken.station.value)
        if isinstance(there, Fact) and taken.seats.value.magnitude >= there.value.magnitude:
            found |= {
                (held.item.name, name)
                for name, volume in heads.items()
                if isinstance(volume.head_of, Fact) and volume.head_of.value == taken.station.value
            }
    return frozenset(found)


def seats_in_states(aircraft: Aircraft, fitted: tuple[State, ...], kept: KeepClear) -> tuple[SeatsInState, ...]:
    """Each station with seats in each state that differs by the items that are in."""
    if kept.declined_or_silent:
        return ()
    by_name = {volume.name: volume for volume in kept.volumes}
    distinct: dict[tuple[str, ...], State] = {}
    for state in fitted:
        if not state.travelling_in:
            distinct.setdefault(tuple(item.name for item in state.items), state)
    found = []
    for station in aircraft.stations:
        if station.holds not in ("pilot", "occupants"):
            continue
        ways = tuple(
            (volume, (volume, *(by_name[name] for name in volume.by_way_of if name in by_name)))
            for volume in kept.volumes
            if volume.kind == EXIT and station.name in volume.reached_from
        )
        found += [SeatsInState(station, state, seats_taken(state, station), ways, kept) for state in distinct.values()]
    return tuple(found)
