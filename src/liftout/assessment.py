"""Every criterion on every subject in every state: the findings of a job.

A criterion that breaks is not a finding: its exception leaves here as `Broken`, and nothing is issued.
"""

from __future__ import annotations

import hashlib
from collections.abc import Container
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final, NamedTuple

from liftout.criteria import Criterion, all_criteria
from liftout.facts import Fact, Facts, gather
from liftout.facts.shop_rows import in_force, replaced_rows
from liftout.facts.states import State
from liftout.findings import Change, Decision, Finding, Margin, Referral, ToMeasure, Verdict
from liftout.job import Decision as Said
from liftout.job import Job, JobError
from liftout.tables import put_in_force, table
from liftout.worked import Worked
from liftout.worksheet import MARK_DIGITS, NotApplicable, NotAssessed, declined


class Broken(Exception):
    """A criterion broke on a subject: the tool is broken, nothing may be issued."""

    def __init__(self, criterion: str, subject: str, cause: BaseException) -> None:
        super().__init__(f"{criterion} broke on {subject}: {type(cause).__name__}: {cause}")
        self.criterion = criterion
        self.subject = subject


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
    facts = gather(job)
    findings = [finding for criterion in all_criteria() for finding in applied(criterion, facts)]
    replaced = replaced_rows(job)
    if replaced:
        findings = _looser(job, findings, replaced)
    if remedies:
        findings = [_with_remedy(job, finding, findings) for finding in findings]
    decided, lapsed = _decided(job.decisions, findings)
    return Assessment(job, facts, decided, lapsed)


def _looser(job: Job, findings: list[Finding], replaced: frozenset[str]) -> list[Finding]:
    """The findings, those referred that come out easier with the shop's rows than with the published ones.

    Whether a figure is looser depends on what is done with it: a larger one may help one criterion and hurt another. So each
    conclusion that rests on a replaced row is compared with what the published row gives.
    """
    put_in_force({})
    facts = gather(job)
    published = {finding.key: finding for criterion in all_criteria() for finding in applied(criterion, facts)}
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


def applied(criterion: Criterion, facts: Facts, only: Container[tuple[str, str]] | None = None) -> list[Finding]:
    """One criterion on every subject.

    Args:
        criterion: the criterion.
        facts: what the job means.
        only: subjects and states to look at, by name; by default all.

    Raises:
        Broken: when the criterion breaks.
    """
    subjects = getattr(facts, criterion.each)
    section = facts.section(criterion.each)
    if not subjects and section is not None:
        return [_silent(criterion, facts, section.declined)]
    return [_one(criterion, subject, facts) for subject in subjects if only is None or _called(subject) in only]


def _silent(criterion: Criterion, facts: Facts, reason: Fact[str] | None) -> Finding:
    if reason is not None:
        return _named(criterion, "the whole fit", "", declined(reason))
    section = facts.section(criterion.each)
    assert section is not None
    need = facts.place.missing(section.name)
    return _named(criterion, "the whole fit", "", Finding("", "", "", Verdict.NOT_ASSESSED, missing=(ToMeasure(need.what, need.where, need.path),)))


def _called(subject: object) -> tuple[str, str]:
    """The name of a subject and of its state."""
    state = subject if isinstance(subject, State) else getattr(subject, "state", None)
    name = "aircraft" if isinstance(subject, State) else str(getattr(subject, "name", subject))
    return name, state.name if isinstance(state, State) else ""


def _one(criterion: Criterion, subject: object, facts: Facts) -> Finding:
    name, state = _called(subject)
    try:
        finding = criterion.function(subject, facts)
    except (NotApplicable, NotAssessed) as end:
        finding = end.finding
    except JobError:
        raise
    except Exception as cause:
        raise Broken(criterion.id, name, cause) from cause
    return _named(criterion, name, state, finding)


def _named(criterion: Criterion, subject: str, state: str, finding: Finding) -> Finding:
    words = criterion.documentation
    return finding.named(criterion.id, subject, state, words["Title"], words["Requires"])


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
