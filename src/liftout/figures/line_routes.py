"""Routes of the lines of a loop, from the side and from above, to scale, with a table of their turns."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from liftout.facts import Facts
from liftout.facts.line_routes import Turn
from liftout.facts.lines import Loop
from liftout.figures.amounts import UNKNOWN, among, on_scale, written
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, drawing
from liftout.figures.keys import SIGN, key, scale_bar
from liftout.figures.legend import Column, Legend, Symbol
from liftout.figures.placing import Box, Point, around
from liftout.figures.scale import Scale, spanning
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, Canvas, Pen

PENS: tuple[Pen, ...] = (FIRM, DASHED, CHAIN, HEAVY)
"""One for each line; a fifth line begins again, and the table tells them apart."""
TALL = 50.0
"""Most paper, in mm, that one view takes."""
LEAST = 6.0
LEFT, RIGHT = 4.0, 164.0
HEAD = 7.0
VIEW_GAP = 14.0
TURN = 0.9
"""Radius of the dot at a turn."""


def line_routes(loop: Loop) -> Drawing | None:
    """The routes of one loop; none where no line tells its route."""
    routes = [(segment.name, segment.route.turns) for segment in loop.segments if segment.route.turns]
    if not routes:
        return None
    unit = among([turn.arm for _, turns in routes for turn in turns], "in")
    lines = [[_place(turn, unit) for turn in turns] for _, turns in routes]
    mm, low = _scale(lines)
    height = [max((max(p[axis] for line in lines for p in line) - min(p[axis] for line in lines for p in line)) * mm, LEAST) for axis in (2, 1)]
    table = _table(loop, routes)
    top = HEAD + sum(height) + 2 * VIEW_GAP + 12
    table = table.within(TALLEST - top - 1)
    canvas = Canvas(WIDTH, top + table.height + 1)
    y = HEAD
    for axis, tall, words in (
        (2, height[0], "From the side, forward to the left"),
        (1, height[1], "From above, forward to the left, right downwards"),
    ):
        canvas.text((LEFT, y - 2), words, bold=True)
        _view(canvas, lines, axis, (mm, low), y, tall)
        y += tall + VIEW_GAP
    key(canvas, LEFT, y - 3, [(_sign(n), segment) for n, (segment, _) in enumerate(routes)])
    scale_bar(canvas, LEFT + 1, y + 8, mm, unit)
    table.draw(canvas, 1, top)
    told = " ".join(f"{segment}: {'; '.join(_turn(turn) for turn in turns)}." for segment, turns in routes)
    title = f"Routes of the {loop.name}, to scale."
    return drawing(canvas, f"line-routes-{loop.name}", title, f"{title} Each turn by arm, lateral and height. {told}")


def all_line_routes(facts: Facts) -> list[Drawing]:
    """The routes of all loops that tell any."""
    return [made for loop in facts.running_loops if (made := line_routes(loop)) is not None]


def _place(turn: Turn, unit: str) -> tuple[float, float, float]:
    x, y, z = (on_scale(amount, unit) or 0.0 for amount in (turn.arm, turn.lateral, turn.height))
    return x, y, z


def _scale(lines: list[list[tuple[float, float, float]]]) -> tuple[float, float]:
    """Paper for one unit, the same in both views, and the arm at the left edge."""
    arms = [point[0] for line in lines for point in line]
    low, high = spanning(arms, 0.04)
    mm = (RIGHT - LEFT) / (high - low)
    for axis in (1, 2):
        across = [point[axis] for line in lines for point in line]
        spread = max(across) - min(across)
        mm = min(mm, TALL / spread) if spread else mm
    middle = (low + high) / 2
    return mm, middle - (RIGHT - LEFT) / 2 / mm


def _view(canvas: Canvas, lines: list[list[tuple[float, float, float]]], axis: int, scale: tuple[float, float], top: float, tall: float) -> None:
    mm, low = scale
    values = [point[axis] for line in lines for point in line]
    spread = max(values) - min(values)
    arm = Scale(low, low + (RIGHT - LEFT) / mm, LEFT, RIGHT)
    # Heights grow upwards on paper; what lies to the right is drawn downwards, as one looks from above with the nose to the left.
    foot = top + (tall + spread * mm) / 2

    def across(value: float) -> float:
        return foot - (value - min(values)) * mm if axis == 2 else top + (tall - spread * mm) / 2 + (value - min(values)) * mm

    for n, line in enumerate(lines):
        points = [(arm.at(point[0]), across(point[axis])) for point in line]
        canvas.polyline(points, PENS[n % len(PENS)])
        for at in points:
            canvas.circle(at, TURN, None, "#000")


def _sign(number: int) -> Symbol:
    def draw(canvas: Canvas, at: Point) -> None:
        box: Box = around(at, SIGN - 1, 0)
        canvas.line((box.left, at[1]), (box.right, at[1]), PENS[number % len(PENS)])

    return draw


def _turn(turn: Turn) -> str:
    return ", ".join(written(fact.value) for fact in turn)


def _table(loop: Loop, routes: Sequence[tuple[str, tuple[Turn, ...]]]) -> Legend:
    rows = []
    parts = loop.place.each("segments")
    for segment, turns in routes:
        for n, turn in enumerate(turns, 1):
            ends = {1: parts[segment].said_at("begins"), len(turns): parts[segment].said_at("ends")}
            rows.append((f"{segment}, {n}", ends.get(n) or "turns", *(written(fact.value) for fact in turn)))
    return Legend(
        (Column("Line, point", 42), Column("Where", 44), Column("Arm", 26, "end"), Column("Lateral", 26, "end"), Column("Height", 26, "end")),
        tuple(rows) or ((UNKNOWN,) * 5,),
    )


if __name__ == "__main__":
    show(all_line_routes, sys.argv[1:])
