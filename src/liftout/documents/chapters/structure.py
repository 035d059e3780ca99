"""Structure and mountings: floors, anchors, fasteners."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import MAKERS, results, said, said_at
from liftout.facts import Facts
from liftout.facts.equipment import Item


def structure(matter: Matter) -> Values:
    """What the chapter prints."""
    return {
        "floors": [_floor(item) for item in matter.facts.items],
        "anchors": list(anchors(matter.facts)),
        "makers": MAKERS,
        "results": results(matter.findings(["structure.floor_load"])),
    }


def _floor(item: Item) -> tuple[str, ...]:
    standing = item.standing
    if standing.declined is not None:
        return (item.name, f"not applicable, because {standing.declined.value}", "none", "none", "none")
    return (item.name, said(standing.floor), said(standing.limit), said(standing.footprint), said(standing.contact))


def anchors(facts: Facts) -> Iterator[tuple[str, ...]]:
    """Straps with what they are anchored to and rated."""
    for held in facts.restraints:
        for strap, place in zip(held.straps, held.place.each("straps").values(), strict=True):
            yield (held.item.name, strap.name, said(strap.anchor), said_at(place, "weakest"), said(strap.rating), said(strap.rating_is))
