"""Changes that make a finding conform: the smallest of each thing the shop is free to choose, each seen to help.

A change is looked for with the criterion of the finding alone, step by step and then by halves, and shown only after the
whole job was assessed again with it and no other verdict got worse. Last, the changes are put together, one after the
other, as long as fewer findings fail: that is one way out of everything at once, and no more than one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, Final, NamedTuple

from liftout.assessment import LIMITS, RANK, Assessment, applied, assess, worsened
from liftout.criteria import Criterion, all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.job import Job, JobError
from liftout.job.reader import Said
from liftout.levers import Setting, added_straps, settings

Path = tuple[str, ...]

HELPED: Final = (Verdict.CONFORMS, Verdict.REFER)
"""What a change has to lead to: a referred finding no longer fails, and a person decides on it."""


class Remedy(NamedTuple):
    """Changes of the job with which a finding no longer fails."""

    changes: tuple[tuple[Path, str | Said], ...]
    does: str
    """What to do."""
    limits_operation: bool = False
    subject: str = ""
    """What it is done to, where `does` leaves that to the finding beside it."""
    then: str = ""
    """What the finding says with it, and the margins that become smaller."""
    worse: tuple[str, ...] = ()
    """Other findings that fail or wait for somebody with it; empty for one that may be made alone."""

    def as_data(self) -> dict[str, Any]:
        """The same in plain words, for programs."""
        told = [{"path": list(path), "value": value.plain() if isinstance(value, Said) else value} for path, value in self.changes]
        return {
            "does": self.does,
            "subject": self.subject,
            "changes": told,
            "limits_operation": self.limits_operation,
            "then": self.then.removeprefix("; "),
            "worse": list(self.worse),
        }

    @property
    def brief(self) -> str:
        """What to do and to what, and whether it takes something away."""
        return f"{f'{self.subject}: ' if self.subject else ''}{self.does}{LIMITS if self.limits_operation else ''}"

    @property
    def sentence(self) -> str:
        """The same with what it leads to."""
        but = f"; but then not: {', '.join(self.worse)}" if self.worse else ""
        return f"{self.does}{self.then}{but}{LIMITS if self.limits_operation else ''}"

    def made(self, job: Job) -> Job:
        """The job with the changes made.

        Raises:
            JobError: when the changed job cannot be read.
            KeyError: when a path leads nowhere.
        """
        return job.with_changes(self.changes)


class Remedies(NamedTuple):
    """What helps each failing finding, by its key; what may be done together; and what still fails then."""

    of: dict[str, tuple[Remedy, ...]]
    together: tuple[Remedy, ...]
    left: tuple[Finding, ...]

    def as_data(self) -> dict[str, Any]:
        """The same in plain words, for programs."""
        return {
            "of": {key: [remedy.as_data() for remedy in several] for key, several in self.of.items()},
            "together": [remedy.as_data() for remedy in self.together],
            "left": [finding.key for finding in self.left],
        }


Telling = Callable[[str], None]
"""Says what is being looked at; a search takes a while."""


def _silent(_text: str) -> None:
    """Say nothing."""


def remedies(assessed: Assessment, tell: Telling = _silent) -> Remedies:
    """The changes that help each failing finding; those that take nothing from what the aircraft may be used for first.

    Where every change makes something else worse, those that do least are told, with what they make worse.

    Args:
        assessed: the job and its findings.
        tell: what to call while searching.
    """
    failing = [finding for finding in assessed.findings if finding.verdict is Verdict.DOES_NOT_CONFORM]
    search, whole = _Search(assessed.job, failing), _Whole(assessed)
    found: dict[str, list[Remedy]] = {finding.key: [] for finding in failing}

    def keep(finding: Finding, remedy: Remedy) -> None:
        seen = whole.seen(finding, remedy)
        if seen is not None and remedy.does not in {other.does for other in found[finding.key]}:
            found[finding.key].append(seen)

    for finding in failing:
        tell(f"{finding.title}: {finding.subject}")
        for change in finding.candidates:
            keep(finding, Remedy(((change.path, change.text),), change.sentence, change.limits_operation, finding.subject))
    for setting in settings(assessed.job.said):
        tell(setting.told(1 if setting.lever.more else -1))
        for finding, steps in search.smallest(setting):
            keep(finding, Remedy(setting.moved(steps), setting.told(steps), setting.lever.limits_operation))
    for does, path, strap in added_straps(assessed.job.said):
        tell(does)
        for finding in search.cured(((path, strap),)):
            keep(finding, Remedy(((path, strap),), does))
    of = {key: _chosen(several) for key, several in found.items()}
    return Remedies(of, *_together(assessed, of, tell))


def _chosen(several: list[Remedy]) -> tuple[Remedy, ...]:
    least = min((len(remedy.worse) for remedy in several), default=0)
    return tuple(sorted((remedy for remedy in several if len(remedy.worse) == least), key=lambda remedy: remedy.limits_operation))


def _together(assessed: Assessment, found: dict[str, tuple[Remedy, ...]], tell: Telling) -> tuple[tuple[Remedy, ...], tuple[Finding, ...]]:
    """Remedies that go together, chosen one after the other, each assessed on top of those before it."""
    job, current = assessed.job, assessed.findings
    chosen: list[Remedy] = []
    for finding in assessed.findings:
        for remedy in found.get(finding.key, ()):
            if remedy.worse or finding.key not in {one.key for one in _failing(current)}:
                break
            tell(remedy.sentence)
            changed = _assessed(job, remedy)
            if changed is not None and len(_failing(changed.findings)) < len(_failing(current)) and not _worse(current, changed.findings):
                job, current = changed.job, changed.findings
                # A second change of the same thing takes the place of the first.
                chosen = [other for other in chosen if _paths(other) != _paths(remedy)] + [remedy]
    return tuple(chosen), _failing(current)


def _paths(remedy: Remedy) -> tuple[Path, ...]:
    return tuple(path for path, _ in remedy.changes)


def _failing(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(finding for finding in findings if finding.verdict is Verdict.DOES_NOT_CONFORM)


def _assessed(job: Job, remedy: Remedy) -> Assessment | None:
    try:
        return assess(remedy.made(job), remedies=False)
    except (JobError, KeyError):
        return None


def _worse(before: tuple[Finding, ...], after: tuple[Finding, ...]) -> list[Finding]:
    """Findings whose verdict got worse, or that are new and wait for somebody."""
    known = {finding.key: finding for finding in before}
    return [new for new in after if (RANK[new.verdict] > RANK[known[new.key].verdict] if new.key in known else new.open)]


class _Whole:
    """Changes seen with the whole job, each assessed once."""

    def __init__(self, assessed: Assessment) -> None:
        self.before = {finding.key: finding for finding in assessed.findings}
        self.job = assessed.job
        self._seen: dict[tuple[object, ...], Assessment | None] = {}

    def seen(self, finding: Finding, remedy: Remedy) -> Remedy | None:
        """The remedy with what it does to this finding and to all others; None where it does not help after all."""
        made = remedy.does, _paths(remedy)
        if made not in self._seen:
            self._seen[made] = _assessed(self.job, remedy)
        changed = self._seen[made]
        after = {found.key: found for found in changed.findings} if changed is not None else {}
        helped = after.get(finding.key)
        if helped is None or helped.verdict not in HELPED:
            return None
        others = [(old, after[key]) for key, old in self.before.items() if key in after and key != finding.key]
        worse = _worse(tuple(self.before.values()), tuple(after.values()))
        left = f"; then {helped.brief}" if helped.value_text else ""
        left += "; a licensed person then decides on it" if helped.verdict is Verdict.REFER else ""
        named = dict.fromkeys(f"{new.title} of {new.subject}" for new in worse)
        return remedy._replace(then=f"{left}{worsened(others)}", worse=tuple(named))


class _Search:
    """Failing findings under one setting after another, with their own criteria alone."""

    def __init__(self, job: Job, failing: list[Finding]) -> None:
        self.job = job
        self.failing = failing
        names = {finding.criterion for finding in failing}
        self.criteria: list[Criterion] = [criterion for criterion in all_criteria() if criterion.id in names]

    def smallest(self, setting: Setting) -> Iterator[tuple[Finding, int]]:
        """Each failing finding that so many steps make conform, and one step less does not."""
        seen: dict[int, dict[str, Finding] | None] = {}

        def at(steps: int) -> dict[str, Finding] | None:
            if steps not in seen:
                seen[steps] = self._applied(setting.moved(steps))
            return seen[steps]

        for way in (1, -1):
            first = at(way)
            if first is None:
                continue
            for finding in self.failing:
                if not _eased(finding, first.get(finding.key)):
                    continue
                steps = _first(partial(self._helps, at, way, finding.key))
                if steps:
                    yield finding, way * steps

    @staticmethod
    def _helps(at: Callable[[int], dict[str, Finding] | None], way: int, key: str, count: int) -> bool | None:
        return _conforms(at(way * count), key)

    def cured(self, changes: tuple[tuple[Path, str | Said], ...]) -> list[Finding]:
        """The failing findings that no longer fail with the changes."""
        after = self._applied(changes)
        return [finding for finding in self.failing if _conforms(after, finding.key)]

    def _applied(self, changes: tuple[tuple[Path, str | Said], ...]) -> dict[str, Finding] | None:
        if not changes:
            return None
        try:
            facts = gather(self.job.with_changes(changes))
            return {finding.key: finding for criterion in self.criteria for finding in applied(criterion, facts)}
        except (JobError, KeyError):
            return None


def _eased(before: Finding, after: Finding | None) -> bool:
    """Whether a step in this direction helps: it conforms, or more is left."""
    if after is None:
        return False
    if after.verdict in HELPED:
        return True
    if before.margin is None or after.margin is None or before.margin.kind != after.margin.kind:
        return False
    return after.margin.quantity.si > before.margin.quantity.si


def _conforms(findings: dict[str, Finding] | None, key: str) -> bool | None:
    """Whether it conforms; None beyond what may be changed."""
    if findings is None:
        return None
    found = findings.get(key)
    return found is not None and found.verdict in HELPED


def _first(conforms: Callable[[int], bool | None]) -> int:
    """The least number of steps that conforms, with one less that does not; 0 for none within reach. Doubled, then halved between."""
    low, high = 0, 1
    while True:
        answer = conforms(high)
        if answer:
            break
        if answer is None:
            # Beyond the reach: look once at the last step within it.
            far = _last(conforms, low, high)
            if far == low or not conforms(far):
                return 0
            high = far
            break
        low, high = high, high * 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if conforms(middle) else (middle, high)
    return high


def _last(conforms: Callable[[int], bool | None], inside: int, outside: int) -> int:
    while outside - inside > 1:
        middle = (inside + outside) // 2
        inside, outside = (inside, middle) if conforms(middle) is None else (middle, outside)
    return inside
