"""Rows of published tables that the shop has compared with the original, or put its own figures in place of."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from liftout.job.errors import Fault, JobError
from liftout.job.reader import Said, compose, read_file
from liftout.job.values import Date, Part, Word, checked, group, optional, told
from liftout.quantities import QuantityError

FOLDER = "tables"
"""Its folder in the jobs folder: one file a table, named like the table."""
KEY = "shop tables"
"""Where the rows stand once they are part of the job."""


class Confirmed(Part):
    """Who compared a row with the printed original, and when."""

    name: Word = told("who")
    date: Date = told("when")


class ShopRow(Part):
    """What the shop says of one row of a published table."""

    confirmed: Confirmed | None = optional("by whom and when the row, as it then reads, was compared with the printed original")
    replaces: dict[Word, Word] = group("columns of the row with the figures that take the place of the published ones")
    source: Word | None = optional("the publication that the shop's figures stand in: name, edition, place")
    why: Word | None = optional("why the figures are replaced")
    by: Word | None = optional("who replaced them")
    date: Date | None = optional("when")

    @checked
    def _whole(self) -> Any:
        if self.replaces and not (self.why and self.by and self.date):
            raise QuantityError("replaces a published figure, and does not say why, by whom and when.", "Write why, by and date beside it.")
        if not self.replaces and self.confirmed is None:
            raise QuantityError(
                "neither confirms the row nor replaces anything.", "Write confirmed with name and date, or replaces with the figures."
            )
        return self


class ShopTables(Part):
    """All tables of a shop."""

    shop_tables: dict[Word, dict[Word, ShopRow]] = group("rows by table and row")


def with_shop_tables(said: Said, jobs: Path) -> Said:
    """A job with what the shop's own tables say; what the job itself says of a row stands.

    Args:
        said: the job.
        jobs: the jobs folder.

    Raises:
        JobError: when a table cannot be read.
    """
    assert isinstance(said.value, dict)
    folder = jobs / FOLDER
    found = {path.stem: _rows(path) for path in sorted(folder.glob("*.yaml"))} if folder.is_dir() else {}
    if not found:
        return said
    own = said.value.get(KEY)
    merged: dict[str, Said] = dict(own.value) if own is not None and isinstance(own.value, dict) else {}
    for table, rows in found.items():
        assert isinstance(rows.value, dict)
        here = merged.get(table)
        stands = here.value if here is not None and isinstance(here.value, dict) else {}
        merged[table] = replace(rows, value={**rows.value, **stands})
    return replace(said, value={**said.value, KEY: replace(own or next(iter(found.values())), value=merged)})


def _rows(path: Path) -> Said:
    shown = f"{FOLDER}/{path.name}"
    tree = compose(read_file(path, shown), shown)
    assert isinstance(tree.value, dict)
    rows = tree.value.get("rows")
    if set(tree.value) - {"liftout", "rows"} or rows is None or not isinstance(rows.value, dict):
        raise JobError(
            [Fault(shown, tree.line, tree.column, (), "is no table of a shop.", 'Write "liftout: 1" and below it "rows:" with a key for each row.')]
        )
    return rows
