"""The unit in which a value is written is no part of its meaning: the same job in other units has the same verdicts.

`python -m tests.benchmarks.units 10000` does the same with as many jobs as one likes.
"""

from __future__ import annotations

import random

import pytest

from liftout.job import Job
from tests.assessment.other_units import differences, in_si, quantities, rewritten, varied, verdicts
from tests.demonstrations import JOBS

SEEDS = range(8)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_job_of_other_figures_has_the_same_verdicts_in_si_units(seed: int) -> None:
    name, said, changes = varied(random.Random(seed))
    file = quantities(name)[0].file
    assert differences(verdicts(said, file), verdicts(in_si(said), file)) == [], changes


def test_any_mixture_of_units_has_the_same_verdicts() -> None:
    job: Job = quantities("halden_4_cooler")[0]
    mixed = in_si(job.said, share=0.5, chance=random.Random(1))
    assert differences(verdicts(job.said, job.file), verdicts(mixed, job.file)) == []


def test_most_of_each_job_is_written_otherwise() -> None:
    for name in JOBS:
        job, places = quantities(name)
        written = [str(job.said.at(path).value) for path in places]
        assert len(written) > 300
        assert sum(rewritten(text) != text for text in written) > 0.9 * len(written)


@pytest.mark.parametrize(
    ("text", "other"),
    [
        ("31.5 lb", "14.288159655 kg"),
        ("3 1/8 in", "79.375 mm"),
        ("-12 in", "\u2212304.8 mm"),
        ("50 °C", "323.15 K"),
        ("100 lbf", "444.82216152605 N"),
        ("12337 lb-in", "142.137614344726 kg·m"),
        ("10 psi", "68947.572931683613367 Pa"),
        ("25 %", "0.25"),
        ("soon", "soon"),
    ],
)
def test_what_a_quantity_becomes(text: str, other: str) -> None:
    """A pound is 0.45359237 kg, an inch 25.4 mm, a pound-force 4.4482216152605 N (NIST SP 811, from memory)."""
    assert rewritten(text)[:16] == other[:16]
    assert rewritten(text).split()[-1] == other.rsplit(maxsplit=1)[-1]


def test_another_verdict_is_seen() -> None:
    """The comparison can fail: a limit that is told in another size, and not only in another unit."""
    job, _ = quantities("halden_4_survey")
    told = verdicts(job.said, job.file)
    path = next(path for path in quantities("halden_4_survey")[1] if path[-2:] == ("mass dry", "value") or path[-1] == "mass dry")
    heavier = job.said.changed(path, "900 lb")
    assert differences(told, verdicts(heavier, job.file))
