"""Sheets of a template, joined by what is printed on them: where each hole lies from the centre datum."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

import pytest

from liftout.figures.drawing import Drawing
from tests.figures.seen import seen

_PLACE = re.compile(r"(R\d+) ([\d.]+) (right|left), ([\d.]+) (up|down)")


def marks(drawing: Drawing) -> dict[str, tuple[tuple[float, float], tuple[float, float]]]:
    """Of each mark of registration where it is drawn on the sheet, and where the words say that it lies from the centre datum, upwards."""
    look = seen(drawing)
    said = {
        name: (float(x) * (1 if way == "right" else -1), float(y) * (1 if up == "up" else -1))
        for name, x, way, y, up in _PLACE.findall(" ".join(look.words))
    }
    drawn = {
        shape.group.removeprefix("registration "): (shape.number("x") + shape.number("width") / 2, shape.number("y") + shape.number("height") / 2)
        for shape in look.shapes
        if shape.kind == "rect" and shape.group.startswith("registration ")
    }
    assert said.keys() == drawn.keys()
    return {name: (drawn[name], said[name]) for name in drawn}


def datum(drawing: Drawing) -> tuple[float, float]:
    """Where the centre datum lies on the sheet, or beside it: by the circle that stands for it, else by the first mark."""
    circles = [shape for shape in seen(drawing).shapes if shape.kind == "circle" and shape.values["r"] == "1.2"]
    if circles:
        return circles[0].number("cx"), circles[0].number("cy")
    (x, y), (across, up) = next(iter(marks(drawing).values()))
    return x - across, y + up


def joined(drawing: Drawing, radius: float) -> list[tuple[float, float]]:
    """Holes of that radius from the centre datum, in mm to a hundredth: across, and up."""
    x, y = datum(drawing)
    return sorted(
        (round(shape.number("cx") - x, 2) + 0.0, round(y - shape.number("cy"), 2) + 0.0)
        for shape in seen(drawing).shapes
        if shape.kind == "circle" and shape.number("r") == pytest.approx(radius, abs=1e-3)
    )


def distinct(drawings: Sequence[Drawing], radius: float) -> list[tuple[float, float]]:
    """Holes of all sheets; one that stands on several sheets, once."""
    found: list[tuple[float, float]] = []
    for spot in (spot for drawing in drawings for spot in joined(drawing, radius)):
        if not any(math.dist(spot, other) < 0.05 for other in found):
            found.append(spot)
    return sorted(found)
