"""Whether what a tolerance reaches is concluded as if it did not: one value of a job told with a tolerance, and the job with that value at either end.

A finding that conforms with the tolerance may fail at neither end. It may be referred there, or leave less; and at the value itself no
verdict may be better with the tolerance than without.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import NamedTuple

from liftout.applied import applied
from liftout.assessment import RANK
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.job import Job, JobError, validated
from liftout.job.reader import Said, compose
from liftout.quantities import plain
from liftout.within_tolerance import NEAR, to_move
from tests.assessment.other_units import numbers, quantities, verdicts

Path_ = tuple[str, ...]
SHARES = (Decimal("0.4"), Decimal("0.15"), Decimal("0.02"))
"""How far values lie off, as a share of themselves."""


class Tried(NamedTuple):
    """What came of a value told with a tolerance."""

    too_good: list[str]
    turns: bool
    """Whether any verdict is another one at an end, so that a smaller tolerance is worth a look too."""


def places(name: str) -> Iterator[Path_]:
    """Paths of a job at which one value stands that may be told with a tolerance."""
    for path in numbers(name):
        if path[-1] != "tolerance":
            yield path[:-1] if path[-1] == "value" else path


def size(name: str, path: Path_) -> Decimal:
    """How large a value of a job is, in its own unit; nothing where it is no decimal number."""
    return abs(_written(quantities(name)[0], path)[1])


def tried(name: str, path: Path_, share: Decimal) -> Tried | None:
    """Findings that conform with a tolerance and fail at an end of it, or come out better for it; None where no tolerance can be told there."""
    job, _ = quantities(name)
    off = size(name, path) * share
    if not off:
        return None
    bare = None if isinstance(job.said.at(path).value, dict) else _as_it_is(name)
    return of_job(job, path, off, bare)


def of_job(job: Job, path: Path_, off: Decimal, bare: dict[str, Finding] | str | None = None) -> Tried | None:
    """The same of any job, for a value that may be off by so much in its own unit.

    Args:
        job: the job.
        path: where the value stands.
        off: its tolerance.
        bare: the findings of the job as it is, where they are known.
    """
    written, _, symbol = _written(job, path)
    told = verdicts(with_tolerance(job, path, f"{off:f} {_apart(symbol)}".strip()), job.file)
    if isinstance(told, str):
        return None
    bare = bare or verdicts(_said(job, path, written), job.file)
    assert not isinstance(bare, str)
    better = [
        f"{key} is {told[key].verdict} with it and {was.verdict} without" for key, was in bare.items() if key in told and _better(told[key], was)
    ]
    ends = at_ends(job, path, off)
    turns = any(isinstance(there, str) or _turned(bare, there) for there in ends)
    return Tried(
        better
        + [
            f"{key} conforms and {there[key].verdict} at an end: {there[key].sentence}"
            for there in ends
            if not isinstance(there, str)
            for key, finding in told.items()
            if finding.verdict is Verdict.CONFORMS and key in there and there[key].verdict is Verdict.DOES_NOT_CONFORM
        ],
        turns,
    )


def leaks(job: Job, path: Path_, off: Decimal) -> list[str] | None:
    """Conclusions from which an end of a tolerance takes more than is told of it, whatever is left; None where no tolerance can be told there.

    What formulas carry is told to the last digit. What something else reads as well may go up to `NEAR` times as far, since the job is worked again
    where less is left; what chooses, and what no formula carries, is always worked again.
    """
    _, number, symbol = _written(job, path)
    if not off:
        return None
    said = with_tolerance(job, path, f"{off:f} {_apart(symbol)}".strip())
    told = _raw(said, job.file)
    if told is None:
        return None
    found = []
    for by in (-off, off):
        there = _raw(said.changed((*path, "value"), f"{number + by:f} {symbol}".strip()), job.file) or {}
        for key, finding in told.items():
            after = there.get(key)
            if finding.loose is None or finding.loose.left is None or after is None or not _alike(after, finding):
                continue
            mine = [where for where in {**finding.loose.off, **finding.loose.goes} if where.endswith(f", {' / '.join(path)}")]
            if any(fact.path == path for fact in to_move(finding.loose)):
                continue
            read = any(fact.path == path for fact in finding.loose.read)
            carried = sum((finding.loose.goes[where] * NEAR if read else finding.loose.off.get(where, Decimal(0)) for where in mine), Decimal(0))
            lost = finding.loose.left - _left(after)
            if lost > carried * Decimal("1.001") + LEAST:
                found.append(f"{key}: {plain(lost)} lost at {number + by} {symbol}, {plain(carried)} told, of {plain(finding.loose.left)}")
    return found


LEAST = Decimal("1e-9")
"""Of what is left, in SI: searches stop there."""


def _raw(said: Said, file: Path) -> dict[str, Finding] | None:
    """Findings before any is worked again for tolerances."""
    try:
        facts = gather(validated(said, file))
    except JobError:
        return None
    return {finding.key: finding for criterion in all_criteria() for finding in applied(criterion, facts)}


def _alike(one: Finding, other: Finding) -> bool:
    """Whether two findings compare the same kind of thing the same way."""
    return (
        one.value is not None
        and other.value is not None
        and one.relation == other.relation
        and one.value.unit.dimension == other.value.unit.dimension
    )


def _left(finding: Finding) -> Decimal:
    assert finding.value is not None
    assert finding.limit is not None
    apart = finding.limit.si - finding.value.si
    return apart if finding.relation == "at most" else -apart


def at_ends(job: Job, path: Path_, off: Decimal) -> list[dict[str, Finding] | str]:
    """Findings of a job with a value smaller, and larger, by so much in its own unit; what is refused where it cannot be read."""
    _, number, symbol = _written(job, path)
    return [verdicts(_said(job, path, f"{number + by:f} {symbol}".strip()), job.file) for by in (-off, off)]


@cache
def _as_it_is(name: str) -> dict[str, Finding] | str:
    job, _ = quantities(name)
    return verdicts(job.said, job.file)


def _turned(was: dict[str, Finding], there: dict[str, Finding]) -> bool:
    return any(key not in there or there[key].verdict is not finding.verdict for key, finding in was.items())


def _better(now: Finding, was: Finding) -> bool:
    return RANK[now.verdict] < RANK[was.verdict]


def _written(job: Job, path: Path_) -> tuple[str, Decimal, str]:
    held = job.said.at(path)
    text = str(held.at(("value",)).value if isinstance(held.value, dict) else held.value)
    number, _, symbol = text.partition(" ")
    try:
        return text, Decimal(number), symbol
    except ArithmeticError:
        return text, Decimal(0), symbol  # a fraction of an inch


def _apart(symbol: str) -> str:
    return symbol.replace("°", "Δ°") if symbol in ("°C", "°F") else symbol


def with_tolerance(job: Job, path: Path_, tolerance: str) -> Said:
    """What a job says, with one of its values told with a tolerance."""
    held = job.said.at(path)
    if isinstance(held.value, dict):
        return job.said.changed((*path, "tolerance"), tolerance)
    told = compose(f'said: {{value: "{held.value}", tolerance: "{tolerance}"}}', held.file).at(("said",))
    return job.said.changed(path, told)


def _said(job: Job, path: Path_, text: str) -> Said:
    held = job.said.at(path)
    if not isinstance(held.value, dict):
        return job.said.changed(path, text)
    bare = {key: node for key, node in held.value.items() if key != "tolerance"}
    return job.said.changed(path, replace(held, value=bare)).changed((*path, "value"), text)
