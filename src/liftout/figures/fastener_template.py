"""Drill templates of the brackets' fasteners at their own size, about their centroid."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from liftout.facts import Fact, Facts, Missing
from liftout.facts.doublers import SEEN
from liftout.facts.structure import AWAY, Bracket
from liftout.figures.amounts import said
from liftout.figures.drawing import WIDTH, Drawing, drawing
from liftout.figures.full_size import HEAD, MEASURE_FIRST, SENSE, TALLEST, check_bars, height, hole_cross, notes_of, write_notes
from liftout.figures.placing import Point
from liftout.figures.svg import CHAIN, HEAVY, Canvas
from liftout.tables import table

WIDEST: Final = 140.0
"""Most paper that a pattern takes across, beside the upright bar."""

BEYOND: Final = 10.0
"""How far the centre lines lead beyond the outermost fasteners, in mm."""


class _Holes(NamedTuple):
    """The holes of a bracket in mm from their centroid, as whoever looks at the sheet sees them."""

    holes: tuple[tuple[str, Point], ...]
    radius: float
    to_the_right: str
    upwards: str
    where: str

    @property
    def spans(self) -> Point:
        """How far the holes reach in all, across and up."""
        return tuple(max(p[axis] for _, p in self.holes) - min(p[axis] for _, p in self.holes) for axis in (0, 1))  # type: ignore[return-value]


def fastener_templates(facts: Facts) -> list[Drawing]:
    """One for each bracket with two fasteners or more that fit on a page; what goes through a pressure hull is left to its own data."""
    found = []
    for bracket in facts.brackets:
        holes = _holes(bracket)
        if holes is not None and not bracket.in_pressure_hull and holes.spans[0] <= WIDEST and _tall(holes) <= TALLEST:
            found.append(fastener_template(bracket, holes))
    return found


def _holes(bracket: Bracket) -> _Holes | None:
    diameter = _diameter(bracket)
    if len(bracket.fasteners) < 2 or diameter is None or isinstance(bracket.lies, Missing):
        return None
    across, right, up, upwards = SEEN[AWAY[bracket.lies.value]]
    places = []
    for one in bracket.fasteners:
        spot = {name: getattr(one.at, name) for name in ("arm", "lateral", "height")}
        if not all(isinstance(value, Fact) for value in spot.values()):
            return None
        places.append((one.name, {name: value.value for name, value in spot.items()}))
    unit = places[0][1][across].unit
    middle = {name: math.fsum(float(place[name].to(unit.symbol)) for _, place in places) / len(places) for name in ("arm", "lateral", "height")}
    mm = float(unit.factor) * 1000
    points = tuple(
        (name, ((float(place[across].to(unit.symbol)) - middle[across]) * mm * right, (float(place[up].to(unit.symbol)) - middle[up]) * mm * upwards))
        for name, place in places
    )
    where = ", ".join(f"{name} {value:.3f}".rstrip("0").rstrip(".").replace("-", "\u2212") + f" {unit.symbol}" for name, value in middle.items())
    return _Holes(points, diameter / 2, SENSE[across][right > 0], SENSE[up][upwards > 0], where)


def _diameter(bracket: Bracket) -> float | None:
    """Of the hole of a rivet, else of the bolt or screw itself, in mm."""
    if isinstance(bracket.fastener, Missing) or isinstance(bracket.size, Missing):
        return None
    if bracket.fastener.value not in ("rivet", "bolt"):
        return bracket.diameter.value.si_float * 1000 if isinstance(bracket.diameter, Fact) else None
    name, column = ("rivet_holes", "hole") if bracket.fastener.value == "rivet" else ("bolts", "diameter")
    row = next((row for row in table(name) if row.key == bracket.size.value), None)
    quantity = row.cells[column].quantity if row is not None else None
    return None if quantity is None else quantity.si_float * 1000


def _tall(holes: _Holes) -> float:
    return height(holes.spans[1] + 2 * BEYOND, _notes(holes))


def _notes(holes: _Holes) -> list[str]:
    face = "Seen by whoever looks at the sheet on the side of the bracket; laid on from the other side it is mirrored."
    return notes_of(f"Centre datum: centroid of the fasteners, {holes.where}.", face)


def fastener_template(bracket: Bracket, holes: _Holes) -> Drawing:
    """Crosses at the fasteners, at their own size, with their names."""
    notes = _notes(holes)
    canvas = Canvas(WIDTH, _tall(holes))
    check_bars(canvas)
    reach = [max(abs(p[axis]) for _, p in holes.holes) + BEYOND for axis in (0, 1)]
    middle = (WIDTH / 2 - 4, HEAD + 4 + max(reach[1], 8.0))
    canvas.line((middle[0] - reach[0], middle[1]), (middle[0] + reach[0], middle[1]), CHAIN)
    canvas.line((middle[0], middle[1] - reach[1]), (middle[0], middle[1] + reach[1]), CHAIN)
    canvas.text((middle[0], middle[1] - reach[1] - 1.2), holes.upwards, anchor="middle", bold=True)
    canvas.text((middle[0] + reach[0] + 3.2, middle[1]), holes.to_the_right, anchor="middle", bold=True, upwards=True)
    canvas.circle(middle, 1.2, HEAVY, "#fff")
    for name, (x, y) in holes.holes:
        hole_cross(canvas, (middle[0] + x, middle[1] - y), holes.radius)
        canvas.text((middle[0] + x + holes.radius + 0.8, middle[1] - y - holes.radius - 0.6), name)
    write_notes(canvas, notes)
    what = f"{said(bracket.fastener)} {said(bracket.size)}"
    title = f"Drill template of the {bracket.name}: {what}. Print at full size: 168 mm wide."
    return drawing(canvas, f"holes-{bracket.name}", title, f"{title} {len(holes.holes)} holes about their centroid. {' '.join(MEASURE_FIRST)}")
