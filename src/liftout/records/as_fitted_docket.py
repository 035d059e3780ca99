"""Where an as-fitted record lies, what lies beside its papers, and the blank form that it begins with."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from liftout.assessment import Assessment
from liftout.documents.docket import document
from liftout.documents.document import Attachment
from liftout.identity.digests import Digests
from liftout.job import Fault, JobError
from liftout.job.whole import LANGUAGE
from liftout.records import register
from liftout.records.as_fitted import Closed, checklist
from liftout.records.exclusive import create
from liftout.records.issued import NotIssued
from liftout.records.registered import closed_before


def place_of(made: Closed) -> Path:
    """Where the record goes: `issued/<number>/<revision>-AF<count>/`, beside the docket that it belongs to."""
    first = made.records[0].told
    return register.docket_folder(made.before.job.file, first.job, made.revision)


def refuse_repeated(made: Closed, digests: Digests) -> None:
    """Stop where the docket was never issued here, or these very records were closed before.

    Raises:
        NotIssued: says which.
        RegisterError: when the register cannot be read.
    """
    file, first = made.before.job.file, made.records[0].told
    docket = register.docket_folder(file, first.job, first.revision)
    try:
        issued = json.loads((docket / "findings.json").read_text(encoding="utf-8"))["digests"]["job"]
    except (OSError, ValueError, KeyError):
        raise NotIssued(
            f"{first.job} revision {first.revision} was not issued here: there is no docket in {docket}. "
            "Issue it first, or write the comparison with --out FOLDER."
        ) from None
    if issued != digests.job:
        raise NotIssued(f"The docket in {docket} was made from another job: its digest is {issued[:12]}. Give the job.yaml of that docket.")
    before = closed_before(register.jobs_folder(file), [record.digest for record in made.records])
    if before:
        raise NotIssued(f"These very records were closed as {before}. Nothing was written again.")


def photographs(made: Closed) -> tuple[Attachment, ...]:
    """Each photograph that lies beside a record, by its digest."""
    found: dict[str, Attachment] = {}
    for record in made.records:
        for name, content in record.pictures.items():
            kept = f"photo-{record.photos[name][:12]}{Path(name).suffix.lower()}"
            found[kept] = Attachment(kept, "application/octet-stream", f"photograph {name}", "supplement", content)
    return tuple(found.values())


def write_blank(file: Path, before: Assessment, digests: Digests, state: str) -> None:
    """Write the form of a record.

    Args:
        file: .json, .yaml or .xlsx; must not exist.
        before: assessment of the job.
        digests: of that assessment.
        state: the state that is inspected.

    Raises:
        JobError: when the name says no form, or a library for it is missing.
        OSError: when the file is there, or cannot be written.
    """
    papers = before.job.document.papers
    head = {"liftout": LANGUAGE, "job": papers.number, "revision": papers.revision, "digest": digests.job, "state": state}
    lines, items = checklist(document(before, digests, "checklist", in_english=True)), [item.name for item in before.facts.items]
    match file.suffix.lower():
        case ".xlsx":
            from liftout.job.workbook import blank

            create(file, blank(file, head, [(line.number, f"{line.item}, {line.where}", line.acceptance) for line in lines], items))
        case ".json":
            create(file, (json.dumps({**head, "entries": {}, "parts": {}, "deviations": []}, ensure_ascii=False, indent=1) + "\n").encode())
        case ".yaml" | ".yml":
            create(file, _form(head, lines, items).encode())
        case _:
            raise JobError([Fault(file.name, 1, 1, (), "is no form of a record.", "Name a file that ends in .json, .yaml or .xlsx.")])


def _form(head: dict[str, str], lines: Any, items: list[str]) -> str:
    """The form as YAML: every line of the checklist as a comment, to be opened as it is filled in."""
    quoted = {key: json.dumps(text, ensure_ascii=False) for key, text in head.items()}
    told = [f"{key}: {text if key != 'liftout' else head[key]}" for key, text in quoted.items()]
    told += [
        "",
        "# For each line: take away the sign at its beginning and fill it in, for example",
        '#   "3-12": {measured: 31.6 lb, result: conforms, instrument: scales F-2, calibration due: 2027-01-31, by: R. Voe, date: 2026-11-24}',
        "# result is one of: conforms, does not conform, not applicable. A line that stays closed counts as missing.",
        "entries:",
    ]
    for line in lines:
        told += [f"  # {line.item}, {line.where}: {line.acceptance}", f'  # "{line.number}": {{measured: , result: , by: , date: }}']
    told += ["", "parts:", *(f"  # {json.dumps(name, ensure_ascii=False)}: {{part number: , serial: , batch: }}" for name in items)]
    return "\n".join([*told, "", "deviations: []"]) + "\n"
