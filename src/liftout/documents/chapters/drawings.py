"""Drawings of the manual that belong to no other chapter."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import listed
from liftout.figures.kept_clear import kept_clear
from liftout.figures.plan_view import plan_view
from liftout.figures.side_view import side_view


def drawings(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    named: dict[str, list[str]] = {}
    for opening in facts.openings:
        if drawing := opening.place.said_at("drawing"):
            named.setdefault(drawing, []).append(opening.name)
    return {
        "datum": facts.aircraft.datum,
        "drawings": [side_view(facts), plan_view(facts), *kept_clear(facts)],
        "amendment": f"{matter.papers.number}-2",
        "named": [(drawing, listed(shown, "")) for drawing, shown in named.items()],
    }
