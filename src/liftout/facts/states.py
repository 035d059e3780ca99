"""The states of the aircraft: which items are in, and whether loops are filled.

Criteria never have to remember states; they are given subjects that already carry one.
"""

from __future__ import annotations

import itertools
from typing import NamedTuple

from liftout.facts.aircraft import Compartment, Station
from liftout.facts.equipment import Item, SeatsTaken
from liftout.facts.fact import CHOSEN, Amount, Fact, Missing
from liftout.facts.lines import Loop


class State(NamedTuple):
    """The set of items that are in, and the loops that are filled."""

    name: str
    items: tuple[Item, ...]
    filled: tuple[Loop, ...]
    undercarriage: str = ""
    """Name of the undercarriage that it is flown on, where there are several."""
    travelling_in: str = ""
    """Station for baggage in which a lifted-out item travels."""

    @property
    def seat_takers(self) -> tuple[tuple[Item, SeatsTaken], ...]:
        """Items that are in and take seats, or may, with what the job says of it."""
        told = ((item, item.takes_seats) for item in self.items)
        return tuple((item, seats) for item, seats in told if seats is not None and seats.declined is None)

    def seats_taken(self, station: str) -> tuple[tuple[Item, Amount], ...]:
        """Items that take seats of a station, with how many."""
        return tuple((item, taken.seats) for item, taken in self.seat_takers if isinstance(taken.station, Fact) and taken.station.value == station)

    @property
    def equipped(self) -> str:
        """Its name without the undercarriage."""
        return self.name.removeprefix(f"{self.undercarriage}: ")

    @property
    def before(self) -> bool:
        """Whether it is the aircraft before any change."""
        return self.equipped == BEFORE


class Filled(NamedTuple):
    """A loop filled in one state: the liquid of its lines and of those of its items that are in."""

    loop: Loop
    state: State

    @property
    def items(self) -> tuple[Item, ...]:
        """Items of the loop that are in."""
        return tuple(here for item in self.loop.items for here in self.state.items if here.name == item.name)

    @property
    def name(self) -> str:
        """The loop."""
        return self.loop.name


class StateSide(NamedTuple):
    """A state against one of the two centre-of-gravity limits."""

    state: State
    side: str

    @property
    def name(self) -> str:
        """The side."""
        return f"{self.side} limit"


class Room(NamedTuple):
    """What is loaded in a compartment, or in several that share a limit, in one state: equipment first, then the rest."""

    compartment: Compartment
    state: State

    @property
    def name(self) -> str:
        """The compartment."""
        return self.compartment.name

    @property
    def items(self) -> tuple[Item, ...]:
        """Equipment that stands there, or takes seats there."""
        within = self.compartment.stations
        belted = {item.name for station in within for item, _ in self.state.seats_taken(station)}
        return tuple(
            item for item in self.state.items if item.name in belted or (isinstance(item.compartment, Fact) and item.compartment.value in within)
        )

    @property
    def unknown(self) -> tuple[Missing, ...]:
        """What the job leaves open: items of which it does not say whether they stand there, or whose seats they take."""
        standing = (item.compartment for item in self.state.items if self.compartment.baggage and isinstance(item.compartment, Missing))
        seats = () if self.compartment.baggage and not self.compartment.combined else self.state.seat_takers
        unsaid = (taken.station for _, taken in seats if isinstance(taken.station, Missing))
        return (*standing, *unsaid)

    @property
    def seats_taken(self) -> tuple[tuple[Item, Amount], ...]:
        """Items that take seats of this station, with how many; of a limit that stations share none."""
        return self.state.seats_taken(self.compartment.stations[0]) if len(self.compartment.stations) == 1 else ()

    @property
    def taken(self) -> bool:
        """Whether equipment takes of the limit or of the seats, or may."""
        return bool(self.items or self.unknown or self.seats_taken)


BEFORE = "before any change"
PROVISIONS = "provisions only"
SUBSETS_MAX = 8
"""Every set of removable items is a state; a job with more of them than this is refused, not sampled."""


def states(items: tuple[Item, ...], loops: tuple[Loop, ...], undercarriages: tuple[str, ...] = ("",)) -> tuple[State, ...]:
    """Every state that the aircraft can be flown in: each set of removable items, loops filled and drained, on each undercarriage."""
    equipped = _equipped(items, loops)
    return tuple(state._replace(name=f"{on}: {state.name}" if on else state.name, undercarriage=on) for on in undercarriages for state in equipped)


def _equipped(items: tuple[Item, ...], loops: tuple[Loop, ...]) -> tuple[State, ...]:
    provisions = tuple(item for item in items if not item.removable)
    removable = tuple(item for item in items if item.removable)
    live = tuple(loop for loop in loops if loop.declined is None)
    found = [State(BEFORE, (), ())]
    for chosen in _sets(removable):
        inside = tuple(item for item in items if item in chosen or item in provisions)
        name = _name(chosen, removable)
        found.append(State(f"{name}{' and drained' if live and chosen else ''}", inside, ()))
        if live:
            # Self-sealing couplings keep lines and items full, whatever is out.
            found.append(State(f"{name}{' and filled' if chosen else ', lines filled'}", inside, live))
    for item in removable:
        if item.travels_in is not None:
            inside = (*provisions, _as_baggage(item, item.travels_in))
            name = f"{item.name} travelling in {item.travels_in.name}"
            found.append(State(f"{name}{', drained' if live else ''}", inside, (), travelling_in=item.travels_in.name))
            if live:
                found.append(State(f"{name}, filled", inside, live, travelling_in=item.travels_in.name))
    return tuple(found)


def _as_baggage(item: Item, station: Station) -> Item:
    """The item carried as baggage, elsewhere than where it is fitted: at the arm of that station, and of its limit."""
    return item._replace(
        arm=station.arm,
        lateral=station.lateral,
        compartment=Fact(station.name, item.place.job.place((*item.place.path, "travels in")), CHOSEN, (*item.place.path, "travels in")),
        takes_seats=None,
    )


def _sets(removable: tuple[Item, ...]) -> list[tuple[Item, ...]]:
    return [chosen for size in range(len(removable) + 1) for chosen in itertools.combinations(removable, size)]


def _name(chosen: tuple[Item, ...], removable: tuple[Item, ...]) -> str:
    if not chosen:
        return PROVISIONS
    if len(chosen) == len(removable):
        return "in"
    return f"only {', '.join(item.name for item in chosen)} in"


def everything_in(all_states: tuple[State, ...]) -> State:
    """Everything in, and filled where there is a loop."""
    return next((state for state in reversed(all_states) if state.equipped in ("in and filled", "in")), all_states[-1])


def state_sides(all_states: tuple[State, ...]) -> tuple[StateSide, ...]:
    """Every state against the forward and the aft limit."""
    return tuple(StateSide(state, side) for state in all_states for side in ("forward", "aft"))


def rooms(compartments: tuple[Compartment, ...], all_states: tuple[State, ...]) -> tuple[Room, ...]:
    """Every compartment in every state."""
    return tuple(Room(compartment, state) for compartment in compartments for state in all_states)
