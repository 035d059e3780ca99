"""What may be switched on in each state of the aircraft, and which circuits stay dead.

A circuit stays dead while its item is out, travels as baggage, belongs to a loop that is parted or drained, or cannot be used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from liftout.facts.electrical import Run
from liftout.facts.equipment import Item
from liftout.facts.lines import Loop
from liftout.facts.removal import Breaker
from liftout.facts.states import State

if TYPE_CHECKING:
    from liftout.facts import Facts


class DeadCircuit(NamedTuple):
    """A circuit that stays dead, and how its breaker is left and marked, as far as the job says it."""

    run: Run
    breaker: Breaker | None


class ElectricalState(NamedTuple):
    """The circuits of the equipment in one state of the aircraft."""

    state: State
    unserviceable: Item | None
    """The item that is aboard and cannot be used; its weight stays in the record of the state."""
    live: tuple[Run, ...]
    """Circuits that may be switched on."""
    dead: tuple[DeadCircuit, ...]

    @property
    def name(self) -> str:
        """The state, with the item that cannot be used."""
        return f"{self.state.name}, {self.unserviceable.name} unserviceable" if self.unserviceable else self.state.name


def electrical_states(facts: Facts) -> tuple[ElectricalState, ...]:
    """Every state after the change; those with everything in also with each fed item unserviceable."""
    found = []
    for state in facts.fitted_states:
        found.append(_of(state, None, facts))
        if all(item in state.items for item in facts.removable_items):
            fed = dict.fromkeys(run.load.name for run in _usable(state, facts))
            found.extend(_of(state, next(item for item in state.items if item.name == name), facts) for name in fed)
    return tuple(found)


def dead_without(item: Item, facts: Facts) -> tuple[DeadCircuit, ...]:
    """The circuits that stay dead while an item is out or cannot be used: its own, and those of the loop that is no loop without it."""
    beside = [other.name for loop in facts.loops if loop.declined is None and item.name in [one.name for one in loop.items] for other in loop.items]
    names = (item.name, *beside)
    return tuple(DeadCircuit(run, _breaker(run, facts)) for run in facts.runs if run.load.name in names)


def _of(state: State, unserviceable: Item | None, facts: Facts) -> ElectricalState:
    idle = [circuit.run for circuit in dead_without(unserviceable, facts)] if unserviceable else []
    live = tuple(run for run in _usable(state, facts) if run not in idle)
    dead = tuple(DeadCircuit(run, _breaker(run, facts)) for run in facts.runs if run not in live)
    return ElectricalState(state, unserviceable, live, dead)


def _usable(state: State, facts: Facts) -> list[Run]:
    """Circuits whose item is in, and whose loop, where it has one, is whole and filled: a pump runs neither dry nor against a closed coupling."""
    closed = [loop for loop in facts.loops if loop.declined is None and not _whole(loop, state)]
    idle = [item for loop in closed for item in loop.items]
    return [run for run in facts.runs if run.load in state.items and run.load not in idle]


def _whole(loop: Loop, state: State) -> bool:
    return loop in state.filled and all(item in state.items for item in loop.items)


def _breaker(run: Run, facts: Facts) -> Breaker | None:
    """How the breaker is left while the item is out; so it is left whenever the circuit stays dead."""
    return next((removal.breakers.get(run.name) for removal in facts.removals if removal.item is run.load), None)
