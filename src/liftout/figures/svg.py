"""One small SVG writer: black lines on white, in mm from the left and from the top of the drawing.

The same calls give the same bytes: numbers have one format, there are no identifiers, no times, no style sheets.
Weight and dashes of a line carry its meaning, never colour. Nothing is clipped by the viewer: lines are cut here,
so every reader of SVG shows the same.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final, Literal

from liftout.figures.lettering import ASCENT, DESCENT, FAMILY, LINE, MM_PER_POINT, SIZE_PT, width
from liftout.figures.placing import Box, Point

Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Pen:
    """A kind of line: weight in mm, dashes and gaps in mm."""

    weight: float
    dashes: tuple[float, ...] = ()


WEIGHTS: Final = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7)
"""The weights that are drawn, in mm, in the steps of a root of two of ISO 128-2 (from memory)."""

GRID: Final = Pen(0.13)
THIN: Final = Pen(0.18)
"""Leaders, dimensions, frames."""
FIRM: Final = Pen(0.35)
"""Edges that are seen: what comes out with the equipment."""
HEAVY: Final = Pen(0.7)
"""What bears or bounds: straps, skin, floor, limits, buses."""
DASHED: Final = Pen(0.35, (1.8, 1.0))
"""What stays in the aircraft, or lies behind."""
CHAIN: Final = Pen(0.25, (5.0, 1.2, 1.0, 1.2))
"""Long and short dashes: datums and centre lines."""
KEPT: Final = Pen(0.18, (0.8, 0.8))
"""Fine dashes: spaces that must stay clear."""
SECOND: Final = Pen(0.5, (2.4, 1.2))
"""Of two outlines of one kind the later one."""
DOTTED: Final = Pen(0.35, (0.6, 0.8))
"""A path in time."""
CUT: Final = Pen(0.25, (3.0, 1.0))
"""Where a sheet is cut."""

ARROW_LENGTH, ARROW_WIDTH = 2.2, 0.9


@dataclass(frozen=True, slots=True)
class Lettering:
    """A text that stands in a drawing, and the room it takes there."""

    text: str
    size_pt: float
    box: Box


def number(value: float) -> str:
    """A length or a place in mm, to the micrometre."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


_NOT_XML = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def escaped(text: str) -> str:
    """`text` for an XML document; a character that XML cannot hold becomes the replacement character."""
    text = _NOT_XML.sub("\ufffd", text)
    for sign, name in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        text = text.replace(sign, name)
    return text


class Canvas:
    """A drawing in the making."""

    def __init__(self, width_mm: float, height_mm: float, smallest_pt: float = SIZE_PT) -> None:
        self.width = width_mm
        self.height = height_mm
        self.smallest_pt = smallest_pt
        self.texts: list[Lettering] = []
        self._parts: list[str] = []

    # -- lines and areas --------------------------------------------------------------------------------------------

    def line(self, start: Point, end: Point, pen: Pen = THIN) -> None:
        """A straight line."""
        (x1, y1), (x2, y2) = start, end
        self._put("line", f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"{_stroke(pen)}')

    def polyline(self, points: Sequence[Point], pen: Pen = FIRM) -> None:
        """Straight lines from point to point."""
        self._put("polyline", f'points="{_points(points)}" fill="none"{_stroke(pen)}')

    def polygon(self, points: Sequence[Point], pen: Pen | None = FIRM, fill: str = "none") -> None:
        """A closed outline, filled or not."""
        self._put("polygon", f'points="{_points(points)}" fill="{fill}"{_stroke(pen)}')

    def rectangle(self, box: Box, pen: Pen | None = FIRM, fill: str = "none") -> None:
        """A rectangle."""
        size = f'x="{number(box.left)}" y="{number(box.top)}" width="{number(box.width)}" height="{number(box.height)}"'
        self._put("rect", f'{size} fill="{fill}"{_stroke(pen)}')

    def circle(self, centre: Point, radius: float, pen: Pen | None = FIRM, fill: str = "none") -> None:
        """A circle."""
        self._put("circle", f'cx="{number(centre[0])}" cy="{number(centre[1])}" r="{number(radius)}" fill="{fill}"{_stroke(pen)}')

    def arc(self, start: Point, end: Point, radius: float, pen: Pen = FIRM, *, clockwise: bool = True) -> None:
        """A circular arc of at most half a turn."""
        (x1, y1), (x2, y2) = start, end
        r = number(radius)
        self._put("path", f'd="M{number(x1)} {number(y1)}A{r} {r} 0 0 {int(clockwise)} {number(x2)} {number(y2)}" fill="none"{_stroke(pen)}')

    def sector(self, centre: Point, radius: float, degrees: float) -> None:
        """A filled quarter of a circle, from `degrees` (anticlockwise from the right) on."""
        ends = [(centre[0] + radius * math.cos(math.radians(at)), centre[1] - radius * math.sin(math.radians(at))) for at in (degrees, degrees + 90)]
        (x, y), (x1, y1), (x2, y2) = centre, *ends
        r = number(radius)
        self._put("path", f'd="M{number(x)} {number(y)}L{number(x1)} {number(y1)}A{r} {r} 0 0 0 {number(x2)} {number(y2)}Z" fill="#000"')

    def hatching(self, box: Box, spacing: float = 1.2, pen: Pen = THIN) -> None:
        """Lines at 45° over a rectangle, cut at its edges."""
        at = box.left - box.height
        while at < box.right:
            piece = box.piece_inside((at, box.bottom), (at + box.height, box.top))
            if piece and math.dist(*piece) > spacing / 4:
                self.line(*piece, pen)
            at += spacing

    def arrow(self, start: Point, end: Point, pen: Pen = THIN) -> None:
        """A line with a filled head at its end."""
        length = math.dist(start, end)
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        neck = (end[0] - along[0] * min(ARROW_LENGTH, length), end[1] - along[1] * min(ARROW_LENGTH, length))
        self.line(start, neck, pen)
        self._head(end, along)

    def _head(self, tip: Point, along: Point) -> None:
        back = (tip[0] - along[0] * ARROW_LENGTH, tip[1] - along[1] * ARROW_LENGTH)
        side = (-along[1] * ARROW_WIDTH / 2, along[0] * ARROW_WIDTH / 2)
        self.polygon((tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])), None, "#000")

    def dimension(self, start: Point, end: Point, words: str, size_pt: float = SIZE_PT) -> None:
        """A dimension line, level or upright, with its figure above it or, upright, to its left, reading upwards.

        Where the two heads have no room between the ends they stand outside and point inwards.
        """
        length = math.dist(start, end)
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length) if length else (1.0, 0.0)
        outward = 1 if length > 2.5 * ARROW_LENGTH else -1
        reach = 0.0 if outward == 1 else 2 * ARROW_LENGTH
        self.line(
            (start[0] - along[0] * reach, start[1] - along[1] * reach),
            (end[0] + along[0] * reach, end[1] + along[1] * reach),
        )
        self._head(start, (-along[0] * outward, -along[1] * outward))
        self._head(end, (along[0] * outward, along[1] * outward))
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        if abs(along[0]) > abs(along[1]):
            self.text((middle[0], middle[1] - 0.9), words, size_pt, anchor="middle")
        else:
            self.text((middle[0] - 0.9, middle[1]), words, size_pt, anchor="middle", upwards=True)

    # -- text -------------------------------------------------------------------------------------------------------

    def text(
        self,
        at: Point,
        words: str,
        size_pt: float = SIZE_PT,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
        upwards: bool = False,
    ) -> Box:
        """A line of text on its base line at `at`; `upwards` reads from below.

        Raises:
            ValueError: for a text smaller than can be read at half size.
        """
        if size_pt < self.smallest_pt:
            raise ValueError(f"text of {size_pt} pt cannot be read at half size; {self.smallest_pt} pt is the smallest")
        box = text_box(at, words, size_pt, anchor=anchor, bold=bold, upwards=upwards)
        if not words:
            return box
        self.texts.append(Lettering(words, size_pt, box))
        x, y = number(at[0]), number(at[1])
        turned = f' transform="rotate(-90 {x} {y})"' if upwards else ""
        weight = ' font-weight="700"' if bold else ""
        side = "" if anchor == "start" else f' text-anchor="{anchor}"'
        size = number(size_pt * MM_PER_POINT)
        self._parts.append(f'<text x="{x}" y="{y}" font-size="{size}"{weight}{side}{turned}>{escaped(words)}</text>')
        return box

    def label(self, room: Box, words: str, size_pt: float = SIZE_PT, *, bold: bool = False) -> None:
        """A text in the middle of its room (see `room_for`), on a white ground."""
        self.rectangle(room, None, "#fff")
        base = room.centre[1] + (ASCENT - DESCENT) / 2 * size_pt * MM_PER_POINT
        self.text((room.centre[0], base), words, size_pt, anchor="middle", bold=bold)

    # -- whole ------------------------------------------------------------------------------------------------------

    @contextmanager
    def group(self, title: str) -> Iterator[None]:
        """What is drawn inside belongs to one thing, whose whole name it carries."""
        self._parts.append(f"<g><title>{escaped(title)}</title>")
        yield
        self._parts.append("</g>")

    def svg(self, title: str, description: str) -> str:
        """The drawing as an SVG document."""
        w, h = number(self.width), number(self.height)
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" role="img" '
            f'font-family="{FAMILY}" stroke-linecap="butt" stroke-linejoin="miter">'
        )
        body = self.elements
        return f"{head}\n<title>{escaped(title)}</title>\n<desc>{escaped(description)}</desc>\n{body}\n</svg>\n"

    @property
    def elements(self) -> str:
        """What was drawn so far, as elements of SVG."""
        return "\n".join(self._parts)

    def lines(
        self, at: Point, words: Sequence[str], *, anchor: Anchor = "start", bold: bool = False, size_pt: float = SIZE_PT, pitch: float = LINE
    ) -> None:
        """Lines of text one below the other, the first on its base line at `at`."""
        for number, line in enumerate(words):
            self.text((at[0], at[1] + number * pitch), line, size_pt, anchor=anchor, bold=bold)

    def _put(self, element: str, attributes: str) -> None:
        self._parts.append(f"<{element} {attributes}/>")


def room_for(words: str, size_pt: float = SIZE_PT, *, bold: bool = False) -> tuple[float, float]:
    """Width and height of a label: the text and a little white around it."""
    box = text_box((0, 0), words, size_pt, bold=bold)
    return box.width + 0.8, box.height + 0.3


def text_box(at: Point, words: str, size_pt: float, *, anchor: Anchor = "start", bold: bool = False, upwards: bool = False) -> Box:
    """The room that a line of text takes."""
    em, long = size_pt * MM_PER_POINT, width(words, size_pt, bold=bold)
    back = {"start": 0.0, "middle": long / 2, "end": long}[anchor]
    if upwards:
        return Box(at[0] - ASCENT * em, at[1] + back - long, at[0] + DESCENT * em, at[1] + back)
    return Box(at[0] - back, at[1] - ASCENT * em, at[0] - back + long, at[1] + DESCENT * em)


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


def _stroke(pen: Pen | None) -> str:
    if pen is None:
        return ""
    dashes = f' stroke-dasharray="{" ".join(number(dash) for dash in pen.dashes)}"' if pen.dashes else ""
    return f' stroke="#000" stroke-width="{number(pen.weight)}"{dashes}'
