"""What is said of a whole fleet: each job in a line, and of each criterion the jobs that have least left, worst first.

Results are gathered in a database on disk as they come, in any order; what is written is in an order of its own. So memory does not
grow with the fleet, and one worker or many, one run or several, write the same bytes.
"""

from __future__ import annotations

import csv
import json
import os
import secrets
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any, Final, TextIO

from liftout import __version__
from liftout.documents.kit import harmless
from liftout.findings import Verdict
from liftout.fleet.checked import FAILS, GRAVITY, UNREADABLE, WORDS, Result, worst
from liftout.on_the_disk import settle_folder
from liftout.records.exclusive import alone

SCHEMA: Final = 1
PAGE, JOBS, MARGINS, CHANGES, DATA = "index.html", "jobs.csv", "margins.csv", "changes.csv", "fleet.json"
"""Files of a summary."""

JOBS_HEAD: Final = (
    "job",
    "standing",
    "number",
    "revision",
    "date",
    "aircraft",
    "serial number",
    *(str(one) for one in Verdict),
    "to act on",
    "fault",
)
MARGINS_HEAD: Final = (
    "kind of margin",
    "rank",
    "criterion",
    "title",
    "job",
    "aircraft",
    "serial number",
    "subject",
    "state",
    "verdict",
    "margin",
    "magnitude",
    "unit",
)
CHANGES_HEAD: Final = ("docket", "number", "revision", "finding", "before", "now")

_TABLES: Final = """
create table job (shown text primary key, code integer, gravity integer, open integer, aircraft text, serial text, body text);
create table least (kind text, si real, criterion text, title text, shown text, subject text, state text, verdict text, margin text,
 magnitude text, unit text);
create table waiting (criterion text, title text, verdict text, count integer, shown text);
create table docket (shown text primary key, folder text, why text);
create table change (shown text, place integer, finding text, was text, now text);
"""


class Summary:
    """A fleet's results, gathered."""

    def __init__(self) -> None:
        self._at = sqlite3.connect("")  # a file of its own, gone with this program
        self._at.executescript(_TABLES)

    def close(self) -> None:
        """Give the database back."""
        self._at.close()

    def add(self, shown: str, result: Result) -> None:
        """Take in one job; of one told twice the later counts."""
        head = Result(**{**_fields(result), "least": (), "waiting": (), "changes": ()})
        body = json.dumps(head.as_data(), ensure_ascii=False)
        row = (shown, result.code, GRAVITY.index(result.code), result.open, result.aircraft, result.serial, body)
        self._at.execute("insert or replace into job values (?, ?, ?, ?, ?, ?, ?)", row)
        for one in result.least:
            values = (one.kind, one.si, one.criterion, one.title, shown, one.subject, one.state, one.verdict, one.margin, one.magnitude, one.unit)
            self._at.execute("insert into least values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", values)
        for each in result.waiting:
            self._at.execute("insert into waiting values (?, ?, ?, ?, ?)", (each.criterion, each.title, each.verdict, each.count, shown))
        for place, change in enumerate(result.changes):
            self._at.execute("insert into change values (?, ?, ?, ?, ?)", (shown, place, change.finding, change.was, change.now))

    def add_docket(self, shown: str, folder: str, why: str) -> None:
        """Take in where the docket of a job was written, or why it was not."""
        self._at.execute("insert into docket values (?, ?, ?)", (shown, folder, why))

    # --- what it says -----------------------------------------------------------------------------------------------

    @property
    def code(self) -> int:
        """The gravest of all; a docket that could not be written counts like a job that cannot be read."""
        refused = [UNREADABLE] if any(why for _, _, why in self.dockets()) else []
        return worst([*refused, *(code for (code,) in self._at.execute("select distinct code from job"))])

    @property
    def standings(self) -> dict[int, int]:
        """How many jobs stand how, gravest first."""
        counts = dict(self._at.execute("select code, count(*) from job group by code"))
        return {code: counts[code] for code in reversed(GRAVITY) if code in counts}

    @property
    def sentence(self) -> str:
        """The same in words."""
        return ", ".join(f"{count} {'do not conform' if code == FAILS and count > 1 else WORDS[code]}" for code, count in self.standings.items())

    def jobs(self) -> Iterator[tuple[str, Result]]:
        """Every job, those that need most first."""
        for shown, body in self._at.execute("select shown, body from job order by gravity desc, open desc, shown"):
            yield shown, Result.of_data(json.loads(body))

    def least(self) -> Iterator[dict[str, Any]]:
        """Of each job and criterion what has least left, worst first within one kind of margin, ratios before distances."""
        asked = (
            "select kind, rank() over (partition by kind order by si) as rank, criterion, title, least.shown as job, aircraft, serial as 'serial number',"
            " subject, state, verdict, margin, magnitude, unit from least join job on job.shown = least.shown"
            " order by kind = 'ratio' desc, kind, si, criterion, least.shown, subject, state"
        )
        cursor = self._at.execute(asked)
        names = [column[0] for column in cursor.description]
        names[0] = MARGINS_HEAD[0]
        for row in cursor:
            yield dict(zip(names, row, strict=True))

    def criteria(self) -> Iterator[tuple[str, str, str, str, str, str]]:
        """Of each criterion and kind of margin the worst: kind, criterion, title, job, margin, verdict; worst first within one kind."""
        asked = (
            "select kind, criterion, title, shown, margin, verdict from (select *, row_number() over (partition by kind, criterion"
            " order by si, shown, subject, state) as place from least) where place = 1 order by kind = 'ratio' desc, kind, si, criterion"
        )
        yield from self._at.execute(asked)

    def waiting(self) -> Iterator[tuple[str, str, str, int, int]]:
        """Criterion, title, verdict, findings and jobs of all that somebody has to act on, what most jobs share first."""
        asked = "select criterion, title, verdict, sum(count), count(*) from waiting group by criterion, title, verdict order by 5 desc, 4 desc, 1, 3"
        yield from self._at.execute(asked)

    def changes(self) -> Iterator[tuple[str, str, str, str]]:
        """Docket, finding, verdict before and now."""
        yield from self._at.execute("select shown, finding, was, now from change order by shown, place")

    def dockets(self) -> Iterator[tuple[str, str, str]]:
        """Job, folder of its docket below the job's own, or why none was written."""
        yield from self._at.execute("select shown, folder, why from docket order by shown")

    def faults(self) -> Iterator[tuple[str, Result]]:
        """Jobs that could not be checked."""
        return ((shown, result) for shown, result in self.jobs() if result.fault)

    # --- what is written ----------------------------------------------------------------------------------------------

    def write(self, folder: Path, *, against: bool = False, issued: bool = False) -> None:
        """Write the summary: page, tables for a spreadsheet, data for a program.

        All of it is on the disk before the one that lies there is taken away, page first, and before any of it takes its place, page last: whoever
        finds a page finds what belongs to it, and no two files are ever of two summaries.

        Args:
            folder: where.
            against: whether dockets in use were checked again.
            issued: whether dockets were written.

        Raises:
            OSError: when one cannot be written.
            NotWritten: when somebody else does not come to an end with a summary there.
        """
        from liftout.fleet.page import page

        drafts: dict[str, Path] = {}
        try:
            for name, write in self._files(page(self, against=against, issued=issued), against=against).items():
                drafts[name] = folder / f".{name}-{secrets.token_hex(4)}"
                _draft(drafts[name], write)
            with alone(folder / PAGE):
                for name in reversed(drafts):
                    (folder / name).unlink(missing_ok=True)
                for name, draft in drafts.items():
                    draft.replace(folder / name)
                settle_folder(folder)
        finally:
            for draft in drafts.values():
                draft.unlink(missing_ok=True)

    def _files(self, page: Iterator[str], *, against: bool) -> dict[str, Callable[[TextIO], object]]:
        """What each file is written by, the page last."""
        numbers = {shown: (result.number, result.revision) for shown, result in self.jobs()}
        changes = ([shown, *numbers[shown], *rest] for shown, *rest in self.changes())
        return {
            JOBS: lambda stream: _csv(stream, JOBS_HEAD, (job_cells(*one) for one in self.jobs())),
            MARGINS: lambda stream: _csv(stream, MARGINS_HEAD, ([str(one[key]) for key in MARGINS_HEAD] for one in self.least())),
            **({CHANGES: lambda stream: _csv(stream, CHANGES_HEAD, changes)} if against else {}),
            DATA: self._data,
            PAGE: lambda stream: stream.writelines(page),
        }

    def _data(self, stream: TextIO) -> None:
        standings = {WORDS[code]: count for code, count in self.standings.items()}
        head = {"liftout": __version__, "schema": SCHEMA, "standings": standings}
        stream.write(json.dumps(head, ensure_ascii=False, indent=1)[:-2])
        changes: dict[str, list[dict[str, str]]] = {}
        for shown, finding, was, now in self.changes():
            changes.setdefault(shown, []).append({"finding": finding, "before": was, "now": now})
        _many(stream, "jobs", (_job_data(shown, result, changes.get(shown, [])) for shown, result in self.jobs()))
        _many(stream, "dockets", ({"job": shown, "folder": folder or None, "why not": why or None} for shown, folder, why in self.dockets()))
        _many(stream, "margins", self.least())
        stream.write("\n}\n")


def _fields(result: Result) -> dict[str, Any]:
    return {name: getattr(result, name) for name in Result.__slots__}


def job_cells(shown: str, result: Result) -> list[str]:
    """A job in a line."""
    counts = result.verdicts or {}
    verdicts = [str(counts.get(str(one), "")) for one in Verdict]
    fault = result.fault.replace("\n", " ")
    serial = [result.number, result.revision, result.date, result.aircraft, result.serial]
    return [shown, WORDS[result.code], *serial, *verdicts, str(result.open) if counts else "", fault]


def _job_data(shown: str, result: Result, changes: list[dict[str, str]]) -> dict[str, Any]:
    said = asdict(result)
    for name in ("least", "waiting", "changes"):
        said.pop(name)
    return {"job": shown, "standing": WORDS[result.code], **said, "changes": changes}


def _many(stream: TextIO, name: str, items: Iterator[dict[str, Any]]) -> None:
    stream.write(f',\n "{name}": [')
    between = "\n  "
    for one in items:
        stream.write(between + json.dumps(one, ensure_ascii=False))
        between = ",\n  "
    stream.write("\n ]")


def _csv(stream: TextIO, head: Sequence[str], rows: Iterator[Sequence[str]]) -> None:
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([harmless(cell) for cell in row] for row in rows)


def _draft(path: Path, write: Callable[[TextIO], object]) -> None:
    with path.open("x", encoding="utf-8", newline="") as stream:
        write(stream)
        stream.flush()
        os.fsync(stream.fileno())
