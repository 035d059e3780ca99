"""Whether what a tolerance reaches is concluded as if it did not: one value of a job told with a tolerance, and the job with that value at either end.

A finding that conforms with the tolerance may fail at neither end. It may be referred there, or leave less; and at the value itself no
verdict may be better with the tolerance than without.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from liftout.assessment import RANK
from liftout.findings import Finding, Verdict
from liftout.job import Job
from liftout.job.reader import Said, compose
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


def tried(name: str, path: Path_, share: Decimal) -> Tried | None:
    """Findings that conform with a tolerance and fail at an end of it, or come out better for it; None where no tolerance can be told there."""
    job, _ = quantities(name)
    off = abs(_written(job, path)[1]) * share
    if not off:
        return None
    plain = None if isinstance(job.said.at(path).value, dict) else _as_it_is(name)
    return of_job(job, path, off, plain)


def of_job(job: Job, path: Path_, off: Decimal, plain: dict[str, Finding] | str | None = None) -> Tried | None:
    """The same of any job, for a value that may be off by so much in its own unit.

    Args:
        job: the job.
        path: where the value stands.
        off: its tolerance.
        plain: the findings of the job as it is, where they are known.
    """
    written, _, symbol = _written(job, path)
    told = verdicts(with_tolerance(job, path, f"{off:f} {_apart(symbol)}".strip()), job.file)
    if isinstance(told, str):
        return None
    plain = plain or verdicts(_said(job, path, written), job.file)
    assert not isinstance(plain, str)
    better = [
        f"{key} is {told[key].verdict} with it and {was.verdict} without" for key, was in plain.items() if key in told and _better(told[key], was)
    ]
    ends = at_ends(job, path, off)
    turns = any(isinstance(there, str) or _turned(plain, there) for there in ends)
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
