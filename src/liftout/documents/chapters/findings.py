"""Findings of one family, criterion by criterion, each with its working, evidence and sources.

Findings of one criterion that differ by state only, or that know no state, are printed as one group of worksheets; those of a
group that differ in their numbers alone stand in one table.
"""

from __future__ import annotations

from itertools import groupby

from liftout.documents.blocks import Shared, Tabled
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import in_its_case, sentence, subject_of
from liftout.documents.tabled import alike
from liftout.findings import Finding


def findings(matter: Matter, family: str) -> Values:
    """What the chapter prints of a family of criteria."""
    return {"criteria": [_criterion(list(found)) for _, found in groupby(matter.findings([family]), key=lambda finding: finding.criterion)]}


def _criterion(found: list[Finding]) -> Values:
    by_state = any(finding.state for finding in found)
    groups: dict[str, list[Finding]] = {}
    for finding in found:
        groups.setdefault(finding.subject if by_state else "", []).append(finding)
    made = [_group(subject, together) for subject, together in groups.items()]
    alone = [finding for group in made for finding in group["findings"]]
    return {
        "title": found[0].title,
        "results": [(sentence(subject_of(finding)), in_its_case(finding, finding.sentence)) for finding in alone] if len(alone) > 1 else [],
        "groups": made,
    }


def _group(subject: str, together: list[Finding]) -> Values:
    if len(together) == 1:
        return {"title": sentence(subject_of(together[0])), "shared": [], "tables": [], "findings": together}
    shared = Shared(tuple(together))
    tables = [Tabled(found, shared) for found in alike(shared)]
    tabled = {id(of) for table in tables for of in table.of}
    return {"title": sentence(subject), "shared": [shared], "tables": tables, "findings": [of for of in together if id(of) not in tabled]}
