"""Fastener patterns of the brackets, each to its own scale in the plane of its joint, with the centroid and the centre of what it carries."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Final, NamedTuple

from liftout.facts import Fact, Facts
from liftout.facts.restraint import Spot
from liftout.facts.structure import AWAY, COORDINATE, COORDINATES, Bracket
from liftout.figures.amounts import among, on_scale, said
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing
from liftout.figures.keys import Symbol, key, scale_bar
from liftout.figures.lettering import LINE, width, wrapped
from liftout.figures.marks import centre_of_gravity
from liftout.figures.placing import Box, Placer, Point, around
from liftout.figures.svg import FIRM, THIN, Canvas, room_for
from liftout.quantities import plain, rounded, unit

PANEL: Final = 80.0
"""Paper that one bracket takes across, in mm."""

PLOT: Final = (52.0, 22.0)
ROUND: Final = 10.0
"""Paper round a pattern for the names of its fasteners, in mm."""

LONGEST_NAME: Final = 14.0
"""Where a name is wider, in mm, the fasteners of the bracket carry numbers, and the key says whose they are."""

WORDS: Final = {"arm": "aft", "lateral": "right", "height": "up"}
SEEN_FROM: Final = {("lateral", "arm"): "from above", ("height", "arm"): "from the left", ("height", "lateral"): "from behind"}
"""From where a plane is seen whose coordinates run so."""

CROSS: Final = 2.6
RING: Final = 2.1
"""Half a cross, and the radius of the ring of a centroid, in mm: both are seen round the centre of what a bracket carries where all fall together."""


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
    rows = [panels[at : at + 2] for at in range(0, len(panels), 2)]
    heads = [max(len(_heading(panel)) for panel in row) for row in rows]
    talls = [(head + 2) * LINE + PLOT[1] + 2 * ROUND + 15 for head in heads]
    entries: tuple[tuple[Symbol, str], ...] = (
        (_cross, "fastener"),
        (_centroid, "centroid of the fasteners"),
        (centre_of_gravity, "centre of what the bracket carries"),
    )
    canvas = Canvas(WIDTH, math.fsum(talls) + 2 * len(rows) + 9)
    top = 1.0
    for row, tall in zip(rows, talls, strict=True):
        for at, panel in enumerate(row):
            left = 2 + at * (PANEL + 4)
            _draw(canvas, panel, Box(left, top, left + PANEL, top + tall))
        top += tall + 2
    key(canvas, 1, top + 3, entries)
    title = f"Fastener patterns, sheet {number}."
    told = Key(
        ("Bracket", "Fastener", "Across", "Upwards", "Edge distance"),
        tuple(row for panel in panels for row in _rows(panel)),
        ("left", "left", "right", "right", "right"),
        f"Places of the fasteners, sheet {number}",
    )
    words = " ".join(_words(panel) for panel in panels)
    return drawing(canvas, f"fasteners {number}", title, f"{title} {words}", "see bars", told)


def _labels(panel: _Panel) -> list[str]:
    """What stands at the fasteners: their names, or numbers where one is too long."""
    names = [name for name, _ in panel.fasteners]
    return names if all(width(name) <= LONGEST_NAME for name in names) else [str(number) for number in range(1, len(names) + 1)]


def _rows(panel: _Panel) -> list[tuple[str, ...]]:
    return [
        (
            panel.bracket.name,
            f"{label}{f': {name}' if name != label else ''}, {said(panel.bracket.fastener)} {said(panel.bracket.size)}",
            f"{panel.across} {_told(x, panel.unit)}",
            f"{panel.up} {_told(y, panel.unit)}",
            said(panel.bracket.edge_distance),
        )
        for label, (name, (x, y)) in zip(_labels(panel), panel.fasteners, strict=True)
    ]


def _told(value: float, measure: str) -> str:
    return f"{plain(rounded(Decimal(repr(value)), 6).normalize())} {measure}"


def _words(panel: _Panel) -> str:
    places = "; ".join(f"{name} {panel.across} {_told(x, panel.unit)}, {panel.up} {_told(y, panel.unit)}" for name, (x, y) in panel.fasteners)
    what = f"{said(panel.bracket.fastener)} {said(panel.bracket.size)}, edge distance {said(panel.bracket.edge_distance)}"
    return f"{panel.bracket.name}, {what}: {places}."


def _heading(panel: _Panel) -> list[tuple[str, bool]]:
    bracket = panel.bracket
    what = f"{said(bracket.fastener)} {said(bracket.size)}, edge distance {said(bracket.edge_distance)}"
    return [*((line, True) for line in wrapped(bracket.name, PANEL - 4, bold=True)), *((line, False) for line in wrapped(what, PANEL - 4))]


def _draw(canvas: Canvas, panel: _Panel, frame: Box) -> None:
    points = [place for _, place in panel.fasteners]
    shown = [*points, *([panel.load] if panel.load else [])]
    spans = [max(p[axis] for p in shown) - min(p[axis] for p in shown) for axis in (0, 1)]
    per_unit = min((room / span for room, span in zip(PLOT, spans, strict=True) if span > 0), default=float(unit(panel.unit).factor) * 1000)
    low = [min(p[axis] for p in shown) for axis in (0, 1)]
    heading = _heading(panel)
    below = frame.bottom - 15 - 2 * LINE
    start = (frame.centre[0] - spans[0] * per_unit / 2, below - ROUND - (PLOT[1] - spans[1] * per_unit) / 2)

    def place(point: Point) -> Point:
        return start[0] + (point[0] - low[0]) * per_unit, start[1] - (point[1] - low[1]) * per_unit

    with canvas.group(panel.bracket.name):
        canvas.rectangle(frame, THIN)
        for number, (words, bold) in enumerate(heading):
            canvas.text((frame.left + 2, frame.top + (number + 1) * LINE), words, bold=bold)
        seen = wrapped(
            f"across: {panel.across}, {WORDS[panel.across]}; upwards: {panel.up}, {WORDS[panel.up]}; {SEEN_FROM[panel.up, panel.across]}", PANEL - 4
        )
        canvas.lines((frame.left + 2, below + 3), seen)
        scale_bar(canvas, frame.left + 6, frame.bottom - 2.5, per_unit, panel.unit, longest=30.0)
        placer = Placer(Box(frame.left + 0.5, below - 2 * ROUND - PLOT[1], frame.right - 0.5, below - 0.5))
        middle = (math.fsum(p[0] for p in points) / len(points), math.fsum(p[1] for p in points) / len(points))
        if panel.load is not None:
            centre_of_gravity(canvas, place(panel.load))
            placer.marks.append(around(place(panel.load), 3.2, 3.2))
        _centroid(canvas, place(middle))
        placer.marks.append(around(place(middle), 2 * RING + 0.2, 2 * RING + 0.2))
        for point in points:
            _cross(canvas, place(point))
            placer.marks.append(around(place(point), 2 * CROSS, 2 * CROSS))
        for name, point in zip(_labels(panel), points, strict=True):
            size = room_for(name)
            if room := placer.beside(place(point), *size, 1.9, 3.0, degrees=(45, 135, 315, 225, 0, 180, 90, 270)):
                canvas.label(room, name)
            elif room := placer.near(place(point), *size, 2.5):
                canvas.line(place(point), room.centre, THIN)
                canvas.label(room, name)


def _cross(canvas: Canvas, at: Point) -> None:
    canvas.line((at[0] - CROSS, at[1]), (at[0] + CROSS, at[1]), FIRM)
    canvas.line((at[0], at[1] - CROSS), (at[0], at[1] + CROSS), FIRM)


def _centroid(canvas: Canvas, at: Point) -> None:
    canvas.circle(at, RING, THIN)
