"""Dockets and as-fitted records entered into the register, each under a name that nobody else has taken."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from liftout.assessment import Assessment
from liftout.identity.digests import Digests
from liftout.records import register, register_entry
from liftout.records.issued import NotIssued, place_of

if TYPE_CHECKING:
    from liftout.records.as_fitted import Closed


def claim(assessment: Assessment, digests: Digests, annexes: Mapping[str, str]) -> None:
    """Enter a docket; the very same one may have been entered before.

    Args:
        assessment: of its job.
        digests: of that assessment.
        annexes: digest of each annex.

    Raises:
        NotIssued: when the revision is entered with other content, or the register cannot be used.
    """
    papers, jobs = assessment.job.document.papers, register.jobs_folder(assessment.job.file)
    said = register_entry.docket(assessment, digests, place_of(assessment), annexes)
    try:
        name = register.name_of(papers.number, papers.revision)
        register.publish(jobs, name, "docket", said)
    except register.Taken:
        _same(register.read(register.place(jobs) / name), said)
    except register.RegisterError as error:
        raise NotIssued(str(error)) from None


def _same(there: register.Body | register.Unreadable, said: Mapping[str, object]) -> None:
    if isinstance(there, register.Unreadable):
        raise NotIssued(
            f"The register has a file {there.name} that cannot be used: {there.why}. "
            "Run liftout register mend, which keeps it under another name; then issue again. Nothing was issued."
        )
    mine = said["content"]
    assert isinstance(mine, dict)
    differs = [name for name in mine if there["content"].get(name) != mine[name]]
    if differs or there["folder"] != said["folder"]:
        what = ", ".join(f"the {name}" for name in differs) or "its place"
        raise NotIssued(
            f"{there['number']} revision {there['revision']} is in the register with other content: {what}. It was issued to {there['folder']}. "
            "A revision is issued once: give the job a new revision. Nothing was issued."
        )


def next_number(jobs: Path, number: str, revision: str, records: Collection[str] = ()) -> int:
    """The how-manieth as-fitted record of a docket the next one is; counts files that cannot be read, too.

    Args:
        jobs: the jobs folder.
        number: of the docket.
        revision: of the docket.
        records: digests of the records that are to be closed. Where these very ones were entered and whoever did it was stopped before
            the docket came to its place, they keep their number.

    Raises:
        RegisterError: when the register cannot be read.
    """
    entered = _entry_of(jobs, records)
    if entered is not None and (entered["number"], entered["revision"]) == (number, revision) and not (jobs / entered["folder"]).is_dir():
        return int(entered["record"].rpartition("-AF")[2])
    stem = register.name_of(number, f"{revision}-AF").removesuffix(".json")
    taken = [path.stem.removeprefix(stem) for path in register.files(jobs) if path.stem.startswith(stem)]
    return max((int(count) for count in taken if count.isdigit()), default=0) + 1


def closed_before(jobs: Path, records: Collection[str]) -> str:
    """The as-fitted record that was made from these very files and lies in its place; empty where there is none.

    Args:
        jobs: the jobs folder.
        records: digests of the files.

    Raises:
        RegisterError: when the register cannot be read.
    """
    entered = _entry_of(jobs, records)
    return str(entered["record"]) if entered is not None and (jobs / entered["folder"]).is_dir() else ""


def _entry_of(jobs: Path, records: Collection[str]) -> register.Body | None:
    wanted = sorted(records)
    for path in register.files(jobs):
        body = register.read(path)
        if wanted and isinstance(body, dict) and body["kind"] == "as-fitted" and sorted(body["records"].values()) == wanted:
            return body
    return None


def claim_as_fitted(closed: Closed, folder: Path) -> None:
    """Enter an as-fitted record.

    Raises:
        NotIssued: when somebody closed another one at the same moment, or the register cannot be used.
    """
    jobs, first = register.jobs_folder(closed.before.job.file), closed.records[0].told
    try:
        register.publish(jobs, register.name_of(first.job, closed.revision), "as-fitted", register_entry.as_fitted(closed, folder))
    except register.Taken:
        raise NotIssued(f"Somebody closed a record of {first.job} at the same moment, as {closed.revision}. Run the command again.") from None
    except register.RegisterError as error:
        raise NotIssued(str(error)) from None
