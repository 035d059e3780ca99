"""What is open, what was decided, and what was declared not to apply."""

from __future__ import annotations

from typing import Final

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, LINE, brief, everything_declined, named, subject_of

DEVIATION_COLUMNS: Final = 4
DEVIATION_ROWS: Final = 6


def open_points(matter: Matter) -> Values:
    """What the chapter prints."""
    decided = [(finding, finding.decision) for finding in matter.assessment.findings if finding.decision is not None]
    return {
        "open": [(finding.title, subject_of(finding), brief(finding), BLANK, BLANK) for finding in matter.assessment.open],
        "decided": [
            (
                finding.title,
                subject_of(finding),
                f"{'DEMONSTRATION: ' if made.demonstration else ''}{made.decision}",
                f"{made.name}, {made.licence}, {made.date}",
            )
            for finding, made in decided
        ],
        "declined": [
            ChecklistRow(named(reason.path), "on the aircraft", "look", f"as the job says: {reason.value}", reason.origin)
            for reason in everything_declined(matter.facts.place)
        ],
        "deviations": [[LINE] * DEVIATION_COLUMNS for _ in range(DEVIATION_ROWS)],
    }
