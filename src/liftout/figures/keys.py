"""What the kinds of line and sign mean, and the bar that gives the scale."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from liftout.figures.drawing import WIDTH
from liftout.figures.lettering import LINE, SHIFT, width
from liftout.figures.placing import Point, around
from liftout.figures.scale import round_step
from liftout.figures.svg import FIRM, Canvas, Pen

Symbol = Callable[[Canvas, Point], None]
"""Draws a sign about a point."""

SIGN = 9.0
"""Paper that a sign takes, in mm."""

ROW = LINE + 1.6
"""From one row of signs to the next."""


def rows_of_key(entries: Sequence[tuple[Symbol, str]], room: float = WIDTH - 2.0) -> list[list[tuple[Symbol, str]]]:
    """The entries in as many rows as they need."""
    rows: list[list[tuple[Symbol, str]]] = []
    used = room
    for entry in entries:
        wide = entry_width(entry[1]) + 3.5
        if used + wide > room:
            rows.append([])
            used = 0.0
        rows[-1].append(entry)
        used += wide
    return rows


def key(canvas: Canvas, left: float, middle: float, entries: Sequence[tuple[Symbol, str]], *, room: float = WIDTH - 2.0) -> float:
    """Signs, each with its meaning to the right of it, in rows; how far down they reach, from the middle of the first row."""
    rows = rows_of_key(entries, room)
    for number, row in enumerate(rows):
        x, y = left, middle + number * ROW
        for sign, words in row:
            sign(canvas, (x + SIGN / 2, y))
            canvas.text((x + SIGN + 1.2, y + SHIFT), words)
            x += entry_width(words) + 3.5
    return ROW * len(rows)


def entry_width(words: str) -> float:
    """Paper that a sign and its meaning take."""
    return SIGN + 1.2 + width(words)


def outlined(pen: Pen) -> Symbol:
    """A small outline in that pen."""
    return lambda canvas, at: canvas.rectangle(around(at, 8, 3.4), pen)


def ruled(pen: Pen) -> Symbol:
    """A piece of line in that pen."""
    return lambda canvas, at: canvas.line((at[0] - 4.5, at[1]), (at[0] + 4.5, at[1]), pen)


def scale_bar(canvas: Canvas, left: float, base: float, mm_per_unit: float, unit: str, longest: float = 45.0) -> None:
    """A bar of two round lengths, at most `longest` mm, with its figures above it."""
    step, text = round_step(longest / mm_per_unit / 2, down=True)
    ends = [left + n * step * mm_per_unit for n in range(3)]
    canvas.line((ends[0], base), (ends[2], base), FIRM)
    for n, x in enumerate(ends):
        canvas.line((x, base - 1.2), (x, base), FIRM)
        words = ("0", text(step), f"{text(2 * step)} {unit}")[n]
        if n != 1 or step * mm_per_unit > 16:
            canvas.text((x, base - 2.0), words, anchor="start" if n == 2 else "middle")
