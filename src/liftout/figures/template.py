"""Drill templates at their own size: whole where a page holds them, else in tiles with marks by which the sheets are joined."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from liftout.figures.drawing import FULL_SIZE, WIDTH, Drawing, drawing
from liftout.figures.full_size import BAR_MM, HALF_CROSS, HEAD, MEASURE_FIRST, TALLEST, check_bars, height, hole_cross, notes_of, write_notes
from liftout.figures.lettering import LINE, SHIFT
from liftout.figures.placing import Box, Placer, Point, around
from liftout.figures.svg import CHAIN, CUT, FIRM, HEAVY, THIN, Canvas, Pen, room_for, text_box

LEFT: Final = 2.0
WIDEST: Final = 158.0
"""Most paper across for the pattern, beside the upright bar."""

BEYOND: Final = 9.0
"""How far the centre lines lead beyond what lies outermost, in mm: room for the words at their ends."""

OVERLAP: Final = 20.0
"""How far one tile reaches into the next, in mm: a hole near an edge stands whole on one of the two."""

LEAST: Final = 70.0
"""Least size of a tile, in mm: room for two marks in each of its bands."""

MARK: Final = 3.0
"""Half a mark of registration: a square, so that nobody takes it for a hole."""

CLEAR: Final = 2.0
"""Least distance from a mark to a hole or a centre line, in mm, where there is room."""

ASIDE: Final = (0.0, -5.0, 5.0)
"""How far a mark may stand off the middle of its band, in mm."""

ARC_DEGREES: Final = 2.0


class Hole(NamedTuple):
    """A hole: its name, which may be empty, its place in mm right of and above the centre datum, and its radius."""

    name: str
    at: Point
    radius: float


class Pattern(NamedTuple):
    """What is drilled, in mm from the centre datum, to the right and upwards as whoever looks at the sheet sees it."""

    holes: tuple[Hole, ...]
    outlines: tuple[tuple[tuple[Point, ...], Pen], ...]
    """Lines from corner to corner."""
    to_the_right: str
    upwards: str
    notes: tuple[str, ...]

    @property
    def extent(self) -> Box:
        """What lies outermost, the centre datum among it, on paper: downwards."""
        points = (
            [(0.0, 0.0)]
            + [(x + sx * hole.radius, y + sy * hole.radius) for hole in self.holes for x, y in [hole.at] for sx in (-1, 1) for sy in (-1, 1)]
            + [point for points, _ in self.outlines for point in points]
        )
        return Box(min(x for x, _ in points), -max(y for _, y in points), max(x for x, _ in points), -min(y for _, y in points))


class _Tile(NamedTuple):
    window: Box
    number: int
    row: int
    column: int


def arc(centre: Point, radius: float, start: float, turn: float) -> tuple[Point, ...]:
    """Points of an arc from `start` on by `turn` degrees, anticlockwise from the right."""
    steps = max(1, math.ceil(abs(turn) / ARC_DEGREES))
    angles = [math.radians(start + turn * n / steps) for n in range(steps + 1)]
    return tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles)


def templates(pattern: Pattern, name: str, title: str) -> list[Drawing]:
    """The template on one sheet, or on as many as it needs.

    Args:
        pattern: what is drilled.
        name: of the drawing.
        title: what it is a template of, without a full stop.
    """
    notes = notes_of(*pattern.notes)
    whole = pattern.extent.grown(BEYOND)
    if whole.width <= WIDEST and height(whole.height, notes) <= TALLEST:
        return [_sheet(pattern, [_Tile(whole, 1, 1, 1)], 0, [], (name, title))]
    # Words grow with the marks that a sheet has; five lines more are kept for them.
    room = TALLEST - height(BAR_MM, notes) + BAR_MM - 5 * LINE
    aside, down = (max(0.0, LEAST - size) / 2 for size in (whole.width, whole.height))
    tiles = list(_tiles(Box(whole.left - aside, whole.top - down, whole.right + aside, whole.bottom + down), room))
    marks = _marks(tiles, pattern)
    return [_sheet(pattern, tiles, n, marks, (name, title)) for n in range(len(tiles))]


def _tiles(whole: Box, tall: float) -> Iterator[_Tile]:
    columns = max(1, math.ceil((whole.width - OVERLAP) / (WIDEST - OVERLAP)))
    rows = max(1, math.ceil((whole.height - OVERLAP) / (tall - OVERLAP)))
    wide = (whole.width - OVERLAP) / columns + OVERLAP if columns > 1 else whole.width
    high = (whole.height - OVERLAP) / rows + OVERLAP if rows > 1 else whole.height
    for row in range(rows):
        for column in range(columns):
            left, top = whole.left + column * (wide - OVERLAP), whole.top + row * (high - OVERLAP)
            yield _Tile(Box(left, top, left + wide, top + high), row * columns + column + 1, row + 1, column + 1)


def _marks(tiles: Sequence[_Tile], pattern: Pattern) -> list[tuple[str, Point]]:
    """Two marks in each band where a tile reaches into the next: near either end, clear of holes and centre lines."""
    places: dict[Point, None] = {}
    for tile in tiles:
        box, inset = tile.window, OVERLAP + MARK + CLEAR
        if any((other.row, other.column) == (tile.row, tile.column + 1) for other in tiles):
            x, along = box.right - OVERLAP / 2, int(box.height / 2 - inset)
            for end, way in ((box.top + inset, 1), (box.bottom - inset, -1)):
                places[_clear([(x + aside, end + way * n) for n in range(max(along, 1)) for aside in ASIDE], pattern)] = None
        if any((other.row, other.column) == (tile.row + 1, tile.column) for other in tiles):
            y, along = box.bottom - OVERLAP / 2, int(box.width / 2 - inset)
            for end, way in ((box.left + inset, 1), (box.right - inset, -1)):
                places[_clear([(end + way * n, y + aside) for n in range(max(along, 1)) for aside in ASIDE], pattern)] = None
    return [(f"R{number}", place) for number, place in enumerate(places, 1)]


def _clear(candidates: Sequence[Point], pattern: Pattern) -> Point:
    """The first of these places that is clear of holes and centre lines; the one farthest from holes where none is."""

    def room(place: Point) -> float:
        holes = min((math.dist(place, (hole.at[0], -hole.at[1])) - max(hole.radius, HALF_CROSS) for hole in pattern.holes), default=math.inf)
        return min(holes - MARK * math.sqrt(2), abs(place[0]) - MARK, abs(place[1]) - MARK) - CLEAR

    x, y = next((place for place in candidates if room(place) >= 0), max(candidates, key=room))
    # To the tenth of a millimetre that the words give.
    return round(x, 1), round(y, 1)


def _sheet(pattern: Pattern, tiles: Sequence[_Tile], at: int, marks: Sequence[tuple[str, Point]], named: tuple[str, str]) -> Drawing:
    tile, (name, title), of = tiles[at], named, len(tiles)
    window = tile.window
    own = [(label, place) for label, place in marks if window.grown(-MARK - 1).holds(around(place, 0, 0))]
    notes = notes_of(*pattern.notes, *([_joining(tile, of, own)] if of > 1 else []))
    canvas = Canvas(WIDTH, height(window.height, notes))
    check_bars(canvas)
    shift = (LEFT + (WIDEST - window.width) / 2 - window.left, HEAD - window.top)
    frame = Box(window.left + shift[0], window.top + shift[1], window.right + shift[0], window.bottom + shift[1])
    placer = Placer(frame.grown(-0.5))
    if of > 1:
        canvas.rectangle(frame, CUT)
    paper = _Paper(canvas, placer, window, shift)
    paper.axes(pattern)
    for points, pen in pattern.outlines:
        paper.outline([(x, -y) for x, y in points], pen)
    holes = [hole for hole in pattern.holes if window.grown(-max(hole.radius, HALF_CROSS)).holds(around((hole.at[0], -hole.at[1]), 0, 0))]
    for hole in holes:
        paper.hole(hole)
    for label, place in own:
        paper.mark(label, place)
    paper.names(holes, own)
    write_notes(canvas, notes)
    what = f"{title}, sheet {tile.number} of {of}" if of > 1 else title
    caption = f"{what}. Print at full size: {WIDTH:g} mm wide."
    words = f"{caption} {len(holes)} holes are marked with crosses. Bars of 100 mm and 4 in check the print. {' '.join(MEASURE_FIRST)}"
    if of > 1:
        words += f" {_joining(tile, of, own)}"
    return drawing(canvas, f"{name}-{tile.number}" if of > 1 else name, caption, words, FULL_SIZE)


def _joining(tile: _Tile, of: int, own: Sequence[tuple[str, Point]]) -> str:
    where = "; ".join(f"{label} {_way(x, 'right', 'left')}, {_way(-y, 'up', 'down')}" for label, (x, y) in own)
    return (
        f"Sheet {tile.number} of {of}: row {tile.row}, column {tile.column}. Lay the sheets over one another until the marks of one name lie on one "
        f"another. Marks in squares are not drilled. From the centre datum, in mm: {where}. Measure the joined sheets by this."
    )


def _way(value: float, positive: str, negative: str) -> str:
    return f"{abs(value):.1f} {positive if value >= 0 else negative}"


class _Paper:
    """One window of a pattern on its sheet."""

    def __init__(self, canvas: Canvas, placer: Placer, window: Box, shift: Point) -> None:
        self.canvas, self.placer, self.window, self.shift = canvas, placer, window, shift

    def at(self, point: Point) -> Point:
        """Where a point of the pattern, counted downwards, lies on the sheet."""
        return point[0] + self.shift[0], point[1] + self.shift[1]

    def outline(self, points: Sequence[Point], pen: Pen) -> None:
        """A line from point to point, cut at the edges of the window."""
        run: list[Point] = []
        for start, end in itertools.pairwise(points):
            piece = self.window.piece_inside(start, end)
            if piece is None:
                continue
            if run and math.dist(run[-1], self.at(piece[0])) < 1e-6:
                run.append(self.at(piece[1]))
                continue
            self._run(run, pen)
            run = [self.at(piece[0]), self.at(piece[1])]
        self._run(run, pen)

    def _run(self, run: Sequence[Point], pen: Pen) -> None:
        if len(run) > 1:
            self.canvas.polyline(run, pen)
            self.placer.follow(run)

    def axes(self, pattern: Pattern) -> None:
        """Both centre lines with the ways they lead, and the centre datum."""
        whole = pattern.extent.grown(BEYOND - LINE - 1)
        self.outline([(whole.left, 0), (whole.right, 0)], CHAIN)
        self.outline([(0, whole.top), (0, whole.bottom)], CHAIN)
        inside = self.window.grown(-0.5)
        x, y = self.at((0, whole.top - 1.0))
        room = text_box((x, y), pattern.upwards, 9.0, anchor="middle", bold=True)
        if self.placer.region.holds(room) and inside.holds(around((0, whole.top), 0, 0)):
            self.canvas.text((x, y), pattern.upwards, anchor="middle", bold=True)
            self.placer.labels.append(room)
        x, y = self.at((whole.right + 3.2, 0))
        room = text_box((x, y), pattern.to_the_right, 9.0, anchor="middle", bold=True, upwards=True)
        if self.placer.region.holds(room) and inside.holds(around((whole.right, 0), 0, 0)):
            self.canvas.text((x, y), pattern.to_the_right, anchor="middle", bold=True, upwards=True)
            self.placer.labels.append(room)
        if inside.grown(-2).holds(around((0, 0), 0, 0)):
            datum = self.at((0, 0))
            self.canvas.circle(datum, 1.2, HEAVY, "#fff")
            self.placer.marks.append(around(datum, 3, 3))

    def hole(self, hole: Hole) -> None:
        """A hole with its cross."""
        place = self.at((hole.at[0], -hole.at[1]))
        hole_cross(self.canvas, place, hole.radius)
        self.placer.marks.append(around(place, 2 * max(hole.radius, HALF_CROSS), 2 * max(hole.radius, HALF_CROSS)))

    def mark(self, label: str, place: Point) -> None:
        """A mark of registration: a square with a cross through it."""
        x, y = self.at(place)
        with self.canvas.group(f"registration {label}"):
            self.canvas.rectangle(around((x, y), 2 * MARK, 2 * MARK), FIRM)
            self.canvas.line((x - MARK - 1, y), (x + MARK + 1, y), THIN)
            self.canvas.line((x, y - MARK - 1), (x, y + MARK + 1), THIN)
        self.placer.marks.append(around((x, y), 2 * MARK + 2, 2 * MARK + 2))

    def names(self, holes: Sequence[Hole], marks: Sequence[tuple[str, Point]]) -> None:
        """Names of marks, holes and the centre datum, beside them."""
        for label, place in marks:
            self._name(self.at(place), label, MARK + 1.2, bold=True)
        for hole in holes:
            if hole.name:
                self._name(self.at((hole.at[0], -hole.at[1])), hole.name, max(hole.radius, HALF_CROSS) + 0.6)
        if self.window.grown(-2.5).holds(around((0, 0), 0, 0)):
            self._name(self.at((0, 0)), "centre datum", 2.0)

    def _name(self, target: Point, words: str, gap: float, *, bold: bool = False) -> None:
        size = room_for(words, bold=bold)
        degrees = (45, 135, 315, 225, 0, 180, 90, 270)
        room = self.placer.beside(target, *size, gap, gap + 2, degrees=degrees)
        if room is None and (room := self.placer.near(target, *size, gap + 1)):
            self.canvas.line(target, room.centre, THIN)
        if room:
            base = room.centre[1] + SHIFT
            self.canvas.rectangle(room, None, "#fff")
            self.canvas.text((room.centre[0], base), words, anchor="middle", bold=bold)
