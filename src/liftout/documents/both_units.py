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
    plain,
)
from liftout.quantities import SYSTEMS, Rounding, converted

First = Literal["SI", "imperial"]
PAPERS: Final = ("manual", "amendment", "checklist")
"""Documents that tell figures in both systems."""
ABOUT: Final = "≈\u00a0"

_UNITS: Final = "|".join(sorted((re.escape(symbol) for pairs in SYSTEMS.values() for symbol in pairs), key=len, reverse=True))
_FIGURE: Final = re.compile(
    rf"(?P<limit>\b(?:at most|at least|less than|more than|within|margin)[ \u00a0])?(?P<difference>±[ \u00a0]?)?"
    rf"(?<![\w.,:/])(?P<number>[+−-]?(?:\d+[ \u00a0]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?))(?P<space>[ \u00a0])(?P<unit>{_UNITS})(?![\w·/²³^%°])"
)
_SAFE: Final[dict[str, Rounding]] = {"at most": "down", "less than": "down", "within": "down", "margin": "down", "at least": "up", "more than": "up"}
_LEAST: Final = re.compile(r"\b(?:forward limit|least|minimum|lowest)\b", re.IGNORECASE)
_MOST: Final = re.compile(r"\b(?:limit|left|useful load|room|most|maximum|highest|may be loaded|allowed)\b", re.IGNORECASE)
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
        case Table(head, rows):
            sides = [_side(plain(cell)) for cell in head]
            return replace(block, rows=tuple(tuple(_inlines(cell, first, side) for cell, side in zip(row, sides, strict=True)) for row in rows))
        case Checklist(rows):
            return Checklist(
                tuple(
                    replace(row, item=both(row.item, first), method=both(row.method, first), acceptance=both(row.acceptance, first)) for row in rows
                )
            )
        case Fields(pairs):
            return Fields(tuple((label, both(value, first, _side(label))) for label, value in pairs))
        case _:
            return block


def _inside(block: Paragraph | Bullets, first: First) -> Paragraph | Bullets:
    made = _block(block, first)
    assert isinstance(made, Paragraph | Bullets)
    return made


def _inlines(inlines: Inlines, first: First, side: Rounding = "nearest") -> Inlines:
    return tuple(_inline(inline, first, side) for inline in inlines)


def _inline(inline: Inline, first: First, side: Rounding) -> Inline:
    match inline:
        case Text(text):
            return Text(both(text, first, side))
        case Strong(of):
            return Strong(_inlines(of, first, side))
        case Emphasis(of):
            return Emphasis(_inlines(of, first, side))
        case _:
            return inline


def _side(label: str) -> Rounding:
    """The safe side of figures under this head or label, where they are limits or what a limit leaves."""
    if _LEAST.search(label):
        return "up"
    return "down" if _MOST.search(label) else "nearest"


def both(text: str, first: First, side: Rounding = "nearest") -> str:
    """`text` with each figure in both systems; `side` is that of figures which do not say themselves that they are a limit."""
    return _FIGURE.sub(lambda found: _both(found, first, side), text)


def _both(found: re.Match[str], first: First, side: Rounding) -> str:
    number, unit, limit = found["number"], found["unit"], found["limit"] or ""
    word = unit in ("in", "m", "g") and found["space"] == " " and not _MAY_BE_A_WORD.match(found.string, found.end())
    # A difference of temperatures is no temperature.
    if word or (unit in ("°C", "°F") and (found["difference"] or limit.startswith(("within", "margin")))):
        return found[0]
    made = converted(number, unit, _SAFE.get(limit.strip(" \u00a0"), side))
    if made is None:
        return found[0]
    said = f"{number}\u00a0{unit}"
    other = f"{ABOUT}{'+' if number.startswith('+') else ''}{made[0]}\u00a0{made[1]}"
    one, two = (said, other) if unit in SYSTEMS["imperial" if first == "SI" else "SI"] else (other, said)
    return f"{limit}{found['difference'] or ''}{one} ({two})"
