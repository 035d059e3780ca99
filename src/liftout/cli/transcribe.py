"""`liftout transcribe`: a table that the shop has already, entered into a job."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def arguments(parser: ArgumentParser) -> None:
    """Enter the rows of TABLE (CSV, or XLSX with the extra xlsx) into JOB: loads, equipment, changes of the weight record, weights of a loading."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file; its comments and order stay as they are")
    parser.add_argument("table", metavar="TABLE", type=Path, help="the table; its first row holds the headings, such as Current (A)")
    parser.add_argument("--into", metavar="PART", required=True, help='where the rows go: "electrical / loads", for example')
    parser.add_argument(
        "--as", dest="meanings", metavar="HEADING=KEY", action="append", default=[], help="what a heading means; kept for the next table"
    )
    parser.add_argument(
        "--rows", metavar="NUMBERS", help="rows that are entries, as a spreadsheet counts them, such as 4-9,12; all where nothing is said"
    )
    parser.add_argument(
        "--every", dest="every", metavar="KEY=VALUE", action="append", default=[], help='what every row says and no column holds: "bus=main bus"'
    )
    parser.add_argument("--decimal-comma", action="store_true", help="numbers are written 2,5")
    parser.add_argument("--document", metavar="NUMBER", help="number of the document that the table is; each row then rests on it")
    parser.add_argument("--revision", metavar="REVISION", help="its revision")
    parser.add_argument("--page", metavar="PAGE", help="the page")


def transcribe(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up, standing
    from liftout.job import load
    from liftout.records.exclusive import NotWritten
    from liftout.records.transcribed import Reading, transcribe

    wrong = next((told for told in asked.meanings if "=" not in told), None)
    if wrong is not None:
        print(f'--as "{wrong}" says nothing. Write --as "HEADING=KEY", with the unit behind the key where the cells have none.', file=sys.stderr)
        return Exit.MISTYPED
    wrong = next((told for told in asked.every if "=" not in told), None)
    if wrong is not None:
        print(f'--every "{wrong}" says nothing. Write --every "KEY=VALUE".', file=sys.stderr)
        return Exit.MISTYPED
    rows = _numbers(asked.rows or "")
    if rows is None:
        print(f'--rows "{asked.rows}" names no rows. Write numbers and ranges: --rows 4-9,12.', file=sys.stderr)
        return Exit.MISTYPED
    document = {key: value for key, value in (("number", asked.document), ("revision", asked.revision), ("page", asked.page)) if value}
    if document and "number" not in document:
        print("A revision or a page needs the number of its document: --document NUMBER.", file=sys.stderr)
        return Exit.MISTYPED
    meanings = {heading.strip(): said.strip() for heading, _, said in (told.partition("=") for told in asked.meanings)}
    reading = Reading(
        rows, {key.strip(): said.strip() for key, _, said in (told.partition("=") for told in asked.every)}, asked.decimal_comma, document
    )
    into = tuple(part.strip() for part in asked.into.split("/"))
    with giving_up():
        try:
            names = transcribe(asked.job, asked.table, into, meanings, reading)
        except NotWritten as error:
            print(error, file=sys.stderr)
            return Exit.UNREADABLE
        for name in names:
            print(f"entered: {' / '.join(into)} / {name}")
        assessment = assess(load(asked.job), remedies=False)
    print(", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count))
    return standing(assessment)


def _numbers(text: str) -> frozenset[int] | None:
    """Rows named as 4-9,12; None where that names none."""
    found: set[int] = set()
    for part in filter(None, (one.strip() for one in text.split(","))):
        match = re.fullmatch(r"([0-9]{1,6})(?:\s*-\s*([0-9]{1,6}))?", part)
        if match is None or (match[2] and int(match[2]) < int(match[1])):
            return None
        found |= {*range(int(match[1]), int(match[2] or match[1]) + 1)}
    return frozenset(found)
