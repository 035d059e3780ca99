"""What every paper of a docket carries inside: the resolved job, the decisions and the findings, so that all can be checked again."""

from __future__ import annotations

from dataclasses import replace

from liftout.assessment import Assessment
from liftout.documents.document import Attachment, Document
from liftout.documents.machine import as_json
from liftout.identity.digests import Digests
from liftout.identity.resolved import decisions_yaml, resolved_yaml

JOB, FINDINGS, DECISIONS = "job.yaml", "findings.json", "decisions.yaml"


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


def carrying(documents: tuple[Document, ...], carried: tuple[Attachment, ...]) -> tuple[Document, ...]:
    """The same documents with the files inside."""
    return tuple(replace(document, attachments=(*document.attachments, *carried)) for document in documents)
