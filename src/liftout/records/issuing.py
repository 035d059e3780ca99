"""The docket of a job that was assessed: everything that belongs to it, written and entered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from liftout.assessment import Assessment
from liftout.documents import kept_papers
from liftout.documents.change_bars import Superseded
from liftout.documents.document import DocumentError
from liftout.identity.digests import Digests, digests
from liftout.job import Job
from liftout.records import annexes
from liftout.records.editions import named_by, supersede
from liftout.records.embed import bound
from liftout.records.issued import Issued, issue, place_of
from liftout.records.registered import claim
from liftout.records.unprintable import unprintable

Step = Callable[[str], None]


def write_docket(
    assessment: Assessment,
    loaded: Job,
    *,
    out: Path | None = None,
    supersedes: Path | None = None,
    afresh: bool = False,
    theme: Path | None = None,
    step: Step = lambda _: None,
) -> Issued:
    """Write a docket to its place, where the register gets an entry, or elsewhere.

    Args:
        assessment: of the job as its docket carries it.
        loaded: the job as it was read.
        out: where; None for its own place.
        supersedes: the revision that it takes the place of; None for the one that the job names.
        afresh: whether to set papers also that this machine has set before.
        theme: folder whose theme the site shares with others; None for a docket that has all within itself.
        step: told what is being done.

    Raises:
        JobError: when an annex or the superseded job cannot be read.
        NotIssued: when the place is taken by other content, or cannot be written.
        NotSuperseded: when it cannot take the place of that revision.
        NotRead: when that revision is not there, or is damaged.
        DocumentError: when a paper cannot be made.
    """
    sums = digests(assessment)
    collected = annexes.collect(loaded)
    superseded = _superseded(assessment, sums, supersedes, step)
    step("writing the chapters")
    papers = assessment.job.document.papers
    documents, carried = bound(assessment, sums, collected.listed, superseded, collected=lambda written: annexes.carrying(written, collected))
    try:
        return issue(
            documents,
            carried,
            out or place_of(assessment),
            f"Docket {papers.number} revision {papers.revision}",
            step,
            (lambda: None) if out else lambda: claim(replace(assessment, job=loaded), sums, collected.digests),
            None if afresh else kept_papers.folder(),
            theme,
        )
    except DocumentError as error:
        raise DocumentError("\n".join((*map(str, unprintable(loaded)), str(error)))) from None


def _superseded(assessment: Assessment, sums: Digests, old: Path | None, step: Step) -> Superseded | None:
    """The revision whose place the docket takes: the one given, else the one that the job names."""
    place = old or named_by(assessment.job)
    if place is None:
        return None
    step("comparing with the revision before")
    return supersede(place, assessment, sums)
