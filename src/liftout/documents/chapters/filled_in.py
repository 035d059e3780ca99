"""The checklist on a screen: where it is, how its file is told from any other, and what leaves it."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values


def filled_in(matter: Matter) -> Values:
    """What the chapter prints."""
    made = matter.live_checklist
    return {
        "file": [("File", made.file.name), ("SHA-256", made.digest), ("Docket", f"{matter.papers.number} revision {matter.papers.revision}")],
        "lines": made.lines,
    }
