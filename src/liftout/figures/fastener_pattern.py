"""Fastener patterns of the brackets, each to its own scale in the plane of its joint, with the centroid and the centre of what it carries."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from liftout.facts import Fact, Facts
from liftout.facts.restraint import Spot
from liftout.facts.structure import AWAY, COORDINATE, COORDINATES, Bracket
from liftout.figures.amounts import among, on_scale, said
from liftout.figures.drawing import WIDTH, Drawing, drawing
from liftout.figures.keys import key, scale_bar
from liftout.figures.lettering import shortened
from liftout.figures.marks import centre_of_gravity
from liftout.figures.placing import Box, Point
from liftout.figures.svg import FIRM, THIN, Canvas
from liftout.quantities import unit

PANEL: Final = 80.0
"""Paper that one bracket takes across, in mm."""

TALL: Final = 62.0
PLOT: Final = (56.0, 26.0)
NAMED: Final = 8.0
"""Least distance on paper at which fasteners carry their names, in mm."""

WORDS: Final = {"arm": "aft", "lateral": "right", "height": "up"}
SEEN_FROM: Final = {("lateral", "arm"): "from above", ("height", "arm"): "from the left", ("height", "lateral"): "from behind"}
"""From where a plane is seen whose coordinates run so."""

CROSS: Final = 1.6


class _Panel(NamedTuple):
    """A bracket in its plane: names of both coordinates, unit, fasteners and centre of load."""

    bracket: Bracket
    across: str
    up: str
    unit: str
    fasteners: tuple[tuple[str, Point], ...]
    load: Point | None


def fastener_patterns(facts: Facts) -> list[Drawing]:
    """Sheets of four brackets each; a bracket without positions is left out."""
    panels = [panel for bracket in facts.brackets if (panel := _panel(bracket))]
    sheets = [panels[at : at + 4] for at in range(0, len(panels), 4)]
    return [_sheet(sheet, number) for number, sheet in enumerate(sheets, 1)]


def _panel(bracket: Bracket) -> _Panel | None:
    if not isinstance(bracket.lies, Fact) or not bracket.fasteners:
        return None
    normal = COORDINATE[AWAY[bracket.lies.value]]
    across, up = (name for name in COORDINATES if name != normal)
    told = among((getattr(one.at, across) for one in bracket.fasteners), "in")
    places = [(one.name, _point(one.at, across, up, told)) for one in bracket.fasteners]
    if any(place is None for _, place in places):
        return None
    return _Panel(
        bracket, across, up, told, tuple((name, place) for name, place in places if place is not None), _point(bracket.centre, across, up, told)
    )


def _point(spot: Spot, across: str, up: str, told: str) -> Point | None:
    x, y = (on_scale(getattr(spot, name), told) for name in (across, up))
    return None if x is None or y is None else (x, y)


def _sheet(panels: list[_Panel], number: int) -> Drawing:
    rows = math.ceil(len(panels) / 2)
    canvas = Canvas(WIDTH, rows * TALL + 9)
    for at, panel in enumerate(panels):
        _draw(canvas, panel, 2 + at % 2 * (PANEL + 4), 2 + at // 2 * TALL)
    key(
        canvas,
        2,
        rows * TALL + 4,
        ((_cross, "fastener"), (_centroid, "centroid of the fasteners"), (centre_of_gravity, "centre of what the bracket carries")),
    )
    title = f"Fastener patterns, sheet {number}, each to its own scale."
    words = " ".join(_words(panel) for panel in panels)
    return drawing(canvas, f"fasteners {number}", title, f"{title} {words}")


def _words(panel: _Panel) -> str:
    places = "; ".join(f"{name} {panel.across} {x:g}, {panel.up} {y:g} {panel.unit}" for name, (x, y) in panel.fasteners)
    return f"{panel.bracket.name}: {places}."


def _draw(canvas: Canvas, panel: _Panel, left: float, top: float) -> None:
    points = [place for _, place in panel.fasteners]
    shown = [*points, *([panel.load] if panel.load else [])]
    spans = [max(p[axis] for p in shown) - min(p[axis] for p in shown) for axis in (0, 1)]
    per_unit = min((room / span for room, span in zip(PLOT, spans, strict=True) if span > 0), default=float(unit(panel.unit).factor) * 1000)
    low = [min(p[axis] for p in shown) for axis in (0, 1)]
    start = (left + (PANEL - spans[0] * per_unit) / 2, top + 14 + (PLOT[1] + spans[1] * per_unit) / 2)

    def place(point: Point) -> Point:
        return start[0] + (point[0] - low[0]) * per_unit, start[1] - (point[1] - low[1]) * per_unit

    with canvas.group(panel.bracket.name):
        canvas.rectangle(Box(left, top, left + PANEL, top + TALL - 4), THIN)
        canvas.text((left + 2, top + 4.5), shortened(panel.bracket.name, PANEL - 4, 8.0, bold=True), bold=True)
        canvas.text(
            (left + 2, top + 8.5), f"{said(panel.bracket.fastener)} {said(panel.bracket.size)}, edge distance {said(panel.bracket.edge_distance)}"
        )
        canvas.text(
            (left + 2, top + TALL - 6),
            f"across: {panel.across}, {WORDS[panel.across]}; upwards: {panel.up}, {WORDS[panel.up]}; {SEEN_FROM[panel.up, panel.across]}",
        )
        middle = (math.fsum(p[0] for p in points) / len(points), math.fsum(p[1] for p in points) / len(points))
        if panel.load is not None:
            centre_of_gravity(canvas, place(panel.load))
        _centroid(canvas, place(middle))
        near = min((math.dist(place(a), place(b)) for n, a in enumerate(shown) for b in shown[:n]), default=NAMED)
        for name, point in panel.fasteners:
            _cross(canvas, place(point))
            if near >= NAMED:
                x, y = place(point)
                canvas.text((x + 1.8, y - 1.6), name)
        scale_bar(canvas, left + 6, top + TALL - 11, per_unit, panel.unit, longest=30.0)


def _cross(canvas: Canvas, at: Point) -> None:
    canvas.line((at[0] - CROSS, at[1]), (at[0] + CROSS, at[1]), FIRM)
    canvas.line((at[0], at[1] - CROSS), (at[0], at[1] + CROSS), FIRM)


def _centroid(canvas: Canvas, at: Point) -> None:
    canvas.circle(at, 1.2, THIN)
