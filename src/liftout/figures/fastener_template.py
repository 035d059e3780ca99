"""Drill templates of the brackets' fasteners at their own size, about their centroid."""

from __future__ import annotations

import math
from typing import NamedTuple

from liftout.facts import Fact, Facts, Missing
from liftout.facts.doublers import SEEN
from liftout.facts.structure import AWAY, Bracket
from liftout.figures.amounts import said
from liftout.figures.drawing import Drawing
from liftout.figures.full_size import SENSE
from liftout.figures.placing import Point
from liftout.figures.template import Hole, Pattern, templates
from liftout.tables import table


class _Holes(NamedTuple):
    """The holes of a bracket in mm from their centroid, as whoever looks at the sheet sees them."""

    holes: tuple[tuple[str, Point], ...]
    radius: float
    to_the_right: str
    upwards: str
    where: str


def fastener_templates(facts: Facts) -> list[Drawing]:
    """One for each bracket with two fasteners or more, on as many sheets as it needs; what goes through a pressure hull is left to its own data."""
    return [
        made
        for bracket in facts.brackets
        if not bracket.in_pressure_hull and (holes := _holes(bracket)) is not None
        for made in fastener_template(bracket, holes)
    ]


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


def fastener_template(bracket: Bracket, holes: _Holes) -> list[Drawing]:
    """Crosses at the fasteners, at their own size, with their names."""
    pattern = Pattern(
        tuple(Hole(name, at, holes.radius) for name, at in holes.holes),
        (),
        holes.to_the_right,
        holes.upwards,
        (
            f"Centre datum: centroid of the fasteners, {holes.where}.",
            "Seen by whoever looks at the sheet on the side of the bracket; laid on from the other side it is mirrored.",
        ),
    )
    title = f"Drill template of the {bracket.name}: {len(holes.holes)} holes for {said(bracket.fastener)} {said(bracket.size)}"
    return templates(pattern, f"holes-{bracket.name}", title)
