"""The shop's own rows: published ones that it confirmed, or put its own figures in place of.

They are in force for one job at a time. A figure of the shop is never printed as the publication's: its row says whose it
is, in place of what.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from liftout.job import Fault, Job, JobError, Said, modelled
from liftout.job.shop_tables import KEY, ShopRow, ShopTables, with_shop_tables
from liftout.quantities import QuantityError, read
from liftout.tables import Cell, Confirmation, Read, Row, TableError, UnknownRow, put_in_force, shipped
from liftout.tables.rows import TEXT

ShopRows = Mapping[str, Mapping[str, Row]]
"""Rows of the shop by table and key."""


class Replacement(NamedTuple):
    """One figure that the shop put in place of a published one."""

    row: str
    column: str
    old: str
    new: str
    why: str
    by: str
    date: str


def shop_rows(told: Mapping[str, Mapping[str, ShopRow]], said: Said) -> ShopRows:
    """The rows of a shop.

    Args:
        told: what it says of each, by table and row.
        said: where that was said.

    Raises:
        JobError: every row that names no table, row or column there is, or holds what is no such quantity.
    """
    found: dict[str, dict[str, Row]] = {}
    faults: list[Fault] = []
    for table, rows in told.items():
        for key, row in rows.items():
            try:
                found.setdefault(table, {})[key] = _row(table, key, row)
            except (TableError, UnknownRow) as error:
                faults.append(_fault(said, table, key, f"{error}", "Name a table and a row as liftout criteria NAME and the worksheets print them."))
            except QuantityError as error:
                faults.append(_fault(said, table, key, error.wrong, error.right))
    if faults:
        raise JobError(faults)
    return found


def _fault(said: Said, table: str, key: str, wrong: str, right: str) -> Fault:
    node = said.at((KEY, table, key))
    return Fault(node.file, node.line, node.column, (KEY, table, key), wrong, right)


def _row(table: str, key: str, said: ShopRow) -> Row:
    old = shipped(table).row(key)
    for name, text in said.replaces.items():
        cell = old.cells.get(name)
        if cell is None:
            raise QuantityError(f'the row has no column "{name}".', f"It has {', '.join(old.cells)}.")
        if cell.column.dimension != TEXT:
            read(text, cell.column.dimension)
    confirmed = Confirmation(said.confirmed.name, said.confirmed.date.isoformat()) if said.confirmed else old.confirmed
    cells: dict[str, Cell] = {}
    if said.replaces:
        place = f"{said.by}, {said.date}; in place of {old.citation}"
        source = old.source._replace(name=said.source or "the shop's own figure", edition="", place=place)
        reading: Read = "stored copy" if said.confirmed and said.source else "common practice, no source"
        new = Row(table, key, source, reading, old.note, confirmed if said.confirmed else None, cells)
    else:
        new = Row(table, key, old.source, old.read, old.note, confirmed, cells)
    cells.update({name: Cell(new, cell.column, said.replaces.get(name, cell.text)) for name, cell in old.cells.items()})
    return new


def replacements(job: Job) -> Iterator[Replacement]:
    """Every figure that the shop of a job put in place of a published one."""
    for table, rows in job.document.shop_tables.items():
        for key, said in rows.items():
            old = shipped(table).row(key)
            for column, text in said.replaces.items():
                yield Replacement(
                    old.identity, column, old.cells[column].text or "no value given", text, said.why or "", said.by or "", str(said.date)
                )


def replaced_rows(job: Job) -> frozenset[str]:
    """Table and key of each row in which the shop replaced a figure."""
    return frozenset(one.row for one in replacements(job))


def in_force(job: Job) -> None:
    """Let the rows of a job hold, and no others, until another job's do; raises as `shop_rows` does."""
    put_in_force(shop_rows(job.document.shop_tables, job.said))


def of_folder_in_force(jobs: Path) -> None:
    """Let the rows of a shop's own tables folder hold, whatever job they are for; raises as `shop_rows` does.

    Args:
        jobs: the jobs folder.
    """
    said = with_shop_tables(Said({}, str(jobs), 1, 1), jobs)
    put_in_force(shop_rows(modelled(ShopTables, said).shop_tables, said))
