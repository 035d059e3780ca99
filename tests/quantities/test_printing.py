"""Half-up everywhere a figure is printed, from the decimal and never through binary."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.quantities import half_up, of, places, plain, rounded, significant


@pytest.mark.parametrize(
    ("value", "count", "printed"),
    [
        ("82.5", 0, "83"),  # AC 43.13-1B fig. 10-10: minimum fuel; half-even prints 82
        ("96.125", 2, "96.13"),  # FAA pilot bank (WB-S03); half-even prints 96.12
        ("36.25", 1, "36.3"),  # EASA bank (WB-M05); half-even prints 36.2
        ("-36.25", 1, "\u221236.3"),
        ("0.5", 0, "1"),
        ("-0.4", 0, "0"),
        ("-0.0004", 3, "0.000"),
        ("0.00050", 3, "0.001"),
        ("1234.5", -2, "1200"),
        ("250", -2, "300"),
        ("1E+3", 1, "1000.0"),
    ],
)
def test_places(value: str, count: int, printed: str) -> None:
    assert places(Decimal(value), count) == printed


@pytest.mark.parametrize(
    ("value", "digits", "printed"),
    [
        ("0.0012345", 4, "0.001235"),
        ("12345678", 4, "12350000"),
        ("0", 4, "0"),
        ("-0", 4, "0"),
        ("-1.2345", 4, "\u22121.235"),
        ("2.5E-9", 1, "0.000000003"),
        ("99.95", 4, "99.95"),
        ("100", 4, "100.0"),
    ],
)
def test_significant_digits(value: str, digits: int, printed: str) -> None:
    assert significant(Decimal(value), digits) == printed


VALUES = st.decimals(min_value="-1e9", max_value="1e9", places=9)


@given(VALUES, st.integers(-3, 9))
def test_the_printed_figure_is_the_nearest_and_a_tie_goes_away_from_zero(value: Decimal, count: int) -> None:
    step = Fraction(10) ** -count
    printed = Fraction(half_up(value, count))
    assert printed % step == 0
    assert abs(printed - Fraction(value)) <= step / 2
    if abs(printed - Fraction(value)) == step / 2:
        assert abs(printed) > abs(Fraction(value))


@given(VALUES.filter(bool), st.integers(1, 12))
def test_rounding_to_digits_is_within_half_of_the_last(value: Decimal, digits: int) -> None:
    assert abs(rounded(value, digits) / value - 1) <= Decimal(10) ** (1 - digits) / 2 * Decimal("1.0000001")


@given(VALUES)
def test_no_exponent_and_no_hyphen_is_ever_printed(value: Decimal) -> None:
    for text in (plain(value), significant(value, 5), places(value, 3)):
        assert not set(text) & set("eE-+")
        assert Decimal(text.replace("\u2212", "-")) is not None


def test_shown_in_another_unit() -> None:
    assert of("31.5", "lb").shown_in("kg") == "14.29 kg"
    assert of("20", "°C").shown_in("°F") == "68.00 °F"
    assert of("0.5", "").shown_in("%") == "50.00 %"
