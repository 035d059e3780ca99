"""Findings of one family, criterion by criterion, each with its working, evidence and sources."""

from __future__ import annotations

from itertools import groupby

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence, subject_of
from liftout.findings import Finding


def findings(matter: Matter, family: str) -> Values:
    """What the chapter prints of a family of criteria."""
    return {"criteria": [_criterion(list(found)) for _, found in groupby(matter.findings([family]), key=lambda finding: finding.criterion)]}


def _criterion(found: list[Finding]) -> Values:
    return {
        "title": found[0].title,
        "results": [(sentence(subject_of(finding)), finding.sentence) for finding in found],
        "findings": [{"title": sentence(subject_of(finding)), "of": finding} for finding in found],
    }
