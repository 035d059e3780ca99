"""Every criterion on every subject in every state: the findings of a job.

A criterion that breaks is not a finding: its exception leaves here as `Broken`, and nothing is issued.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final, NamedTuple

from liftout.applied import Broken, applied
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.facts.shop_rows import in_force, replaced_rows
from liftout.findings import Change, Decision, Finding, Margin, Referral, Verdict
from liftout.job import Decision as Said
from liftout.job import Job, JobError
from liftout.tables import put_in_force, table
from liftout.within_tolerance import within_tolerance
from liftout.worked import Worked
from liftout.worksheet import MARK_DIGITS

__all__ = ["LIMITS", "RANK", "Assessment", "Broken", "Lapsed", "applied", "assess", "worsened"]


class Lapsed(NamedTuple):
    """A decision that closes nothing any more, and why."""

    decision: Said
    why: str


@dataclass(frozen=True)
class Assessment:
    """The findings of a job, in the order of criteria, and the facts they were made from."""

    job: Job
    facts: Facts
    findings: tuple[Finding, ...]
    lapsed: tuple[Lapsed, ...] = ()

    @property
    def worked(self) -> tuple[Worked, ...]:
        """Sheets without a limit that findings used."""
        return tuple(sheet for sheet in self.facts.worked.values() if isinstance(sheet, Worked))

    @cached_property
    def counts(self) -> dict[str, int]:
        """How many findings have each verdict."""
        return {str(verdict): sum(finding.verdict is verdict for finding in self.findings) for verdict in Verdict}

    @cached_property
    def open(self) -> tuple[Finding, ...]:
        """Findings on which somebody still has to act."""
        return tuple(finding for finding in self.findings if finding.open)


LIMITS: Final = "; this limits what the aircraft may be used for: refer to the licensed person"
"""What is said beside a change that takes something away."""

RANK: Final = {Verdict.CONFORMS: 0, Verdict.NOT_APPLICABLE: 0, Verdict.REFER: 1, Verdict.NOT_ASSESSED: 2, Verdict.DOES_NOT_CONFORM: 3}
"""How bad a verdict is, for seeing whether a change makes one worse."""


def assess(job: Job, *, remedies: bool = True) -> Assessment:
    """Apply every criterion.

    Args:
        job: the job.
        remedies: whether to look for changes that make failing findings conform.

    Raises:
        JobError: when the job names what it does not describe.
        Broken: when a criterion breaks.
    """
    in_force(job)
    facts, findings = _found(job)
    replaced = replaced_rows(job)
    if replaced:
        findings = _looser(job, findings, replaced)
    if remedies:
        findings = [_with_remedy(job, finding, findings) for finding in findings]
    decided, lapsed = _decided(job.decisions, findings)
    return Assessment(job, facts, decided, lapsed)


def _found(job: Job) -> tuple[Facts, list[Finding]]:
    """The facts, and what every criterion finds of them."""
    facts = gather(job)
    return facts, within_tolerance(job, [finding for criterion in all_criteria() for finding in applied(criterion, facts)])


def _looser(job: Job, findings: list[Finding], replaced: frozenset[str]) -> list[Finding]:
    """The findings, those referred that come out easier with the shop's rows than with the published ones.

    Whether a figure is looser depends on what is done with it: a larger one may help one criterion and hurt another. So each
    conclusion that rests on a replaced row is compared with what the published row gives.
    """
    put_in_force({})
    published = {finding.key: finding for finding in _found(job)[1]}
    in_force(job)
    ours = {finding.key for finding in findings}
    gone = [finding for key, finding in published.items() if key not in ours and finding.open]
    return [*(_eased(finding, published.get(finding.key), replaced & {*finding.rows_used} or replaced) for finding in findings), *gone]


def _eased(finding: Finding, published: Finding | None, rows: frozenset[str]) -> Finding:
    """A finding, referred where it conforms more easily with the rows of the shop than with the published ones."""
    if finding.verdict in (Verdict.DOES_NOT_CONFORM, Verdict.NOT_ASSESSED) or (published is not None and published.sentence == finding.sentence):
        return finding
    if published is not None and RANK[published.verdict] <= RANK[Verdict.REFER] and not _more(finding.margin, published.margin):
        return finding
    with_published = published.sentence.rstrip(".") if published is not None else "there is no such finding"
    named = ", ".join(sorted(rows))
    asked = f" {finding.referral.question}" if finding.referral else ""
    referral = Referral(
        f"This rests on the shop's own figures, which are looser here than the published ones ({named}). May they be used?{asked}",
        f"what the published rows give: {with_published}",
        "the licensed person who answers for the fit",
        "the data behind the shop's figures, or the published rows",
    )
    used = [(f"table {row}", str(table(row.partition(": ")[0]).row(row.partition(": ")[2]).written)) for row in sorted(rows)]
    rests_on = (*finding.rests_on, *used, ("question", " ".join(referral)), *finding.evidence)
    mark = hashlib.sha256(repr((finding.inputs, finding.key, finding.value_text, finding.limit_text, rests_on)).encode()).hexdigest()[:MARK_DIGITS]
    return replace(finding, verdict=Verdict.REFER, referral=referral, inputs=mark, rests_on=rests_on, looser=tuple(sorted(rows)))


def _more(ours: Margin | None, published: Margin | None) -> bool:
    """Whether a margin is larger than the one that the published row leaves; where they cannot be compared, it counts as larger."""
    if ours is None or published is None:
        return True
    return ours.kind != published.kind or ours.quantity.si > published.quantity.si


def _decided(decisions: tuple[Said, ...], findings: list[Finding]) -> tuple[tuple[Finding, ...], tuple[Lapsed, ...]]:
    """The findings, referred ones with the last decision made on these very inputs; and the decisions that fit none.

    Of several decisions on one finding the earlier ones are its history: where none fits, the last of them has lapsed.
    """
    by_key = {finding.key: finding for finding in findings}
    made: dict[str, list[Said]] = {}
    for said in decisions:
        made.setdefault(said.key, []).append(said)
    lapsed = []
    for key, all_made in made.items():
        finding = by_key.get(key)
        fitting = [said for said in all_made if finding is not None and finding.verdict is Verdict.REFER and said.inputs == finding.inputs]
        if finding is None:
            lapsed.append(Lapsed(all_made[-1], "no finding has this criterion, subject and state"))
        elif finding.verdict is not Verdict.REFER:
            lapsed.append(Lapsed(all_made[-1], f"the finding is no longer referred: {finding.verdict}"))
        elif not fitting:
            lapsed.append(Lapsed(all_made[-1], f"an input of the finding has changed: its mark is now {finding.inputs}"))
        else:
            said = fitting[-1]
            decision = Decision(said.decision, said.reason, said.data, said.name, said.licence, said.date.isoformat(), said.demonstration is not None)
            by_key[key] = replace(finding, decision=decision)
    return tuple(by_key.values()), tuple(lapsed)


def _with_remedy(job: Job, finding: Finding, before: list[Finding]) -> Finding:
    """The finding with the first change that was seen to make it conform and nothing else worse."""
    if finding.verdict is not Verdict.DOES_NOT_CONFORM:
        return finding
    for change in finding.candidates:
        sentence = _seen_to_help(job, finding, change, before)
        if sentence:
            return replace(finding, remedy=sentence)
    return finding


def _seen_to_help(job: Job, finding: Finding, change: Change, before: list[Finding]) -> str:
    """What to say of a change: nothing unless the finding conforms with it and no verdict of another got worse."""
    try:
        after = {found.key: found for found in assess(job.with_change(change.path, change.text), remedies=False).findings}
    except (JobError, KeyError):
        return ""
    helped = after.get(finding.key)
    if helped is None or helped.verdict is not Verdict.CONFORMS:
        return ""
    known = {old.key for old in before}
    others = [(old, after[old.key]) for old in before if old.key in after and old.key != finding.key]
    if any(RANK[new.verdict] > RANK[old.verdict] for old, new in others) or any(new.open for key, new in after.items() if key not in known):
        return ""
    return f"{change.sentence}{worsened(others)}{LIMITS if change.limits_operation else ''}"


def worsened(others: list[tuple[Finding, Finding]]) -> str:
    """The margins that a change makes smaller, the smallest of each criterion."""
    worst: dict[str, tuple[Margin, Margin]] = {}
    for old, new in others:
        if old.margin is None or new.margin is None or old.margin.kind != new.margin.kind or old.margin.text == new.margin.text:
            continue
        if new.margin.quantity.si < old.margin.quantity.si and (old.title not in worst or new.margin.quantity.si < worst[old.title][1].quantity.si):
            worst[old.title] = old.margin, new.margin
    told = ", ".join(f"{title} (from {old.text} to {new.text})" for title, (old, new) in worst.items())
    return f"; margins that become smaller: {told}" if told else ""
