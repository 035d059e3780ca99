"""Days of measurements against the date of the papers: a year typed wrongly makes evidence that nobody has."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import Final

from liftout.job.errors import Fault
from liftout.job.reader import Said

AFTER_MOST: Final = datetime.timedelta(days=366)
"""What was measured later than so long after the date of the papers was not measured for them. A figure of ours, wide enough for papers
that are worked on before their date is brought up to it."""


def too_late(said: Said, dated: datetime.date) -> list[Fault]:
    """Measurements in the job file itself that lie more than a year after the date of the papers.

    What the catalogue says of its parts may be measured anew long after the papers of a job were written.
    """
    latest = (dated + AFTER_MOST).isoformat()
    wrong, right = (
        f"is more than a year after the date of the papers, {dated.isoformat()}.",
        "Look at the year, or bring papers / date up to the day.",
    )
    return [
        Fault(day.file, day.line, day.column, path, wrong, right)
        for path, day in _days(said, ())
        if day.file == said.file and isinstance(day.value, str) and day.value > latest
    ]


def _days(said: Said, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Said]]:
    """Where a day of a measurement is said, and the day; all days have been read as dates before."""
    for key, inner in said.children():
        if key == "measured" and isinstance(inner.value, dict) and "date" in inner.value:
            yield (*path, key, "date"), inner.value["date"]
        elif not isinstance(inner.value, str):
            yield from _days(inner, (*path, key))
