"""Certification basis: which rows of published load factors hold for an item where it sits."""

from __future__ import annotations

import re

from liftout.facts.aircraft import Basis
from liftout.facts.fact import Fact, Missing, Place
from liftout.job.errors import Fault, one_of
from liftout.tables import Row, table

SETS = table("load_factor_sets")


def regulations(kind: str) -> tuple[str, ...]:
    """Regulations for which there are load factors, for a kind of aircraft."""
    return tuple(dict.fromkeys(name for row in SETS if row.aircraft.text == kind for name in _names(row.regulation.text)))


def check(aircraft: Place, faults: list[Fault]) -> None:
    """Refuse by name a certification basis without tables."""
    place = aircraft.part("certification_basis")
    if not place.there:
        return
    regulation, amendment, category = (place.said_at(field) for field in ("regulation", "amendment", "category"))
    known = regulations(aircraft.said_at("kind"))
    of_it = [row for row in SETS if regulation in _names(row.regulation.text)]
    if regulation not in known:
        faults.append(place.fault("regulation", f'there are no load factors for "{regulation}" in the tables.', one_of(regulation, known)))
        return
    if not any(category in _names(row.categories.text) for row in of_it):
        faults.append(
            place.fault(
                "category", f"{regulation} has no {category} category in the tables.", "Read regulation and category from the data sheet again."
            )
        )
    if (
        amendment is not None
        and any(row.first_amendment.text or row.last_amendment.text for row in of_it if row.location.text != "any")
        and _number(amendment, regulation) is None
    ):
        part = regulation.removeprefix("part ")
        right = f'Write its number, for example "{part}-20"; where the data sheet gives a day alone, write that as "applied for" instead.'
        faults.append(place.fault("amendment", f'"{amendment}" is no amendment of {regulation}.', right))


def rows(basis: Basis, location: Fact[str] | Missing) -> tuple[Row, ...]:
    """Rows of published load factors that hold for this basis, category and location, in the order of the table.

    The amendment chooses them; where only the date of application is known, the dates from and until which each row applies.

    Rows "in lieu of the maker's data" hold for any location and come last.
    """
    edition = basis.edition
    if not (isinstance(basis.regulation, Fact) and isinstance(basis.category, Fact) and isinstance(edition, Fact) and isinstance(location, Fact)):
        return ()
    regulation, category = basis.regulation.value, basis.category.value
    number = _number(edition.value, regulation) if edition is basis.amendment else None
    date = edition.value.isoformat() if edition is not basis.amendment else ""
    return tuple(
        row
        for row in SETS
        if row.location.text in (location.value, "any")
        and regulation in _names(row.regulation.text)
        and category in _names(row.categories.text)
        and (_in_force(date, row) if date else _within(number, row, regulation))
    )


FACTORS = ("up", "forward", "side", "down", "rear")


def candidates(kind: str, location: str) -> str:
    """Every published set that could hold for a kind of aircraft and a place, with its factors; all of them ultimate."""
    fit = [row for row in SETS if row.aircraft.text == kind and row.location.text == location]
    return "; ".join(f"{row.key} ({_factors(row)})" for row in fit) or "the tables hold none for this place"


def _factors(row: Row) -> str:
    told = [f"{name} {row.cells[name].quantity}" for name in FACTORS if row.cells[name].quantity is not None]
    return ", ".join(told) or f"figures {row.figures.text}, none for this place"


def _names(text: str) -> list[str]:
    return [name.strip() for name in text.split(",")]


def _in_force(date: str, row: Row) -> bool:
    """Whether a row applied on a day, written year first."""
    return (row.from_date.text or date) <= date <= (row.until_date.text or date)


def _within(number: int | None, row: Row, regulation: str) -> bool:
    first, last = _number(row.first_amendment.text, ""), _number(row.last_amendment.text, "")
    if number is None or not regulation.startswith(("part", "CS")):
        # A regulation without numbered amendments in the tables: rows of others that it shares hold for it whole.
        return number is None or first is None
    return (first is None or first <= number) and (last is None or number <= last)


def _number(amendment: object, regulation: str) -> int | None:
    """Number of an amendment, as 20 in "23-20"; None for anything else, and for an amendment of another part."""
    match = re.fullmatch(r"(?:([0-9]+)-)?([0-9]{1,3})", str(amendment).strip())
    part = re.search(r"[0-9]+$", regulation)
    if match is None or (match[1] and part is not None and match[1] != part[0]):
        return None
    return int(match[2])
