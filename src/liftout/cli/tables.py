"""`liftout tables`: every table of a job's papers for a spreadsheet."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Sequence

    from liftout.documents.exported import Exported


def arguments(parser: ArgumentParser) -> None:
    """Write every table of the papers of JOB as CSV files, or as the sheets of one workbook (extra xlsx)."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file")
    parser.add_argument("--out", metavar="FOLDER", type=Path, help="folder for the CSV files; must not be there yet")
    parser.add_argument("--xlsx", metavar="FILE", type=Path, help="workbook; a file that is there is not touched")


def tables(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up
    from liftout.documents.docket import documents
    from liftout.documents.exported import tables
    from liftout.documents.kit import as_csv
    from liftout.identity.digests import digests
    from liftout.job import load
    from liftout.records.exclusive import create, create_folder

    if asked.out is None and asked.xlsx is None:
        print("Say where the tables go: --out FOLDER for CSV, --xlsx FILE for a workbook.", file=sys.stderr)
        return Exit.MISTYPED
    taken = next((path for path in (asked.out, asked.xlsx) if path is not None and path.exists()), None)
    if taken is not None:
        print(f"{taken} is there already. It was left as it is; give another name.", file=sys.stderr)
        return Exit.MISTYPED
    with giving_up():
        assessment = assess(load(asked.job))
        found = list(tables(documents(assessment, digests(assessment)), assessment.findings))
        workbook = _workbook(asked.xlsx, found) if asked.xlsx is not None else b""
    place = asked.xlsx
    try:
        if asked.xlsx is not None:
            create(asked.xlsx, workbook)
        if asked.out is not None:
            place = asked.out
            create_folder(asked.out, {f"{one.name}.csv": as_csv(one.head, one.rows).encode() for one in found})
    except OSError as error:
        print(f"{place} cannot be written: {error.strerror}. Nothing was left there.", file=sys.stderr)
        return Exit.UNREADABLE
    print(f"{len(found)} tables.")
    return Exit.CLEAR


def _workbook(path: Path, found: Sequence[Exported]) -> bytes:
    import io

    from liftout.documents.exported import sheet_name
    from liftout.documents.kit import harmless
    from liftout.job.workbook import new_book

    book = new_book(path)
    for one in found:
        sheet = book.create_sheet(sheet_name(one.name, book.sheetnames))
        sheet.append([one.title])
        for row in (one.head, *one.rows):
            sheet.append([harmless(cell) for cell in row])
    del book[book.sheetnames[0]]
    whole = io.BytesIO()
    book.save(whole)
    return whole.getvalue()
