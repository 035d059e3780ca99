"""What a drawing shows, read back from its SVG with the widths of the shipped fonts: nothing here trusts the drawing's own reckoning."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from xml.etree import ElementTree

from fontTools.ttLib import TTFont

from liftout.documents.blocks import Figure
from liftout.documents.svg import check_svg
from liftout.figures.drawing import Drawing
from liftout.resources import folder

NS = "{http://www.w3.org/2000/svg}"
HAIR = 0.02
"""Two edges this near touch, in mm."""


@cache
def font(name: str) -> tuple[dict[int, str], dict[str, tuple[int, int]], int]:
    """Letters to glyphs, glyphs to widths, and units of an em, of a shipped font."""
    file = TTFont(folder("site") / "fonts" / f"{name}.ttf")
    return file.getBestCmap(), file["hmtx"].metrics, file["head"].unitsPerEm


def true_width(text: str, size: float, *, bold: bool) -> float:
    """Width of a text in the units of `size`, from the shipped font, or the mathematical one where the font lacks a letter."""
    total = 0.0
    for letter in text:
        for name in ("IBMPlexSans-Bold" if bold else "IBMPlexSans-Regular", "IBMPlexMath-Regular"):
            glyphs, widths, em = font(name)
            if ord(letter) in glyphs:
                total += widths[glyphs[ord(letter)]][0] / em
                break
    return total * size


@dataclass(frozen=True)
class Area:
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Area) -> bool:
        return self.left + HAIR < other.right and other.left + HAIR < self.right and self.top + HAIR < other.bottom and other.top + HAIR < self.bottom


@dataclass(frozen=True)
class Text:
    words: str
    size: float
    area: Area
    group: str
    at: tuple[float, float]
    bold: bool
    upwards: bool


@dataclass(frozen=True)
class Shape:
    kind: str
    values: dict[str, str]
    points: tuple[tuple[float, float], ...]
    group: str
    order: int

    def number(self, key: str) -> float:
        return float(self.values[key])


@dataclass(frozen=True)
class Seen:
    width: float
    height: float
    texts: list[Text]
    shapes: list[Shape]
    order: list[Text | Shape]
    cells: list[str]
    """Of the key below the drawing."""

    @property
    def words(self) -> list[str]:
        return [text.words for text in self.texts]

    @property
    def everything(self) -> str:
        return " ".join([*self.words, *self.cells])


def seen(drawing: Drawing | Figure) -> Seen:
    """Read a drawing back."""
    assert check_svg(drawing.svg) == ""
    root = ElementTree.fromstring(drawing.svg)
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    assert root.attrib["width"] == f"{root.attrib['viewBox'].split()[2]}mm"
    found = Seen(width, height, [], [], [], _cells(drawing))
    _walk(root, "", found)
    return found


def _cells(drawing: Drawing | Figure) -> list[str]:
    return [cell for row in drawing.key.rows for cell in row] if isinstance(drawing, Drawing) and drawing.key else []


def _walk(element: ElementTree.Element, group: str, found: Seen) -> None:
    for child in element:
        tag = child.tag.removeprefix(NS)
        if tag == "g":
            _walk(child, child.findtext(f"{NS}title") or "", found)
        elif tag == "text":
            found.texts.append(_text(child, group))
            found.order.append(found.texts[-1])
        elif tag not in ("title", "desc"):
            found.shapes.append(Shape(tag, dict(child.attrib), _corners(tag, child.attrib), group, len(found.order)))
            found.order.append(found.shapes[-1])


def _text(element: ElementTree.Element, group: str) -> Text:
    words, size = element.text or "", float(element.attrib["font-size"])
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    long = true_width(words, size, bold=element.attrib.get("font-weight") == "700")
    back = {"start": 0.0, "middle": long / 2, "end": long}[element.attrib.get("text-anchor", "start")]
    # Tall letters of the font reach 0.78 em, deep ones 0.22 em.
    area = Area(x - back, y - 0.78 * size, x - back + long, y + 0.22 * size)
    if "transform" in element.attrib:
        assert element.attrib["transform"] == f"rotate(-90 {element.attrib['x']} {element.attrib['y']})"
        area = Area(x - 0.78 * size, y + back - long, x + 0.22 * size, y + back)
    return Text(words, size, area, group, (x, y), element.attrib.get("font-weight") == "700", "transform" in element.attrib)


def _corners(tag: str, values: dict[str, str]) -> tuple[tuple[float, float], ...]:
    number = {key: float(value) for key, value in values.items() if re.fullmatch(r"-?[\d.]+", value)}
    match tag:
        case "line":
            return (number["x1"], number["y1"]), (number["x2"], number["y2"])
        case "rect":
            return (number["x"], number["y"]), (number["x"] + number["width"], number["y"] + number["height"])
        case "circle":
            return (number["cx"] - number["r"], number["cy"] - number["r"]), (number["cx"] + number["r"], number["cy"] + number["r"])
        case "polyline" | "polygon":
            pairs = (pair.split(",") for pair in values["points"].split())
            return tuple((float(x), float(y)) for x, y in pairs)
        case "path":
            numbers = re.findall(r"-?[\d.]+", re.sub(r"A\S+ \S+ 0 0 [01]", "", values["d"]))
            return tuple((float(x), float(y)) for x, y in zip(numbers[::2], numbers[1::2], strict=True))
    raise AssertionError(f"{tag} is drawn by nobody")


SMALLEST_MM = 9 * 25.4 / 72


def faults(drawing: Drawing | Figure) -> list[str]:
    """Texts that overlap, are hidden, are too small, or leave the drawing; shapes that leave it."""
    look = seen(drawing)
    found = []
    for number, text in enumerate(look.texts):
        if text.size < SMALLEST_MM - 0.001:
            found.append(f"{text.words!r} is smaller than 9 pt")
        if text.area.left < 0 or text.area.top < 0 or text.area.right > look.width or text.area.bottom > look.height:
            found.append(f"{text.words!r} leaves the drawing: {text.area}")
        found += [f"{text.words!r} overlaps {other.words!r}" for other in look.texts[:number] if text.area.overlaps(other.area)]
    for shape in look.shapes:
        for x, y in shape.points:
            if not (-HAIR <= x <= look.width + HAIR and -HAIR <= y <= look.height + HAIR):
                found.append(f"{shape.kind} of {shape.group!r} leaves the drawing at {x}, {y}")
        if shape.values.get("fill") in ("#fff", "#000") and shape.kind in ("rect", "circle", "polygon"):
            (left, top), (right, bottom) = _bounds(shape)
            cover = Area(left, top, right, bottom)
            found += [
                f"{t.words!r} is hidden by a {shape.kind} of {shape.group!r}"
                for t in look.order[: shape.order]
                if isinstance(t, Text) and t.area.overlaps(cover)
            ]
    return found


def _bounds(shape: Shape) -> tuple[tuple[float, float], tuple[float, float]]:
    xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
    return (min(xs), min(ys)), (max(xs), max(ys))
