"""A measured value against its acceptance value, which is read as the checklist prints it: what is compared is what the inspector saw."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Final

from liftout.quantities import UNIT_OF, Quantity, QuantityError, read


class Standing(StrEnum):
    """How a line of the checklist stands once the record is compared with it."""

    WITHIN = "within"
    OUTSIDE = "outside"
    DIFFERS = "differs, no tolerance is said"
    SEEN = "seen, not measured"
    FAILED = "does not conform, as the inspector says"
    DECLINED = "not applicable"
    MISSING = "missing"


_BOUND: Final = re.compile(r"(at least|at most) (.+?)( \(to confirm: [^)]*\))?")
_RANGE: Final = re.compile(r"(.+?) to (.+)")
_EXPECTED: Final = re.compile(r"expected (.+?)(?:, within (.+))?")


def compare(acceptance: str, measured: str, tolerance: Quantity | None = None) -> tuple[Standing, str]:
    """A measured value against an acceptance value, both as text.

    Args:
        acceptance: as the checklist prints it: "at most 0.5 V", "24 V to 28.6 V", "expected 31.5 lb, within 0.5 lb".
        measured: as the record says it.
        tolerance: what the job says of an expected value.

    Returns:
        How it stands, and the comparison in words. What is no such acceptance value is left to the inspector.
    """
    if bound := _BOUND.fullmatch(acceptance):
        limit = quantity_in(bound[2])
        value = quantity_in(measured, limit)
        if limit is None or value is None:
            return Standing.SEEN, _not_compared(limit, measured)
        within = value.si >= limit.si if bound[1] == "at least" else value.si <= limit.si
        return _within(within), f"{measured} against {bound[1]} {bound[2]}"
    if expected := _EXPECTED.fullmatch(acceptance):
        return _against_expected(expected[1], measured, tolerance)
    if span := _RANGE.fullmatch(acceptance):
        least, most = quantity_in(span[1]), quantity_in(span[2])
        value = quantity_in(measured, least)
        if least is not None and most is not None and value is not None:
            return _within(least.si <= value.si <= most.si), f"{measured} against {acceptance}"
    return Standing.SEEN, "as the inspector says"


def _against_expected(expected: str, measured: str, tolerance: Quantity | None) -> tuple[Standing, str]:
    wanted = quantity_in(expected)
    if wanted is None:
        same = " ".join(expected.split()).casefold() == " ".join(measured.split()).casefold()
        return _within(same), f"{measured} against {expected}"
    value = quantity_in(measured, wanted)
    if value is None:
        return Standing.OUTSIDE, f'"{measured}" cannot be compared with {expected}: write one value with its unit'
    apart = abs(value.si - wanted.si)
    if tolerance is not None:
        return _within(apart <= abs(tolerance.si)), f"{measured} against {expected} within {tolerance}"
    return (Standing.WITHIN, f"{measured}, as expected") if apart == 0 else (Standing.DIFFERS, f"{measured} against {expected}; no tolerance is said")


def _within(yes: bool) -> Standing:
    return Standing.WITHIN if yes else Standing.OUTSIDE


def _not_compared(limit: Quantity | None, measured: str) -> str:
    return "as the inspector says" if limit is None else f'"{measured}" is no such quantity; the inspector\'s result stands'


_PRINTED: Final = {"\u2212": "-", "²": "^2", "³": "^3", "Ω": "ohm", "\u2126": "ohm", "\u00a0": " "}


def as_written(text: str) -> str:
    """A quantity as a job writes it, from one as papers print it: a person copies "−7 in", "3 mΩ" or "30 lb/ft²" from the page."""
    plain = text.strip()
    for printed, written in _PRINTED.items():
        plain = plain.replace(printed, written)
    return re.sub(r"(?<=[0-9]) ?°$", " deg", plain)


def quantity_in(text: str, like: Quantity | None = None) -> Quantity | None:
    """The quantity that a text is, of whatever dimension; with `like`, of the same one; None where it is none."""
    plain = as_written(text)
    for dimension in UNIT_OF:
        try:
            found = read(plain, dimension)
        except QuantityError:
            continue
        if like is None or found.dimension == like.dimension:
            return found
    return None
