"""Worked values that findings and other papers use, kind by kind."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence
from liftout.worked import Worked


def worked_values(matter: Matter) -> Values:
    """What the chapter prints."""
    kinds: dict[str, list[Worked]] = {}
    for sheet in matter.assessment.worked:
        kinds.setdefault(sheet.name, []).append(sheet)
    return {
        "kinds": [
            {
                "title": sentence(name.rpartition(".")[2].replace("_", " ")),
                "sheets": [{"title": sentence(sheet.subject), "of": sheet} for sheet in sheets],
            }
            for name, sheets in kinds.items()
        ]
    }
