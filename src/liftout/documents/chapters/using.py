"""How the checklist is used, and what is written at its head."""

from __future__ import annotations

from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import LINE, said

INSTRUMENT_COLUMNS: Final = 4
INSTRUMENT_ROWS: Final = 6


def using(matter: Matter) -> Values:
    """What the chapter prints."""
    plane = matter.facts.aircraft
    return {
        "header": [
            ("Aircraft", plane.model),
            ("Serial number, as the papers say", said(plane.serial_number)),
            ("Serial number, as read on the data plate", LINE),
            ("State inspected", LINE),
            ("Total time of the aircraft", LINE),
            ("Place and date", LINE),
            ("Inspector", LINE),
        ],
        "instruments": [[LINE] * INSTRUMENT_COLUMNS for _ in range(INSTRUMENT_ROWS)],
    }
