"""What no line parts: a number and its unit, and a unit that is written with a stroke."""

from __future__ import annotations

import re
from typing import Final

from liftout.quantities import unit_names

JOINER: Final = "\u2060"
"""Stands where a line would break after a stroke; it has no width."""

_NAME: Final = "|".join(
    re.escape(name).replace(r"\ ", "[ \u00a0]") for name in sorted((name for name in unit_names() if name), key=len, reverse=True)
)
_ONE: Final = rf"(?:{_NAME})(?:[²³]|⁻¹)?"
_BETWEEN: Final = re.compile(
    rf"(?<=[0-9])[ \u00a0](?P<unit>{_ONE}(?:[·/]{_ONE})*)(?![\w°%])|(?<=[0-9]) (?=[0-9]+/[0-9]+(?![0-9]))|(?<=[±≈]) (?=[0-9])"
)


_SENTENCE: Final = re.compile("(?<=[^\\d\\s.±≈+−-])\u00a0(?=[^\\d+−])")
"""Between two words: a sentence may stand where a value was expected, and must be able to break."""


def unparted(text: str) -> str:
    """`text` with each number held to its unit, and a mixed fraction and a sign to their number; words are not held to each other."""
    return _BETWEEN.sub(lambda found: f"\u00a0{_held(found['unit'] or '')}", _SENTENCE.sub(" ", text))


def _held(unit: str) -> str:
    return unit.replace(" ", "\u00a0").replace("/", f"/{JOINER}")
