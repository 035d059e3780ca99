"""Placing and restraint: points of straps, contacts, weights and movement of each item."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.placing import at, on_the_ground, slack_of
from liftout.documents.chapters.said import BLANK, NOT_SAID, listed, said, said_at, sentence
from liftout.facts import Facts
from liftout.facts.egress import EXIT
from liftout.facts.restraint import Restraint


def restraint(matter: Matter) -> Values:
    """What the chapter prints."""
    rows = [row for held in matter.facts.restraints for row in _rows(held)]
    return {
        "rows": [
            *rows,
            *_exits(matter.facts),
            *(ChecklistRow("Aircraft while it is loaded", "on the ground", "look", line) for line in on_the_ground(matter)),
        ]
    }


def _exits(facts: Facts) -> Iterator[ChecklistRow]:
    """Every exit, used once with the equipment in its place."""
    for volume in facts.keep_clear.volumes:
        if volume.kind == EXIT:
            seats = listed(volume.reached_from, f"{NOT_SAID}: which seats")
            yield ChecklistRow(
                f"Exit {volume.name}, with the equipment in its place",
                f"from each of: {seats}",
                "open it, get out, close it",
                "no item, line or strap in the way; it opens fully",
                "common practice, no source",
            )


def _rows(held: Restraint) -> Iterator[ChecklistRow]:
    item = held.item
    if held.declined is not None:
        yield ChecklistRow(
            f"{sentence(item.name)}: not strapped", said(item.location), "look", f"as the job says: {held.declined.value}", held.declined.origin
        )
        return
    for strap, place in zip(held.straps, held.place.each("straps").values(), strict=True):
        over = "".join(f"; then {at(spot)}" for spot in strap.beyond[:-1]) + "".join(f"; far end {at(spot)}" for spot in strap.beyond[-1:])
        points = f"expected: item {at(strap.attached)}; anchor {at(strap.anchored)}{over}; within {BLANK}"
        yield ChecklistRow(
            f"Strap {strap.name} of the {item.name}: its points (arm, lateral, height)",
            said(strap.led_to),
            "tape",
            points,
            place.job.place(place.path),
        )
        weakest = said_at(place, "weakest")
        yield ChecklistRow(
            f"Strap {strap.name} of the {item.name}: condition",
            "whole length",
            "look, pull by hand",
            f"no cut, no fraying, hooks closed; webbing {said(strap.webbing)}",
            f"weakest part: {weakest}",
        )
    if held.belted is not None:
        yield ChecklistRow(
            f"{sentence(item.name)}: the seat that it is belted on",
            held.belted.seat,
            "look",
            f"nobody sits there; seat rated {said(held.belted.rating)}, {said(held.belted.rating_is)}",
            held.place.job.place(held.belted.place.path),
        )
    for number, spot in enumerate(held.contacts, 1):
        yield ChecklistRow(
            f"Contact {number} of the {item.name} (arm, lateral, height)", said(item.standing.floor), "tape", f"expected {at(spot)}; within {BLANK}"
        )
    # Straps let an item move a little; the manual has them tightened again beyond what was measured, and brackets let it move not at all.
    accepted = f"at most {slack_of(held) or BLANK}" if held.straps else "no movement"
    yield ChecklistRow(
        f"{sentence(item.name)}: movement", said(item.location), "push by hand in each direction", accepted, "common practice, no source"
    )
