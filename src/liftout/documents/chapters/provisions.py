"""Provisions: what stays in the aircraft, and in which order it is fitted."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, said, said_at
from liftout.documents.holds import hold
from liftout.facts import Facts


def provisions(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    staying = [item for item in facts.items if not item.removable]
    return {
        "items": [(said_at(i.place, "item_number"), i.name, i.description, said(i.location), said(i.mass_dry), said(i.arm)) for i in staying],
        "parts": list(_parts(facts)) or [(f"{NOT_SAID}: describe circuits, lines and openings", "none", "none")],
        "checklist_number": f"{matter.papers.number}-3",
        "order": list(_order(facts)),
        "hold": hold("before the panels are closed", "what lies behind each panel, tools counted, full and free travel of all flight controls"),
    }


def _order(facts: Facts) -> Iterator[tuple[str, str]]:
    """Chapters in the order of the work, and what each of them does; of what the job has."""
    filled = any(loop.declined is None for loop in facts.loops)
    steps = (
        (facts.openings, "Pass-throughs", "Complete the openings"),
        (True, "Structure and mountings", "Fit brackets and anchors"),
        (filled, "Lines", "Fit the lines, still empty,"),
        (facts.runs, "Electrical", "Fit the circuits"),
        (any(path.declined is None for path in facts.air_paths), "Air and bays", "Fit the air paths"),
        (facts.removable_items, "Equipment placing and restraint", "Place each item"),
        (facts.removable_items, "Removal and refitting", "Connect each item"),
        (filled, "Lines", "Fill, bleed and test each loop"),
        (True, "Functional tests", "Carry out the tests"),
        (True, "Placards", "Fit the placards"),
    )
    return ((chapter, what) for there, chapter, what in steps if there)


def _parts(facts: Facts) -> Iterator[tuple[str, str, str]]:
    for run in facts.runs:
        fed = run.load.name
        yield (f"circuit {run.name}", f"from the {run.source} to the {fed}", "Electrical")
        if connector := run.place.said_at("connector"):
            yield (connector, f"end of circuit {run.name}", "Electrical")
    for loop in facts.loops:
        for name, part in loop.place.each("segments").items():
            yield (f"{part.said_at('kind')} {name}", f"from the {part.said_at('begins')} to the {part.said_at('ends')}", "Lines")
    for held in facts.restraints:
        for strap in held.straps:
            yield (f"anchor of strap {strap.name}", said(strap.led_to), "Structure and mountings")
    for opening in facts.openings:
        yield (f"opening {opening.name}", opening.through, "Pass-throughs")
