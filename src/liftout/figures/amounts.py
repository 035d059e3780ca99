"""How a fact comes into a drawing: as the person wrote it, as a place on a scale, or as what is missing."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final

from liftout.facts import Amount, Fact, Missing
from liftout.quantities import Quantity, plain, rounded

UNKNOWN: Final = "?"
DIGITS: Final = 6
_NUMBER: Final = re.compile(r"[-+\u2212]?\s?(?:(?:\d+ )?\d+/\d+|\d*\.?\d+)")
"""The number of a written quantity: a decimal, a fraction, or a whole number and a fraction."""


def written(quantity: Quantity) -> str:
    """The quantity with its number as a person wrote it and its unit as findings print it; one that was worked out, to six significant digits."""
    if quantity.written:
        number = _NUMBER.match(quantity.written)
        text = f"{number[0].rstrip() if number else quantity.written} {quantity.unit.symbol}".rstrip()
        return f"\u2212{text[1:].lstrip()}" if text[0] == "-" else text
    return f"{plain(rounded(quantity.magnitude, DIGITS).normalize())} {quantity.unit.symbol}".rstrip()


def said(fact: Fact[Quantity] | Fact[str] | Missing) -> str:
    """What is printed for a fact: its value, or a question mark."""
    if isinstance(fact, Missing):
        return UNKNOWN
    return fact.value if isinstance(fact.value, str) else written(fact.value)


def among(amounts: Iterable[Amount], otherwise: str) -> str:
    """The unit in which the first of these was written; `otherwise` where none was."""
    return next((amount.value.unit.symbol for amount in amounts if isinstance(amount, Fact)), otherwise)


def on_scale(amount: Amount, unit: str) -> float | None:
    """Magnitude in `unit`, or None where the fact is missing."""
    return float(amount.value.to(unit)) if isinstance(amount, Fact) else None


def needed(fact: Fact[Quantity] | Fact[str] | Missing) -> str:
    """What must be done for a missing fact; nothing for one that is there."""
    return f"not assessed: {fact.what}" if isinstance(fact, Missing) else ""
