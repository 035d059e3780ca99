"""A register put in order again: dockets that were never entered, and files that a stopped program left half-written."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from liftout.assessment import Assessment, assess
from liftout.identity.digests import Digests, digests
from liftout.job import JobError, load
from liftout.records import register, register_entry
from liftout.records.register import RegisterError, Unreadable, place

UNKNOWN = "unknown"
"""Stands for the digest of an edition that nobody wrote down: it equals none, so that the docket counts as stale."""


def mend(jobs: Path, unreadable: tuple[Unreadable, ...], unregistered: tuple[str, ...]) -> Iterator[str]:
    """Keep each unusable file under another name, and enter each docket that has no entry; says what was done, one by one.

    Raises:
        RegisterError: when the register cannot be written.
    """
    waiting = list(unregistered)
    for one in unreadable:
        if register.ASIDE in one.name:
            yield f"{one.name}: {one.why}. Enter again what it said, or take the file away yourself."
            continue
        kept = _set_aside(jobs, one.name)
        yield f"{one.name}: {one.why}. Kept as {kept.name}."
        number, _, revision = one.name.removesuffix(".json").partition(register.SEPARATOR)
        waiting += [path.relative_to(jobs).as_posix() for path in jobs.glob(f"*/issued/{number}/{revision}")]
    for folder in dict.fromkeys(waiting):
        yield _entered(jobs, jobs / folder)


def _set_aside(jobs: Path, name: str) -> Path:
    path = place(jobs) / name
    try:
        kept = path.with_name(f"{name}{register.ASIDE}{hashlib.sha256(path.read_bytes()).hexdigest()[:12]}")
        path.rename(kept)
    except OSError as error:
        raise RegisterError(f"{path} cannot be set aside: {error.strerror}.") from None
    return kept


def _entered(jobs: Path, folder: Path) -> str:
    shown = register_entry.relative(folder, jobs)
    try:
        assessment = assess(load(folder / "job.yaml"), remedies=False)
        kept = json.loads((folder / "findings.json").read_text(encoding="utf-8"))
    except (JobError, OSError, ValueError) as error:
        return f"{shown}: not entered, because it cannot be read: {str(error).splitlines()[0]}"
    if "-AF" in folder.name:
        return f"{shown}: an as-fitted record without an entry; close its records again to enter them."
    said = _said(assessment, digests(assessment), kept, folder)
    try:
        register.publish(jobs, register.name_of(said["number"], said["revision"]), "docket", {**said, "folder": shown})
    except register.Taken:
        return f"{shown}: entered by somebody else meanwhile."
    return f"{shown}: entered."


def _said(assessment: Assessment, now: Digests, kept: dict[str, Any], folder: Path) -> dict[str, Any]:
    """The entry; of what was computed by another edition than ours, only what the docket itself says."""
    said = register_entry.docket(assessment, now, folder, {})
    then = kept["digests"]
    said |= {"digests": then, "content": {**said["content"], **then}, "verdicts": kept["verdicts"], "catalogue": {}}
    if then["tables"] != now.tables:
        said["rows"] = dict.fromkeys(said["rows"], UNKNOWN)
    if then["methods"] != now.methods:
        said["criteria"] = dict.fromkeys((finding["criterion"] for finding in kept["findings"] if finding["verdict"] != "not applicable"), UNKNOWN)
    return said
