"""From one state's record to another: which record is in force in which state, each with a number that the log card names."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.removal import state_columns, state_row
from liftout.documents.chapters.said import BLANK, worked_value
from liftout.facts import Facts
from liftout.worked.balance.amended_empty_weight import amended_empty_weight


def switching(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    sheets = [(state, amended_empty_weight(state, facts)) for state in facts.states if not state.before]
    columns, numbers = state_columns(facts), record_numbers(facts)
    return {
        "record_head": ("Record", *columns, "Empty weight", "Moment"),
        "record_sides": ("left", *("left" for _ in columns), "right", "right"),
        "records": [
            (f"{numbers[state.name]}: {name}", *row, worked_value(sheet, "W"), worked_value(sheet, "M"))
            for state, sheet in sheets
            for name, *row in [state_row(state, facts)]
        ],
        "blank": BLANK,
        "records_number": f"{matter.papers.number}-5",
    }


def record_numbers(facts: Facts) -> dict[str, str]:
    """The number of each state's record, by the name of the state."""
    return {state.name: str(number) for number, state in enumerate((state for state in facts.states if not state.before), 1)}
