"""`liftout fleet --differences`: in which facts of their own the sisters of a kit differ."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import Namespace

    from liftout.identity.sisters import Differences

GAP = 2
"""Blanks between two columns."""
NARROW, WIDE = 12, 36
"""Of a column, in letters."""


def print_differences(asked: Namespace) -> int:
    """Print them, or write them as CSV.

    Args:
        asked: as `cli.fleet` reads it.
    """
    from liftout.cli.exits import Exit, giving_up
    from liftout.identity.sisters import differences
    from liftout.job import load

    kit = asked.differences.removeprefix("kits/").removesuffix(".yaml")
    with giving_up():
        files = list(_of_kit(asked.folders, kit))
        if len(files) < 2:
            print(f"{len(files) or 'No'} job there takes over kits/{kit}: two make sisters.", file=sys.stderr)
            return Exit.MISTYPED
        found = differences([load(file) for file in files])
    if asked.csv is not None:
        return _write(asked.csv, found)
    print(f"{len(found.sisters)} sisters of kits/{kit} differ in {len(found.facts)} facts of their own.")
    for band in _bands(found):
        print()
        print("\n".join(band))
    _warn(found)
    return Exit.CLEAR


def _of_kit(folders: Sequence[Path], kit: str) -> Iterator[Path]:
    """Files of the jobs that take over a kit; one that cannot be read stops everything, since a sister would be missing."""
    from liftout.fleet.run import jobs_in
    from liftout.job.reader import compose, read_file

    for _, file in jobs_in(folders):
        taken = dict(compose(read_file(file, f"{file.parent.name}/{file.name}"), f"{file.parent.name}/{file.name}").children()).get("from")
        if taken is not None and taken.value == f"kits/{kit}":
            yield file


def _warn(found: Differences) -> None:
    if found.others:
        count = len(found.others)
        words = "thing that belongs to no one aircraft differs" if count == 1 else "things that belong to no one aircraft differ"
        print(f"\n{count} {words} too: does the kit hold for her? See them with liftout compare.", file=sys.stderr)
        for path in found.others:
            print(f"  {path}", file=sys.stderr)


def _bands(found: Differences) -> Iterator[list[str]]:
    """The table, as many sisters beside one another as the terminal is wide."""
    from shutil import get_terminal_size

    width = get_terminal_size((150, 24)).columns
    first = max((len(path) for path, _ in found.facts), default=0)
    columns = [[name, *(values[at] or "not said" for _, values in found.facts)] for at, name in enumerate(found.sisters)]
    widths = [min(max(NARROW, *(len(cell) for cell in column)), WIDE) for column in columns]
    at = 0
    while at < len(columns):
        end, room = at + 1, width - first - GAP - widths[at]
        while end < len(columns) and widths[end] + GAP <= room:
            room -= widths[end] + GAP
            end += 1
        heads = ["", *(path for path, _ in found.facts)]
        yield [
            (" " * GAP).join((head.ljust(first), *(_fitting(columns[one][row], widths[one]) for one in range(at, end)))).rstrip()
            for row, head in enumerate(heads)
        ]
        at = end


def _fitting(text: str, width: int) -> str:
    return text.ljust(width) if len(text) <= width else f"{text[: width - 1]}…"


def _write(path: Path, found: Differences) -> int:
    from liftout.cli.exits import Exit
    from liftout.documents.kit import as_csv
    from liftout.records.exclusive import NotWritten, write_text

    try:
        write_text(path, as_csv(("fact", *found.sisters), [(fact, *values) for fact, values in found.facts]))
    except NotWritten as error:
        print(error, file=sys.stderr)
        return Exit.UNREADABLE
    print(f"{path}: {len(found.facts)} facts of {len(found.sisters)} sisters.")
    _warn(found)
    return Exit.CLEAR
