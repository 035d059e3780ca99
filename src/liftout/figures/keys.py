"""What the kinds of line and sign mean, in one row, and the bar that gives the scale."""

from __future__ import annotations

from collections.abc import Sequence

from liftout.figures.legend import Symbol
from liftout.figures.lettering import MM_PER_POINT, width
from liftout.figures.scale import round_step
from liftout.figures.svg import FIRM, Canvas

SIZE_PT = 8.0
SIGN = 9.0
"""Paper that a sign takes, in mm."""


def key(canvas: Canvas, left: float, middle: float, entries: Sequence[tuple[Symbol, str]], *, down: float = 0.0) -> None:
    """Signs, each with its meaning to the right of it: side by side, or one `down` mm below the other."""
    for sign, words in entries:
        sign(canvas, (left + SIGN / 2, middle))
        canvas.text((left + SIGN + 1.2, middle + 0.29 * SIZE_PT * MM_PER_POINT), words, SIZE_PT)
        left += 0 if down else entry_width(words) + 3.5
        middle += down


def entry_width(words: str) -> float:
    """Paper that a sign and its meaning take."""
    return SIGN + 1.2 + width(words, SIZE_PT)


def scale_bar(canvas: Canvas, left: float, base: float, mm_per_unit: float, unit: str, longest: float = 45.0) -> None:
    """A bar of two round lengths, at most `longest` mm, with its figures above it."""
    step, text = round_step(longest / mm_per_unit / 2, down=True)
    ends = [left + n * step * mm_per_unit for n in range(3)]
    canvas.line((ends[0], base), (ends[2], base), FIRM)
    for n, x in enumerate(ends):
        canvas.line((x, base - 1.2), (x, base), FIRM)
        words = ("0", text(step), f"{text(2 * step)} {unit}")[n]
        if n != 1 or step * mm_per_unit > 14:
            canvas.text((x, base - 2.0), words, SIZE_PT, anchor="start" if n == 2 else "middle")
