"""What is open, what was decided, and what was declared not to apply."""

from __future__ import annotations

from typing import Final

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, LINE, brief, decided, everything_declined, in_its_case, lapsed, named, subject_of
from liftout.findings import Finding

DEVIATION_COLUMNS: Final = 4
DEVIATION_ROWS: Final = 6


def open_points(matter: Matter) -> Values:
    """What the chapter prints."""
    return {
        "open": [_row(finding) for finding in matter.assessment.open],
        "marked": any(finding.inputs for finding in matter.assessment.open),
        "decided": decided(matter.assessment.findings),
        "lapsed": lapsed(matter.assessment),
        "declined": [
            ChecklistRow(named(reason.path), "on the aircraft", "look", f"as the job says: {reason.value}", reason.origin)
            for reason in everything_declined(matter.facts.place)
        ],
        "deviations": [[LINE] * DEVIATION_COLUMNS for _ in range(DEVIATION_ROWS)],
    }


def _row(finding: Finding) -> tuple[str, ...]:
    """An open finding; a referred one with the mark that its decision must name."""
    return (finding.title, subject_of(finding), in_its_case(finding, brief(finding)), finding.inputs or "none", BLANK, BLANK)
