"""Published figures: one YAML file a subject, read once a process and only when used.

    conductors = table("conductors")
    conductors.row("14").resistance.quantity

Knows nothing of facts or physics. `sources.yaml` names the publications, `methods.yaml` holds the coefficients
of cited formulas, each row one method whose coefficients are its columns.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any, Final

import yaml

from liftout.tables.rows import (
    READINGS,
    Cell,
    Column,
    Confirmation,
    Publication,
    Read,
    Row,
    Source,
    TableError,
    UnknownRow,
    read_publications,
    read_table,
)

__all__ = [
    "READINGS",
    "Cell",
    "Column",
    "Confirmation",
    "Publication",
    "Read",
    "Row",
    "Source",
    "Table",
    "TableError",
    "UnknownRow",
    "all_tables",
    "file_of",
    "publications",
    "put_in_force",
    "shipped",
    "table",
]

_SOURCES = "sources"
_FOLDER: Final = Path(__file__).parent


@dataclass(frozen=True)
class Table:
    """A table by its name; its file is read at the first use."""

    name: str

    @cached_property
    def _read(self) -> tuple[str, dict[str, Column], dict[str, Row]]:
        return read_table(self.name, file_of(self.name), publications())

    @property
    def meaning(self) -> str:
        """What the table is, in one sentence."""
        return self._read[0]

    @property
    def columns(self) -> Mapping[str, Column]:
        """The columns that all rows have."""
        return self._read[1]

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows, in the order of the file."""
        return tuple(self._rows.values())

    @property
    def _rows(self) -> Mapping[str, Row]:
        """The shipped rows, with those of the shop whose job is being worked on in their places."""
        own = _IN_FORCE.get(self.name)
        return self._read[2] if own is None else {**self._read[2], **own}

    @property
    def as_shipped(self) -> bool:
        """Whether no row of a shop is in force in it: what is made of its rows may then be kept for other jobs."""
        return self.name not in _IN_FORCE

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys, in the order of the file."""
        return tuple(self._read[2])

    def row(self, key: str) -> Row:
        """The row of that key.

        Raises:
            UnknownRow: when there is none; the message says which there are.
        """
        own = _IN_FORCE.get(self.name)
        if own is not None and key in own:
            return own[key]
        try:
            return self._read[2][key]
        except KeyError:
            raise UnknownRow(self.name, key, self.keys) from None

    def after(self, key: str) -> tuple[Row, ...]:
        """The rows that follow the row of that key: in a table of sizes, the larger ones.

        Raises:
            UnknownRow: when there is no such row.
        """
        self.row(key)
        return self.rows[self.keys.index(key) + 1 :]

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self._read[2])


@dataclass(frozen=True)
class Shipped(Table):
    """A table as it is shipped, whatever a shop says of it."""

    @property
    def _rows(self) -> Mapping[str, Row]:
        return self._read[2]

    def row(self, key: str) -> Row:
        """The row of that key as it is shipped; raises as `Table.row` does."""
        try:
            return self._read[2][key]
        except KeyError:
            raise UnknownRow(self.name, key, self.keys) from None


_IN_FORCE: dict[str, Mapping[str, Row]] = {}
"""Rows of a shop by table and key, for the job that is being worked on."""


def put_in_force(rows: Mapping[str, Mapping[str, Row]]) -> None:
    """Let rows of a shop hold in place of the shipped ones, and those alone."""
    _IN_FORCE.clear()
    _IN_FORCE.update(rows)


def shipped(name: str) -> Shipped:
    """The table of that name as it is shipped; raises as `table` does."""
    return Shipped(table(name).name)


@cache
def table(name: str) -> Table:
    """The table of that name; its file is read at the first use of its rows.

    Raises:
        TableError: when there is no such table.
    """
    if name not in all_tables():
        raise TableError(f"no table {name!r}; there are {', '.join(all_tables())}")
    return Table(name)


@cache
def all_tables() -> tuple[str, ...]:
    """Names of the tables, sorted."""
    names = (entry.stem for entry in _FOLDER.glob("*.yaml"))
    return tuple(sorted(name for name in names if name != _SOURCES))


@cache
def publications() -> dict[str, Publication]:
    """The publications that rows may name, by identifier."""
    return read_publications(file_of(_SOURCES))


def file_of(name: str) -> Any:
    """A table's file as mappings and lists of text: no scalar is interpreted, so what is written is kept."""
    loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # libyaml is ten times as fast, where it is
    following = loader(_FOLDER.joinpath(f"{name}.yaml").read_text(encoding="utf-8")).get_event
    following(), following()  # the stream and the document begin
    return _plain(following(), following)


def _plain(event: Any, following: Callable[[], Any]) -> Any:
    """Mappings, lists and texts from the parser's events; building its nodes first would take twice as long."""
    if isinstance(event, yaml.ScalarEvent):
        return event.value
    if isinstance(event, yaml.MappingStartEvent):
        held: dict[str, Any] = {}
        while not isinstance(key := following(), yaml.MappingEndEvent):
            held[key.value] = _plain(following(), following)
        return held
    if isinstance(event, yaml.SequenceStartEvent):
        items: list[Any] = []
        while not isinstance(item := following(), yaml.SequenceEndEvent):
            items.append(_plain(item, following))
        return items
    raise TableError(f"a table is written without anchors, tags and aliases, not with {type(event).__name__}")
