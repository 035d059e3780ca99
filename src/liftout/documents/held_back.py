"""What holds the equipment back from being powered: changes on which its loads count, and which are not released."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter
from liftout.findings import Verdict


def held_back(matter: Matter) -> list[str]:
    """Names of these changes; a decision that stands beside the question lets the change go."""
    found = matter.findings(["electrical.unreleased_change"])
    return [finding.subject for finding in found if finding.verdict is Verdict.REFER and finding.decision is None]
