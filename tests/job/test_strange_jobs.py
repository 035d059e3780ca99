"""Job files from strangers: each is read or refused in words, assessed or refused; nothing breaks, hangs or grows."""

from __future__ import annotations

import random
from functools import cache

import pytest

from liftout.assessment import assess
from liftout.job import JobError, told
from tests.job.strange_jobs import JOBS, strange

SEEDS = range(14)
BROKE = (1232, 1897, 2062, 2147, 20262616, 20262920, 429115, 433056, 20271638)
"""Seeds that broke something once: a strap so weak that nothing it holds was worth printing, an item heavier than its aircraft,
a strap that does not stretch, a generator that gives nothing at idle,
straps in nearly one line, air above the troposphere, air of 32,000 °C, liquid that weighs more than the aircraft out of which it is drained."""


@cache
def standing(seed: int) -> str:
    """How a strange job ends: refused or assessed; anything else leaves here as an exception."""
    name, text = strange(random.Random(seed))
    try:
        found = assess(told(text, JOBS / name / "job.yaml"), remedies=False)
    except JobError as error:
        told_well = error.faults and all(fault.wrong and fault.right and fault.line >= 1 for fault in error.faults)
        return "refused" if told_well else f"refused without words: {error.faults}"
    return "assessed" if found.findings else "nothing was found"


@pytest.mark.parametrize("seed", [*SEEDS, *BROKE])
def test_a_strange_job_is_assessed_or_refused_in_words(seed: int) -> None:
    assert standing(seed) in ("assessed", "refused")


def test_half_of_them_reach_assessment() -> None:
    """A fuzzer whose jobs are all refused tests the reader alone."""
    found = [standing(seed) for seed in SEEDS]
    assert found.count("assessed") * 2 >= len(found)
