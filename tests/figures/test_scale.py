"""Scales and their round numbers."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftout.figures.scale import Scale, round_step, spanning

values = st.floats(-1e5, 1e5)


@given(values, values, st.integers(2, 15))
def test_ticks_are_round_even_and_on_the_scale(low: float, high: float, most: int) -> None:
    assume(high - low > 1e-3)
    ticks = Scale(low, high, 0, 100).ticks(most)
    assert len(ticks) <= most + 1
    for value, text in ticks:
        assert low - 1e-6 * (high - low) <= value <= high + 1e-6 * (high - low)
        assert float(text.replace("\u2212", "-")) == pytest.approx(value, rel=1e-9, abs=1e-9)
    assert len({text for _, text in ticks}) == len(ticks)
    if len(ticks) > 1:
        step = ticks[1][0] - ticks[0][0]
        assert all(b - a == pytest.approx(step) for (a, _), (b, _) in pairwise(ticks))
        digits = step / 10 ** math.floor(math.log10(step) + 1e-9)
        assert any(digits == pytest.approx(base) for base in (1, 2, 5))
        # No fewer than the next rounder step would leave.
        assert len(ticks) >= most / 2.5 - 2


@given(st.floats(1e-4, 1e6))
def test_a_bar_is_the_longest_round_length_that_has_room(room: float) -> None:
    step, _ = round_step(room, down=True)
    assert step <= room * (1 + 1e-6)
    assert step >= room / 2.5


def test_zero_has_no_minus_sign() -> None:
    assert [text for _, text in Scale(-0.4, 0.4, 0, 10).ticks(4)] == ["\u22120.4", "\u22120.2", "0.0", "0.2", "0.4"]


@given(st.lists(values, min_size=1), st.floats(0.01, 0.5))
def test_a_span_holds_all_values_with_room(told: list[float], margin: float) -> None:
    low, high = spanning(told, margin)
    assert low < min(told)
    assert high > max(told)


@given(values, st.floats(0.5, 300), st.floats(1, 200))
def test_a_short_scale_still_has_two_figures_where_they_have_room(low: float, span: float, paper: float) -> None:
    scale = Scale(low, low + span, 0, paper)
    ticks = scale.ticks_apart(8.0, 4.0)
    assert len(ticks) >= 2 or paper < 12
    assert all(scale.at(b) - scale.at(a) >= 4.0 - 1e-6 for (a, _), (b, _) in pairwise(ticks))


def test_a_view_of_twelve_millimetres_from_20_to_45_has_figures() -> None:
    """One figure every 8 mm would be one every 50, of which none lies there."""
    assert [text for _, text in Scale(20.5, 45.5, 0, 12).ticks(1)] == []
    assert [text for _, text in Scale(20.5, 45.5, 0, 12).ticks_apart(8.0, 4.0)] == ["30", "40"]
