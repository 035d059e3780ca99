"""Pass-throughs: openings that stay in the aircraft."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import MAKERS, NOT_SAID, absence, known, said, said_at, sentence, worded
from liftout.facts import Fact, Missing
from liftout.facts.removal import Opening


def passthroughs(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    return {
        "absent": absence(facts.place.part("openings"))
        or ("" if facts.openings else f"{NOT_SAID.capitalize()}: list the openings, or none with the reason."),
        "openings": [
            (o.name, o.through, o.passes, said(o.made), said_at(o.place, "size"), said(o.blank), said(o.blank_kept), said_at(o.place, "drawing"))
            for o in facts.openings
        ],
        "routes": [(route.name, worded("{} to {}", route.begins_in, route.ends_in), said(route.passes)) for route in facts.routes],
        "displaced": absence(facts.place.part("displaced")) or f"{NOT_SAID.capitalize()}: list it, or none with the reason.",
        "displaced_parts": [(part.name, part.what, part.done, said(part.to)) for part in facts.displaced],
        "pressurised": said_at(facts.aircraft.place, "pressurised"),
        "holes": [_hole(opening) for opening in facts.openings],
        "makers": MAKERS,
    }


def was_there(opening: Opening) -> bool:
    """Whether the job says that an opening was there before the fit."""
    return isinstance(opening.made, Fact) and opening.made.value == "existing"


def _hole(opening: Opening) -> Values:
    needed = {"made": opening.made, "size": opening.place.word("size"), "blank": opening.blank, "drawing": opening.place.word("drawing")}
    return {
        "title": sentence(opening.name),
        "name": opening.name,
        "through": opening.through,
        "existing": was_there(opening),
        **{field: said(fact) for field, fact in needed.items()},
        "known": known(*needed.values()),
        "gaps": [f"{need.what} ({need.where})" for need in needed.values() if isinstance(need, Missing)],
    }
