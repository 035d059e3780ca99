"""Where a label goes so that it hides nothing: boxes, lines that must not be crossed, places tried in order."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain, islice, pairwise
from typing import Final

Point = tuple[float, float]

STRAIGHT: Final = (0, 180, 90, 270)
BETWEEN: Final = (45, 135, 315, 225, 22, 158, 202, 338, 68, 112, 248, 292)
"""Directions in which a label is tried, in degrees anticlockwise from the right."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of the page, in mm from the left and from the top."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """Its middle."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def grown(self, by: float) -> Box:
        """The box with a margin of `by` on each side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def overlaps(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom

    def distance(self, point: Point) -> float:
        """From a point to the box; nothing where it lies inside."""
        return math.hypot(max(self.left - point[0], 0, point[0] - self.right), max(self.top - point[1], 0, point[1] - self.bottom))

    def holds(self, other: Box) -> bool:
        """Whether `other` lies wholly inside."""
        return self.left <= other.left and other.right <= self.right and self.top <= other.top and other.bottom <= self.bottom

    def shared(self, other: Box) -> Box | None:
        """What lies in both; None where they do not overlap."""
        if not self.overlaps(other):
            return None
        return Box(max(self.left, other.left), max(self.top, other.top), min(self.right, other.right), min(self.bottom, other.bottom))

    @property
    def sides(self) -> tuple[tuple[Point, Point], ...]:
        """Top, right, bottom and left side, once round."""
        corners = (self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom), (self.left, self.top)
        return tuple(pairwise(corners))

    def piece_inside(self, start: Point, end: Point) -> tuple[Point, Point] | None:
        """The piece of a line that lies inside, or None (Liang and Barsky's way of clipping)."""
        (x1, y1), (x2, y2) = start, end
        if (x1 < self.left and x2 < self.left) or (x1 > self.right and x2 > self.right):
            return None
        if (y1 < self.top and y2 < self.top) or (y1 > self.bottom and y2 > self.bottom):
            return None
        enter, leave = 0.0, 1.0
        dx, dy = end[0] - start[0], end[1] - start[1]
        for step, room in ((-dx, start[0] - self.left), (dx, self.right - start[0]), (-dy, start[1] - self.top), (dy, self.bottom - start[1])):
            if step == 0:
                if room < 0:
                    return None
            elif step < 0:
                enter = max(enter, room / step)
            else:
                leave = min(leave, room / step)
        if enter > leave:
            return None
        return (start[0] + enter * dx, start[1] + enter * dy), (start[0] + leave * dx, start[1] + leave * dy)


def around(centre: Point, width: float, height: float) -> Box:
    """The box of that size about `centre`."""
    return Box(centre[0] - width / 2, centre[1] - height / 2, centre[0] + width / 2, centre[1] + height / 2)


@dataclass
class Placer:
    """Finds room for labels in one region, and remembers what was put there.

    No label ever covers another or leaves the region; lines and marks are kept clear as long as there is room.
    """

    region: Box
    labels: list[Box] = field(default_factory=list)
    marks: list[Box] = field(default_factory=list)
    lines: list[tuple[Point, Point]] = field(default_factory=list)

    def follow(self, points: Sequence[Point]) -> None:
        """Remember a line of the drawing that labels had better not cross."""
        self.lines.extend(pairwise(points))

    def outline(self, box: Box) -> None:
        """Remember the four sides of a box as lines."""
        self.lines.extend(box.sides)

    def free(self, box: Box, *, clear: bool) -> bool:
        """Whether a label may stand at `box`; with `clear`, crossing no line and no mark either."""
        if not self.region.holds(box) or any(box.overlaps(other) for other in self.labels):
            return False
        return not clear or not (any(box.overlaps(mark) for mark in self.marks) or any(box.piece_inside(*line) for line in self.lines))

    def beside(self, target: Point, width: float, height: float, *gaps: float, degrees: Sequence[int] = STRAIGHT) -> Box | None:
        """Room for a label without a leader, at one of these distances from its target, crossing nothing; or None. It is taken."""
        return self.first(_about(target, width, height, gaps, degrees))

    def first(self, boxes: Iterable[Box]) -> Box | None:
        """The first of these places for a label that crosses nothing; or None. It is taken."""
        for box in boxes:
            if self.free(box, clear=True):
                self.labels.append(box)
                return box
        return None

    def near(self, target: Point, width: float, height: float, gap: float) -> Box | None:
        """Room for a label with a leader to its target: the nearest that crosses nothing, else the nearest free one.

        None only where the region is full. It is taken, and its leader remembered.
        """
        radii = [gap + ring * min(width, height) / 2 for ring in range(12)]
        for clear, most in ((True, 200), (False, None)):
            for box in chain(_about(target, width, height, radii), islice(_everywhere(self.region, target, width, height), most)):
                if self.free(box, clear=clear) and not (clear and self._leader_hits(target, box)):
                    self.labels.append(box)
                    self.lines.append((target, box.centre))
                    return box
        return None

    def _leader_hits(self, target: Point, box: Box) -> bool:
        return any(label.piece_inside(target, box.centre) for label in self.labels)


def _about(target: Point, width: float, height: float, gaps: Iterable[float], degrees: Sequence[int] = STRAIGHT + BETWEEN) -> Iterator[Box]:
    """Boxes around a point, ring by ring: right, left, above and below first, then between them."""
    for gap in gaps:
        for at in degrees:
            across, up = math.cos(math.radians(at)), math.sin(math.radians(at))
            yield around((target[0] + across * (gap + width / 2), target[1] - up * (gap + height / 2)), width, height)


def _everywhere(region: Box, target: Point, width: float, height: float) -> Iterator[Box]:
    """Every place of a grid over the region, the nearest to the target first."""
    columns, rows = int(region.width / width), int(region.height / height)
    boxes = [
        Box(region.left + column * width, region.top + row * height, region.left + (column + 1) * width, region.top + (row + 1) * height)
        for column in range(columns)
        for row in range(rows)
    ]
    yield from sorted(boxes, key=lambda box: (math.dist(box.centre, target), box.left, box.top))


def rows_of(wanted: Sequence[float], width: float, left: float, right: float) -> list[tuple[int, float]]:
    """Row and middle for equal labels that wish to stand at `wanted`, side by side between `left` and `right`.

    As many rows as are needed; inside a row the order of the wishes is kept and no two labels overlap.
    """
    each = max(1, int((right - left) / width + 1e-9))
    order = sorted(range(len(wanted)), key=lambda n: (wanted[n], n))
    rows = -(-len(order) // each)
    found = [(0, 0.0)] * len(wanted)
    for row in range(rows):
        members = order[row::rows]
        for member, middle in zip(members, _spread([wanted[n] for n in members], width, left, right), strict=True):
            found[member] = (row, middle)
    return found


def _spread(wanted: Sequence[float], width: float, left: float, right: float) -> list[float]:
    """Middles nearest to the wishes (in order) without overlap: labels that touch move together, to the mean of their wishes."""
    clusters: list[list[float]] = []  # of each label, where the first of its cluster would have to stand to please it
    starts: list[float] = []
    for wish in wanted:
        clusters.append([wish])
        starts.append(wish)
        while len(clusters) > 1 and starts[-1] < starts[-2] + width * len(clusters[-2]):
            last = clusters.pop()
            starts.pop()
            clusters[-1] += [first - width * len(clusters[-1]) for first in last]
            starts[-1] = math.fsum(clusters[-1]) / len(clusters[-1])
    middles = [start + n * width for start, cluster in zip(starts, clusters, strict=True) for n in range(len(cluster))]
    for n, middle in enumerate(middles):
        middles[n] = max(middle, left + width / 2 + n * width)
    for n in range(len(middles) - 1, -1, -1):
        middles[n] = min(middles[n], right - width / 2 - (len(middles) - 1 - n) * width)
    return middles


__all__ = ["Box", "Placer", "Point", "around", "rows_of"]
