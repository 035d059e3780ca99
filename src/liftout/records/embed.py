"""What every paper of a docket carries inside: the resolved job, the decisions, the findings, and what else it was issued with."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, replace
from typing import Any

from liftout import __version__
from liftout.assessment import Assessment
from liftout.documents.change_bars import Superseded, marks
from liftout.documents.chapters.annexes import annexes_file
from liftout.documents.docket import documents
from liftout.documents.document import Annex, Attachment, Document
from liftout.documents.machine import as_json
from liftout.identity.digests import Digests
from liftout.identity.places import places
from liftout.identity.resolved import JOB, decisions_yaml, resolved_yaml
from liftout.job.docket_schema import VERSION

FINDINGS, DECISIONS, DOCKET = "findings.json", "decisions.yaml", "docket.json"
AS_FITTED, FITTED_FROM, RECORD = "as-fitted.json", "fitted-from.yaml", "record-"
"""What as-fitted papers carry besides; RECORD begins the name of each record that was handed in."""


def attachments(assessment: Assessment, digests: Digests) -> tuple[Attachment, ...]:
    """The resolved job, the decisions where there are any, and the findings, as files to be carried inside a PDF."""
    decided = decisions_yaml(assessment.job)
    return (
        Attachment(JOB, "application/yaml", "the resolved job that this document was made from", "source", resolved_yaml(assessment.job).encode()),
        Attachment(FINDINGS, "application/json", "the findings of that job", "data", as_json(assessment, digests).encode()),
        *(
            [Attachment(DECISIONS, "application/yaml", "decisions of licensed persons on referred findings", "data", decided.encode())]
            if decided
            else []
        ),
    )


def issued_with(
    assessment: Assessment, documents: Sequence[Document], annexes: Sequence[Annex], superseded: Superseded | None, annexes_digest: str = ""
) -> Attachment:
    """What else a docket was issued with: places, annexes, the revision that it supersedes, and the mark of each part, for the next one.

    Args:
        assessment: the assessed job.
        documents: of the docket.
        annexes: that lie behind its papers.
        superseded: the revision that it takes the place of.
        annexes_digest: SHA-256 of the PDF that holds the annexes; empty where there are none.
    """
    said: dict[str, Any] = {
        "liftout": __version__,
        "schema": VERSION,
        "places": places(assessment.job.said),
        "annexes": [asdict(annex) for annex in annexes],
        "annexes_file": {"file": annexes_file(assessment.job.document.papers.number), "digest": annexes_digest} if annexes else None,
        "superseded": None if superseded is None else superseded.as_data(),
        "revisions": [
            {"revision": row.number, "date": row.date.isoformat(), "reason": row.reason, "pages": row.pages} for row in documents[0].revisions
        ],
        "marks": {document.key: marks(document) for document in documents},
    }
    content = json.dumps(said, ensure_ascii=False, separators=(",", ":")) + "\n"
    return Attachment(
        DOCKET, "application/json", "what the docket was issued with, and the mark of each part of its papers", "data", content.encode()
    )


def annexes_of(said: Mapping[str, Any]) -> tuple[tuple[Annex, ...], str]:
    """The annexes that docket.json tells, and the digest of the PDF that holds them; empty in dockets that did not keep it.

    Raises:
        TypeError, KeyError, AttributeError: when it tells them otherwise than `issued_with`.
    """
    file = said.get("annexes_file")
    return tuple(Annex(**one) for one in said.get("annexes", ())), str(file["digest"]) if file else ""


def carrying(documents: tuple[Document, ...], carried: tuple[Attachment, ...]) -> tuple[Document, ...]:
    """The same documents with the files inside."""
    return tuple(replace(document, attachments=(*document.attachments, *carried)) for document in documents)


def bound(
    assessment: Assessment,
    digests: Digests,
    annexes: tuple[Annex, ...] = (),
    superseded: Superseded | None = None,
    *,
    collected: Callable[[tuple[Document, ...]], tuple[Document, ...]] = lambda made: made,
    annexes_digest: str = "",
) -> tuple[tuple[Document, ...], tuple[Attachment, ...]]:
    """The documents of a docket with everything that they carry inside, and the same files on their own.

    Args:
        assessment: the assessed job.
        digests: its four digests.
        annexes: that lie behind its papers.
        superseded: the revision that it takes the place of.
        collected: lays the PDF of the annexes beside the documents.
        annexes_digest: SHA-256 of that PDF, where it is known from before and not at hand.
    """
    written = collected(documents(assessment, digests, annexes, superseded))
    carried = (*attachments(assessment, digests), issued_with(assessment, written, annexes, superseded, annexes_digest or _annexes_digest(written)))
    return carrying(written, carried), carried


def _annexes_digest(written: Sequence[Document]) -> str:
    beside = {file.name: file.content for document in written for file in document.companions}
    file = next((content for name, content in beside.items() if name == annexes_file(written[0].number.rpartition("-")[0])), b"")
    return hashlib.sha256(file).hexdigest() if file else ""
