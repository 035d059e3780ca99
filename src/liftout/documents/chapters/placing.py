"""Equipment placing and restraint: where each item stands and what holds it."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import weight_of
from liftout.documents.chapters.said import absence, known, listed, results, said, sentence, worded
from liftout.facts import Facts
from liftout.facts.restraint import Restraint, Spot
from liftout.figures.restraint_sketch import restraint_sketch


def placing(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    return {
        "positions": [
            (
                item.name,
                said(item.location),
                said(item.arm),
                said(item.lateral),
                said(item.height),
                said(item.standing.floor) if item.standing.declined is None else f"no floor, because {item.standing.declined.value}",
            )
            for item in facts.items
        ],
        "datum": facts.aircraft.datum,
        "items": [_item(held, facts) for held in facts.restraints],
        "results": results(matter.findings(["structure.strap_restraint"])),
    }


def at(spot: Spot) -> str:
    """A point: arm, lateral, height."""
    return worded("{}, {}, {}", spot.arm, spot.lateral, spot.height)


def _item(held: Restraint, facts: Facts) -> Values:
    item = held.item
    return {
        "title": sentence(item.name),
        "name": item.name,
        "absent": absence(held.place),
        "drawings": [restraint_sketch(held, facts)] if held.place.there and held.declined is None else [],
        "stops": listed(held.blocked, ""),
        "stop_rating": said(held.block_rating),
        "weight": weight_of(item, facts),
        "placed": known(item.arm, item.lateral, item.standing.floor),
        "floor": said(item.standing.floor),
        "arm": said(item.arm),
        "lateral": said(item.lateral),
        "hooked": [{"name": strap.name, "anchor": said(strap.anchor), "known": known(strap.anchor)} for strap in held.straps],
    }
