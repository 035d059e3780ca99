"""Page one of the calculation record: verdicts, what is open, what is stated, overridden, or still to confirm."""

from __future__ import annotations

from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import Rests, everything_declined, everything_said, named, said, subject_of, words_told
from liftout.findings import Verdict

MEANING: Final = {
    Verdict.CONFORMS: "the value is within the limit that it was compared with",
    Verdict.DOES_NOT_CONFORM: "the value is outside the limit that it was compared with",
    Verdict.REFER: "a licensed person must decide",
    Verdict.NOT_ASSESSED: "a value is missing",
    Verdict.NOT_APPLICABLE: "the job declares that it does not apply, with the reason",
}


def summary(matter: Matter) -> Values:
    """What the chapter prints."""
    job, findings = matter.assessment.job, matter.assessment.findings
    rests = Rests(findings)
    stated = [fact for fact in everything_said(matter.facts.place) if fact.stated]
    stated += [fact for fact in words_told(matter.facts.place) if fact.stated and rests.on(fact)]
    confirm: dict[str, list[str]] = {}
    for finding in findings:
        for row in finding.to_confirm:
            confirm.setdefault(row, []).append(f"{finding.title}, {subject_of(finding)}")
    return {
        "verdicts": [(str(verdict), str(matter.assessment.counts[verdict]), MEANING[verdict]) for verdict in Verdict],
        "open": [(finding.title, subject_of(finding), str(finding.verdict), finding.sentence) for finding in matter.assessment.open],
        "stated": [(named(fact.path), said(fact), fact.origin, "yes" if rests.on(fact) else "no") for fact in stated],
        "overrides": [(named(override.path), override.old, override.new, override.place) for override in job.overrides],
        "confirm": [(row, "; ".join(used)) for row, used in confirm.items()],
        "declined": [(named(reason.path), reason.value, reason.origin) for reason in everything_declined(matter.facts.place)],
    }
