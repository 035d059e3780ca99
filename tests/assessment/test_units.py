"""The unit in which a value is written is no part of its meaning: the same job in any mixture of units is the same job."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from random import Random
from typing import Any

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from liftout.assessment import assess
from liftout.job import validated
from liftout.quantities import QuantityError, plain, read
from tests.job.demonstration import demonstration, demonstration_assessed

OTHER = {
    "lb": ("mass", "kg"),
    "in": ("length", "mm"),
    "ft": ("length", "m"),
    "lb-in": ("moment", "kg-m"),
    "US gal": ("volume", "L"),
    "lbf": ("force", "N"),
}
"""Units that are exact multiples of another, so that nothing is rounded on the way."""
AS_WRITTEN = frozenset({"weight record", "available", "stocked", "places"})
"""What the digits on the paper say, or what is chosen from by its name."""


def _in_other_units(value: Any, chance: Random) -> Any:
    if isinstance(value, dict):
        return {key: node if key in AS_WRITTEN else replace(node, value=_in_other_units(node.value, chance)) for key, node in value.items()}
    if isinstance(value, tuple):
        return tuple(replace(node, value=_in_other_units(node.value, chance)) for node in value)
    if isinstance(value, str) and chance.random() < 0.7:
        number, _, unit = value.partition(" ")
        if unit in OTHER and number.lstrip("-").replace(".", "", 1).isdigit():
            dimension, other = OTHER[unit]
            try:
                return f"{plain(read(value, dimension).to(other))} {other}"
            except QuantityError:
                return value
    return value


@settings(max_examples=3, phases=(Phase.explicit, Phase.generate), deadline=None)
@given(st.integers(0, 10**6))
def test_the_same_job_in_other_units_has_the_same_verdicts_and_values(seed: int) -> None:
    job = demonstration()
    said = replace(job.said, value=_in_other_units(job.said.value, Random(seed)))
    found = {finding.key: finding for finding in assess(validated(said, job.file), remedies=False).findings}
    before = {finding.key: finding for finding in demonstration_assessed().findings}
    assert found.keys() == before.keys()
    for key, old in before.items():
        new = found[key]
        assert new.verdict is old.verdict, (key, old.sentence, new.sentence)
        if old.value is not None and new.value is not None:
            assert abs(new.value.si - old.value.si) <= Decimal("1e-7") * max(Decimal(1), abs(old.value.si)), key


def test_most_of_the_job_was_written_otherwise() -> None:
    told = _in_other_units(demonstration().said.value, Random(1))
    text = str(told)
    assert text.count(" mm'") > 100
    assert text.count(" kg'") > 10
