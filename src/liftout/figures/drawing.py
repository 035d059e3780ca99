"""What a drawing is: a name, the SVG, a caption, words for whoever cannot see it, its scale, and a key."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Final, Literal

from liftout.figures.lettering import LINE
from liftout.figures.svg import Canvas, Lettering
from liftout.quantities import plain, rounded

WIDTH: Final = 168.0
"""Width of the text on a page, in mm: a drawing that wide prints at its own size."""

PAGE: Final = 200.0
"""Most height in mm of a drawing: the paper has room for it and its caption; a higher one would be made smaller, letters and scale with it."""

TITLE_BLOCK: Final = 3 * LINE + 3.0
"""Height in mm of a title block of three lines: see `title_block`."""

TALLEST: Final = PAGE - TITLE_BLOCK
"""Most height in mm of a drawing without its title block."""

FULL_SIZE: Final = "1:1"
NOT_TO_SCALE: Final = "not to scale"


@dataclass(frozen=True)
class Key:
    """What the marks, letters and numbers of a drawing stand for, with names in full: a table that stands below it."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    alignment: tuple[Literal["left", "right"], ...]
    caption: str

    @property
    def in_words(self) -> str:
        """The table as sentences, for whoever cannot see the drawing."""
        heads = ("", "", *(f"{head.lower()} " for head in self.head[2:]))
        return " ".join(f"{row[0]}: {', '.join(head + cell for head, cell in zip(heads[1:], row[1:], strict=True) if cell)}." for row in self.rows)


@dataclass(frozen=True)
class Drawing:
    """A drawing, ready to be placed; its number is given by the document that shows it."""

    name: str
    svg: str
    caption: str
    alternative: str
    scale: str
    """As "1:12.5", or "not to scale"."""
    key: Key | None = None
    texts: tuple[Lettering, ...] = field(default=(), repr=False)
    """Every text and the room it takes, for whoever wants to see that none hides another."""


def drawing(canvas: Canvas, name: str, caption: str, alternative: str, scale: str = NOT_TO_SCALE, key: Key | None = None) -> Drawing:
    """What was drawn on the canvas, with its words; its name becomes one that a file could have."""
    name = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    return Drawing(name, canvas.svg(caption, alternative), caption, alternative, scale, key, tuple(canvas.texts))


def to_scale(mm_per_mm: float) -> str:
    """The scale of a drawing of which one mm is that much paper, to three digits."""
    if mm_per_mm <= 1:
        return f"1:{plain(rounded(Decimal(1) / Decimal(repr(mm_per_mm)), 3).normalize())}"
    return f"{plain(rounded(Decimal(repr(mm_per_mm)), 3).normalize())}:1"
