"""Values that findings rest on, each to be measured or read again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, Rests, everything_said, ground_of, named, said, sentence, words_told
from liftout.facts import Fact, Facts
from liftout.facts.changes import altering
from liftout.job import Document, field_at, written_at
from liftout.job.values import Count, CountFromOne
from liftout.quantities import Quantity

TRADES = {
    "aircraft": "Aircraft",
    "electrical": "Electrical system",
    "equipment": "Equipment",
    "wiring": "Circuits",
    "lines": "Lines",
    "structure": "Structure",
    "restraint": "Restraint",
    "openings": "Openings",
    "removal": "Removal",
}
"""Headings by the part of the job, in the order of print."""

COUNTED = (Count, CountFromOne)
"""A number that was counted is that number: no limit of how far it may be off is asked for."""

POINTS = ("attached", "anchored", "contacts")
"""Points of a restraint: the chapter on restraint asks for them strap by strap."""


def values(matter: Matter) -> Values:
    """What the chapter prints."""
    again = [fact for fact in rested_on(matter) if ground_of(fact) in ("measured", "nameplate", "stated")]
    # A part of the job without a heading of its own comes last, under its own key.
    trades = TRADES | {trade: sentence(trade) for trade in dict.fromkeys(fact.path[0] for fact in again) if trade not in TRADES}
    found = {title: [_row(fact, matter) for fact in again if fact.path[0] == trade] for trade, title in trades.items()}
    return {"trades": [{"title": title, "rows": rows} for title, rows in found.items() if rows]}


def rested_on(matter: Matter) -> Iterator[Fact[Any]]:
    """Every value of the job that the evidence of a finding names, points of restraints left out."""
    rests = Rests(matter.assessment.findings)
    place = matter.facts.place
    for fact in (*everything_said(place), *words_told(place)):
        if not set(POINTS) & set(fact.path) and rests.on(fact):
            yield fact


def _row(fact: Fact[Any], matter: Matter) -> ChecklistRow:
    _, field = field_at(Document, fact.path)
    expected, method = f"expected {said(fact)}", str(field.extra.get("measure", "measure again")) if field is not None else "measure again"
    if ground_of(fact) == "nameplate":
        method = f"read the {fact.evidence}"
    elif isinstance(fact.value, Quantity):
        tolerance = dict(matter.assessment.job.said.at(fact.path).children()).get("tolerance")
        if tolerance is not None or written_at(fact.path) not in COUNTED:
            expected = f"{expected}, within {tolerance.value if tolerance is not None else BLANK}"
    meaning = field.description if field is not None and field.description else "value"
    key = fact.path[-1]
    item = meaning if meaning == key or meaning.startswith(f"{key} ") else f"{key}: {meaning}"
    item = sentence(f"{item}{_before(fact, matter.facts)}")
    return ChecklistRow(item, named(fact.path[:-1]), method, expected, f"{fact.origin}; {fact.evidence}", path=fact.path)


def _before(fact: Fact[Any], facts: Facts) -> str:
    """What is told of a source before a change made at the same time is not found on the aircraft after it."""
    change = altering(fact.path[2], facts.changes) if fact.path[:2] == ("electrical", "sources") else None
    if fact.path[:2] == ("electrical", "battery"):
        change = next((one for one in facts.changes if one.battery is not None), None)
    return f", before the change {change.name} is made" if change is not None else ""
