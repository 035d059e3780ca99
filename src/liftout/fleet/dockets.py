"""Dockets of a fleet: those that were issued, checked again as tables and catalogue say now; and those to be issued."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Executor, Future
from dataclasses import dataclass
from pathlib import Path

from liftout.fleet.checked import CLEAR, FAILS, OPEN
from liftout.fleet.inputs import Inputs, gathered, gathered_from_docket
from liftout.fleet.run import Task
from liftout.fleet.spread import Crew, spread
from liftout.identity.compared import Conclusion
from liftout.identity.resolved import JOB
from liftout.job import JobError
from liftout.job.reader import compose, read_file
from liftout.records.carried import NotRead, bytes_of, json_of
from liftout.records.editions import conclusions
from liftout.records.embed import FINDINGS
from liftout.records.register_index import index
from liftout.records.register_view import dockets, in_use


@dataclass(frozen=True, slots=True)
class InUse:
    """The dockets in use of several jobs folders, and what of their registers has to be set in order."""

    tasks: tuple[Task, ...]
    notes: tuple[str, ...]


def issued_before(folders: Sequence[Path]) -> InUse:
    """Every docket in use, to be checked again.

    A docket is checked from the file of its job, as catalogue and tables say now; where that file went on to another revision, from
    the job that the docket carries.

    Raises:
        RegisterError: when a register cannot be read.
    """
    tasks: list[Task] = []
    notes: list[str] = []
    for jobs in folders:
        with index(jobs) as found:
            tasks += [_task(jobs, one.body["folder"], one.body["number"], one.body["revision"]) for one in in_use(dockets(found))]
            notes += [f"{one.name} in the register of {jobs} is left out: {one.why}." for one in found.unreadable]
            notes += [f"{folder} of {jobs} is not in its register; liftout register mend enters it." for folder in found.unregistered]
    return InUse(tuple(tasks), tuple(notes))


def _task(jobs: Path, place: str, number: str, revision: str) -> Task:
    folder = jobs / place
    return Task(f"{jobs.name or jobs.resolve().name}/{place}", lambda: _inputs(folder, number, revision), lambda: _concluded(folder))


def _inputs(folder: Path, number: str, revision: str) -> Inputs:
    file = folder.parents[2] / JOB
    if file.is_file():
        papers = compose(read_file(file, file.name), file.name).at(("papers",))
        if all(papers.at((key,)).value == said for key, said in (("number", number), ("revision", revision))):
            return gathered(file)
    return gathered_from_docket(folder)


def _concluded(folder: Path) -> tuple[Conclusion, ...]:
    place = folder / FINDINGS
    return conclusions(json_of(bytes_of(place), str(place)), str(place))


# --- issuing -------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ToIssue:
    """A job whose docket is to be written, and the digests that a docket which is there already must have."""

    shown: str
    file: Path
    code: int
    digests: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Written:
    """Where a docket lies; or why it was not written."""

    folder: str
    why: str = ""


def issue_all(jobs: Iterable[ToIssue], crew: Crew, theme: Path | None = None) -> Iterator[tuple[str, Written]]:
    """Write the docket of every job that could be checked; one that is there with the same digests is left as it is.

    Args:
        jobs: the jobs.
        crew: who issues them.
        theme: folder whose theme their sites share; None for dockets that have all within themselves.
    """

    def hand_out(executor: Executor, one: ToIssue) -> Future[Written]:
        return executor.submit(issued, one.file, dict(one.digests), theme)

    for one, future in spread((one for one in jobs if one.code in (CLEAR, OPEN, FAILS)), crew, hand_out):
        error = future.exception()
        yield one.shown, future.result() if error is None else Written("", f"liftout itself is broken: {type(error).__name__}: {error}")


def issued(file: Path, sums: dict[str, str], theme: Path | None = None) -> Written:
    """The docket of one job, written to its place.

    Args:
        file: the job file.
        sums: digests of a docket that need not be written again.
        theme: folder whose theme its site shares.
    """
    from liftout.assessment import Broken, assess
    from liftout.documents.document import DocumentError
    from liftout.identity.resolved import as_carried
    from liftout.job import load
    from liftout.records.editions import NotSuperseded
    from liftout.records.issued import NotIssued
    from liftout.records.issuing import write_docket
    from liftout.records.register import docket_folder

    try:
        loaded = load(file)
        papers = loaded.document.papers
        folder = docket_folder(file, papers.number, papers.revision)
        if _digests_at(folder) != sums:
            folder = write_docket(assess(as_carried(loaded)), loaded, theme=theme).folder
    except (JobError, NotIssued, NotSuperseded, NotRead, DocumentError) as reason:
        return Written("", str(reason))
    except Broken as reason:
        return Written("", f"liftout itself is broken: {reason}")
    return Written(folder.absolute().relative_to(file.absolute().parent).as_posix())


def _digests_at(folder: Path) -> dict[str, str] | None:
    try:
        found = json.loads((folder / FINDINGS).read_text(encoding="utf-8"))["digests"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if isinstance(found, dict) else None
