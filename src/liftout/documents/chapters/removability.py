"""Removal, blanks and refitting: done once by the book, with a clock."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import lifted
from liftout.documents.chapters.placing import slack_of
from liftout.documents.chapters.said import BLANK, known, or_blank, said, sentence
from liftout.facts import Fact, Facts
from liftout.facts.electrical_state import dead_without
from liftout.facts.removal import Breaker, Removal


def removability(matter: Matter) -> Values:
    """What the chapter prints."""
    manual = f"manual {matter.papers.number}-1, chapter Removal and refitting"
    return {
        "items": [{"title": sentence(out.name), "rows": list(_rows(out, matter.facts, manual))} for out in matter.facts.removals],
        "openings": list(_openings(matter.facts)),
        "clear": list(_clear(matter.facts)),
    }


def _rows(out: Removal, facts: Facts, manual: str) -> Iterator[ChecklistRow]:
    if out.declined is not None:
        yield ChecklistRow(f"Removal of the {out.name}", "on the aircraft", "look", f"as the job says: {out.declined.value}", out.declined.origin)
        return
    by_the_manual = "one person does it by the manual" + ("; two persons lift the item" if lifted(out.item, facts) == "2" else "")
    yield ChecklistRow(
        f"Removal of the {out.name}, step by step",
        "on the aircraft",
        by_the_manual,
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
                f"{or_blank(part.closed_by)} fitted, tethered, labelled",
            )
    # Of a loop that is no loop without the item its other circuits stay dead too.
    left = {**{circuit.run.name: circuit.breaker for circuit in dead_without(out.item, facts)}, **out.breakers}
    for name, breaker in left.items():
        yield ChecklistRow(f"Breaker of {name} with the {out.name} out", "breaker panel", "look", _marked(breaker), manual)
    yield ChecklistRow("Caps and loose parts, stowed", said(out.stowed), "look", "all there; none can move")
    yield ChecklistRow(
        f"Flight controls with the {out.name} out",
        said(out.item.location),
        "operate over full travel",
        "full and free; nothing touches",
        "common practice, no source",
        second_person=True,
    )
    yield ChecklistRow(f"Refitting of the {out.name}, step by step", "on the aircraft", by_the_manual, "each step as written", manual)
    held = next((held for held in facts.restraints if held.item is out.item and held.straps), None)
    yield ChecklistRow(
        f"{sentence(out.name)}: leaks, function and straps after refitting",
        "on the aircraft",
        "as the manual says",
        "no leak; it works; no movement" if held is None else f"no leak; it works; movement at most {slack_of(held) or BLANK}",
        manual,
    )


def _marked(breaker: Breaker | None) -> str:
    """How a breaker is left and what marks it."""
    if breaker is None:
        return f"how it is left and marked is not known: {BLANK}"
    position = or_blank(breaker.position)
    return f"{position}, marked by the {said(breaker.label)}" if known(breaker.label) else f"{position}; what marks it is not known: {BLANK}"


def _openings(facts: Facts) -> Iterator[ChecklistRow]:
    for opening in facts.openings:
        yield ChecklistRow(
            f"Blank of the opening {opening.name}", f"through the {opening.through}", "fit once, look", f"{said(opening.blank)} fits, tight, labelled"
        )
        yield ChecklistRow(f"Blank of the opening {opening.name} while not fitted", said(opening.blank_kept), "look", "there; it cannot move")


def _clear(facts: Facts) -> Iterator[ChecklistRow]:
    """What no computation shows to be clear: a bare yes, an item without a box, a kind that the aircraft is said not to have."""
    for volume in facts.keep_clear.volumes:
        if volume.space is None:
            least = f"at least {said(volume.clearance)}" if isinstance(volume.clearance, Fact) else f"at least {BLANK}"
            yield ChecklistRow(
                f"{sentence(volume.name)} ({volume.kind}): clear with everything in",
                "on the aircraft",
                "work what moves over its full travel, push each item, measure the gap",
                f"{least}; nothing touches",
                volume.clear.origin if isinstance(volume.clear, Fact) else "",
                second_person=volume.kind == "control full travel",
            )
    for item in facts.items:
        if item.without_box is not None:
            yield ChecklistRow(
                f"{sentence(item.name)}: exits, controls and all else clear",
                "along its whole route",
                "look, work each control over its full travel",
                "nothing touches, nothing is blocked",
                f"{item.without_box.value} ({item.without_box.origin})",
                second_person=True,
            )
    for kind in facts.keep_clear.kinds:
        if kind.without is not None:
            yield ChecklistRow(
                f"No {kind.name} in this aircraft", "on the aircraft", "look", f"as the job says: {kind.without.value}", kind.without.origin
            )
