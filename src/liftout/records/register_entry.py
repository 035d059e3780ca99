"""What the register keeps of a docket and of an as-fitted record: enough to find it, and to see whether it still holds."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from liftout.assessment import Assessment
from liftout.criteria import all_criteria
from liftout.documents.chapters.said import known, said
from liftout.findings import Verdict
from liftout.identity.digests import Digests, digest, method_digest
from liftout.identity.resolved import decisions_yaml
from liftout.job import Job, Said
from liftout.job.shop_tables import FOLDER as SHOP_TABLES
from liftout.records.as_fitted import Closed
from liftout.records.register import jobs_folder
from liftout.tables import UnknownRow, table


def docket(assessment: Assessment, digests: Digests, folder: Path, annexes: Mapping[str, str]) -> dict[str, Any]:
    """What is kept of a docket.

    Args:
        assessment: of its job.
        digests: of that assessment.
        folder: where the docket lies.
        annexes: digest of each annex by its file.
    """
    job, papers = assessment.job, assessment.job.document.papers
    earlier = [line.revision for line in papers.revisions if line.revision != papers.revision]
    return {
        "number": papers.number,
        "revision": papers.revision,
        "date": papers.date.isoformat(),
        "shop": job.document.shop_name,
        "after": list(dict.fromkeys(earlier)),
        "aircraft": aircraft(assessment),
        "folder": relative(folder, jobs_folder(job.file)),
        "content": content(assessment, digests, annexes),
        "digests": digests.as_dict(),
        "verdicts": assessment.counts,
        "open": len(assessment.open),
        "items": items(assessment),
        "rows": {row: row_digest(row) for row in sorted({row for finding in assessment.findings for row in finding.rows_used})},
        "criteria": _criteria(assessment),
        "catalogue": catalogue(job, jobs_folder(job.file)),
        "annexes": dict(annexes),
    }


def content(assessment: Assessment, digests: Digests, annexes: Mapping[str, str]) -> dict[str, str]:
    """What tells one content of a revision from another: what differs can be named."""
    return {**digests.as_dict(), "decisions": digest(decisions_yaml(assessment.job)), "annexes": digest(dict(annexes))}


def as_fitted(closed: Closed, folder: Path) -> dict[str, Any]:
    """What is kept of an as-fitted record."""
    first = closed.records[0].told
    return {
        "number": first.job,
        "revision": first.revision,
        "record": closed.revision,
        "date": closed.after.job.document.papers.date.isoformat(),
        "aircraft": aircraft(closed.after),
        "folder": relative(folder, jobs_folder(closed.before.job.file)),
        "records": {record.file.name: record.digest for record in closed.records},
        "open": closed.open,
        "missing": len(closed.missing),
        "deviations": len(closed.deviations),
        "reissued": bool(closed.reissue),
        "items": {
            unit.item: {
                "part number": unit.part_number,
                "serial": unit.serial,
                "batch": unit.batch,
                "recorded": bool(unit.part_number or unit.serial),
            }
            for unit in closed.units
        },
    }


def aircraft(assessment: Assessment) -> dict[str, str]:
    """Model, serial number and registration; empty where the job does not say one."""
    plane = assessment.facts.aircraft
    serial = said(plane.serial_number) if known(plane.serial_number) else ""
    return {"model": plane.model, "serial": serial, "registration": plane.registration or ""}


def items(assessment: Assessment) -> dict[str, dict[str, str]]:
    """Each item with part number and serial, empty where the job does not say them."""
    told = assessment.job.document.equipment
    return {name: {"part number": item.part_number or "", "serial": item.serial or ""} for name, item in told.items()}


def row_digest(identity: str) -> str:
    """Of a row as it is now; empty where there is no such row any more."""
    name, _, key = identity.partition(": ")
    try:
        return digest(table(name).row(key).written)
    except (UnknownRow, LookupError):
        return ""


def _criteria(assessment: Assessment) -> dict[str, str]:
    used = {finding.criterion for finding in assessment.findings if finding.verdict is not Verdict.NOT_APPLICABLE}
    return {criterion.id: method_digest(criterion) for criterion in all_criteria() if criterion.id in used}


def catalogue(job: Job, jobs: Path) -> dict[str, str]:
    """Digest of each catalogue entry that a job takes over."""
    names = {node.file for node in _nodes(job.said) if not node.file.startswith(f"{SHOP_TABLES}/")} - {job.file.name}
    return {name: file_digest(jobs / name) for name in sorted(names)}


def file_digest(path: Path) -> str:
    """SHA-256 of a file; empty where there is none."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _nodes(node: Said) -> Iterator[Said]:
    yield node
    if node.was is not None:
        yield from _nodes(node.was)
    for _, inner in node.children():
        yield from _nodes(inner)


def relative(folder: Path, jobs: Path) -> str:
    """A folder as seen from the jobs folder; whole where it lies outside."""
    try:
        return folder.absolute().relative_to(jobs.absolute()).as_posix()
    except ValueError:
        return folder.absolute().as_posix()
