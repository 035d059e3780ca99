"""The states of the aircraft: which items are in, and whether loops are filled.

Criteria never have to remember states; they are given subjects that already carry one.
"""

from __future__ import annotations

from dataclasses import dataclass

from liftout.facts.equipment import Item
from liftout.facts.lines import Loop


@dataclass(frozen=True)
class State:
    """The set of items that are in, and the loops that are filled."""

    name: str
    items: tuple[Item, ...]
    filled: tuple[Loop, ...]


@dataclass(frozen=True)
class StateSide:
    """A state against one of the two centre-of-gravity limits."""

    state: State
    side: str

    @property
    def name(self) -> str:
        """The side."""
        return f"{self.side} limit"


BEFORE = "before any change"
PROVISIONS = "provisions only"


def states(items: tuple[Item, ...], loops: tuple[Loop, ...]) -> tuple[State, ...]:
    """Every state that the aircraft can be flown in with these items."""
    provisions = tuple(item for item in items if not item.removable)
    removable = tuple(item for item in items if item.removable)
    filled = tuple(loop for loop in loops if loop.declined is None)
    found = [State(BEFORE, (), ()), State(PROVISIONS, provisions, ())]
    if filled:
        found.append(State("in and filled", items, filled))
        found.append(State("in and drained", items, ()))
    elif removable:
        found.append(State("in", items, ()))
    if len(removable) > 1:
        found.extend(State(f"{item.name} alone in", (*provisions, item), ()) for item in removable)
    return tuple(found)


def state_sides(all_states: tuple[State, ...]) -> tuple[StateSide, ...]:
    """Every state against the forward and the aft limit."""
    return tuple(StateSide(state, side) for state in all_states for side in ("forward", "aft"))
