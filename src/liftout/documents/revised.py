"""What a revision changes: the facts that are said otherwise, and the conclusions that came out otherwise with them."""

from __future__ import annotations

from typing import Final

from liftout.criteria import all_criteria
from liftout.documents.change_bars import Superseded
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOTHING
from liftout.documents.document import SHORT_DIGEST
from liftout.identity.compared import FindingChange

TURNED: Final = {"verdict": "verdict", "decision": "decision", "new": "new", "gone": "no longer there"}
"""Changes that every paper names; smaller and larger margins stand in the calculation record."""


def revised(matter: Matter, superseded: Superseded, *, every: bool) -> Values:
    """What the page prints.

    Args:
        matter: the job as it is now.
        superseded: the revision that it takes the place of.
        every: whether conclusions are listed whose margin alone changed.
    """
    changed = superseded.comparison
    margins = [change for change in changed.findings if change.change == "margin"]
    turned = [change for change in changed.findings if change.change != "margin"]
    return {
        "revision": superseded.revision,
        "date": superseded.date.isoformat(),
        "digest": superseded.digest[:SHORT_DIGEST],
        "liftout": superseded.liftout,
        "worked_anew": superseded.worked_anew,
        "facts": [(fact.path, fact.was or NOTHING, fact.now or NOTHING) for fact in changed.facts],
        "findings": [_row(change, TURNED[change.change]) for change in turned],
        "margins": [_row(change, _way(change)) for change in margins] if every else [],
        "smaller": str(sum(change.better is False for change in margins)),
        "larger": str(sum(change.better is True for change in margins)),
        "methods": [name for name in changed.digests if name in ("tables", "methods")],
        "record": f"{matter.papers.number}-4",
        "every": every,
    }


def _row(change: FindingChange, word: str) -> tuple[str, str, str, str]:
    criterion, _, subject = change.key.partition(" | ")
    title = next((one.documentation["Title"] for one in all_criteria() if one.id == criterion), criterion)
    return (f"{title}: {subject.replace(' | ', ', ')}", word, change.was or NOTHING, change.now or NOTHING)


def _way(change: FindingChange) -> str:
    return {True: "more is left", False: "less is left", None: "other figures"}[change.better]
