"""What is open, what was decided, and what was declared not to apply."""

from __future__ import annotations

from typing import Final

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, LINE, brief, decided, everything_declined, in_its_case, lapsed, named, subject_of
from liftout.facts import Fact, Facts
from liftout.findings import Finding

DEVIATION_COLUMNS: Final = 4
DEVIATION_ROWS: Final = 6
IN_PAPERS: Final = (("aircraft", "limits"), ("aircraft", "floors"))
"""Parts of a job that are read in papers and not seen on the aircraft."""


def open_points(matter: Matter) -> Values:
    """What the chapter prints."""
    return {
        "open": [_row(finding) for finding in matter.assessment.open],
        "marked": any(finding.inputs for finding in matter.assessment.open),
        "decided": decided(matter.assessment.findings),
        "lapsed": lapsed(matter.assessment),
        "declined": [
            ChecklistRow(named(reason.path), *_where(reason), f"as the job says: {reason.value}", reason.origin)
            for reason in everything_declined(matter.facts.place)
            if reason.origin not in _asked(matter.facts)
        ],
        "deviations": [[LINE] * DEVIATION_COLUMNS for _ in range(DEVIATION_ROWS)],
    }


def _where(reason: Fact[str]) -> tuple[str, str]:
    """Where it is seen whether a reason holds, and how: what a data sheet does not give, no aircraft shows."""
    return ("papers of the aircraft", "read") if reason.path[:2] in IN_PAPERS else ("on the aircraft", "look")


def _asked(facts: Facts) -> set[str]:
    """Reasons that have a line of their own in another chapter of the checklist."""
    reasons = (
        *(item.without_box for item in facts.items),
        *(kind.without for kind in facts.keep_clear.kinds),
        *(held.declined for held in facts.restraints),
        *(out.declined for out in facts.removals),
    )
    return {reason.origin for reason in reasons if reason is not None}


def _row(finding: Finding) -> tuple[str, ...]:
    """An open finding; a referred one with the mark that its decision must name."""
    return (finding.title, subject_of(finding), in_its_case(finding, brief(finding)), finding.inputs or "none", BLANK, BLANK)
