"""Where falling functions begin to be below zero: against roots that are known, and against what a bracket of floats means."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.crossing import crossing
from tests.strategies import numbers

SMOOTH: list[tuple[Callable[[float], float], float]] = [
    (lambda x: 2 - x * x, math.sqrt(2)),
    (lambda x: 10 - math.exp(x), math.log(10)),
    (lambda x: 1e-9 - x**3, 1e-3),
    (lambda x: 1 - x**0.2, 1.0),
    (lambda x: 3 - x, 3.0),
]


@pytest.mark.parametrize(("function", "root"), SMOOTH)
def test_a_root_that_is_known(function: Callable[[float], float], root: float) -> None:
    found = crossing(function, 0.0, 8.0)
    assert found == pytest.approx(root, rel=1e-15)
    assert function(found) >= 0


@given(numbers(1e-6, 10.0), numbers(1e-9, 1e9), numbers(1e-9, 1e9))
def test_the_last_value_before_a_step(at: float, above: float, below: float) -> None:
    assert crossing(lambda x: above if x <= at else -below, 0.0, 11.0) == at


@given(st.lists(st.tuples(numbers(0.01, 5.0), numbers(0.0, 10.0)), min_size=1, max_size=5), numbers(0.1, 30.0))
def test_the_next_float_is_below_zero_however_often_the_function_is_kinked(kinks: list[tuple[float, float]], start: float) -> None:
    def function(x: float) -> float:
        return start - x - math.fsum(slope * max(0.0, x - at) for slope, at in kinks)

    found = crossing(function, 0.0, 40.0)
    # Within a few floats of the root the terms' own rounding decides which of two neighbours is below zero.
    rounding = 4 * math.ulp(start)
    assert 0 <= function(found) <= rounding + 30 * math.ulp(found)
    assert function(math.nextafter(found, math.inf)) < 0


def test_where_it_never_falls_below_zero_the_largest_value_is_the_answer() -> None:
    assert crossing(lambda x: 5 - x, 0.0, 5.0) == 5.0
    assert crossing(lambda x: 1.0, 0.0, 5.0) == 5.0
    assert crossing(lambda x: -x, 0.0, 5.0) == 0.0
