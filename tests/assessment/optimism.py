"""Whether what a tolerance reaches is concluded as if it did not: one value of a job told with a tolerance, and the job with that value at either end.

A finding that conforms with the tolerance may fail at neither end. It may be referred there, or leave less; and at the value itself no
verdict may be better with the tolerance than without.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from liftout.assessment import RANK
from liftout.findings import Finding, Verdict
from liftout.job import Job
from liftout.job.reader import Said, compose
from tests.assessment.other_units import quantities, verdicts

Path_ = tuple[str, ...]
SHARES = (Decimal("0.02"), Decimal("0.15"), Decimal("0.4"))
"""How far values lie off, as a share of themselves."""


def places(name: str) -> Iterator[Path_]:
    """Paths of a job at which one value stands that may be told with a tolerance."""
    for path in quantities(name)[1]:
        if path[-1] != "tolerance":
            yield path[:-1] if path[-1] == "value" else path


def optimistic(name: str, path: Path_, share: Decimal) -> list[str] | None:
    """Findings that conform with a tolerance and fail at an end of it, or come out better for it; None where no tolerance can be told there."""
    job, _ = quantities(name)
    written, number, symbol = _written(job, path)
    off = abs(number) * share
    if not off:
        return None
    told = verdicts(with_tolerance(job, path, f"{off:f} {_apart(symbol)}"), job.file)
    if isinstance(told, str):
        return None
    plain = verdicts(_said(job, path, written), job.file)
    assert not isinstance(plain, str)
    better = [
        f"{key} is {told[key].verdict} with it and {was.verdict} without" for key, was in plain.items() if key in told and _better(told[key], was)
    ]
    ends = [verdicts(_said(job, path, f"{number + by:f} {symbol}"), job.file) for by in (-off, off)]
    return better + [
        f"{key} conforms and {there[key].verdict} at an end: {there[key].sentence}"
        for there in ends
        if not isinstance(there, str)
        for key, finding in told.items()
        if finding.verdict is Verdict.CONFORMS and key in there and there[key].verdict is Verdict.DOES_NOT_CONFORM
    ]


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
