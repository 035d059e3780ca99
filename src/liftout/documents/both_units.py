"""Figures that a fitter, a pilot or an inspector reads, in both systems of units, in the order that the shop chose.

What was said stays digit for digit. What is converted carries the sign ≈, whichever of the two comes first, and a converted limit is
rounded to its safe side. Worksheets and drawings keep the units in which they were worked.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from typing import Final, Literal

from liftout.documents.blocks import (
    Alert,
    Block,
    Bullets,
    Checklist,
    Emphasis,
    Fields,
    Inline,
    Inlines,
    Paragraph,
    Steps,
    Strong,
    Table,
    Text,
)
from liftout.quantities import SYSTEMS, converted

First = Literal["SI", "imperial"]
PAPERS: Final = ("manual", "amendment", "checklist")
"""Documents that tell figures in both systems."""
ABOUT: Final = "≈\u00a0"

_UNITS: Final = "|".join(sorted((re.escape(symbol) for pairs in SYSTEMS.values() for symbol in pairs), key=len, reverse=True))
_FIGURE: Final = re.compile(
    rf"(?P<limit>\b(?:at most|at least|less than|more than|within)[ \u00a0])?(?P<difference>±[ \u00a0]?)?"
    rf"(?<![\w.,:/])(?P<number>[+−-]?(?:\d+[ \u00a0]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?))(?P<space>[ \u00a0])(?P<unit>{_UNITS})(?![\w·/²³^%°])"
)
_SAFE: Final = {"at most": "down", "less than": "down", "within": "down", "at least": "up", "more than": "up"}
_MAY_BE_A_WORD: Final = re.compile(r"\Z|[.,;:)×]|\s*×|\s+to\s+[−\d]|\s+(?:against|apart|away|long|wide|high)\b")
"""What follows a unit that is also an English word, where a plain space stands before it."""


def in_both_units(blocks: Iterable[Block], first: First | None) -> tuple[Block, ...]:
    """Blocks with their figures in both systems, those of `first` before the others; as they are where it is None."""
    return tuple(blocks) if first is None else tuple(_block(block, first) for block in blocks)


def _block(block: Block, first: First) -> Block:
    match block:
        case Paragraph(of):
            return Paragraph(_inlines(of, first))
        case Bullets(items) | Steps(items=items):
            return replace(block, items=tuple(tuple(_inside(inside, first) for inside in item) for item in items))
        case Alert(of=items):
            return replace(block, of=tuple(_inside(inside, first) for inside in items))
        case Table(rows=rows):
            return replace(block, rows=tuple(tuple(_inlines(cell, first) for cell in row) for row in rows))
        case Checklist(rows):
            return Checklist(
                tuple(
                    replace(row, item=both(row.item, first), method=both(row.method, first), acceptance=both(row.acceptance, first)) for row in rows
                )
            )
        case Fields(pairs):
            return Fields(tuple((label, both(value, first)) for label, value in pairs))
        case _:
            return block


def _inside(block: Paragraph | Bullets, first: First) -> Paragraph | Bullets:
    made = _block(block, first)
    assert isinstance(made, Paragraph | Bullets)
    return made


def _inlines(inlines: Inlines, first: First) -> Inlines:
    return tuple(_inline(inline, first) for inline in inlines)


def _inline(inline: Inline, first: First) -> Inline:
    match inline:
        case Text(text):
            return Text(both(text, first))
        case Strong(of):
            return Strong(_inlines(of, first))
        case Emphasis(of):
            return Emphasis(_inlines(of, first))
        case _:
            return inline


def both(text: str, first: First) -> str:
    """`text` with each figure in both systems."""
    return _FIGURE.sub(lambda found: _both(found, first), text)


def _both(found: re.Match[str], first: First) -> str:
    number, unit, limit = found["number"], found["unit"], found["limit"] or ""
    word = unit in ("in", "m", "g") and found["space"] == " " and not _MAY_BE_A_WORD.match(found.string, found.end())
    # A difference of temperatures is no temperature.
    if word or (unit in ("°C", "°F") and (found["difference"] or limit.startswith("within"))):
        return found[0]
    made = converted(number, unit, _SAFE.get(limit.strip(" \u00a0"), "nearest"))
    if made is None:
        return found[0]
    said = f"{number}{found['space']}{unit}"
    other = f"{ABOUT}{made[0]}\u00a0{made[1]}"
    one, two = (said, other) if unit in SYSTEMS["imperial" if first == "SI" else "SI"] else (other, said)
    return f"{limit}{found['difference'] or ''}{one} ({two})"
