"""Papers and identity: what is compared before anything is measured."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import ground_of, said, said_at
from liftout.documents.chapters.values import rested_on
from liftout.documents.document import SHORT_DIGEST
from liftout.facts import Fact


def papers(matter: Matter) -> Values:
    """What the chapter prints."""
    return {"papers": list(_papers(matter)), "documents": list(_documents(matter))}


def _papers(matter: Matter) -> Iterator[ChecklistRow]:
    plane, numbers = matter.facts.aircraft, matter.papers
    yield ChecklistRow(
        "Serial number",
        "data plate",
        "read",
        f"expected {said(plane.serial_number)}",
        plane.serial_number.origin if isinstance(plane.serial_number, Fact) else "",
    )
    yield ChecklistRow("Registration", "outside of the aircraft", "read", f"expected {said_at(plane.place, 'registration')}")
    yield ChecklistRow("Job digest", "foot of each paper", "compare", matter.digests.job[:SHORT_DIGEST])
    yield ChecklistRow("Revision of each paper", "foot of each paper", "compare", f"{numbers.number} revision {numbers.revision}")
    for one in plane.undercarriages:
        what = ", ".join(part for part in ("Weight record in force before this work", one.name) if part)
        yield ChecklistRow(what, "aircraft records", "read", f"{one.record.title}, {one.record.date}, {said(one.record.weight)}")
    for item in matter.facts.items:
        number, serial = said_at(item.place, "part_number"), said_at(item.place, "serial")
        yield ChecklistRow(f"Part and serial number of the {item.name}", "its plate", "read", f"part {number}; serial {serial}")
    yield ChecklistRow(
        "Placards", "as the manual lists them", "read", "each one accepted wording, present and legible", "14 CFR 23.1541; manual, chapter Placards"
    )
    yield ChecklistRow("Supplement and weight-and-balance sheet", "aboard", "look", "present, and of the state that holds", "14 CFR 91.9")
    yield ChecklistRow("Decisions left to others", "manual, chapter Introduction and authority", "read", "each line decided and signed")


def _documents(matter: Matter) -> Iterator[ChecklistRow]:
    pages: dict[str, list[str]] = {}
    for fact in rested_on(matter):
        if ground_of(fact) == "document":
            name, _, page = fact.evidence.partition(", page ")
            pages.setdefault(name, []).append(page)
    for name, found in pages.items():
        shown = ", ".join(dict.fromkeys(page for page in found if page))
        yield ChecklistRow(
            f"Document {name}", "document file", "read the pages named", f"in hand, and current; page {shown}" if shown else "in hand, and current"
        )
