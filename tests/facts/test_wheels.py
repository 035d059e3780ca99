"""Wheels that cannot stand where the job says are refused before anything is computed."""

from __future__ import annotations

import pytest

from liftout.facts import gather
from liftout.job import JobError
from tests.criteria.bench import CaseFile, case_files


def bench() -> CaseFile:
    """The bench of the wheels."""
    return next(file for file in case_files() if file.criterion == "balance.wheel_load")


@pytest.mark.parametrize(
    ("given", "wrong"),
    [
        ({"aircraft / wheels / nose or tail wheel": "70 in"}, "not ahead of the main wheels"),
        ({"aircraft / wheels / layout": "tail wheel"}, "not behind the main wheels"),
        ({"aircraft / wheels / datum": "wing root"}, 'there is no datum "wing root"'),
        ({"aircraft / wheels / undercarriages": "[skis]"}, 'there is no undercarriage "skis"'),
    ],
)
def test_a_slip_in_the_wheels_is_a_fault_of_the_job(given: dict[str, str], wrong: str) -> None:
    with pytest.raises(JobError, match=wrong):
        gather(bench().job(given))


@pytest.mark.long
def test_arms_told_from_another_datum_are_the_same_wheels() -> None:
    """A datum 10 in aft of the maker's: every arm is 10 in less."""
    moved = {
        "aircraft / datums / wing root": "{where: wing root, offset: {value: 10 in, document: {number: D-1}}}",
        "aircraft / wheels / datum": "wing root",
        "aircraft / wheels / main wheels": "50 in",
        "aircraft / wheels / nose or tail wheel": "-20 in",
        "aircraft / wheels / rear step / arm": "70 in",
    }
    plain, shifted = (gather(bench().job(given)).wheels for given in ({}, moved))
    for one, other in ((plain.main, shifted.main), (plain.other, shifted.other), (plain.step, shifted.step)):
        assert one.value.si == other.value.si  # type: ignore[union-attr]
