"""Removal, blanks and refitting: done once by the book, with a clock."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, said, sentence
from liftout.facts import Facts
from liftout.facts.removal import Removal


def removability(matter: Matter) -> Values:
    """What the chapter prints."""
    manual = f"manual {matter.papers.number}-1, chapter Removal and refitting"
    return {
        "items": [{"title": sentence(out.name), "rows": list(_rows(out, manual))} for out in matter.facts.removals],
        "openings": list(_openings(matter.facts)),
    }


def _rows(out: Removal, manual: str) -> Iterator[ChecklistRow]:
    if out.declined is not None:
        yield ChecklistRow(f"Removal of the {out.name}", "on the aircraft", "look", f"as the job says: {out.declined.value}", out.declined.origin)
        return
    yield ChecklistRow(
        f"Removal of the {out.name}, step by step",
        "on the aircraft",
        "one person does it by the manual",
        "each step as written; no tool that is not listed",
        manual,
    )
    yield ChecklistRow(f"Removal of the {out.name}: time", "on the aircraft", "stop watch", f"expected {said(out.time)}, within {BLANK}", manual)
    for part in out.disconnections:
        if part.kind != "strap":
            yield ChecklistRow(
                f"{part.name} ({part.kind}): closed when out",
                f"half that stays, {out.name}",
                "look",
                f"{said(part.closed_by)} fitted, tethered, labelled",
            )
    yield ChecklistRow("Caps and loose parts, stowed", said(out.stowed), "look", "all there; none can move")
    yield ChecklistRow(
        f"Flight controls with the {out.name} out",
        said(out.item.location),
        "operate over full travel",
        "full and free; nothing touches",
        "common practice, no source",
        second_person=True,
    )
    yield ChecklistRow(
        f"Refitting of the {out.name}, step by step", "on the aircraft", "one person does it by the manual", "each step as written", manual
    )
    yield ChecklistRow(
        f"{sentence(out.name)}: leaks, function and straps after refitting",
        "on the aircraft",
        "as the manual says",
        "no leak; it works; no movement",
        manual,
    )


def _openings(facts: Facts) -> Iterator[ChecklistRow]:
    for opening in facts.openings:
        yield ChecklistRow(
            f"Blank of the opening {opening.name}", f"through the {opening.through}", "fit once, look", f"{said(opening.blank)} fits, tight, labelled"
        )
