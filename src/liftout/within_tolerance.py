"""Conclusions that tolerances may turn, made again with each fact at either end of its tolerance.

A formula tells by itself how far its value goes where a fact lies at an end of its tolerance (`worksheet`). What else reads a fact (a search, or
what chooses a line of a limit) may find something else there. Where the formulas do not carry such a fact, or little is left, the job is changed to
either end, everything that follows from it is worked again, and what is left then is compared with what was left before. What the facts take, each
at its worse end, is added up.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal, localcontext
from typing import Any, Final

from liftout.applied import applied
from liftout.criteria import all_criteria
from liftout.facts import Fact, gather
from liftout.findings import Finding, Loose
from liftout.job import Job, JobError
from liftout.quantities import PRECISION, half_up, plain

NEAR: Final = 4
"""Where more is left than so many times what the formulas tell of all that may be off, they are believed: of 2,908 numbers of the demonstration jobs,
each with the largest tolerance that can be told of it, no end takes more than so many times what they tell of that number alone."""

NOTHING: Final = Decimal(0)
END_PLACES: Final = 12
"""Decimals of a value at the end of its tolerance."""

Takes = dict[tuple[str, str], Decimal | str]
"""How much of what is left a fact takes at its worse end, by the fact and the finding's key; what comes out there where it does not conform."""


def within_tolerance(job: Job, findings: list[Finding]) -> list[Finding]:
    """The findings of a job, those that tolerances may turn concluded with what these take.

    Args:
        job: the job.
        findings: as its criteria gave them.
    """
    moved = {finding.key: to_move(finding.loose) for finding in findings if finding.loose is not None}
    moved = {key: facts for key, facts in moved.items() if facts}
    near = [finding for finding in findings if finding.key in moved]
    takes: Takes = {}
    for facts in _together(near, moved):
        of = {finding.key: fact for finding in near for fact in facts if fact.where in _names(moved[finding.key])}
        takes |= _takes(job, facts, of, [finding for finding in near if finding.key in of])
    return [_concluded(finding, moved[finding.key], takes) if finding.key in moved else finding for finding in findings]


def _names(facts: Iterable[Fact[Any]]) -> set[str]:
    """What tells facts from each other: one that rests on another too is the same fact of the job."""
    return {fact.where for fact in facts}


def to_move(loose: Loose) -> tuple[Fact[Any], ...]:
    """Facts of which the formulas do not tell well enough how far they take a conclusion."""
    read = _names(loose.read)
    told = sum(loose.goes.get(where, NOTHING) for where in read) + sum(by for where, by in loose.off.items() if where not in read)
    if loose.left is not None and loose.left < NEAR * told:
        return tuple(loose.read)
    searched = _names(loose.searched)
    return tuple(fact for fact in loose.read if fact.where in searched or fact.where not in loose.off)


def _together(near: Sequence[Finding], moved: Mapping[str, tuple[Fact[Any], ...]]) -> list[list[Fact[Any]]]:
    """The facts to move, those at once of which no finding rests on two."""
    groups: list[list[Fact[Any]]] = []
    for fact in {fact.where: fact for facts in moved.values() for fact in facts}.values():
        beside = {where for finding in near if (behind := _behind(finding)) and fact.where in behind for where in behind}
        group = next((group for group in groups if beside.isdisjoint(_names(group))), None)
        if group is None:
            groups.append(group := [])
        group.append(fact)
    return groups


def _behind(finding: Finding) -> set[str]:
    assert finding.loose is not None
    return {*finding.loose.off, *_names(finding.loose.read)}


def _takes(job: Job, facts: Sequence[Fact[Any]], of: Mapping[str, Fact[Any]], findings: Sequence[Finding]) -> Takes:
    """How much facts that are moved at once take of what is left of some findings, each of which rests on one of them."""
    takes: Takes = {(of[finding.key].where, finding.key): Decimal(0) for finding in findings}
    for by in (-1, 1):
        there = _at_end(job, facts, by, findings)
        for finding in findings:
            fact, after = of[finding.key], there.get(finding.key)
            taken = takes[fact.where, finding.key]
            if isinstance(taken, str):
                continue
            if after is None or after.loose is None:  # it does not conform there, whatever a person may yet allow
                takes[fact.where, finding.key] = _told(fact, by, after)
            else:
                takes[fact.where, finding.key] = max(taken, _left(finding) - _left(after))
    return takes


def _told(fact: Fact[Any], by: int, after: Finding | None) -> str:
    """What comes out at an end of a tolerance at which a finding does not conform."""
    out = "the job cannot be read" if after is None else after.compared if after.value_text else after.reason
    return f"with {_end(fact, by)} at {fact.where}: {out or 'it does not conform'}"


def _left(finding: Finding) -> Decimal:
    """What is left, in SI; nothing where a conclusion compares nothing: then only whether it conforms counts."""
    return finding.loose.left if finding.loose is not None and finding.loose.left is not None else Decimal(0)


def _at_end(job: Job, facts: Sequence[Fact[Any]], by: int, findings: Sequence[Finding]) -> dict[str, Finding]:
    """Some findings of the job, with facts moved by their tolerances; none where the job cannot be read at that end."""
    only: dict[str, set[tuple[str, str]]] = {}
    for finding in findings:
        only.setdefault(finding.criterion, set()).add((finding.subject, finding.state))
    try:
        there = gather(job.with_changes([((*fact.path, "value"), _end(fact, by)) for fact in facts]))
    except JobError:
        return {}
    found = (finding for criterion in all_criteria() if criterion.id in only for finding in applied(criterion, there, only[criterion.id]))
    return {finding.key: finding for finding in found}


def _end(fact: Fact[Any], by: int) -> str:
    """The value at an end of its tolerance, as it would be written."""
    assert fact.tolerance is not None
    told = fact.value
    with localcontext(PRECISION):
        end = told.unit.from_si(told.si + by * fact.tolerance.si)
    # What the change of units leaves behind its digits nobody would write; and its last digit says how closely a figure is known.
    shown = max(half_up(end, END_PLACES).normalize(), end.quantize(told.magnitude), key=lambda value: -int(value.as_tuple().exponent))
    return f"{plain(shown)} {told.unit.symbol}".strip()


def _concluded(finding: Finding, moved: Sequence[Fact[Any]], takes: Takes) -> Finding:
    """The finding with what all that may be off takes of what is left."""
    assert finding.loose is not None
    off = {**finding.loose.off, **{fact.where: takes[fact.where, finding.key] for fact in moved}}
    each = {where: by for where, by in off.items() if isinstance(by, Decimal)}
    again = finding.loose.concluded(each, [by for by in off.values() if isinstance(by, str)])
    return again.named(finding.criterion, finding.subject, finding.state, finding.title, finding.requires)
