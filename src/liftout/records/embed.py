"""What every paper of a docket carries inside: the resolved job, the decisions, the findings, and what else it was issued with."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, replace
from typing import Any, Final

from liftout import __version__
from liftout.assessment import Assessment
from liftout.documents.change_bars import Superseded, marks
from liftout.documents.docket import documents
from liftout.documents.document import Annex, Attachment, Document
from liftout.documents.machine import as_json
from liftout.identity.digests import Digests
from liftout.identity.places import places
from liftout.identity.resolved import JOB, decisions_yaml, resolved_yaml

FINDINGS, DECISIONS, DOCKET = "findings.json", "decisions.yaml", "docket.json"
SCHEMA: Final = 1
"""Of docket.json."""


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


def issued_with(assessment: Assessment, documents: Sequence[Document], annexes: Sequence[Annex], superseded: Superseded | None) -> Attachment:
    """What else a docket was issued with: places, annexes, the revision that it supersedes, and the mark of each part, for the next one.

    Args:
        assessment: the assessed job.
        documents: of the docket.
        annexes: that lie behind its papers.
        superseded: the revision that it takes the place of.
    """
    said: dict[str, Any] = {
        "liftout": __version__,
        "schema": SCHEMA,
        "places": places(assessment.job.said),
        "annexes": [asdict(annex) for annex in annexes],
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


def annexes_of(said: dict[str, Any]) -> tuple[Annex, ...]:
    """The annexes that docket.json tells.

    Raises:
        TypeError: when it tells them otherwise than `issued_with`.
    """
    return tuple(Annex(**one) for one in said.get("annexes", ()))


def carrying(documents: tuple[Document, ...], carried: tuple[Attachment, ...]) -> tuple[Document, ...]:
    """The same documents with the files inside."""
    return tuple(replace(document, attachments=(*document.attachments, *carried)) for document in documents)


def bound(
    assessment: Assessment, digests: Digests, annexes: tuple[Annex, ...] = (), superseded: Superseded | None = None
) -> tuple[tuple[Document, ...], tuple[Attachment, ...]]:
    """The documents of a docket with everything that they carry inside, and the same files on their own.

    Args:
        assessment: the assessed job.
        digests: its four digests.
        annexes: that lie behind its papers.
        superseded: the revision that it takes the place of.
    """
    written = documents(assessment, digests, annexes, superseded)
    carried = (*attachments(assessment, digests), issued_with(assessment, written, annexes, superseded))
    return carrying(written, carried), carried
