"""Worked values that findings use."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values


def worked_values(matter: Matter) -> Values:
    """What the chapter prints."""
    return {"sheets": [{"title": f"{sheet.name.rpartition('.')[2].replace('_', ' ').capitalize()}: {sheet.subject}", "of": sheet} for sheet in matter.assessment.worked]}
