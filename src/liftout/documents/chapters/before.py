"""Before the work: warnings that hold throughout, the aircraft as it is, tools, first steps."""

from __future__ import annotations

from liftout.documents.chapters.continued import work_tools
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import lifted, weight_of
from liftout.documents.chapters.said import listed, said, said_at, text
from liftout.documents.held_back import held_back
from liftout.facts import Facts


def _before(facts: Facts) -> str:
    """What the aircraft carried before, as the job names it."""
    named = [text(word) for word in facts.aircraft.place.said_at("existing_equipment") or ()]
    made = [pair.modification.name for pair in facts.beside_each if pair.modification is not None]
    return listed(dict.fromkeys([*named, *made]), "the job names none")


def before(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, plane = matter.facts, matter.facts.aircraft
    return {
        "open": matter.assessment.open,
        "held_back": held_back(matter),
        "coolant": [loop for loop in facts.loops if loop.declined is None],
        "lifted": [{"name": item.name, "weight": weight_of(item, facts), "persons": lifted(item, facts)} for item in facts.removable_items],
        "aircraft": [
            ("Empty weight in force", listed((said(one.record.weight) for one in plane.undercarriages), "none")),
            ("Record in force", listed((one.record.name for one in plane.undercarriages if one.record.name), "none")),
            ("Pressurised", said_at(plane.place, "pressurised")),
            ("System voltage", said_at(facts.electrical, "nominal")),
            ("Structure is metal", said_at(facts.electrical, "metal_structure")),
            (
                "Equipment fitted before",
                _before(facts),
            ),
        ],
        "tools": [
            *((tool, f"removal of the {out.name}") for out in facts.removals for tool in out.tools if tool != "none"),
            *((tool, "fitting and tests") for tool in work_tools(facts)),
        ],
    }
