"""Draft entries for the maintenance records: what was fitted; everything that a licensed person answers for stays blank."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.passthroughs import outline, was_there
from liftout.documents.chapters.said import BLANK, LINE, SIGNER, absence, listed, said, said_at, sentence, worded
from liftout.documents.rule_sets import HEAD, rules_of
from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.removal import Opening
from liftout.tables import table

fields_of_entries = table("record_entry_fields")

AIRCRAFT_BLANKS = ("Total time of the aircraft, hours", "Date on which the work was completed", "Data that the work was made to, with revision")
CLOSING = (
    "Organisation, and reference of its authorisation",
    "Hours of work, and hours of the aircraft at release",
    "Limitations, if any",
    "Measured values and deviations: as-fitted record, number",
    "Weight and balance of the state that now holds, entered in the record",
    "Equipment list brought up to date",
)


def entry(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, papers = matter.facts, matter.papers
    return {
        "blank": BLANK,
        "aircraft": [*_aircraft(facts), *((label, LINE) for label in AIRCRAFT_BLANKS)],
        "provisions": list(_items([item for item in facts.items if not item.removable])),
        "removable": list(_items(list(facts.removable_items))),
        "circuits": list(_circuits(facts)),
        "circuits_absent": absence(facts.wiring),
        "openings": [_opening(opening, facts) for opening in facts.openings if not was_there(opening)],
        "existing": [_opening(opening, facts) for opening in facts.openings if was_there(opening)],
        "openings_absent": absence(facts.place.part("openings")),
        "papers": [
            ("Installation manual", f"{papers.number}-1 revision {papers.revision}"),
            ("Weight-and-balance amendment", f"{papers.number}-2 revision {papers.revision}"),
            ("Inspector's checklist", f"{papers.number}-3 revision {papers.revision}"),
            ("Calculation record", f"{papers.number}-4 revision {papers.revision}"),
            (
                "Weight record that the amendment supersedes",
                listed((one.record.name for one in facts.aircraft.undercarriages if one.record.name), LINE),
            ),
        ],
        "closing": [(label, LINE) for label in CLOSING],
        "contents": [(row.authority.text, row.field.text, row.written_by.text, row.citation, row.read) for row in fields_of_entries],
        "rules_head": ("Authority", *HEAD),
        "rules": [(name, *rule) for name in dict.fromkeys(row.authority.text for row in fields_of_entries) for rule in rules_of(name)],
        "signer": SIGNER,
        "open": matter.assessment.open,
    }


def _aircraft(facts: Facts) -> Iterator[tuple[str, str]]:
    plane = facts.aircraft
    yield ("Aircraft", worded("{}, {}", plane.place.word("maker"), plane.place.word("model")))
    yield ("Serial number", said(plane.serial_number))
    yield ("Registration", said_at(plane.place, "registration"))


def _items(items: list[Item]) -> Iterator[tuple[str, ...]]:
    for item in items:
        yield (item.name, item.description, said_at(item.place, "part_number"), said_at(item.place, "serial"), said(item.location))


def _circuits(facts: Facts) -> Iterator[tuple[str, ...]]:
    for run in facts.runs:
        protection = run.place.part("protection")
        fed = run.load.name
        device = worded("{} {}, {}", *(protection.word(field) for field in ("device", "label", "rating")))
        yield (run.name, f"{run.source} to {fed}", worded("gauge {}, {}", run.gauge, run.length), device)


def _opening(opening: Opening, facts: Facts) -> tuple[str, ...]:
    return (opening.name, f"through the {opening.through}", sentence(opening.passes), outline(opening, facts), said(opening.blank))
