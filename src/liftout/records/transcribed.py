"""Tables that a shop has already, entered into a job: an equipment list, a list of loads, a loading table, from CSV or a workbook.

A heading is read as a key of the job language with the unit in brackets behind it: `Weight (lb)`. What a heading of the
shop's means is told once and kept beside the catalogue, so the next table of the same kind needs no telling. It may be a key
in a part of the entry, `box / front in`, or one word of a list, `phases: climb`, for a column of crosses.
"""

from __future__ import annotations

import csv
import io
import re
import typing
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, Final, NamedTuple

from liftout.facts import gather
from liftout.job import Document, JobError, bare, core, told, written_at
from liftout.job.edit import CannotEnter, begun, entered, quoted
from liftout.job.errors import Fault, one_of
from liftout.job.part import Part
from liftout.job.reader import bytes_of, compose, text_of
from liftout.job.values import Choice, YesNo
from liftout.job.workbook import first_sheet
from liftout.records.exclusive import rewrite

COLUMNS: Final = "columns.yaml"
"""What the headings of a shop's tables mean, beside the catalogue."""
NAME, LEFT_OUT = "name", "-"
"""What a heading may mean besides a key: the name of an entry, or nothing."""
CROSSED, NOT_CROSSED = frozenset({"x", "yes", "y", "1", "✓", "✔"}), frozenset({"no", "n", "0", "-", "–"})
"""What a cell of a column of crosses holds, written small."""
YES, NO = frozenset({"y", "x", "✓", "✔"}), frozenset({"n"})
"""What tables write for yes and no, besides these words; written small."""

Path_ = tuple[str, ...]


class Cell(NamedTuple):
    """One cell: what it holds, and its line in the table."""

    text: str
    line: int


class Column(NamedTuple):
    """What a heading means: a key, or the name, the unit of bare numbers below it, and the words that a cross below it stands for."""

    key: Path_
    unit: str = ""
    words: tuple[str, ...] = ()


class Entry(NamedTuple):
    """What one row says: how it is called (None in a list), its keys as the job file has them, and its cells by key."""

    name: str | None
    text: str
    line: int
    cells: Mapping[Path_, int]
    """Column of the table, from 1, that each key comes from."""


class Reading(NamedTuple):
    """How a table is read, besides what its headings mean."""

    rows: Collection[int] = ()
    """Numbers of the rows that are entries, as a spreadsheet counts them; empty for all below the headings."""
    every: Mapping[str, str] = {}
    """What every entry says that no column holds: the bus of a list of loads, say."""
    decimal_comma: bool = False
    """Whether numbers are written 2,5."""
    document: Mapping[str, str] = {}
    """Number, revision and page of the document that the table is; empty to leave out."""


def transcribe(job: Path, table: Path, into: Path_, meanings: Mapping[str, str], reading: Reading) -> tuple[str, ...]:
    """Enter a table into a job file; all of its rows or none.

    Args:
        job: the job file.
        table: CSV, or a workbook whose first sheet is read.
        into: the group or list of the job that gets an entry for each row.
        meanings: what headings mean, as "key unit"; kept for the next table.
        reading: which rows are entries, how they are written, and what they rest on.

    Returns:
        What each entry is called.

    Raises:
        JobError: what is wrong with the table or with the job that would come of it.
        liftout.records.exclusive.NotWritten: when somebody else writes the job file.
    """
    kind = _target(into, job.name)
    head, rows = _read(table, reading.rows)
    kept = job.absolute().parent.parent / COLUMNS
    columns = _columns(head, kind, table.name, {**_remembered(kept, into), **meanings})
    entries = _entries(rows, columns, kind, table.name, reading)
    names: list[str] = []

    def changed(before: bytes | None) -> bytes:
        text = (before or b"").decode("utf-8")
        place = compose(text, job.name).find(into)
        count = len(place.value) if place is not None and isinstance(place.value, tuple) else 0
        names[:] = [entry.name or str(count + number) for number, entry in enumerate(entries, 1)]
        first = entries[0]
        try:
            if place is None or place.value in (None, {}, ()):
                lines = [f"- {entry.text}" if entry.name is None else f"{quoted(entry.name)}: {entry.text}" for entry in entries]
                text = begun(text, into, lines)
            else:
                for first, name in zip(entries, names, strict=True):
                    text = entered(text, [((*into, name), first.text)])
        except CannotEnter as why:
            raise JobError([Fault(table.name, first.line, 1, into, f"has no place in the job file: {why}.", "Write it there by hand.")]) from None
        try:
            gather(told(text, job))
        except JobError as error:
            raise JobError(_in_table(error.faults, into, dict(zip(names, entries, strict=True)), table.name)) from None
        return text.encode("utf-8")

    rewrite(job, changed)
    if meanings:
        _remember(kept, into, meanings)
    return tuple(names)


def _in_table(faults: Sequence[Fault], into: Path_, entries: Mapping[str, Entry], name: str) -> list[Fault]:
    """Faults of the job that would come, told at the cells that they come from; what is wrong with many rows alike, once."""
    told_once: list[Fault] = []
    others: Counter[tuple[Path_, str]] = Counter()
    for fault in faults:
        entry = entries.get(fault.path[len(into)]) if fault.path[: len(into)] == into and len(fault.path) > len(into) else None
        if entry is None:
            told_once.append(fault)
            continue
        key = fault.path[len(into) + 1 :]
        # What is wrong quotes the cell; what would be right is the same for all of them.
        alike = key, fault.right
        others[alike] += 1
        if others[alike] == 1:
            column = next((at for said, at in entry.cells.items() if said and key[: len(said)] == said), 1)
            told_once.append(Fault(name, entry.line, column, key, fault.wrong, fault.right))
    return [
        fault._replace(wrong=f"{fault.wrong} So it is in {more} more row{'s' if more > 1 else ''}.")
        if (more := others[fault.path, fault.right] - 1) > 0
        else fault
        for fault in told_once
    ]


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
        if said == LEFT_OUT or not cell.text.strip():
            found.append(None)
            continue
        column = _meant(said, kind, known)
        if column is None:
            heading = cell.text.strip()
            faults.append(
                Fault(
                    *(name, cell.line, len(found) + 1, ()),
                    f'the heading "{heading}" is no key here.',
                    f'{one_of(said, known)} Say what it means: --as "{heading}=KEY UNIT", or "{heading}={LEFT_OUT}" to leave it out.',
                )
            )
        found.append(column if column is None or column.unit else column._replace(unit=unit))
    if kind.named and not faults and (NAME,) not in {column.key for column in found if column}:
        faults.append(Fault(name, 1, 1, (), "no column names the entries.", f'Say which does: --as "{head[0].text.strip()}={NAME}".'))
    if faults:
        raise JobError(faults)
    return tuple(found)


def _meant(said: str, kind: Kind, known: Sequence[str]) -> Column | None:
    """What is told of a heading: "key", "key unit", "part / key unit", or "key: word; word" for crosses; None where there is no such key."""
    if kind.named and said == NAME:
        return Column((NAME,))
    said, crosses, words = (part.strip() for part in said.partition(":"))
    *inside, last = (part.strip() for part in said.split("/"))
    around = kind.part
    for part in inside:
        key = next((one for one in around.KEYS.values() if one.spoken == part), None) if around is not None else None
        inner = core(key.annotation) if key is not None else None
        if not (isinstance(inner, type) and issubclass(inner, Part)):
            return None
        around = inner
    here = {key.spoken for key in around.KEYS.values()} if inside and around is not None else set(known)
    # A key may hold blanks, and its unit stands behind it: the longest key that it begins with.
    key_ = max((one for one in here if last == one or last.startswith(f"{one} ")), key=len, default=None)
    if key_ is None:
        return None
    if crosses and not (words and _is_list(kind.part, (*inside, key_))):
        return None
    return Column((*inside, key_), last[len(key_) :].strip(), tuple(word.strip() for word in words.split(";")) if crosses else ())


def _is_list(part: type[Part] | None, key: Path_) -> bool:
    return part is not None and typing.get_origin(bare(_annotation(part, key))) is tuple


def _annotation(part: type[Part], key: Path_) -> Any:
    """How the value of a key in a part of an entry is written."""
    *inside, last = key
    for name in inside:
        part = core(next(one.annotation for one in part.KEYS.values() if one.spoken == name))
    return next(one.annotation for one in part.KEYS.values() if one.spoken == last)


# --- what the rows say -------------------------------------------------------------------------------------------------


def _entries(rows: Sequence[Sequence[Cell]], columns: Sequence[Column | None], kind: Kind, name: str, reading: Reading) -> tuple[Entry, ...]:
    keys = [key.spoken for key in kind.part.KEYS.values()] if kind.part is not None else []
    every: dict[Path_, str] = {}
    for said, value in reading.every.items():
        column = _meant(said, kind, keys)
        if column is None or column.unit:
            raise JobError([Fault(name, 1, 1, (), f'"{said}" is no key here, for every row.', one_of(said, sorted(keys)))])
        every[column.key] = value
    if reading.document and "document" not in keys:
        raise JobError([Fault(name, 1, 1, (), "what stands here rests on no document.", "Leave --document out.")])
    found, faults = [], []
    for row in rows:
        try:
            found.append(_entry(row, columns, kind, name, every, reading))
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(faults)
    return tuple(found)


def _entry(row: Sequence[Cell], columns: Sequence[Column | None], kind: Kind, name: str, every: Mapping[Path_, str], reading: Reading) -> Entry:
    """What a row says; one with a single cell filled where several are asked for is a heading or a remark and no entry."""
    line = row[0].line
    filled = [
        (number, column, cell.text.strip())
        for number, (cell, column) in enumerate(zip(row, columns, strict=False), 1)
        if column is not None and cell.text.strip()
    ]
    if len(filled) < 2 < sum(column is not None for column in columns):
        wrong = f'this row says "{filled[0][2] if filled else ""}" alone, as a heading or a remark does.'
        raise JobError([Fault(name, line, 1, (), wrong, "Say which rows are entries: --rows 4-9.")])
    called = next((text for _, column, text in filled if kind.named and column.key == (NAME,)), None)
    if kind.named and not called:
        raise JobError([Fault(name, line, 1, (), "this row has no name.", "Write one, or take the row out.")])
    words = dict(every)
    crossed: dict[Path_, list[str]] = {}
    cells: dict[Path_, int] = {}
    for number, column, text in filled:
        cells[column.key] = number
        if column.words:
            if text.lower() in CROSSED:
                crossed.setdefault(column.key, []).extend(column.words)
            elif text.lower() not in NOT_CROSSED:
                raise JobError([Fault(name, line, number, column.key, f'"{text}" is no cross.', "Write x, or leave the cell blank.")])
        elif not (kind.named and column.key == (NAME,)):
            number_ = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text) if reading.decimal_comma else text
            bare_number = re.fullmatch(r"[-+−]?[0-9][0-9 ./]*", number_)
            words[column.key] = f"{number_} {column.unit}" if column.unit and bare_number else number_
    if kind.part is None:
        return Entry(called, quoted(words.get(("value",), "")), line, cells)
    tree: dict[str, Any] = {}
    for key, value in words.items():
        _put(tree, key, _written(kind.part, key, value))
    for key, several in crossed.items():
        _put(tree, key, f"[{', '.join(quoted(word) for word in dict.fromkeys(several))}]")
    if reading.document:
        tree["document"] = {key: quoted(value) for key, value in reading.document.items()}
    return Entry(called, _flow(tree), line, cells)


def _put(tree: dict[str, Any], key: Path_, value: str) -> None:
    for part in key[:-1]:
        tree = tree.setdefault(part, {})
    tree[key[-1]] = value


def _flow(tree: Mapping[str, Any]) -> str:
    return f"{{{', '.join(f'{key}: {_flow(value) if isinstance(value, dict) else value}' for key, value in tree.items())}}}"


def _written(part: type[Part], key: Path_, value: str) -> str:
    """A value as it is written: a list where the key takes one, its entries parted by semicolons; yes or no where tables have a letter."""
    if _is_list(part, key):
        return f"[{', '.join(quoted(word.strip()) for word in value.split(';'))}]"
    if bare(_annotation(part, key)) in (YesNo, Choice):
        value = "yes" if value.lower() in YES else "no" if value.lower() in NO else value.lower() if value.lower() in ("yes", "no") else value
    return quoted(value)


# --- the table ---------------------------------------------------------------------------------------------------------


def _read(table: Path, only: Collection[int]) -> tuple[tuple[Cell, ...], tuple[tuple[Cell, ...], ...]]:
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
    lines = [line for line, _ in found[1:]]
    absent = sorted(set(only) - set(lines))
    if absent:
        raise JobError(
            [
                Fault(
                    table.name,
                    absent[0],
                    1,
                    (),
                    f"there is no entry in row {absent[0]}.",
                    f"Name rows from {lines[0]} to {lines[-1]} that hold something.",
                )
            ]
        )
    rows = tuple(tuple(Cell(cell, line) for cell in row) for line, row in found if not only or line in {found[0][0], *only})
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
