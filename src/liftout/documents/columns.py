"""How wide the columns of a printed table are, and how high its rows: by the widths of the shipped font, in mm.

A column is as wide as its longest word, a number with its unit being one. What is left of the line goes where the text is, so that no column
of sentences stands one word wide beside columns that are half empty.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from typing import Final

from liftout.documents.unparted import JOINER, unparted
from liftout.figures import lettering

LINE: Final = 168.0
"""Width of the text area of A4, in mm; other papers are no narrower."""
LEADING: Final = 1.2
"""From line to line in a table, in ems."""
_HIGHEST_WORDS: Final = (48.0, 40.0, 32.0, 26.0, 20.0, 15.0)
"""Widest words in mm that a column makes room for, each where the one before leaves no room for other columns: a longer one is broken."""


@dataclass(frozen=True, slots=True)
class Hand:
    """Size of letters in points, and what a cell leaves free at its sides and above and below its text, in mm."""

    size: float
    beside: float
    above: float

    def lines(self, text: str, room: float) -> int:
        """Lines of `text` in a cell of a width."""
        return _lines(text, room - self.beside, self.size)

    def height(self, lines: int) -> float:
        """Height of a row of so many lines."""
        return lines * self.size * lettering.MM_PER_POINT * LEADING + self.above


@dataclass(frozen=True, slots=True)
class Words:
    """What stands in a cell, and whether some of it is bold or of one width."""

    text: str
    bold: bool = False
    mono: bool = False

    def width(self, size: float) -> float:
        """In one line."""
        return _width(self.text, size, self.bold, self.mono)

    def longest(self, size: float, widest: float) -> float:
        """Its longest word; one that is no number counts as no longer than `widest`, and is broken."""
        wide = [(word, _width(word, size, self.bold, self.mono)) for word in unparted(self.text).split(" ")]
        return max(found if _NUMBER.fullmatch(word) else min(found, widest) for word, found in wide)


TABLE: Final = Hand(9.0, 9.6 * lettering.MM_PER_POINT, 7.2 * lettering.MM_PER_POINT)
TIGHT: Final = Hand(8.5, 7.2 * lettering.MM_PER_POINT, 4.4 * lettering.MM_PER_POINT)
"""As `ruled` of docket.typ sets them."""
CHECKED: Final = Hand(9.0, 7.0 * lettering.MM_PER_POINT, 9.0 * lettering.MM_PER_POINT)
"""As its checklists are set."""


def widths(rows: Sequence[Sequence[Words]], hand: Hand = TABLE, line: float = LINE) -> list[int]:
    """Width of each column in tenths of a mm, or 0 for each where all texts fit side by side.

    What is left of the line beside the longest words goes where it makes the table lowest: the row is as high as its highest cell.
    """
    whole, least = _least(rows, hand, line)
    if sum(whole) <= line:
        return [0] * len(whole)
    if sum(least) >= line:
        return [round(10 * wide) for wide in least]
    texts = [[cell.width(hand.size) for cell in row] for row in rows]
    return [round(10 * (room + hand.beside)) for room in _lowest(texts, [wide - hand.beside for wide in least], line - sum(least))]


def has_room(rows: Sequence[Sequence[Words]], hand: Hand = TABLE) -> bool:
    """Whether no word has to be broken for the columns to stand side by side."""
    least: list[float] = [max(cell.longest(hand.size, _HIGHEST_WORDS[0]) for cell in column) + hand.beside for column in zip(*rows, strict=True)]
    return sum(least) <= LINE


def _least(rows: Sequence[Sequence[Words]], hand: Hand, line: float) -> tuple[list[float], list[float]]:
    """Width that each column takes with all its texts in one line, and with its longest word alone."""
    columns = [*zip(*rows, strict=True)]
    whole = [max(cell.width(hand.size) for cell in column) + hand.beside for column in columns]
    least: list[float] = []
    for widest in _HIGHEST_WORDS:
        least = [max(cell.longest(hand.size, widest) for cell in column) + hand.beside for column in columns]
        if sum(least) <= line:
            break
    return whole, least


_STEPS: Final = (12.0, 6.0, 3.0, 1.5)
"""By how much in mm columns are tried wider and narrower."""
_LOSS: Final = 1.1
"""A line ends before its room does: texts take so many times the lines that they would fill."""


def _lowest(texts: Sequence[Sequence[float]], least: Sequence[float], left: float) -> list[float]:
    """Rooms of columns with what is left shared out, so that the rows are about as low as they can be.

    Args:
        texts: widths of the texts in one line, row by row.
        least: room that each column needs.
        left: what is left beside those.
    """
    count = len(least)
    wish = [sum(row[at] for row in texts) for at in range(count)]
    rooms = [have + left * wished / (sum(wish) or 1.0) for have, wished in zip(least, wish, strict=True)]

    def height(rooms: Sequence[float]) -> float:
        # The part of a line that is left over counts a little, so that a step that does not yet save a line is still told from its contrary.
        each = [[text * _LOSS / room for text, room in zip(row, rooms, strict=True)] for row in texts]
        return sum(ceil(max(lines)) + max(lines) / 8 for lines in each)

    now = height(rooms)
    for step in _STEPS:
        for _ in range(_STEPS_MOST):
            tried = [
                [room + step * ((at == to) - (at == of)) for at, room in enumerate(rooms)]
                for of in range(count)
                for to in range(count)
                if of != to and rooms[of] - step >= least[of]
            ]
            found = min(((height(one), one) for one in tried), default=(now, rooms))
            if found[0] >= now:
                break
            now, rooms = found
    return rooms


_STEPS_MOST: Final = 12


def fitted(text: str, room: float, size: float = TABLE.size) -> str:
    """`text` with places to break in each word that is wider than its room in mm; a number is not broken."""
    words = [_broken(word, room, size) for word in unparted(text).split(" ")]
    return " ".join(words)


_NUMBER: Final = re.compile("[+−±≈-]?\u00a0?[0-9][0-9.,/]{0,20}(?:\u00a0.{1,16})?")
"""A number, with its unit where it has one."""
_ROUNDED: Final = 0.06
"""By how much in mm a column may be narrower than it was found to be: its width is told in tenths."""
_UNSEEN: Final = re.compile(f"[\u200b{JOINER}]")
_MONO: Final = 0.56
"""Width of a letter where all are of one width, in ems of the text around it."""


def _broken(word: str, room: float, size: float) -> str:
    wide = _width(word, size)
    if wide <= room + _ROUNDED or _NUMBER.fullmatch(word):
        return word
    return "\u200b".join(_pieces(word, max(4, int(len(word) * room / wide * 0.9))))


def _pieces(word: str, longest: int) -> list[str]:
    """A word behind its strokes, points and hyphens, and anywhere where that is not enough."""
    pieces = [""]
    for letter in word:
        if len(pieces[-1]) >= longest or (pieces[-1][-1:] in "/._:,;-" and pieces[-1] and letter not in "/._:,;-"):
            pieces.append("")
        pieces[-1] += letter
    return pieces


@lru_cache(maxsize=8192)
def _width(text: str, size: float, bold: bool = False, mono: bool = False) -> float:
    printed = _UNSEEN.sub("", unparted(text)).replace("\u00a0", " ")
    wide = lettering.width(printed, size, bold=bold)
    return max(wide, len(printed) * _MONO * size * lettering.MM_PER_POINT) if mono else wide


@lru_cache(maxsize=8192)
def _lines(text: str, room: float, size: float) -> int:
    """Lines of `text`, no fewer than it prints."""
    if _width(text, size) <= room:
        return 1
    count, at = 1, 0.0
    space = _width(" ", size)
    for word in unparted(text).split(" "):
        wide = _width(word, size)
        if at and at + space + wide > room:
            count, at = count + 1, 0.0
        at = at + space + wide if at else wide
        if wide > room:
            extra = int(wide / (room * 0.8)) + 1
            count, at = count + extra, room
    return count
