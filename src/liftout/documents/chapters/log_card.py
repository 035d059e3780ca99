"""Fit and remove log card: which weight record holds in which state, and rows to be written by hand; it stays aboard."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, said, worked_value
from liftout.documents.chapters.switching import record_numbers
from liftout.facts import Facts
from liftout.facts.states import State
from liftout.worked.balance.amended_empty_weight import amended_empty_weight

LOG: Final = ("Date", "State now (S and number)", "Record (number)", "Initials", "Name, in block letters", "Licence, kind and number")
ROWS: Final = 30
"""What fits on two pages beside the records of a fit with a handful of items."""


def log_card(matter: Matter) -> Values:
    """What the chapter prints."""
    plane = matter.facts.aircraft
    return {
        "blank": BLANK,
        "aircraft": [
            ("Aircraft", f"{plane.model}, serial number {said(plane.serial_number)}"),
            ("Weight records", f"{matter.papers.number}-2 revision {matter.papers.revision}, chapter From one state's record to another"),
        ],
        "states": list(_states(matter.facts)),
        "amendment": f"{matter.papers.number}-2",
        "log_head": LOG,
        "log_sides": ["left"] * len(LOG),
        "log": [[BLANK] * len(LOG)] * ROWS,
    }


def _states(facts: Facts) -> Iterator[tuple[str, ...]]:
    """Each state, with an item unserviceable too: its mark, the record that holds in it, its weight and moment."""
    numbers = record_numbers(facts)
    for at, (name, state) in enumerate(_named(facts), 1):
        sheet = amended_empty_weight(state, facts)
        yield (f"S{at}", name, numbers[state.name], worked_value(sheet, "W"), worked_value(sheet, "M"))


def _named(facts: Facts) -> Iterator[tuple[str, State]]:
    """What may be aboard in which state; an item that no circuit feeds can be unserviceable as well."""
    unfed = [item for item in facts.removable_items if not any(run.load is item for run in facts.runs)]
    for one in facts.electrical_states:
        yield one.name, one.state
    for state in facts.fitted_states:
        if all(item in state.items for item in facts.removable_items):
            yield from ((f"{state.name}, {item.name} unserviceable", state) for item in unfed)
