"""The loading planner: where it is, and how its file is told from any other."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values


def planner(matter: Matter) -> Values:
    """What the chapter prints."""
    made = matter.planner
    return {
        "file": [("File", made.file.name), ("SHA-256", made.digest), ("Docket", f"{matter.papers.number} revision {matter.papers.revision}")]
        if made.file
        else [],
        "loadings": made.loadings,
        "missing": made.missing,
    }
