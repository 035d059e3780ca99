"""Conversions are exact where the definitions are, and agree with a published set of definitions that is not ours."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.quantities import PRECISION, Quantity, QuantityError, from_si, of, read, unit

EXACT = {
    # Defined values: international yard and pound (1959), SI, gallons; NIST SP 811 and Weights and Measures Act 1985.
    "kg": "1", "g": "0.001", "lb": "0.45359237", "oz": "0.028349523125", "t": "1000", "m": "1", "mm": "0.001", "cm": "0.01", "in": "0.0254", "ft": "0.3048", "nmi": "1852",
    "s": "1", "min": "60", "h": "3600", "A": "1", "mA": "0.001", "Ah": "3600", "N": "1", "daN": "10", "kN": "1000", "lbf": "4.4482216152605", "Pa": "1", "mPa": "0.001",
    "kPa": "1000", "bar": "100000", "mbar": "100", "hPa": "100", "W": "1", "kW": "1000", "V": "1", "mV": "0.001", "Ω": "1", "mohm": "0.001", "L": "0.001", "mL": "0.000001",
    "US gal": "0.003785411784", "US qt": "0.000946352946", "imp gal": "0.00454609", "mph": "0.44704", "J": "1", "kJ": "1000", "g_n": "9.80665", "%": "0.01",
}  # fmt: skip
THEIRS = {
    "in": "inch", "ft": "foot", "nmi": "nautical_mile", "lb": "pound", "oz": "ounce", "t": "metric_ton", "lbf": "pound_force", "psi": "psi", "bar": "bar", "hp": "horsepower",
    "kt": "knot", "mph": "mile_per_hour", "US gal": "gallon", "US qt": "quart", "imp gal": "imperial_gallon", "BTU": "Btu_it", "Ah": "ampere_hour", "deg": "degree",
    "cmil": "circular_mil", "g_n": "standard_gravity",
}  # fmt: skip
THEIR_REGISTRY = pint.UnitRegistry()


@pytest.mark.parametrize("symbol", sorted(EXACT))
def test_a_defined_factor_is_exact(symbol: str) -> None:
    assert unit(symbol).factor == Decimal(EXACT[symbol])
    assert unit(symbol).offset == 0


@pytest.mark.parametrize("symbol", sorted(THEIRS))
def test_a_factor_agrees_with_the_definitions_shipped_with_pint(symbol: str) -> None:
    theirs = THEIR_REGISTRY.Quantity(1.0, THEIRS[symbol]).to_base_units()
    ours = unit(symbol)
    assert float(ours.factor) == pytest.approx(
        theirs.magnitude * (0.001 if "gram" in str(theirs.units) and "kilogram" not in str(theirs.units) else 1), rel=1e-9
    )


@given(st.decimals(min_value=-400, max_value=2000, places=3))
def test_fahrenheit_agrees_with_the_definitions_shipped_with_pint(degrees: Decimal) -> None:
    assert float(of(degrees, "°F").si) == pytest.approx(THEIR_REGISTRY.Quantity(float(degrees), "degF").to("kelvin").magnitude, rel=1e-12)


MAGNITUDES = st.decimals(min_value="-1e9", max_value="1e9", places=6)


@given(MAGNITUDES, st.sampled_from(sorted(EXACT)))
def test_there_and_back_changes_nothing(magnitude: Decimal, symbol: str) -> None:
    there = of(magnitude, symbol)
    assert from_si(there.si, symbol).magnitude == magnitude


@given(st.lists(st.tuples(st.decimals(min_value=-9999, max_value=9999, places=3), st.sampled_from(("lb", "kg", "oz", "g"))), min_size=1, max_size=12))
def test_sums_of_written_figures_are_exact_across_units(rows: list[tuple[Decimal, str]]) -> None:
    """Held against fractions: no digit is lost between pounds and kilograms."""
    total = PRECISION.create_decimal(0)
    for magnitude, symbol in rows:
        total = PRECISION.add(total, of(magnitude, symbol).si)
    assert Fraction(total) == sum(Fraction(magnitude) * Fraction(EXACT[symbol]) for magnitude, symbol in rows)


def test_the_published_sum_of_mixed_units() -> None:
    """EASA question bank 031, aeroplane on three jacks: kilograms with inches, 42054 kg and 28608218 kg·in (WB-W08)."""
    rows = [("6488 kg", "161 in"), ("17783 kg", "775 in"), ("17783 kg", "775 in")]
    moment = sum(read(weight, "mass").si * read(arm, "length").si for weight, arm in rows)
    assert from_si(moment, "kg·in").magnitude == 28608218
    assert sum(read(weight, "mass").magnitude for weight, _ in rows) == 42054


def test_a_unit_of_something_else_is_refused() -> None:
    with pytest.raises(QuantityError, match="cannot be told in V"):
        read("5 lb", "mass").to("V")


@given(st.floats(min_value=-1e9, max_value=1e9, allow_nan=False))
def test_a_float_is_taken_with_all_its_digits(value: float) -> None:
    assert float(of(value, "m").magnitude) == value
    assert float(from_si(value, "m").magnitude) == value


def test_quantities_can_be_compared_and_travel() -> None:
    import pickle

    found = read("31.5 lb", "mass")
    assert pickle.loads(pickle.dumps(found)) == found
    assert found == Quantity(Decimal("31.50"), unit("lb"))  # how it was written does not make it another
    assert found != read("31.5 kg", "mass")


@pytest.mark.parametrize(
    ("symbol", "times", "whole"), [("psi", "0.00064516", "4.4482216152605"), ("kt", "3600", "1852"), ("rpm", "60", "1"), ("Δ°F", "9", "5")]
)
def test_a_unit_that_is_a_quotient_is_held_to_fifty_digits(symbol: str, times: str, whole: str) -> None:
    """NIST Special Publication 811, appendix B.8: 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm, 1 knot = 1852 m/h, exactly."""
    assert abs(Fraction(unit(symbol).factor) * Fraction(times) / Fraction(whole) - 1) < Fraction(1, 10**48)
    assert len(unit(symbol).factor.as_tuple().digits) >= 49
