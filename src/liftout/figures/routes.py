"""Routes of the lines of a loop, or of circuits, from the side and from above, to scale, with each turn and each length in the key."""

from __future__ import annotations

import itertools
import math
import sys
from collections.abc import Sequence
from decimal import Decimal
from typing import Final, NamedTuple

from liftout.facts import Facts
from liftout.facts.fact import Amount, Fact
from liftout.facts.lines import Loop
from liftout.figures.amounts import among, on_scale, said
from liftout.figures.arrangement import ABOVE, SIDE
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.keys import ROW, key, rows_of_key, ruled, scale_bar
from liftout.figures.lettering import LINE, SHIFT
from liftout.figures.marks import letters
from liftout.figures.placing import Box, Placer, Point, around
from liftout.figures.scale import Scale, spanning
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, THIN, Canvas, Pen, room_for
from liftout.quantities import plain, rounded, unit

PENS: Final[tuple[Pen, ...]] = (FIRM, DASHED, CHAIN, HEAVY)
"""One for each way on a drawing: more ways go on further drawings."""
TALL: Final = 50.0
"""Most paper, in mm, that one view takes upwards."""
LEAST: Final = 6.0
LEFT, RIGHT = 20.0, 160.0
HEAD: Final = 9.0
VIEW_GAP: Final = 19.0
TURN: Final = 0.9
"""Radius of the dot at a turn."""
DIGITS: Final = 3
"""Of lengths that are worked from the turns."""

Spatial = tuple[float, float, float]


class Way(NamedTuple):
    """What runs from turn to turn: arm, lateral and height of each, what it begins and ends at, and its length as it was measured."""

    name: str
    turns: tuple[tuple[Amount, Amount, Amount], ...]
    begins: str
    ends: str
    length: Amount


def line_routes(loop: Loop) -> list[Drawing]:
    """The routes of the lines of one loop; nothing where no line tells its route."""
    parts = loop.place.each("segments")
    ways = [
        Way(s.name, s.route.turns, parts[s.name].said_at("begins") or "begins", parts[s.name].said_at("ends") or "ends", s.length)
        for s in loop.segments
    ]
    return _sheets(f"lines of the {loop.name}", f"line-routes-{loop.name}", ways)


def all_line_routes(facts: Facts) -> list[Drawing]:
    """The routes of all loops that tell any."""
    return [made for loop in facts.running_loops for made in line_routes(loop)]


def wire_routes(facts: Facts) -> list[Drawing]:
    """The routes of the circuits; nothing where no circuit tells its route."""
    ways = [
        Way(route.run.name, tuple(route.points), f"source {route.run.source}", route.run.load.name, route.run.length)
        for route in facts.neighbours.routes
        if not route.unsaid
    ]
    return _sheets("circuits", "wire-routes", ways)


def _sheets(what: str, name: str, ways: Sequence[Way]) -> list[Drawing]:
    told = [way for way in ways if len(way.turns) > 1 and all(isinstance(amount, Fact) for turn in way.turns for amount in turn)]
    sheets = [told[n : n + len(PENS)] for n in range(0, len(told), len(PENS))]
    return [_sheet(what, f"{name}-{n}" if len(sheets) > 1 else name, sheet, n, len(sheets)) for n, sheet in enumerate(sheets, 1)]


def _sheet(what: str, name: str, ways: Sequence[Way], number: int, of: int) -> Drawing:
    measure = among([turn[0] for way in ways for turn in way.turns], "in")
    lines = [[_place(turn, measure) for turn in way.turns] for way in ways]
    mm, low = _scale(lines)
    height = [max((max(p[axis] for line in lines for p in line) - min(p[axis] for line in lines for p in line)) * mm, LEAST) for axis in (2, 1)]
    entries = [(ruled(PENS[n]), f"{letters(n)} {way.name}") for n, way in enumerate(ways)]
    foot = HEAD + math.fsum(height) + 2 * VIEW_GAP
    canvas = Canvas(WIDTH, foot + ROW * len(rows_of_key(entries)) + 8)
    y = HEAD
    for view, axis, tall in ((SIDE, 2, height[0]), (ABOVE, 1, height[1])):
        canvas.text((1, y - 4), f"Seen {view.seen}, forward to the left, {view.sense} upwards", bold=True)
        _view(canvas, lines, axis, (mm, low), (y, tall), measure)
        y += tall + VIEW_GAP
    down = key(canvas, 1, foot, entries)
    scale_bar(canvas, 4, foot + down + 4, mm, measure)
    told = Key(
        ("Point", "Where", "Arm", "Right", "Height", "To the next"),
        tuple(row for n, (way, line) in enumerate(zip(ways, lines, strict=True)) for row in _rows(letters(n), way, line, measure)),
        ("left", "left", "right", "right", "right", "right"),
        f"Turns and lengths of the {what}{_of(number, of)}; straight from turn to turn",
    )
    title = f"Routes of the {what}{_of(number, of)}."
    return drawing(canvas, name, title, f"{title} From the left and from above, to one scale. {told.in_words}", _scale_of(mm, measure), told)


def _of(number: int, of: int) -> str:
    return f", sheet {number} of {of}" if of > 1 else ""


def _scale_of(mm: float, measure: str) -> str:
    return to_scale(mm / (float(unit(measure).factor) * 1000))


def _rows(letter: str, way: Way, line: Sequence[Spatial], measure: str) -> list[tuple[str, ...]]:
    pieces = [math.dist(a, b) for a, b in itertools.pairwise(line)]
    last = len(way.turns)
    rows = [
        (
            f"{letter}{n}",
            f"{way.name}: {way.begins}" if n == 1 else f"{way.name}: {way.ends}" if n == last else "turns",
            *map(said, turn),
            _length(pieces[n - 1], measure) if n < last else "",
        )
        for n, turn in enumerate(way.turns, 1)
    ]
    return [*rows, (letter, f"{way.name}: measured {said(way.length)}, straight pieces together", "", "", "", _length(math.fsum(pieces), measure))]


def _length(value: float, measure: str) -> str:
    return f"{plain(rounded(Decimal(repr(value)), DIGITS).normalize())} {measure}"


def _place(turn: tuple[Amount, Amount, Amount], measure: str) -> Spatial:
    x, y, z = (on_scale(amount, measure) or 0.0 for amount in turn)
    return x, y, z


def _scale(lines: list[list[Spatial]]) -> tuple[float, float]:
    """Paper for one unit, the same in both views, and the arm at the left edge."""
    arms = [point[0] for line in lines for point in line]
    low, high = spanning(arms, 0.02)
    mm = (RIGHT - LEFT) / (high - low)
    for axis in (1, 2):
        across = [point[axis] for line in lines for point in line]
        spread = max(across) - min(across)
        mm = min(mm, TALL / spread) if spread else mm
    middle = (low + high) / 2
    return mm, middle - (RIGHT - LEFT) / 2 / mm


def _view(canvas: Canvas, lines: list[list[Spatial]], axis: int, scale: tuple[float, float], at: tuple[float, float], measure: str) -> None:
    (mm, low), (top, tall) = scale, at
    values = [point[axis] for line in lines for point in line]
    spread = max(values) - min(values)
    arm = Scale(low, low + (RIGHT - LEFT) / mm, LEFT, RIGHT)
    foot = top + (tall + spread * mm) / 2
    up = Scale(min(values), min(values) + 1, foot, foot - mm)
    _axes(canvas, arm, up, (min(values), max(values)), (top, top + tall), measure)
    placer = Placer(Box(LEFT - 1, top - 3.2, RIGHT + 7, top + tall + 3.6))
    paths = [[(arm.at(point[0]), up.at(point[axis])) for point in line] for line in lines]
    for n, points in enumerate(paths):
        canvas.polyline(points, PENS[n])
        placer.follow(points)
        for point in points:
            canvas.circle(point, TURN, None, "#000")
            placer.marks.append(around(point, 2 * TURN, 2 * TURN))
    for words, point in _named(paths):
        size = room_for(words)
        if room := placer.beside(point, *size, 0.9, 1.8, 3.0, degrees=(90, 270, 0, 180, 45, 135, 315, 225)):
            canvas.label(room, words)
        elif room := placer.near(point, *size, 3.0):
            canvas.line(point, room.centre, THIN)
            canvas.label(room, words)


def _named(paths: Sequence[Sequence[Point]]) -> list[tuple[str, Point]]:
    """The turns with their names; those that fall on one another have one label."""
    found: list[tuple[list[str], Point]] = []
    for n, points in enumerate(paths):
        for turn, point in enumerate(points, 1):
            same = next((names for names, other in found if math.dist(point, other) <= TURN), None)
            if same is None:
                found.append(([f"{letters(n)}{turn}"], point))
            else:
                same.append(f"{letters(n)}{turn}")
    return [(", ".join(names), point) for names, point in found]


def _axes(canvas: Canvas, arm: Scale, up: Scale, values: tuple[float, float], edges: tuple[float, float], measure: str) -> None:
    axis = edges[1] + 3.8
    canvas.line((LEFT, axis), (RIGHT, axis), THIN)
    for value, text in arm.ticks(10):
        canvas.line((arm.at(value), axis), (arm.at(value), axis + 1.0), THIN)
        canvas.text((arm.at(value), axis + 4.6), text, anchor="middle")
    canvas.text((WIDTH - 1, axis + 1.2), f"{measure}", anchor="end")
    canvas.line((LEFT - 4, up.at(values[1])), (LEFT - 4, up.at(values[0])), THIN)
    span = values[1] - values[0]
    wanted = max(1, int(span * -up.mm_per_unit / 7))
    ticks = type(up)(values[0], values[1], up.at(values[0]), up.at(values[1])).ticks(wanted) if span else [(values[0], _number(values[0]))]
    free = math.inf
    for value, text in ticks:
        y = up.at(value)
        canvas.line((LEFT - 5, y), (LEFT - 4, y), THIN)
        if y <= free:
            canvas.text((LEFT - 5.5, y + SHIFT), text, anchor="end")
            free = y - LINE


def _number(value: float) -> str:
    return plain(rounded(Decimal(repr(value)), 4).normalize()) if value else "0"


if __name__ == "__main__":
    show(all_line_routes, sys.argv[1:])
