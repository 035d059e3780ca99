"""What a drawing is: a name, the SVG, a caption, and words for whoever cannot see it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final

from liftout.figures.svg import Canvas, Lettering

WIDTH: Final = 168.0
"""Width of the text on a page, in mm: a drawing that wide prints at its own size."""

TALLEST: Final = 230.0
"""Height in mm that tables are fitted to. What is higher than 205 mm is made smaller to stand on a page with its caption: at this height letters
of 8 pt are still printed larger than 7 pt."""


@dataclass(frozen=True)
class Drawing:
    """A drawing, ready to be placed; its number is given by the document that shows it."""

    name: str
    svg: str
    caption: str
    alternative: str
    texts: tuple[Lettering, ...] = field(default=(), repr=False)
    """Every text and the room it takes, for whoever wants to see that none hides another."""


def drawing(canvas: Canvas, name: str, caption: str, alternative: str) -> Drawing:
    """What was drawn on the canvas, with its words; its name becomes one that a file could have."""
    name = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    return Drawing(name, canvas.svg(caption, alternative), caption, alternative, tuple(canvas.texts))
