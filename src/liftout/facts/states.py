"""The states of the aircraft: which items are in, and whether loops are filled.

Criteria never have to remember states; they are given subjects that already carry one.
"""

from __future__ import annotations

import itertools
from typing import NamedTuple

from liftout.facts.aircraft import Compartment
from liftout.facts.equipment import Item
from liftout.facts.fact import Fact, Missing
from liftout.facts.lines import Loop


class State(NamedTuple):
    """The set of items that are in, and the loops that are filled."""

    name: str
    items: tuple[Item, ...]
    filled: tuple[Loop, ...]


class Filled(NamedTuple):
    """A loop filled in one state: the liquid of its lines and of those of its items that are in."""

    loop: Loop
    state: State

    @property
    def items(self) -> tuple[Item, ...]:
        """Items of the loop that are in."""
        return tuple(item for item in self.loop.items if item in self.state.items)

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
        """Equipment that stands there."""
        return tuple(item for item in self.state.items if isinstance(item.compartment, Fact) and item.compartment.value in self.compartment.stations)

    @property
    def unknown(self) -> tuple[Missing, ...]:
        """What the job leaves open: items of which it does not say whether they stand there."""
        return tuple(item.compartment for item in self.state.items if self.compartment.baggage and isinstance(item.compartment, Missing))

    @property
    def taken(self) -> bool:
        """Whether equipment takes of the limit, or may."""
        return bool(self.items or self.unknown)


BEFORE = "before any change"
PROVISIONS = "provisions only"
SUBSETS_MAX = 8
"""Every set of removable items is a state; a job with more of them than this is refused, not sampled."""


def states(items: tuple[Item, ...], loops: tuple[Loop, ...]) -> tuple[State, ...]:
    """Every state that the aircraft can be flown in with these items: each set of removable ones, loops filled and drained."""
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
    return tuple(found)


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
    return next((state for state in reversed(all_states) if state.name in ("in and filled", "in")), all_states[-1])


def state_sides(all_states: tuple[State, ...]) -> tuple[StateSide, ...]:
    """Every state against the forward and the aft limit."""
    return tuple(StateSide(state, side) for state in all_states for side in ("forward", "aft"))


def rooms(compartments: tuple[Compartment, ...], all_states: tuple[State, ...]) -> tuple[Room, ...]:
    """Every compartment in every state."""
    return tuple(Room(compartment, state) for compartment in compartments for state in all_states)
