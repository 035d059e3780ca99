"""What a person with a pocket calculator makes of a printed line: reads its text, puts in nothing else, and works it out.

Independent of `liftout.expression`: the text is cut into numbers with units, names of functions and signs, and worked
with fractions and exact unit factors.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal
from fractions import Fraction
from typing import Any

from liftout.quantities import Dimension, places, significant, times, unit

# A number, and after one blank a unit: letters, degree and percent signs, ·, superscripts, a stroke between units.
_PART = r"(?:Δ?°[CF]?|%|[A-Za-zΩµ]+)[²³]?(?:⁻¹)?"
_UNIT = rf"(?:US gal|imp gal|US qt|{_PART})(?:[·/](?:US gal|imp gal|{_PART}))*"
# A minus belongs to the number where nothing stands before it: -10 °C is 263.15 K, not the negative of 283.15 K.
_TOKEN = re.compile(rf"(?P<number>(?:(?:(?<=^)|(?<=\()|(?<=, ))−)?\d+(?:\.\d+)?)(?: (?P<unit>(?!sum\(|max\(|min\(){_UNIT})(?![\w(]))?")


class Amount:
    """A magnitude in SI with its dimension; adds only what is alike."""

    def __init__(self, si: Fraction, dimension: Dimension) -> None:
        self.si = si
        self.dimension = dimension

    def _alike(self, other: Amount) -> None:
        assert self.dimension == other.dimension, f"{self.dimension} and {other.dimension} are added"

    def __add__(self, other: Amount) -> Amount:
        self._alike(other)
        return Amount(self.si + other.si, self.dimension)

    def __sub__(self, other: Amount) -> Amount:
        self._alike(other)
        return Amount(self.si - other.si, self.dimension)

    def __neg__(self) -> Amount:
        return Amount(-self.si, self.dimension)

    def __mul__(self, other: Amount) -> Amount:
        return Amount(self.si * other.si, times(self.dimension, other.dimension))

    def __truediv__(self, other: Amount) -> Amount:
        return Amount(self.si / other.si, times(self.dimension, other.dimension, -1))

    def __pow__(self, other: Amount) -> Amount:
        assert not other.dimension
        if other.si == Fraction(1, 2):
            return root(self)
        assert other.si.denominator == 1
        power = int(other.si)
        return Amount(self.si**power, times((), self.dimension, power))


def root(of: Amount) -> Amount:
    """The square root."""
    assert all(exponent % 2 == 0 for _, exponent in of.dimension)
    return Amount(
        _fraction(Decimal(of.si.numerator).sqrt() / Decimal(of.si.denominator).sqrt()),
        tuple((name, exponent // 2) for name, exponent in of.dimension),
    )


def _fraction(value: Decimal | float) -> Fraction:
    return Fraction(value)


def _plain(function: Any) -> Any:
    def worked(of: Amount) -> Amount:
        assert not of.dimension, "a function of a number was given a unit"
        return Amount(_fraction(function(float(of.si))), ())

    return worked


FUNCTIONS: dict[str, Any] = {
    "sqrt": root,
    "abs": lambda of: Amount(abs(of.si), of.dimension),
    "max": lambda *of: max(of, key=lambda one: one.si),
    "min": lambda *of: min(of, key=lambda one: one.si),
    "ceil": _plain(math.ceil),
    "exp": _plain(math.exp),
    "ln": _plain(math.log),
    "log10": _plain(math.log10),
    "cos": _plain(math.cos),
    "sin": _plain(math.sin),
    "tan": _plain(math.tan),
    "asin": _plain(math.asin),
    "acos": _plain(math.acos),
    "pi": Amount(Fraction(math.pi), ()),
}


def _amount(number: str, symbol: str) -> Amount:
    told = unit(symbol)
    return Amount(Fraction(number.replace("\u2212", "-")) * Fraction(told.factor) + Fraction(told.offset), told.dimension)


def worked_out(text: str) -> Amount:
    """The value of a line of spoken text, for example `8 A × (2 × 36.37 mΩ + 4 × 1 mΩ)`."""
    amounts: list[Amount] = []

    def keep(match: re.Match[str]) -> str:
        amounts.append(_amount(match["number"], match["unit"] or ""))
        return f"_q[{len(amounts) - 1}]"

    # Names of functions hold digits too.
    guarded = text.replace("log10(", "logten(")
    program = _TOKEN.sub(keep, guarded).replace("×", "*").replace("−", "-").replace("^", "**")
    try:
        found = eval(program, {"__builtins__": {}}, {**FUNCTIONS, "logten": FUNCTIONS["log10"], "_q": amounts})
    except (NameError, SyntaxError, TypeError) as error:
        raise AssertionError(f"{text} is no line to reckon with: {error}") from None
    assert isinstance(found, Amount)
    return found


def rounds_to(found: Amount, number: str, symbol: str) -> bool:
    """Whether a result is printed as it rounds: half-up, to its decimals, or to four significant digits or more."""
    told = unit(symbol)
    assert found.dimension == told.dimension, f"comes in {found.dimension}, printed in {symbol or 'no unit'}"
    exact = (found.si - Fraction(told.offset)) / Fraction(told.factor)
    magnitude = Decimal(exact.numerator) / Decimal(exact.denominator)
    decimals = len(number.partition(".")[2])
    return places(magnitude, decimals) == number or any(significant(magnitude, digits) == number for digits in range(4, 25))
