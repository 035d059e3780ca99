"""Page one: verdicts, what is open, what is stated, overridden, still to confirm, or decided."""

from __future__ import annotations

from collections import Counter
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import (
    Rests,
    brief,
    decided,
    everything_declined,
    everything_said,
    in_its_case,
    lapsed,
    named,
    said,
    subject_of,
    words_told,
)
from liftout.documents.held_back import held_back
from liftout.documents.shop_chapters import digest
from liftout.facts.shop_rows import replacements
from liftout.findings import Finding, Verdict
from liftout.identity.digests import SHORT

MEANING: Final = {
    Verdict.CONFORMS: "the value is within the limit that it was compared with",
    Verdict.DOES_NOT_CONFORM: "the value is outside the limit that it was compared with",
    Verdict.REFER: "a licensed person must decide",
    Verdict.NOT_ASSESSED: "a value is missing",
    Verdict.NOT_APPLICABLE: "the job declares that it does not apply, with the reason",
}


def summary(matter: Matter) -> Values:
    """What the chapter prints."""
    findings = matter.assessment.findings
    rests = Rests(findings)
    stated = [fact for fact in everything_said(matter.facts.place) if fact.stated]
    stated += [fact for fact in words_told(matter.facts.place) if fact.stated and rests.on(fact)]
    confirm: dict[str, list[str]] = {}
    for finding in findings:
        for row in finding.to_confirm:
            confirm.setdefault(row, []).append(f"{finding.title}, {subject_of(finding)}")
    return {
        "verdicts": [(str(verdict), str(matter.assessment.counts[verdict]), MEANING[verdict]) for verdict in Verdict],
        "open": [
            (finding.title, subject_of(finding), str(finding.verdict), in_its_case(finding, finding.sentence)) for finding in matter.assessment.open
        ],
        "stated": [(named(fact.path), said(fact), fact.origin, "yes" if rests.on(fact) else "no") for fact in stated],
        "overrides": [(named(override.path), override.old, override.new, override.place) for override in matter.assessment.job.overrides],
        "confirm": [(row, "; ".join(used)) for row, used in confirm.items()],
        "decided": decided(findings),
        "lapsed": lapsed(matter.assessment),
        "declined": [(named(reason.path), reason.value, reason.origin) for reason in everything_declined(matter.facts.place)],
    }


def page_one(matter: Matter) -> Values:
    """What the first page of the docket prints: the same, in short; of stated values those that a finding rests on."""
    whole = summary(matter)
    return {
        "counts": [(verdict, count) for verdict, count, _ in whole["verdicts"]],
        "held_back": held_back(matter),
        "acting": acting(matter),
        "open": [
            (finding.title, subject_of(finding), f"{finding.verdict}: {_who(finding)}", _in_short(finding)) for finding in matter.assessment.open
        ],
        "stated": [(name, value, where) for name, value, where, rested in whole["stated"] if rested == "yes"],
        "overrides": whole["overrides"],
        "confirm": [(row,) for row, _ in whole["confirm"]],
        "shop_rows": shop_rows(matter),
        "shop_chapters": [(f"templates/{name}", digest(text)[:SHORT]) for name, text in sorted(matter.shop_templates.items())],
        "decided": whole["decided"],
        "lapsed": whole["lapsed"],
        "declined": whole["declined"],
        "record": f"{matter.papers.number}-4",
    }


def shop_rows(matter: Matter) -> list[tuple[str, ...]]:
    """Figures that the shop put in place of published ones: row and column, old, new, why, who, and what it does to the findings."""
    eased = [row for finding in matter.assessment.findings for row in finding.looser]
    told: list[tuple[str, ...]] = []
    for one in replacements(matter.assessment.job):
        count = eased.count(one.row)
        effect = f"looser, in {count} {'finding' if count == 1 else 'findings'}: referred" if count else "not looser in any finding"
        told.append((f"{one.row}, {one.column}", one.old, one.new, one.why, f"{one.by}, {one.date}", effect))
    return told


FEW: Final = 4
"""Parties that a first screen has room for; those that decide are told together where there are more."""
CHANGES, MEASURES = "the shop, which changes the fit", "the shop, which measures what is missing"


def acting(matter: Matter) -> list[tuple[str, str]]:
    """On how many open findings who must act, the most first: a short list for a first screen."""
    by = Counter(map(_who, matter.assessment.open))
    if len(by) > FEW:
        shop = {who: by.pop(who) for who in (CHANGES, MEASURES) if who in by}
        by = Counter({**shop, "licensed and other named persons or an authority, one named beside each finding": by.total()})
    return [(f"on {count}", who) for who, count in by.most_common()]


def _who(finding: Finding) -> str:
    """Who must act on an open finding."""
    if finding.referral is not None:
        return finding.referral.who
    return MEASURES if finding.verdict is Verdict.NOT_ASSESSED else CHANGES


def _in_short(finding: Finding) -> str:
    """Result, what the case is, and the change that would help where one was found."""
    result = in_its_case(finding, brief(finding))
    return f"{result} To conform: {finding.remedy}" if finding.remedy else result
