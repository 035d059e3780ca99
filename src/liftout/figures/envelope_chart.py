"""The chart of weight over arm: limits, marks, and enlarged details of places where marks lie on one another."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from liftout.figures.lettering import SHIFT, wrapped
from liftout.figures.marks import letters, mark
from liftout.figures.placing import BETWEEN, STRAIGHT, Box, Placer, Point, around
from liftout.figures.scale import Scale, spanning
from liftout.figures.svg import CHAIN, FIRM, GRID, HEAVY, THIN, Canvas, Pen, room_for

TOO_NEAR: Final = 4.0
"""Marks nearer than this on paper, in mm, hide one another."""

DETAIL_WIDTH, DETAIL_LEAST, DETAIL_FOOT, DETAIL_HEAD = 36.0, 22.0, 7.0, 5.0
AXIS: Final = 22.0
"""Paper, in mm, between the main chart and its details: room for their figures of weight."""

DETAILS: Final = ("1", "2", "3")


@dataclass(frozen=True)
class Line:
    """A line of the chart with its name: corners as arm and weight, the lowest first; a limit goes on straight down from there."""

    name: str
    corners: tuple[Point, ...]
    pen: Pen


@dataclass
class Panel:
    """A frame with two scales, the lines that run through it, and marks."""

    box: Box
    arm: Scale
    weight: Scale
    placer: Placer = field(init=False)

    def __post_init__(self) -> None:
        self.placer = Placer(self.box.grown(-0.5))

    def at(self, place: Point) -> Point:
        """Where an arm and a weight lie on paper."""
        return self.arm.at(place[0]), self.weight.at(place[1])

    def axes(self, canvas: Canvas) -> None:
        """Grid, frame and figures."""
        for value, text in _ticks(self.arm, self.box.width / 14):
            x = self.arm.at(value)
            canvas.line((x, self.box.top), (x, self.box.bottom), GRID)
            canvas.line((x, self.box.bottom), (x, self.box.bottom + 1.2), FIRM)
            canvas.text((x, self.box.bottom + 4.8), text, anchor="middle")
        for value, text in _ticks(self.weight, self.box.height / 9):
            y = self.weight.at(value)
            canvas.line((self.box.left, y), (self.box.right, y), GRID)
            canvas.line((self.box.left - 1.2, y), (self.box.left, y), FIRM)
            canvas.text((self.box.left - 2, y + SHIFT), text, anchor="end")
        canvas.rectangle(self.box, FIRM)

    def line(self, canvas: Canvas, line: Line) -> list[tuple[Point, Point]]:
        """Draw what of a line lies in the frame; the pieces drawn."""
        arm, weight = line.corners[0]
        foot = [(arm, self.weight.low)] if line.pen is HEAVY and weight > self.weight.low else []
        points = [self.at(corner) for corner in (*foot, *line.corners)]
        pieces = [piece for start, end in itertools.pairwise(points) if (piece := self.box.piece_inside(start, end)) and piece[0] != piece[1]]
        with canvas.group(line.name):
            if all(self.box.grown(0.001).holds(Box(x, y, x, y)) for x, y in points):
                canvas.polyline(points, line.pen)
            else:
                for piece in pieces:
                    canvas.line(*piece, line.pen)
        self.placer.lines.extend(pieces)
        return pieces

    def marks(self, canvas: Canvas, points: Sequence[tuple[int, str, Point]], lettered: Sequence[int], kind: str = "") -> None:
        """Marks with their numbers, names and places; letters, with leaders, for those that are to have them here."""
        rooms = {n: self.placer.near(self.at(place), *room_for(letters(n), bold=True), 2.4) for n, _, place in points if n in lettered}
        for number, _, place in points:
            if room := rooms.get(number):
                canvas.line(self.at(place), room.centre, THIN)
        for number, name, place in points:
            with canvas.group(f"{kind}{name}"):
                mark(canvas, self.at(place), number)
        for number, room in rooms.items():
            if room:
                canvas.label(room, letters(number), bold=True)

    def name(self, canvas: Canvas, targets: Sequence[Point], words: str) -> bool:
        """Words beside one of these points; whether there was room."""
        for target in targets:
            if room := self.placer.beside(target, *room_for(words), 0.6, degrees=STRAIGHT + BETWEEN):
                canvas.label(room, words)
                return True
        return False

    def led(self, canvas: Canvas, target: Point, words: str) -> None:
        """Words with a leader to a point."""
        if room := self.placer.near(target, *room_for(words), 3.0):
            canvas.line(target, room.centre, THIN)
            canvas.label(room, words)


@dataclass(frozen=True)
class Chart:
    """Limit lines, a line of the maximum weight with its words, and marks by their number; in the units that the axes name."""

    lines: tuple[Line, ...]
    most: tuple[float, str] | None
    points: tuple[tuple[int, str, Point], ...]
    arm_axis: str
    weight_axis: str

    def draw(self, canvas: Canvas, plot: Box) -> None:
        """Draw the chart into a frame; details, where marks are crowded, take its right side."""
        groups = self._crowds(self._panel(plot))
        if groups:
            narrow = Box(plot.left, plot.top, plot.right - DETAIL_WIDTH - AXIS, plot.bottom)
            groups = self._crowds(self._panel(narrow))[
                : min(len(DETAILS), int((plot.height + DETAIL_FOOT) / (DETAIL_LEAST + DETAIL_HEAD + DETAIL_FOOT)))
            ]
        # On the narrower chart marks may lie on one another that no detail would part; then the chart stays wide.
        if groups:
            plot, whole = narrow, plot
            groups.sort(key=lambda group: -max(weight for _, _, (_, weight) in group))
            each = (whole.height + DETAIL_FOOT) / len(groups)
            for number, group in enumerate(groups):
                top = whole.top + number * each + (DETAIL_HEAD if number else 0.0)
                box = Box(whole.right - DETAIL_WIDTH, top, whole.right, whole.top + (number + 1) * each - DETAIL_FOOT)
                self._detail(canvas, box, DETAILS[number], group)
        panel = self._panel(plot)
        panel.axes(canvas)
        canvas.lines((plot.centre[0], plot.bottom + 9.2), wrapped(self.arm_axis, plot.width), anchor="middle")
        canvas.text((4, plot.centre[1]), self.weight_axis, anchor="middle", upwards=True)
        drawn = [(line, panel.line(canvas, line)) for line in (*self._most_line(panel), *self.lines)]
        panel.placer.marks.extend(around(panel.at(place), 4, 4) for _, _, place in self.points)
        frames = [_around([panel.at(place) for _, _, place in group]) for group in groups]
        for name, frame in zip(DETAILS, frames, strict=False):
            with canvas.group(f"detail {name}"):
                canvas.rectangle(frame, THIN)
            panel.placer.marks.append(frame)
        for line, pieces in drawn:
            words = self.most[1] if self.most and line.pen is CHAIN else line.name
            panel.name(canvas, [(x1 + s * (x2 - x1), y1 + s * (y2 - y1)) for (x1, y1), (x2, y2) in pieces for s in (0.5, 0.25, 0.75)], words)
        for name, frame in zip(DETAILS, frames, strict=False):
            x, y = frame.centre
            words = f"detail {name}"
            if not panel.name(canvas, [(x, frame.top), (frame.right, y), (frame.left, y), (x, frame.bottom)], words):
                panel.led(canvas, (x, frame.top), words)
        apart = [number for number, _, _ in self.points if not any(number == member for group in groups for member, _, _ in group)]
        panel.marks(canvas, self.points, apart)

    def _panel(self, box: Box) -> Panel:
        places = [corner for line in self.lines for corner in line.corners] + [place for _, _, place in self.points]
        arms = [arm for arm, _ in places] or [0.0, 1.0]
        weights = [weight for _, weight in places] + ([self.most[0]] if self.most else []) or [0.0, 1.0]
        return Panel(box, Scale(*spanning(arms, 0.08), box.left, box.right), Scale(*spanning(weights, 0.06), box.bottom, box.top))

    def _most_line(self, panel: Panel) -> list[Line]:
        if self.most is None:
            return []
        return [Line("maximum take-off weight", ((panel.arm.low, self.most[0]), (panel.arm.high, self.most[0])), CHAIN)]

    def _crowds(self, panel: Panel) -> list[list[tuple[int, str, Point]]]:
        """Groups of marks that hide one another and that a detail would draw apart, the largest first."""
        groups: list[list[tuple[int, str, Point]]] = []
        for point in self.points:
            near = [group for group in groups if any(math.dist(panel.at(point[2]), panel.at(other[2])) < TOO_NEAR for other in group)]
            groups = [group for group in groups if group not in near] + [[*(member for group in near for member in group), point]]
        found = []
        for group in groups:
            frame = _around([panel.at(place) for _, _, place in group])
            width, height = frame.width - TOO_NEAR, frame.height - TOO_NEAR
            if max(width, height) > 0.1 and width < DETAIL_WIDTH / 2.5 and height < DETAIL_LEAST / 1.5:
                found.append(group)
        return sorted(found, key=lambda group: -len(group))

    def _detail(self, canvas: Canvas, box: Box, name: str, group: list[tuple[int, str, Point]]) -> None:
        arms, weights = [arm for _, _, (arm, _) in group], [weight for _, _, (_, weight) in group]
        panel = Panel(box, Scale(*spanning(arms, 0.3), box.left, box.right), Scale(*spanning(weights, 0.3), box.bottom, box.top))
        panel.axes(canvas)
        canvas.text((box.left, box.top - 1.2), f"detail {name}", bold=True)
        for line in (*self._most_line(panel), *self.lines):
            panel.line(canvas, line)
        panel.placer.marks.extend(around(panel.at(place), 4, 4) for _, _, place in group)
        panel.marks(canvas, group, [number for number, _, _ in group], f"detail {name}: ")


def _ticks(scale: Scale, room: float) -> list[tuple[float, str]]:
    """As many round values as have room, and two at least: one alone gives no scale."""
    most = max(2, int(room))
    return next(found for found in map(scale.ticks, range(most, most + 20)) if len(found) > 1)


def _around(places: Sequence[Point]) -> Box:
    """A frame about marks, with the room of half a mark on each side."""
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return Box(min(xs), min(ys), max(xs), max(ys)).grown(TOO_NEAR / 2)
