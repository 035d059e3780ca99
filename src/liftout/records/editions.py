"""A revision of a docket from wherever it is at hand: a job file, the folder of a docket, or one of its PDFs.

Of a docket the conclusions are those that were recorded when it was issued; a job file is assessed today.
"""

from __future__ import annotations

import datetime
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any, Final

from liftout.assessment import Assessment, assess
from liftout.documents.change_bars import Superseded, revisions_of
from liftout.documents.docket import documents
from liftout.identity.compared import Conclusion, Edition, compare, conclusion, edition, serial_of
from liftout.identity.digests import Digests, digests
from liftout.identity.resolved import JOB, resolved
from liftout.job import Job, carried, load
from liftout.job.reader import text_of
from liftout.records.carried import NotRead, bytes_of, json_of, read
from liftout.records.embed import DECISIONS, DOCKET, FINDINGS, annexes_of, issued_with
from liftout.records.register import docket_folder

_MAGIC: Final = b"%PDF-"


@dataclass(frozen=True)
class Found:
    """A revision, its job, and what its docket was issued with: empty where it was not issued, or before that was kept."""

    edition: Edition
    job: Job
    issued_with: dict[str, Any] = field(default_factory=dict)
    assessment: Assessment | None = None


def find(path: Path) -> Found:
    """The revision that a job file, the folder of a docket or a PDF of it holds.

    Args:
        path: the file or folder.

    Raises:
        NotRead: when it is nothing of the kind, or damaged.
        JobError: when the job in it cannot be read.
    """
    if path.is_dir():
        if (path / FINDINGS).exists() and (path / JOB).exists():
            return _in_folder(path)
        if (path / JOB).exists():
            return _worked(load(path / JOB))
        raise NotRead(f"{path}: holds neither a docket nor a job. Give the folder of a docket, a PDF of it, or a job file.")
    if not path.exists() and not path.is_symlink():
        raise NotRead(f"{path}: there is no such file or folder.")
    if path.suffix.lower() == ".pdf" or (path.is_file() and not path.is_symlink() and _begins(path)):
        found = read(path)
        return recorded(found.job, found.findings, found.issued_with, str(path))
    return _worked(load(path))


def _begins(path: Path) -> bool:
    try:
        with path.open("rb") as stream:
            return stream.read(len(_MAGIC)) == _MAGIC
    except OSError:
        return False


def _worked(job: Job) -> Found:
    assessment = assess(job, remedies=False)
    return Found(edition(assessment, digests(assessment)), job, {}, assessment)


def _in_folder(folder: Path) -> Found:
    decisions = folder / DECISIONS
    decided = text_of(bytes_of(decisions), DECISIONS) if decisions.exists() else ""
    job = carried(text_of(bytes_of(folder / JOB), JOB), folder / JOB, decided)
    issued_with = json_of(bytes_of(folder / DOCKET), str(folder / DOCKET)) if (folder / DOCKET).exists() else {}
    return recorded(job, json_of(bytes_of(folder / FINDINGS), str(folder / FINDINGS)), issued_with, str(folder))


def recorded(job: Job, findings: Mapping[str, Any], issued_with: dict[str, Any], shown: str) -> Found:
    """The revision that a docket holds.

    Args:
        job: the job in it.
        findings: its findings, as recorded.
        issued_with: its docket.json; empty where there is none.
        shown: its name in messages.

    Raises:
        NotRead: when the findings are told otherwise than this release tells them.
    """
    papers, said = job.document.papers, resolved(job)
    try:
        sums = {str(name): str(text) for name, text in findings["digests"].items()}
        conclusions = tuple(_conclusion(one) for one in findings["findings"])
        release = str(findings["liftout"])
    except (TypeError, KeyError, ValueError, AttributeError):
        raise _told_otherwise(shown) from None
    made = Edition(papers.number, papers.revision, papers.date.isoformat(), serial_of(said), release, sums, said, conclusions, recorded=True)
    return Found(made, job, issued_with)


def conclusions(findings: Mapping[str, Any], shown: str) -> tuple[Conclusion, ...]:
    """What findings.json of a docket records as concluded.

    Args:
        findings: its content.
        shown: its name in messages.

    Raises:
        NotRead: when it is told otherwise than this release tells it.
    """
    try:
        return tuple(_conclusion(one) for one in findings["findings"])
    except (TypeError, KeyError, ValueError, AttributeError):
        raise _told_otherwise(shown) from None


def _told_otherwise(shown: str) -> NotRead:
    return NotRead(f"{shown}: its findings are told otherwise than this release tells them. They were changed, or written by another.")


def _conclusion(said: Mapping[str, Any]) -> Conclusion:
    margin, decision = said["margin"], said["decision"]
    pair = _pair(margin)
    return conclusion(
        str(said["criterion"]),
        str(said["subject"]),
        str(said["state"]),
        str(said["verdict"]),
        _pair(said["value"]),
        str(said["relation"]),
        _pair(said["limit"]),
        None if pair is None else (str(margin["kind"]), *pair),
        "" if decision is None else str(decision["decision"]),
    )


def _pair(said: Mapping[str, Any] | None) -> tuple[Decimal, str] | None:
    if said is None:
        return None
    magnitude = float(said["magnitude"])
    if not math.isfinite(magnitude):
        raise ValueError(magnitude)
    return Decimal(repr(magnitude)), str(said["unit"])


# --- superseding ------------------------------------------------------------------------------------------------


class NotSuperseded(Exception):
    """A revision whose place a docket cannot take: why, and what would be right."""


def named_by(job: Job) -> Path | None:
    """The docket of the revision that a job says it supersedes: `issued/<number>/<revision>/` beside it; None where it says none."""
    papers = job.document.papers
    return None if papers.supersedes is None else docket_folder(job.file, papers.number, papers.supersedes)


def supersede(path: Path, assessment: Assessment, sums: Digests) -> Superseded:
    """The revision at `path`, as the docket of an assessed job takes its place.

    Args:
        path: the folder of a docket, a PDF of it, or a job file.
        assessment: the new revision.
        sums: its digests.

    Raises:
        NotSuperseded: when it is of another docket or aircraft, is the same revision, or is later.
        NotRead: when there is nothing to read at `path`, or it is damaged.
        JobError: when the job in it cannot be read.
    """
    old, new = find(path), edition(assessment, sums)
    _fits(old.edition, new, assessment)
    kept = old.issued_with if "marks" in old.issued_with else _again(old)
    try:
        made = Superseded(
            old.edition.revision,
            datetime.date.fromisoformat(old.edition.date),
            old.edition.digests["job"],
            old.edition.liftout,
            revisions_of(kept["revisions"]),
            kept["marks"],
            compare(old.edition, new),
            kept is not old.issued_with,
        )
        return Superseded.of_data(json.loads(json.dumps(made.as_data())))  # as the next reader will find it
    except (TypeError, KeyError, ValueError, AttributeError):
        raise NotRead(f"{path}: {DOCKET} in it is told otherwise than this release tells it. It was changed, or written by another.") from None


def _again(old: Found) -> dict[str, Any]:
    """What a docket keeps for its next revision, of one that kept nothing: made again from its job."""
    assessment = old.assessment or assess(old.job)
    written = documents(assessment, digests(assessment), annexes_of(old.issued_with)[0])
    kept: dict[str, Any] = json.loads(issued_with(assessment, written, (), None).content)
    return kept


def _fits(old: Edition, new: Edition, assessment: Assessment) -> None:
    named = assessment.job.document.papers.supersedes
    if old.number != new.number:
        raise NotSuperseded(f"{old.name} is of another docket than {new.name}. A revision takes the place of one with the same number.")
    if old.revision == new.revision:
        raise NotSuperseded(f"{new.name} cannot take its own place. Give the job a new revision, in papers / revision.")
    if named is not None and named != old.revision:
        raise NotSuperseded(f"the job says that it supersedes revision {named}, and this is revision {old.revision}. Correct papers / supersedes.")
    if old.serial != new.serial:
        raise NotSuperseded(f"{old.name} is for serial number {old.serial or 'not said'}, and this job for {new.serial or 'not said'}.")
    if old.date > new.date:
        raise NotSuperseded(f"{old.name} is of {old.date}, later than {new.date}. Correct papers / date.")
