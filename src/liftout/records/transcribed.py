"""Tables that a shop has already, entered into a job: an equipment list, a list of loads, a loading table, from CSV or a workbook.

A heading is read as a key of the job language with the unit in brackets behind it: `Weight (lb)`. What a heading of the
shop's means is told once and kept beside the catalogue, so the next table of the same kind needs no telling.
"""

from __future__ import annotations

import csv
import io
import re
import typing
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final, NamedTuple

from liftout.facts import gather
from liftout.job import Document, JobError, bare, told, written_at
from liftout.job.edit import CannotEnter, entered, quoted
from liftout.job.errors import Fault, one_of
from liftout.job.part import Part
from liftout.job.reader import bytes_of, compose, text_of
from liftout.job.workbook import first_sheet
from liftout.records.exclusive import rewrite

COLUMNS: Final = "columns.yaml"
"""What the headings of a shop's tables mean, beside the catalogue."""
NAME, LEFT_OUT = "name", "-"
"""What a heading may mean besides a key: the name of an entry, or nothing."""

Path_ = tuple[str, ...]


class Cell(NamedTuple):
    """One cell: what it holds, and its line in the table."""

    text: str
    line: int


class Column(NamedTuple):
    """What a heading means: a key, or the name, and the unit of bare numbers below it."""

    key: str
    unit: str


def transcribe(job: Path, table: Path, into: Path_, meanings: Mapping[str, str], document: Mapping[str, str]) -> tuple[str, ...]:
    """Enter a table into a job file; all of its rows or none.

    Args:
        job: the job file.
        table: CSV, or a workbook whose first sheet is read.
        into: the group or list of the job that gets an entry for each row.
        meanings: what headings mean, as "key unit"; kept for the next table.
        document: number, revision and page of the document that the table is; empty to leave out.

    Returns:
        What each entry is called.

    Raises:
        JobError: what is wrong with the table or with the job that would come of it.
        liftout.records.exclusive.NotWritten: when somebody else writes the job file.
    """
    kind = _target(into, job.name)
    head, rows = _read(table)
    kept = job.absolute().parent.parent / COLUMNS
    columns = _columns(head, kind, table.name, {**_remembered(kept, into), **meanings})
    entries = [_entry(row, columns, kind, table.name, document) for row in rows]
    names: list[str] = []

    def changed(before: bytes | None) -> bytes:
        text = (before or b"").decode("utf-8")
        for name, entry, line in entries:
            place = compose(text, job.name).find(into)
            count = len(place.value) if place is not None and isinstance(place.value, tuple) else 0
            try:
                if name is None and not count:
                    text = entered(text, [(into, f"[{entry}]")])
                else:
                    text = entered(text, [((*into, name or str(count + 1)), entry)])
            except CannotEnter as why:
                raise JobError([Fault(table.name, line, 1, into, f"has no place in the job file: {why}.", "Write it there by hand.")]) from None
            names.append(name or str(count + 1))
        gather(told(text, job))
        return text.encode("utf-8")

    rewrite(job, changed)
    if meanings:
        _remember(kept, into, meanings)
    return tuple(names)


# --- where it goes -----------------------------------------------------------------------------------------------------


class Kind(NamedTuple):
    """What a row becomes: a part, named or in a list, or a value by name (a weight by station)."""

    part: type[Part] | None
    named: bool


def _target(into: Path_, name: str) -> Kind:
    for number in range(1, len(into) + 1):
        if written_at(into[:number]) is None:
            around, before = written_at(into[: number - 1]) if number > 1 else Document, into[:number]
            known = [key.spoken for key in around.KEYS.values()] if isinstance(around, type) and issubclass(around, Part) else []
            raise JobError([Fault(name, 1, 1, before, "no such key.", one_of(into[number - 1], known))])
    current = written_at(into)
    origin = typing.get_origin(current)
    if origin not in (dict, tuple):
        raise JobError([Fault(name, 1, 1, into, "takes no rows.", "Name a group or a list of the job: electrical / loads, for example.")])
    inner = bare([one for one in typing.get_args(current) if one is not Ellipsis][-1])
    return Kind(inner if isinstance(inner, type) and issubclass(inner, Part) else None, origin is dict)


# --- what the headings mean ----------------------------------------------------------------------------------------------


def _columns(head: Sequence[Cell], kind: Kind, name: str, meanings: Mapping[str, str]) -> tuple[Column | None, ...]:
    keys = {key.spoken for key in kind.part.KEYS.values()} if kind.part is not None else {"value"}
    known = [*([NAME] if kind.named else []), *sorted(keys)]
    found: list[Column | None] = []
    faults = []
    for cell in head:
        match = re.fullmatch(r"(?P<word>[^(\[]*?)\s*(?:[(\[](?P<unit>[^)\]]*)[)\]])?", cell.text.strip())
        word, unit = (match["word"], match["unit"] or "") if match else (cell.text, "")
        said = meanings.get(cell.text.strip(), meanings.get(word, word.lower()))
        key, _, told_unit = said.partition(" ") if said.split(" ")[0] in known and said not in known else (said, "", "")
        if said == LEFT_OUT or not cell.text.strip():
            found.append(None)
        elif key in known:
            found.append(Column(key, told_unit or unit))
        else:
            right = (
                f'{one_of(key, known)} Say what it means: --as "{cell.text.strip()}=KEY UNIT", or "{cell.text.strip()}={LEFT_OUT}" to leave it out.'
            )
            faults.append(Fault(name, cell.line, len(found) + 1, (), f'the heading "{cell.text.strip()}" is no key here.', right))
            found.append(None)
    if kind.named and not faults and NAME not in {column.key for column in found if column}:
        faults.append(Fault(name, 1, 1, (), "no column names the entries.", f'Say which does: --as "{head[0].text.strip()}={NAME}".'))
    if faults:
        raise JobError(faults)
    return tuple(found)


def _entry(row: Sequence[Cell], columns: Sequence[Column | None], kind: Kind, name: str, document: Mapping[str, str]) -> tuple[str | None, str, int]:
    """Name (None in a list), text for the job file, and line of a row."""
    called, words, line = None, {}, row[0].line
    for cell, column in zip(row, columns, strict=False):
        text = cell.text.strip()
        if column is None or not text:
            continue
        if column.key == NAME and kind.named:
            called = text
            continue
        words[column.key] = f"{text} {column.unit}" if column.unit and re.fullmatch(r"[-+−]?[0-9][0-9 ./]*", text) else text
    if kind.named and not called:
        raise JobError([Fault(name, line, 1, (), "this row has no name.", "Write one, or take the row out.")])
    if kind.part is None:
        return called, quoted(words.get("value", "")), line
    parts = [f"{key}: {_listed(kind.part, key, value)}" for key, value in words.items()]
    if document:
        if "document" not in {key.spoken for key in kind.part.KEYS.values()}:
            raise JobError([Fault(name, line, 1, (), "what stands here rests on no document.", "Leave --document out.")])
        parts.append(f"document: {{{', '.join(f'{key}: {quoted(value)}' for key, value in document.items())}}}")
    return called, f"{{{', '.join(parts)}}}", line


def _listed(part: type[Part], key: str, value: str) -> str:
    """A value as it is written: a list where the key takes one, its entries parted by semicolons."""
    annotation = next(bare(one.annotation) for one in part.KEYS.values() if one.spoken == key)
    if typing.get_origin(annotation) is tuple:
        return f"[{', '.join(quoted(word.strip()) for word in value.split(';'))}]"
    return quoted(value)


# --- the table ---------------------------------------------------------------------------------------------------------


def _read(table: Path) -> tuple[tuple[Cell, ...], tuple[tuple[Cell, ...], ...]]:
    if table.suffix.lower() == ".xlsx":
        found = [(line, row) for line, row in first_sheet(table) if any(cell.strip() for cell in row)]
    else:
        text = text_of(bytes_of(table, table.name), table.name)
        first = text.split("\n", 1)[0]
        delimiter = max(";\t,", key=first.count)
        reader = csv.reader(io.StringIO(text), delimiter=delimiter)
        found = [(reader.line_num, row) for row in reader if any(cell.strip() for cell in row)]
    if len(found) < 2:
        raise JobError(
            [Fault(table.name, 1, 1, (), "holds no rows below its headings.", "Write the headings in the first row, and a row for each entry.")]
        )
    rows = tuple(tuple(Cell(cell, line) for cell in row) for line, row in found)
    return rows[0], rows[1:]


def _remembered(kept: Path, into: Path_) -> dict[str, str]:
    if not kept.exists():
        return {}
    said = dict(compose(text_of(bytes_of(kept, kept.name), kept.name), kept.name).children())
    of = said.get(" / ".join(_anonymous(into)))
    return {heading: str(node.value) for heading, node in of.children()} if of is not None and isinstance(of.value, dict) else {}


def _remember(kept: Path, into: Path_, meanings: Mapping[str, str]) -> None:
    def changed(before: bytes | None) -> bytes:
        text = (before or b"# What the headings of our tables mean, by the part of the job they go into.\nliftout: 1\n").decode("utf-8")
        return entered(text, [((" / ".join(_anonymous(into)), heading), quoted(said)) for heading, said in meanings.items()]).encode("utf-8")

    rewrite(kept, changed)


def _anonymous(into: Path_) -> Iterator[str]:
    """The part without numbers: the changes of one sheet have the same columns as those of another."""
    yield from ("*" if part.isdigit() else part for part in into)
