"""How a fact comes into a drawing: as the person wrote it, as a place on a scale, or as what is missing."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from liftout.facts import Amount, Fact, Missing
from liftout.quantities import Quantity, plain, rounded

UNKNOWN: Final = "?"
DIGITS: Final = 6


def written(quantity: Quantity) -> str:
    """The quantity as a person wrote it; one that was worked out, to six significant digits."""
    if quantity.written:
        text = quantity.written
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
