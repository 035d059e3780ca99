"""Marks that differ in shape and in filling, and the letters that go with them."""

from __future__ import annotations

from typing import Final

from liftout.figures.placing import Point
from liftout.figures.svg import FIRM, Canvas

_SHAPES: Final[tuple[tuple[Point, ...], ...]] = (
    (),  # a circle
    ((-1.3, -1.3), (1.3, -1.3), (1.3, 1.3), (-1.3, 1.3)),
    ((0, -1.6), (1.6, 1.2), (-1.6, 1.2)),
    ((0, -1.8), (1.8, 0), (0, 1.8), (-1.8, 0)),
    ((0, 1.6), (1.6, -1.2), (-1.6, -1.2)),
)
"""Circle, square, triangle, diamond, triangle on its point: corners in mm about the middle."""


def mark(canvas: Canvas, at: Point, number: int) -> None:
    """The mark of that number about a point: five shapes, first open, then filled, then open with a dot."""
    corners = _SHAPES[number % len(_SHAPES)]
    filling = number // len(_SHAPES) % 3
    fill = "#000" if filling == 1 else "#fff"
    if corners:
        canvas.polygon([(at[0] + x, at[1] + y) for x, y in corners], FIRM, fill)
    else:
        canvas.circle(at, 1.5, FIRM, fill)
    canvas.circle(at, 0.3, None, "#fff" if filling == 1 else "#000")


def letters(number: int) -> str:
    """A, B ... Z, AA, AB ..."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def centre_of_gravity(canvas: Canvas, at: Point, radius: float = 1.4) -> None:
    """The usual sign: a circle with two opposite quarters filled."""
    canvas.circle(at, radius, FIRM, "#fff")
    canvas.sector(at, radius, 0)
    canvas.sector(at, radius, 180)
