"""Changes that make a finding conform: the smallest of each thing the shop is free to choose, each seen to help.

A change is looked for with the criterion of the finding alone, step by step and then by halves, and shown only after the
whole job was assessed again with it and no other verdict got worse. Where no one change helps, two are looked for, or
more: things that each leave more of the margin, or one that helps and another that mends what the first makes worse.
Last, the changes are put together, one after the other, as long as fewer findings fail: that is one way out of everything
at once, and no more than one. What is tried is bounded by what a job has to choose from, so a search ends by itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterator, Sequence
from decimal import Decimal
from functools import partial
from itertools import combinations
from typing import Any, Final, NamedTuple

from liftout.assessment import LIMITS, RANK, Assessment, applied, assess, worsened
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.findings import Finding, Verdict
from liftout.job import Job, JobError
from liftout.job.reader import Said
from liftout.levers import Setting, added_straps, settings

Path = tuple[str, ...]
Changes = tuple[tuple[Path, str | Said], ...]

PAIRED: Final = 8
"""Of so many things that each leave more of a margin, those that leave most, combinations are tried."""

SHOWN: Final = 3
"""So many combinations, those that change least, are assessed with the whole job."""

SHARES: Final = 16
"""Things that are changed together are first moved by the same share of their reach, in so many shares."""

HELPED: Final = (Verdict.CONFORMS, Verdict.REFER)
"""What a change has to lead to: a referred finding no longer fails, and a person decides on it."""


class Remedy(NamedTuple):
    """Changes of the job with which a finding no longer fails."""

    changes: Changes
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


class Way(NamedTuple):
    """One thing that may be changed in one direction, step by step."""

    moved: Callable[[int], Changes]
    """The changes so many steps on; none beyond its reach."""
    told: Callable[[int], str]
    """What to do, in the shop's words."""
    limits_operation: bool = False
    subject: str = ""

    def remedy(self, steps: int) -> Remedy:
        """So many steps of it."""
        return Remedy(self.moved(steps), self.told(steps), self.limits_operation, self.subject)


def remedies(assessed: Assessment, tell: Telling = _silent, only: Collection[str] | None = None) -> Remedies:
    """The changes that help each failing finding; those that take nothing from what the aircraft may be used for first.

    Where every change makes something else worse, those that do least are told, with what they make worse.

    Args:
        assessed: the job and its findings.
        tell: what to call while searching.
        only: keys of the findings to look at; by default all that fail.
    """
    failing = [one for one in assessed.findings if one.verdict is Verdict.DOES_NOT_CONFORM and (only is None or one.key in only)]
    search, whole = _Search(assessed.job), _Whole(assessed)
    found: dict[str, list[Remedy]] = {finding.key: [] for finding in failing}
    eased: dict[str, list[Way]] = {finding.key: [] for finding in failing}

    def keep(finding: Finding, remedy: Remedy) -> None:
        seen = whole.seen(finding, remedy)
        if seen is not None and remedy.does not in {other.does for other in found[finding.key]}:
            found[finding.key].append(seen)

    def look(way: Way, at: Sequence[Finding], words: str) -> None:
        tell(words)
        for finding, steps in search.smallest(way, at):
            eased[finding.key].append(way)
            if steps:
                keep(finding, way.remedy(steps))

    for number, finding in enumerate(failing, 1):
        for way in _of_finding(finding):
            look(way, (finding,), f"{number} of {len(failing)} findings that fail: {finding.title}: {finding.subject}")
    every = _ways(assessed.job.said)
    for number, way in enumerate(every, 1):
        look(way, failing, f"{number} of {len(every)} things to change: {way.told(1)}")
    for number, finding in enumerate(failing, 1):
        if all(remedy.worse for remedy in found[finding.key]):
            tell(f"{number} of {len(failing)} findings that fail, several changes at once: {finding.title}: {finding.subject}")
            for remedy in (*_several(search, finding, eased[finding.key]), *_mended(whole, found[finding.key], every)):
                keep(finding, remedy)
    of = {key: _chosen(several) for key, several in found.items()}
    return Remedies(of, *(_together(assessed, of, tell) if only is None else ((), ())))


def _of_finding(finding: Finding) -> list[Way]:
    """What its criterion proposes to change."""
    return [_once(((change.path, change.text),), change.sentence, finding.subject, limits=change.limits_operation) for change in finding.candidates]


def _ways(said: Said) -> list[Way]:
    """What may be changed in a job, whatever fails."""
    led = [_led(setting, sign) for setting in settings(said) for sign in (1, -1) if setting.moved(sign)]
    return [*led, *(_once(((path, strap),), does) for does, path, strap in added_straps(said))]


def _led(setting: Setting, sign: int) -> Way:
    return Way(lambda steps: setting.moved(sign * steps), lambda steps: setting.told(sign * steps), setting.lever.limits_operation)


def _once(changes: Changes, does: str, subject: str = "", *, limits: bool = False) -> Way:
    """A change that is made or not."""
    return Way(lambda steps: changes if steps == 1 else (), lambda _: does, limits, subject)


def _several(search: _Search, finding: Finding, eased: list[Way]) -> list[Remedy]:
    """Two changes that help where neither does alone; where no two do, as few as do. Those that change least of their reach first.

    Args:
        search: the job with its own criteria.
        finding: the finding that fails.
        eased: what leaves more of its margin.
    """
    reached = [(way, end, left) for way in eased if (end := search.reach(way)) and (left := search.margin(((way, end),), finding)) is not None]
    best = [(way, end) for way, end, _ in sorted(reached, key=lambda one: -one[2])][:PAIRED]
    pairs = [pair for pair in combinations(best, 2) if _apart(pair)]
    found = [moved for pair in pairs if (moved := search.least(pair, finding))]
    if not found:
        together: list[tuple[Way, int]] = []
        for one in best:
            if _apart((*together, one)):
                together.append(one)
        found = [moved] if (moved := search.least(together, finding)) else []
    ends = {id(way): end for way, end in best}
    return [_joined(moved) for moved in sorted(found, key=lambda moved: math.fsum(steps / ends[id(way)] for way, steps in moved))[:SHOWN]]


def _mended(whole: _Whole, single: list[Remedy], every: list[Way]) -> Iterator[Remedy]:
    """Changes that help and make something else fail, each with a further one that mends that."""
    for remedy in sorted(single, key=lambda one: len(one.worse))[:SHOWN]:
        after, harmed = whole.harmed(remedy)
        if after is None or not harmed or any(finding.verdict is not Verdict.DOES_NOT_CONFORM for finding in harmed):
            continue
        search, paths = _Search(after.job), {*_paths(remedy)}
        for way in (*(way for finding in harmed for way in _of_finding(finding)), *every):
            if paths & {path for path, _ in way.moved(1)}:
                continue
            steps = {finding.key: steps for finding, steps in search.smallest(way, harmed)}
            if len(steps) == len(harmed) and all(steps.values()):
                further = way.remedy(max(steps.values()))
                does = f"{remedy.does}{ALSO}{further.brief.removesuffix(LIMITS)}"
                yield Remedy((*remedy.changes, *further.changes), does, remedy.limits_operation or further.limits_operation, remedy.subject)


ALSO: Final = "; and also "
"""What stands between changes that help together alone."""


def _apart(moved: Sequence[tuple[Way, int]]) -> bool:
    """Whether no two of them change the same thing."""
    paths = [path for way, _ in moved for path, _ in way.moved(1)]
    return len({*paths}) == len(paths)


def _joined(moved: Sequence[tuple[Way, int]]) -> Remedy:
    """One remedy out of several ways, each so many steps on."""
    made = [way.remedy(steps) for way, steps in moved]
    return Remedy(
        tuple(change for remedy in made for change in remedy.changes),
        ALSO.join(remedy.does for remedy in made),
        any(remedy.limits_operation for remedy in made),
        next((remedy.subject for remedy in made if remedy.subject), ""),
    )


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
                chosen = [other for other in chosen if not {*_paths(other)} <= {*_paths(remedy)}] + [remedy]
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

    def harmed(self, remedy: Remedy) -> tuple[Assessment | None, list[Finding]]:
        """The job with a remedy that was seen, and what fails or waits for somebody with it."""
        changed = self._seen.get((remedy.does, _paths(remedy)))
        return changed, _worse(tuple(self.before.values()), changed.findings) if changed is not None else []


class _Search:
    """Failing findings under one change after another, with their own criteria on their own subjects alone."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._criteria = {criterion.id: criterion for criterion in all_criteria()}
        self._told: tuple[Changes, Facts | None] = ((), None)

    def smallest(self, way: Way, failing: Sequence[Finding]) -> Iterator[tuple[Finding, int]]:
        """Each failing finding that a step of the way leaves more of, and how many steps make it conform with one less that does not; 0 for none."""
        facts: dict[int, Facts | None] = {}
        conforms: dict[tuple[int, str], bool | None] = {}

        def meant(steps: int) -> Facts | None:
            if steps not in facts:
                facts[steps] = self._facts(way.moved(steps))
            return facts[steps]

        def helps(finding: Finding, steps: int) -> bool | None:
            if (steps, finding.key) not in conforms:
                told = meant(steps)
                conforms[steps, finding.key] = None if told is None else _conforms(self._found(told, finding))
            return conforms[steps, finding.key]

        first = meant(1)
        if first is None:
            return
        for finding in failing:
            after = self._found(first, finding)
            if _eased(finding, after):
                conforms[1, finding.key] = _conforms(after)
                yield finding, _first(partial(helps, finding))

    def reach(self, way: Way) -> int:
        """How many steps of the way can be made; 0 for none."""
        end = 1
        while way.moved(2 * end):
            end *= 2
        end = _last(lambda steps: True if way.moved(steps) else None, 0, 2 * end)
        return end if end and self._facts(way.moved(end)) is not None else 0

    def margin(self, moved: Sequence[tuple[Way, int]], finding: Finding) -> Decimal | None:
        """What is left of a finding's margin with these steps; None where it cannot be compared with what is left without."""
        told = self._facts(tuple(change for way, steps in moved for change in way.moved(steps)))
        after = self._found(told, finding) if told is not None else None
        if after is None or after.margin is None or finding.margin is None or after.margin.kind != finding.margin.kind:
            return None
        return after.margin.quantity.si

    def least(self, ends: Sequence[tuple[Way, int]], finding: Finding) -> tuple[tuple[Way, int], ...]:
        """Of several ways together, as few steps as make a finding conform: one step less of any does not. Empty where their ends do not.

        All are moved by the same share of their reach first, so that one is not driven to its end for the other; then each is taken back.
        """
        if len(ends) <= 1 or not self._helped(ends, finding):
            return ()
        shares = _between(lambda share: self._helped(_shared(ends, share), finding), 0, SHARES)
        moved = _shared(ends, shares)
        for place, (way, steps) in enumerate(moved):
            taken_back = partial(self._taken_back, moved, place, finding)
            moved = (*moved[:place], (way, 0 if taken_back(0) else _between(taken_back, 0, steps)), *moved[place + 1 :])
        return tuple((way, steps) for way, steps in moved if steps)

    def _taken_back(self, moved: tuple[tuple[Way, int], ...], place: int, finding: Finding, steps: int) -> bool:
        """Whether the finding still conforms with one of several ways led so few steps."""
        return self._helped((*moved[:place], (moved[place][0], steps), *moved[place + 1 :]), finding)

    def _helped(self, moved: Sequence[tuple[Way, int]], finding: Finding) -> bool:
        changes = tuple(change for way, steps in moved if steps for change in way.moved(steps))
        told = self._facts(changes)
        return told is not None and _conforms(self._found(told, finding))

    def _facts(self, changes: Changes) -> Facts | None:
        if not changes:
            return None
        if self._told[0] != changes:
            try:
                self._told = changes, gather(self.job.with_changes(changes))
            except (JobError, KeyError):
                self._told = changes, None
        return self._told[1]

    def _found(self, facts: Facts, finding: Finding) -> Finding | None:
        """The finding as it comes out of other facts."""
        try:
            found = applied(self._criteria[finding.criterion], facts, {(finding.subject, finding.state)})
        except JobError:
            return None
        return next((one for one in found if one.key == finding.key), None)


def _shared(ends: Sequence[tuple[Way, int]], share: int) -> tuple[tuple[Way, int], ...]:
    """Each way by so many shares of its reach, in whole steps, one at least."""
    return tuple((way, max(1, round(end * share / SHARES))) for way, end in ends)


def _between(conforms: Callable[[int], bool], low: int, high: int) -> int:
    """The least number above `low`, which does not conform, that does; `high` does."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if conforms(middle) else (middle, high)
    return high


def _eased(before: Finding, after: Finding | None) -> bool:
    """Whether a step in this direction helps: it conforms, or more is left."""
    if after is None:
        return False
    if after.verdict in HELPED:
        return True
    if before.margin is None or after.margin is None or before.margin.kind != after.margin.kind:
        return False
    return after.margin.quantity.si > before.margin.quantity.si


def _conforms(found: Finding | None) -> bool:
    return found is not None and found.verdict in HELPED


def _first(conforms: Callable[[int], bool | None]) -> int:
    """The least number of steps that conforms, with one less that does not; 0 for none within reach, beyond which it answers None.

    Doubled, then halved between.
    """
    low, high = 0, 1
    while not (answer := conforms(high)):
        if answer is None:
            # Beyond the reach: look once at the last step within it.
            far = _last(conforms, low, high)
            if far == low or not conforms(far):
                return 0
            high = far
            break
        low, high = high, high * 2
    return _between(lambda steps: bool(conforms(steps)), low, high)


def _last(conforms: Callable[[int], bool | None], inside: int, outside: int) -> int:
    while outside - inside > 1:
        middle = (inside + outside) // 2
        inside, outside = (inside, middle) if conforms(middle) is None else (middle, outside)
    return inside
