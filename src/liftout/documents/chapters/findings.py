"""Findings of one family, each with its working, evidence and sources."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import subject_of


def findings(matter: Matter, family: str) -> Values:
    """What the chapter prints of a family of criteria."""
    found = matter.findings([family])
    return {
        "findings": found,
        "results": [(finding.title, subject_of(finding), str(finding.verdict), finding.sentence) for finding in found],
        "caption": f"Findings of the family {family}",
    }
