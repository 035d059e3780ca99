"""Kit list: everything that is in the box, section by section."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOTHING
from liftout.documents.kit import SECTIONS, KitLine, cells, whole_kit


def kit(matter: Matter) -> Values:
    """What the chapter prints."""
    lines = whole_kit(matter)
    sections = [(section, [_row(line) for line in lines if line.section == section]) for section in SECTIONS]
    return {
        "sections": [(section[0].upper() + section[1:], rows) for section, rows in sections if rows],
        "without": [section for section, rows in sections if not rows],
        "file": f"{matter.papers.number}-kit.csv",
    }


def _row(line: KitLine) -> tuple[str, ...]:
    _, what, part, pieces, each, unit, total, unit_of_total, serves, lacks, note = cells(line)
    long = f"{each} {unit}" if each else ""
    much = f"{total} {unit_of_total}" if total and pieces != "1" else ""
    told = [what, part, pieces, long, much, serves, "; ".join(words for words in (lacks and f"missing: {lacks}", note) if words)]
    return tuple(cell or NOTHING for cell in told)
