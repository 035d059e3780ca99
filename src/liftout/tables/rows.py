"""A published figure with where it was published and how it was read: rows, cells and their sources.

Quantities are read when they are first asked for: a table of three hundred rows costs what is used of it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Final, Literal, NamedTuple, get_args

from liftout import quantities
from liftout.quantities import Quantity

Read = Literal["stored copy", "from memory", "common practice, no source"]
READINGS: Final[tuple[Read, ...]] = get_args(Read)
"""How a row was read: seen in a stored copy of the source, recalled, or no source at all."""

TEXT: Final = "text"
"""The dimension of a column that holds words."""

NULL: Final = "null"
"""Written for a cell to which the source gives no value. It is not zero."""

_NAMES_SHOWN: Final = 12

_WORDS_OF_SIZES: Final = frozenset(("awg", "ga", "gauge", "no", "number", "size", "wire"))
"""What is written round the number of a size and says nothing more."""


class TableError(Exception):
    """A shipped table is not well made: the tool is broken."""


class UnknownRow(LookupError):
    """A key that a table does not have.

    Attributes:
        table: name of the table.
        key: what was asked for.
        known: the keys there are.
        need: what to write, as a sentence goes on.
    """

    def __init__(self, table: str, key: str, known: tuple[str, ...]) -> None:
        import difflib

        meant = _meant(key, known)
        near = difflib.get_close_matches(key, known, n=1, cutoff=0.6)
        listed = ", ".join(f'"{name}"' for name in known[:_NAMES_SHOWN]) + (", …" if len(known) > _NAMES_SHOWN else "")
        told = f'Write "{meant}"' if meant else (f'Did you mean "{near[0]}"? ' if near else "") + f"It has {listed}"
        super().__init__(f'"{key}": no such row in the table "{table}".  {told}.')
        self.table = table
        self.key = key
        self.known = known
        self.need = f'write "{meant}" for "{key}", which is no row of the table "{table}"' if meant else str(self).removesuffix(".")

    def __reduce__(self) -> tuple[type[UnknownRow], tuple[str, str, tuple[str, ...]]]:
        """Travels between processes with its three parts."""
        return type(self), (self.table, self.key, self.known)


def _meant(key: str, known: tuple[str, ...]) -> str:
    """The one key that a text names with words round it that name nothing else, such as `AWG 4`; empty where there is none.

    A text with a unit names no row by its number: 10 mm² is no gauge 10.
    """
    words = re.findall(r"[0-9][0-9/]*|[^\W0-9_]+", key.casefold())
    names = [word for word in words if word not in _WORDS_OF_SIZES]
    found = [name for name in known if [name.casefold()] == names]
    return found[0] if len(found) == 1 else ""


class Publication(NamedTuple):
    """What was published. `kind` says what it is worth: regulation, acceptable methods, standard, handbook, textbook ..."""

    id: str
    name: str
    title: str
    publisher: str
    edition: str
    kind: str


class Source(NamedTuple):
    """A place in a publication. `publication` is its identifier in sources.yaml, `name` what it is called in print."""

    publication: str
    name: str
    title: str
    publisher: str
    edition: str
    place: str
    kind: str

    @property
    def citation(self) -> str:
        """One printed line: name, edition, place."""
        edition = f" ({self.edition})" if self.edition else ""
        return f"{self.name}{edition}, {self.place}"


class Confirmation(NamedTuple):
    """Who compared a row with the printed original, and when."""

    name: str
    date: str


class Column(NamedTuple):
    """What a column holds: its meaning and its dimension (a key of `quantities.UNIT_OF`, or text)."""

    name: str
    meaning: str
    dimension: str


@dataclass(unsafe_hash=True)
class Cell:
    """One figure or word of a row. It is never changed; a check makes some thousands, and a frozen one takes three times as long."""

    row: Row
    column: Column
    text: str
    """As it is written in the table; empty where the source gives no value."""

    @property
    def name(self) -> str:
        """Name of the column."""
        return self.column.name

    @property
    def meaning(self) -> str:
        """What the column holds."""
        return self.column.meaning

    @cached_property
    def quantity(self) -> Quantity | None:
        """The quantity, or None for words and where the source gives no value."""
        return quantities.read(self.text, self.column.dimension) if self.text and self.column.dimension != TEXT else None

    @property
    def si_float(self) -> float:
        """The figure in coherent SI, for physics; only of a column in which every row has one."""
        assert self.quantity is not None
        return self.quantity.si_float

    @property
    def given(self) -> bool:
        """Whether the source gives a value."""
        return bool(self.text)

    @property
    def origin(self) -> str:
        """Where the value comes from, for print: citation and row."""
        return f"{self.row.citation} [{self.identity}]"

    @property
    def citation(self) -> str:
        """One printed line: publication, edition, place."""
        return self.row.citation

    @property
    def identity(self) -> str:
        """Table and row, for example `conductors: 14`."""
        return self.row.identity

    @property
    def read(self) -> Read:
        """How the row was read."""
        return self.row.read

    @property
    def confirmed(self) -> Confirmation | None:
        """Who compared the row with the printed original."""
        return self.row.confirmed

    def __str__(self) -> str:
        return self.text or "no value given"


@dataclass(frozen=True)
class Row:
    """One row; each column is an attribute that holds a `Cell`, for example `row.resistance`."""

    table: str
    key: str
    source: Source
    read: Read
    note: str
    confirmed: Confirmation | None
    cells: Mapping[str, Cell] = field(compare=False, repr=False)

    @property
    def identity(self) -> str:
        """Table and key, for example `conductors: 14`."""
        return f"{self.table}: {self.key}"

    @property
    def citation(self) -> str:
        """One printed line: publication, edition, place."""
        return self.source.citation

    @property
    def written(self) -> dict[str, str]:
        """All that the row says, as text: what a digest of the rows used is taken of."""
        said = {"row": self.identity, "source": self.citation, "publication": self.source.publication, "read": self.read}
        if self.confirmed is not None:
            said["confirmed"] = f"{self.confirmed.name}, {self.confirmed.date}"
        return said | {name: cell.text or NULL for name, cell in self.cells.items()}

    def __getattr__(self, name: str) -> Cell:
        if name.startswith("_") or name == "cells":  # asked for by copying and pickling before there are any cells
            raise AttributeError(name)
        try:
            return self.cells[name]
        except KeyError:
            raise AttributeError(f"{self.identity} has no column {name!r}; it has {', '.join(self.cells)}") from None


def read_publications(document: Any) -> dict[str, Publication]:
    """Publications by identifier.

    Args:
        document: sources.yaml as mappings of text.
    """
    return {name: Publication(id=name, **said) for name, said in document["publications"].items()}


def read_table(name: str, document: Any, publications: Mapping[str, Publication]) -> tuple[str, dict[str, Column], dict[str, Row]]:
    """Meaning, columns and rows of one table.

    Args:
        name: name of the table.
        document: its file as mappings of text.
        publications: what `source.publication` may name.

    Raises:
        TableError: when a row repeats a key, has no source, no reading, or says what no column holds.
    """
    columns = {column: _read_column(name, column, said) for column, said in document["columns"].items()}
    rows: dict[str, Row] = {}
    for written in document["rows"]:
        # A long table may write its rows as lists, key first and then the columns in their order.
        said = written if isinstance(written, dict) else dict(zip(("key", *columns), written, strict=True))
        row = _read_row(name, said, document, columns, publications)
        if row.key in rows:
            raise TableError(f"{row.identity}: stands there twice")
        rows[row.key] = row
    return document["meaning"], columns, rows


_OF_A_ROW: Final = {"key", "source", "read", "note", "confirmed", "coefficients"}


def _read_column(where: str, name: str, said: Any) -> Column:
    if set(said) != {"meaning", "dimension"}:
        raise TableError(f"{where}: column {name} says {', '.join(said)}; it must say meaning and dimension")
    return Column(name, said["meaning"], said["dimension"])


def _read_row(table: str, said: Any, document: Any, columns: Mapping[str, Column], publications: Mapping[str, Publication]) -> Row:
    where = f"{table}: {said.get('key', 'a row without a key')}"
    coefficients = said.get("coefficients", {})
    texts = {name: its["value"] for name, its in coefficients.items()}
    own = {name: _read_column(where, name, {part: text for part, text in its.items() if part != "value"}) for name, its in coefficients.items()}
    columns = {**columns, **own}
    strange = set(said) - _OF_A_ROW - set(columns) | (set(columns) & (_OF_A_ROW | {"table", "cells", "identity", "citation", "written"}))
    if strange:
        raise TableError(f"{where}: no column {', '.join(sorted(strange))}")
    try:
        place = {**document.get("source", {}), **said.get("source", {})}
        publication = publications[place["publication"]]
        source = Source(
            publication=publication.id,
            name=publication.name,
            title=publication.title,
            publisher=publication.publisher,
            edition=publication.edition,
            place=place["place"],
            kind=publication.kind,
        )
        read = said.get("read") or document["read"]
    except KeyError as missing:
        raise TableError(f"{where}: {missing} is missing, or is no publication of sources.yaml") from None
    if read not in READINGS:
        raise TableError(f"{where}: read {read!r} is not one of {READINGS}")
    confirmed = Confirmation(**said["confirmed"]) if "confirmed" in said else None
    cells: dict[str, Cell] = {}
    row = Row(table=table, key=said["key"], source=source, read=read, note=said.get("note", ""), confirmed=confirmed, cells=cells)
    for name, column in columns.items():
        text = texts.get(name, said.get(name, NULL))
        cells[name] = Cell(row, column, "" if text == NULL else text)
    vars(row).update(cells)  # so that a column is found like any attribute
    return row
