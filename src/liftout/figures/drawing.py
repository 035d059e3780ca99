"""What a drawing is: a name, the SVG, a caption, and words for whoever cannot see it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final

from liftout.figures.svg import Canvas, Lettering

WIDTH: Final = 168.0
"""Width of the text on a page, in mm: a drawing that wide prints at its own size."""

TALLEST: Final = 204.0
"""Height in mm up to which a drawing is not made smaller to stand on a page with its caption."""


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
