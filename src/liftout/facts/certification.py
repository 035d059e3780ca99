"""Certification basis: which rows of published load factors hold for an item where it sits."""

from __future__ import annotations

import re

from liftout.facts.aircraft import Basis
from liftout.facts.fact import Fact, Missing, Place
from liftout.job.errors import Fault
from liftout.tables import Row, table

SETS = table("load_factor_sets")


def regulations() -> tuple[str, ...]:
    """Regulations for which there are load factors."""
    return tuple(dict.fromkeys(name.strip() for row in SETS for name in row.regulation.text.split(",")))


def check(place: Place, faults: list[Fault]) -> None:
    """Refuse by name a certification basis without tables."""
    if not place.there:
        return
    regulation, amendment = place.said_at("regulation"), place.said_at("amendment")
    if regulation not in regulations():
        faults.append(
            place.fault("regulation", f'there are no load factors for "{regulation}" in the tables.', f"Write one of: {', '.join(regulations())}.")
        )
    elif _number(amendment) is None and any(row.first_amendment.text or row.last_amendment.text for row in SETS if regulation in row.regulation.text):
        faults.append(place.fault("amendment", f'"{amendment}" is no amendment.', 'Write its number, for example "23-20".'))


def rows(basis: Basis, location: Fact[str] | Missing) -> tuple[Row, ...]:
    """Rows of published load factors that hold for this basis, category and location, in the order of the table."""
    if not (
        isinstance(basis.regulation, Fact) and isinstance(basis.category, Fact) and isinstance(basis.amendment, Fact) and isinstance(location, Fact)
    ):
        return ()
    regulation, category, number = basis.regulation.value, basis.category.value, _number(basis.amendment.value)
    return tuple(
        row
        for row in SETS
        if regulation in [name.strip() for name in row.regulation.text.split(",")]
        and category in [name.strip() for name in row.categories.text.split(",")]
        and row.location.text in (location.value, "any")
        and _within(number, row)
    )


def _within(number: int | None, row: Row) -> bool:
    first, last = _number(row.first_amendment.text), _number(row.last_amendment.text)
    if number is None:
        return first is None and last is None
    return (first is None or first <= number) and (last is None or number <= last)


def _number(amendment: object) -> int | None:
    match = re.fullmatch(r"(?:\d+-)?(\d{1,3})", str(amendment).strip())
    return int(match[1]) if match else None
