"""How a quantity is written: one number, one unit, the whole string, finite, and nothing else."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from importlib.resources import files

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from liftout.quantities import EXAMPLES, LARGEST, NUMBER, UNIT_OF, Quantity, QuantityError, plain, read, unit

UNITS = {
    "length": ("m", "mm", "cm", "in", "ft", "nmi"),
    "mass": ("kg", "g", "lb", "oz", "t"),
    "time": ("s", "min", "h"),
    "current": ("A", "mA"),
    "temperature": ("K", "°C", "°F", "degC"),
    "volume": ("L", "mL", "US gal", "imp gal", "US qt", "m^3", "in^3"),
    "area": ("m^2", "in^2", "ft²", "mm**2", "cmil"),
    "force": ("N", "daN", "kN", "lbf"),
    "pressure": ("Pa", "kPa", "bar", "mbar", "psi", "lbf/in^2"),
    "power": ("W", "kW", "hp", "BTU/h"),
    "moment": ("lb-in", "lb·in", "kg*m", "kg·mm"),
    "density": ("kg/m^3", "kg/L", "lb/US gal", "lb/ft^3"),
    "resistance per length": ("mohm/m", "mohm/ft", "Ω/m"),
    "number": ("", "%"),
}
WRITTEN = st.from_regex(r"\A[0-9]{1,9}(\.[0-9]{1,9})?\Z").filter(lambda text: Decimal(text) > 0)


@given(st.sampled_from([(name, symbol) for name, symbols in UNITS.items() for symbol in symbols]), WRITTEN, st.sampled_from(("", " ")))
def test_what_is_written_is_kept(told: tuple[str, str], number: str, blank: str) -> None:
    dimension, symbol = told
    text = f"{number}{blank}{symbol}"
    found = read(text, dimension)
    assert found.magnitude == Decimal(number)
    assert found.written == text.strip()
    assert found.dimension == unit(UNIT_OF[dimension]).dimension


@given(st.sampled_from([(name, symbol) for name, symbols in UNITS.items() for symbol in symbols]), WRITTEN, st.booleans())
def test_what_is_printed_is_read_back(told: tuple[str, str], number: str, negative: bool) -> None:
    dimension, symbol = told
    first = Quantity(Decimal(number) * (-1 if negative and dimension != "temperature" else 1), unit(symbol))
    again = read(str(first), dimension)
    assert again == first
    assert str(again) == str(first)


@given(st.integers(0, 999), st.integers(0, 6), st.integers(1, 63), st.sampled_from(("in", "ft")), st.booleans())
def test_fractions_are_halves_to_sixty_fourths(whole: int, power: int, upper: int, symbol: str, mixed: bool) -> None:
    lower = 2**power
    text = f"{whole} {upper}/{lower} {symbol}" if mixed else f"{upper}/{lower} {symbol}"
    if mixed and upper >= lower:
        with pytest.raises(QuantityError):
            read(text, "length")
        return
    assert Fraction(read(text, "length").magnitude) == Fraction(upper, lower) + (whole if mixed else 0)


@pytest.mark.parametrize("lower", [0, 3, 5, 10, 48, 100, 128])
def test_no_other_fractions(lower: int) -> None:
    with pytest.raises(QuantityError, match="halves to sixty-fourths"):
        read(f"1/{lower} in", "length")


def test_a_sign_may_be_a_true_minus() -> None:
    assert read("\u22123.5 in", "length").magnitude == Decimal("-3.5")
    assert read("- 3.5 in", "length").magnitude == Decimal("-3.5")
    assert read("+3.5 in", "length").magnitude == Decimal("3.5")


@pytest.mark.parametrize(
    "text",
    [
        "9**9**9 lb", "31,5 lb", "1,000 lb", "1 000 lb", "1e400 lb", "1e5 lb", "31.5 lb^0", "31.5 lb^9", "lb", "", " ", "31.5", "nan lb", "inf lb", "-inf lb", "NaN",
        "٣١.٥ lb", "３１ lb", "31² lb", "²lb", "Ⅻ lb", "½ lb", "0x10 lb", "1_0 lb", "5. lb", "5.5.5 lb", "--5 lb", "+-5 lb", "5 lb lb", "5 lb/lb", "5 LB", "5 lb#", "5 (lb)",
        "5 lb/(kg)", "5 lb**2", "5 lb; 6 lb", "5 lb\n6 lb", "5 lb\x00", "5\tlb", "5 l\u200bb", "5 lb\u202e", "__import__('os') lb", "5 lb.__class__", "5 lb + 1 lb", "5*6 lb",
        "5 lb-", "5 -lb", "5 /lb", "5 lb//kg", "5 lb/kg/m", "5 lb·", "5 kilo lb", "5 klb", "5 µlb", "5 lbm", "5 pounds of lead", "٥ lb", "1/0 lb", "3 11/8 lb", "31.5 lb 2 oz",
        "5 " + "lb·" * 30 + "lb", "1" * 16 + " lb", "1." + "0" * 16 + " lb", "1" * 70 + " lb", "1000000000001 lb", "5 [mass]", "5 dimensionless",
    ],
)  # fmt: skip
def test_hostile_texts_are_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read(text, "mass")
    assert caught.value.wrong
    assert "31.5 lb" in caught.value.right
    assert len(str(caught.value)) < 400


ODD = st.text(st.sampled_from("0123456789.,/-+−*^·%° \t\u00a0²⁻¹eE_()[]lbkgmAVΩµΔinftx٣½'\"\\$") | st.characters(), max_size=70)


@given(ODD, st.sampled_from(sorted(EXAMPLES)))
@example("9**9**9 lb", "mass")
@example("1/" * 30, "number")
@example("5 °C·in/in", "temperature")
def test_any_text_is_a_quantity_or_a_sentence(text: str, dimension: str) -> None:
    try:
        found = read(text, dimension)
    except QuantityError as error:
        assert error.wrong  # noqa: PT017 - either outcome is right, and each has its own test
        assert error.right  # noqa: PT017 - either outcome is right, and each has its own test
        return
    assert found.magnitude.is_finite()
    assert abs(found.magnitude) <= LARGEST
    assert found.dimension == unit(UNIT_OF[dimension]).dimension
    assert text.strip().isprintable()
    assert not [character for character in text if character.isdigit() and character not in "0123456789²³¹"]


def _offered() -> list[str]:
    """First names and symbols of units.txt."""
    lines = files("liftout").joinpath("units.txt").read_text(encoding="utf-8").splitlines()
    return [name.strip() for line in lines if line.strip() and not line.startswith("#") for name in line.replace(";", "=").split("=")[0:1]]


@given(st.text(st.characters(categories=("Ll", "Lu"), include_characters="°%ΩµΔ", max_codepoint=0x3C9), min_size=1, max_size=12))
def test_nothing_is_a_unit_but_what_stands_in_the_list(name: str) -> None:
    listed = files("liftout").joinpath("units.txt").read_text(encoding="utf-8")
    words = {word.strip() for line in listed.splitlines() if not line.startswith("#") for word in line.replace(";", "=").split("=")}
    try:
        unit(name)
    except QuantityError:
        return
    assert name in words or name in ("Δ°C", "Δ°F"), f"{name} is taken for a unit"


@pytest.mark.parametrize("prefixed", ["kA", "MV", "µV", "kin", "mft", "klb", "GPa", "MW", "ns", "km", "µm", "dm", "cL"])
def test_there_are_no_prefixes(prefixed: str) -> None:
    with pytest.raises(QuantityError, match="no such unit"):
        unit(prefixed)


def test_the_list_is_closed_and_short() -> None:
    assert 50 < len(_offered()) < 80


@pytest.mark.parametrize("dimension", sorted(EXAMPLES))
def test_each_example_is_one_and_each_refusal_shows_it(dimension: str) -> None:
    assert set(UNIT_OF) == set(EXAMPLES)
    found = read(EXAMPLES[dimension], dimension)
    assert found.dimension == unit(UNIT_OF[dimension]).dimension
    with pytest.raises(QuantityError) as caught:
        read("x", dimension)
    assert EXAMPLES[dimension] in caught.value.right


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("5 L", "length"),
        ("8 A", "voltage"),
        ("50 lbf", "mass"),
        ("50 lb", "force"),
        ("15 psi", "mass on an area"),
        ("4", "length"),
        ("4 in", "number"),
    ],
)
def test_what_measures_something_else_is_said_to(text: str, dimension: str) -> None:
    with pytest.raises(QuantityError, match=r"measures|has no unit"):
        read(text, dimension)


@pytest.mark.parametrize("text", ["5 gal", "5 gallons", "5 gallon", "2 qt", "6 lb/gal"])
def test_a_gallon_must_say_which(text: str) -> None:
    with pytest.raises(QuantityError, match='Say which gallon: "US gal" or "imp gal"'):
        read(text, "density" if "/" in text else "volume")


def test_the_two_gallons_are_two() -> None:
    """Defined values: 231 cubic inches, and 4.54609 litres."""
    assert read("1 US gal", "volume").to("in^3") == 231
    assert read("1 imp gal", "volume").to("L") == Decimal("4.54609")
    assert read("1 US qt", "volume").to("US gal") == Decimal("0.25")


@pytest.mark.parametrize("text", ["30 deg", "4 rad", "50 % %", "5 in/in", "5 lb/kg", "3 °", "5 %/%"])
def test_a_number_has_no_unit_but_per_cent(text: str) -> None:
    """An angle in place of a count is a slip that would be read as a fiftieth of it."""
    with pytest.raises(QuantityError):
        read(text, "number")


@pytest.mark.parametrize("text", ["4", "30 %", "1/2"])
def test_an_angle_says_its_unit(text: str) -> None:
    with pytest.raises(QuantityError):
        read(text, "angle")


def test_per_cent_is_a_hundredth() -> None:
    assert read("50 %", "number").si == Decimal("0.5")
    assert read("50%", "number").dimension == NUMBER


@pytest.mark.parametrize(
    ("text", "kelvin"),
    [("0 °C", "273.15"), ("20 degC", "293.15"), ("-40 °F", "233.15"), ("-40 °C", "233.15"), ("288.15 K", "288.15"), ("212 °F", "373.15")],
)
def test_temperatures(text: str, kelvin: str) -> None:
    assert abs(read(text, "temperature").si - Decimal(kelvin)) < Decimal("1e-20")


@pytest.mark.parametrize("text", ["-300 °C", "-273.16 °C", "-500 °F", "-1 K", "8 Δ°C", "20 °C*in/in", "20 C", "20"])
def test_what_is_no_temperature(text: str) -> None:
    with pytest.raises(QuantityError):
        read(text, "temperature")


@pytest.mark.parametrize("text", ["8 °C", "8 °F", "8 degC"])
def test_a_difference_of_temperatures_says_so(text: str) -> None:
    """8 °C read as a difference would be 281 K."""
    with pytest.raises(QuantityError):
        read(text, "temperature difference")
    assert read("8 Δ°C", "temperature difference").si == 8
    assert read("8 K", "temperature difference").si == 8


def test_in_a_product_a_degree_is_a_difference() -> None:
    assert read("0.0039 1/K", "temperature coefficient").si == Decimal("0.0039")
    assert read("3500 J/kg·K", "specific heat").si == read("3.5 kJ/kg·°C", "specific heat").si


def test_plain_prints_without_exponent_and_with_a_true_minus() -> None:
    assert plain(Decimal("1E+3")) == "1000"
    assert plain(Decimal("-1E-7")) == "\u22120.0000001"
