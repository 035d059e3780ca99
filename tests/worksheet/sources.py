"""Things to put into a worksheet: facts with and without evidence, cells of rows read and not read."""

from __future__ import annotations

from decimal import Decimal

from liftout.facts.fact import CHOSEN, STATED, Fact, Missing
from liftout.quantities import Quantity, read
from liftout.tables import Cell, publications
from liftout.tables.rows import read_table


def fact(text: str, dimension: str, evidence: str = "measured by X, 2026-01-01, rule", origin: str = "job.yaml:1") -> Fact[Quantity]:
    """A fact that rests on something."""
    return Fact(read(text, dimension), origin, evidence)


def stated(text: str, dimension: str, origin: str = "job.yaml:2") -> Fact[Quantity]:
    """A fact with nothing behind it."""
    return fact(text, dimension, STATED, origin)


def chosen(text: str, dimension: str) -> Fact[Quantity]:
    """What the shop chooses."""
    return fact(text, dimension, CHOSEN)


def missing(what: str, where: str = "somewhere") -> Missing:
    """A value that was not said."""
    return Missing(what, where)


def cell(text: str, dimension: str, read_as: str = "stored copy", confirmed: bool = False, key: str = "row") -> Cell:
    """A cell of an invented table, read as said."""
    said = {
        "meaning": "An invented table.",
        "columns": {"x": {"meaning": "a figure", "dimension": dimension}},
        "rows": [
            {
                "key": key,
                "x": text,
                "source": {"publication": "trade" if read_as.startswith("common") else "ac-43.13-1b", "place": f"place of {key}"},
                "read": read_as,
                **({"confirmed": {"name": "P. Reader", "date": "2026-02-03"}} if confirmed else {}),
            }
        ],
    }
    _, _, rows = read_table("invented", said, publications())
    return rows[key].x


def decimal(text: str) -> Decimal:
    """Short for Decimal."""
    return Decimal(text)
