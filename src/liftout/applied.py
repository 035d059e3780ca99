"""One criterion on every subject in every state. A criterion that breaks is not a finding: its exception leaves here as `Broken`."""

from __future__ import annotations

from collections.abc import Container

from liftout.criteria import Criterion
from liftout.facts import Fact, Facts
from liftout.facts.states import State
from liftout.findings import Finding, ToMeasure, Verdict
from liftout.job import JobError
from liftout.worksheet import NotApplicable, NotAssessed, declined


class Broken(Exception):
    """A criterion broke on a subject: the tool is broken, nothing may be issued."""

    def __init__(self, criterion: str, subject: str, cause: BaseException) -> None:
        super().__init__(f"{criterion} broke on {subject}: {type(cause).__name__}: {cause}")
        self.criterion = criterion
        self.subject = subject


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
