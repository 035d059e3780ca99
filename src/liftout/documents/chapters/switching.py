"""From one state's record to another: which line is in force, and the log of changes."""

from __future__ import annotations

from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.removal import state_columns, state_row
from liftout.documents.chapters.said import BLANK, worked_value
from liftout.worked.balance.amended_empty_weight import amended_empty_weight

LOG_COLUMNS: Final = 6
LOG_ROWS: Final = 10


def switching(matter: Matter) -> Values:
    """What the chapter prints."""
    sheets = [(state, amended_empty_weight(state, matter.facts)) for state in matter.facts.states if not state.before]
    columns = state_columns(matter.facts)
    return {
        "record_head": ("Record in force", *columns, "Empty weight", "Moment"),
        "record_sides": ("left", *("left" for _ in columns), "right", "right"),
        "records": [(*state_row(state, matter.facts), worked_value(sheet, "W"), worked_value(sheet, "M")) for state, sheet in sheets],
        "blank": BLANK,
        "log": [[BLANK] * LOG_COLUMNS for _ in range(LOG_ROWS)],
    }
