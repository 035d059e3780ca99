"""A doubler to scale, with its dimensions, and its drill template at its own size with bars to check the print by.

Both show the sheet as somebody sees it who stands before its face. A template too large for a page stands on several: see `template`.
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from liftout.facts import Fact, Facts, Missing
from liftout.facts.doublers import SEEN, CutOpening, Doubler, Stiffener
from liftout.facts.fact import si_of
from liftout.figures.amounts import said
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.full_size import SENSE
from liftout.figures.keys import ROW, key, rows_of_key, ruled, scale_bar
from liftout.figures.lettering import LINE, MM_PER_INCH, SHIFT, SIZE_PT
from liftout.figures.placing import Box, Placer, Point, around
from liftout.figures.svg import CHAIN, DASHED, FIRM, THIN, Canvas, Pen, room_for, text_box
from liftout.figures.template import Hole, Pattern, arc, templates
from liftout.physics.doubler import Rows, rivet_positions_m
from liftout.tables import table

DRAWN: Final = 100.0
"""Paper that the longer side of a doubler takes in the drawing to scale, in mm."""

BEYOND: Final = 6.0
"""Paper beyond that on which edges of stiffeners are still drawn, in mm."""

SHARES: Final = tuple(n / 50 for n in range(1, 45))
"""Where along its flange the name of a stiffener may begin."""


class _Pattern(NamedTuple):
    """A doubler in mm from the middle of its opening, across and up as its face is seen."""

    opening: Point
    side: Point
    hole: float
    radius: float
    rivets: tuple[Point, ...]
    to_the_right: str
    upwards: str
    across: str
    up: str


def doubler_drawings(facts: Facts) -> list[Drawing]:
    """Of each doubler that the job describes in full the drawing to scale and the drill template."""
    found = []
    for cut in facts.cut_openings:
        if (doubler := cut.doubler) in facts.doublers and doubler is not None and (pattern := _pattern(doubler)):
            found.append(doubler_drawing(cut, doubler, pattern))
            found.extend(drill_template(doubler, pattern))
    return found


def without_template(facts: Facts) -> list[tuple[str, str]]:
    """Doublers that have no drill template, with the reason."""
    found = []
    for doubler in facts.doublers:
        pattern, needs = _pattern(doubler), [need.what for need in _needed(doubler) if isinstance(need, Missing)]
        if pattern is None:
            found.append((doubler.name, f"not drawn yet; {'; '.join(needs)}" if needs else "not drawn: the tables hold no hole for its rivets"))
    return found


def rivets_of(doubler: Doubler) -> int | None:
    """How many rivets hold a doubler; None where something is missing for it."""
    pattern = _pattern(doubler)
    return None if pattern is None else len(pattern.rivets)


def _needed(doubler: Doubler) -> tuple[Fact[object] | Missing, ...]:
    told, sheet, rivets = doubler, doubler.sheet, doubler.rivets
    return (
        *(told.size, told.short_size, told.side, told.short_side),
        *(rivets.in_a_row, rivets.in_a_short_row, rivets.rows, rivets.pitch, rivets.from_opening, rivets.from_edge, rivets.size),
        *((rivets.row_distance, rivets.rows_stand) if doubler.in_several_rows else ()),
        *(sheet.faces, sheet.shape),
        *((sheet.corner_radius,) if sheet.cornered else ()),
        *((sheet.runs,) if sheet.rectangular else ()),
    )


def _pattern(doubler: Doubler) -> _Pattern | None:
    rivets, sheet = doubler.rivets, doubler.sheet
    if not all(isinstance(one, Fact) for one in _needed(doubler)):
        return None
    assert isinstance(rivets.size, Fact)
    assert isinstance(sheet.faces, Fact)
    row = next((row for row in table("rivet_holes") if row.key == rivets.size.value), None)
    if row is None:
        return None
    assert row.hole.quantity is not None
    across, right, up, upwards = SEEN[sheet.faces.value]
    upright = isinstance(sheet.runs, Fact) and sheet.rectangular and sheet.runs.value == up
    opening, side = ([_mm(doubler.opening_along(name)) for name in (across, up)], [_mm(doubler.along(name)) for name in (across, up)])
    out, apart = _mm(rivets.from_opening), _mm(rivets.row_distance) if doubler.in_several_rows else 0.0
    long, short = int(si_of(rivets.in_a_row)), int(si_of(rivets.in_a_short_row))
    level, beside = Rows(opening[1] / 2 + out, short if upright else long), Rows(opening[0] / 2 + out, long if upright else short)
    points = rivet_positions_m(level, beside, int(si_of(rivets.rows)), apart, _mm(rivets.pitch), staggered=doubler.staggered)
    radius = _mm(sheet.corner_radius) if sheet.cornered else 0.0
    senses = (SENSE[across][right > 0], SENSE[up][upwards > 0])
    return _Pattern((opening[0], opening[1]), (side[0], side[1]), row.hole.quantity.si_float * 1000, radius, points, *senses, across, up)


def _mm(told: object) -> float:
    return si_of(told) * 1000  # type: ignore[arg-type]


def doubler_drawing(cut: CutOpening, doubler: Doubler, pattern: _Pattern) -> Drawing:
    """The doubler to scale, with its dimensions and the stiffeners beside it."""
    scale = DRAWN / max(pattern.side)
    left, top, told = 34.0, 14.0, _told(cut, doubler, pattern)
    half = (pattern.side[0] * scale / 2, pattern.side[1] * scale / 2)
    middle = (left + DRAWN / 2, top + DRAWN / 2)
    low = top + DRAWN
    beside = [flange for one in cut.stiffeners if (flange := _flange(cut, one, pattern, middle, scale))]
    entries = [(ruled(CHAIN), "centre line"), *([(ruled(DASHED), "edge of the flange of a stiffener")] if beside else [])]
    canvas = Canvas(WIDTH, low + 27 + ROW * len(rows_of_key(entries)))
    placer = Placer(Box(2, 0.5, WIDTH - 2, low + BEYOND + 1))
    for flange in beside:
        for edge in flange.edges:
            canvas.line(*edge, DASHED)
            placer.follow(edge)
    sheet = around(middle, 2 * half[0], 2 * half[1])
    canvas.rectangle(sheet, FIRM)
    placer.marks.append(sheet)
    _opening(canvas, doubler, pattern, middle, scale, FIRM)
    for x, y in pattern.rivets:
        canvas.circle((middle[0] + x * scale, middle[1] - y * scale), max(pattern.hole * scale / 2, 0.5), THIN, "#fff")
    for x in (middle[0] - half[0], middle[0] + half[0]):
        _reference(canvas, placer, (x, middle[1] + half[1] + 1), (x, low + 11))
    canvas.dimension((middle[0] - half[0], low + 10), (middle[0] + half[0], low + 10), said(doubler.along(pattern.across)))
    opening = pattern.opening[1] * scale / 2
    for y in (-opening, opening):
        _reference(canvas, placer, (left - 12, middle[1] + y), (middle[0], middle[1] + y))
    _upright(canvas, placer, (left - 11, middle[1] - opening), (left - 11, middle[1] + opening), said(doubler.opening_along(pattern.up)))
    if doubler.sheet.rectangular:
        for y in (-half[1], half[1]):
            _reference(canvas, placer, (left - 19, middle[1] + y), (middle[0] - half[0], middle[1] + y))
        _upright(canvas, placer, (left - 18, middle[1] - half[1]), (left - 18, middle[1] + half[1]), said(doubler.along(pattern.up)))
    _axes(canvas, placer, pattern, middle, (half[0] + 3, half[1] + 3))
    for flange in beside:
        _name(canvas, placer, flange, middle)
    down = key(canvas, 1, low + 16, entries)
    scale_bar(canvas, left, low + 21 + down, scale * MM_PER_INCH, "in")
    title = f"Doubler of the {doubler.name}, to scale, seen by whoever looks at the face that looks {said(doubler.sheet.faces)}."
    words = "; ".join(f"{what} {value}" for what, value in told)
    table_of = Key(("What", "Value"), tuple(told), ("left", "left"), f"Doubler of the {doubler.name}")
    alternative = f"{title} A sheet round the opening, rivets on all four sides. {words}."
    return drawing(canvas, f"doubler-{doubler.name}", title, alternative, to_scale(scale), table_of)


def _reference(canvas: Canvas, placer: Placer, start: Point, end: Point) -> None:
    canvas.line(start, end, THIN)
    placer.follow([start, end])


def _upright(canvas: Canvas, placer: Placer, start: Point, end: Point, words: str) -> None:
    """An upright dimension, of which names keep clear."""
    canvas.dimension(start, end, words)
    placer.marks.append(Box(start[0] - LINE - 0.5, start[1], start[0] + LINE + 0.5, end[1]))


class _Flange(NamedTuple):
    """The flange of a stiffener on the paper: what it belongs to, and which of its edges lie in the picture."""

    words: str
    level: bool
    edges: tuple[tuple[Point, Point], ...]


def _flange(cut: CutOpening, one: Stiffener, pattern: _Pattern, middle: Point, scale: float) -> _Flange | None:
    """Where it lies near enough to the doubler to be in the picture; else None."""
    at = getattr(cut.middle, one.coordinate)
    if (
        isinstance(one.at, Missing)
        or isinstance(one.flange, Missing)
        or isinstance(at, Missing)
        or one.coordinate not in (pattern.across, pattern.up)
    ):
        return None
    level = one.coordinate == pattern.up
    sense = pattern.upwards if level else pattern.to_the_right
    away = (one.at.value.si_float - at.value.si_float) * 1000 * scale * (1 if sense == SENSE[one.coordinate][1] else -1)
    half, reach = si_of(one.flange) * 500 * scale, DRAWN / 2
    edges = []
    for edge in (away - half, away + half):
        if abs(edge) > reach + BEYOND:
            continue
        if level:
            edges.append(((middle[0] - reach, middle[1] - edge), (middle[0] + reach, middle[1] - edge)))
        else:
            edges.append(((middle[0] + edge, middle[1] - reach), (middle[0] + edge, middle[1] + reach)))
    if not edges:
        return None
    return _Flange(f"{one.kind} {one.name}", level, tuple(edges))


def _name(canvas: Canvas, placer: Placer, flange: _Flange, middle: Point) -> None:
    """The name of a stiffener along its flange: between its edges where both are seen, else beside the one, outside first."""
    start, end = flange.edges[0]
    wide, high = room_for(flange.words)
    seen = [edge[0][flange.level] for edge in flange.edges]
    outside = 1 if seen[0] > middle[flange.level] else -1
    middles = [math.fsum(seen) / 2] if len(seen) == 2 else [seen[0] + sign * outside * (high / 2 + 0.7) for sign in (1, -1)]
    reach = math.dist(start, end)
    along = [start[0] + share * reach if flange.level else end[1] - share * reach for share in SHARES]
    if flange.level:
        places = [around((at + wide / 2, middle), wide, high) for middle in middles for at in along]
    else:
        places = [around((middle, at - wide / 2), high, wide) for middle in middles for at in along]
    with canvas.group(flange.words):
        if room := placer.first(places):
            x, y = room.centre
            if flange.level:
                canvas.text((x, y + SHIFT), flange.words, anchor="middle")
            else:
                canvas.text((x + SHIFT, y), flange.words, anchor="middle", upwards=True)
        elif led := placer.near(start, wide, high, 1.0):
            canvas.line(start, led.centre, THIN)
            canvas.label(led, flange.words)


def _axes(canvas: Canvas, placer: Placer, pattern: _Pattern, middle: Point, reach: Point) -> None:
    """Both centre lines with the ways they lead; each reaches so far that its word lies over no other line."""
    for words, upright in ((pattern.upwards, False), (pattern.to_the_right, True)):
        found = None
        for further in range(30):
            if upright:
                end = (middle[0] + reach[0] + further, middle[1])
                at = (end[0] + 3.2, end[1])
            else:
                end = (middle[0], middle[1] - reach[1] - further)
                at = (end[0], end[1] - 1.2)
            room = text_box(at, words, SIZE_PT, anchor="middle", bold=True, upwards=upright)
            if not placer.region.holds(room):
                break
            found = (end, at, room)
            if placer.free(room.grown(0.3), clear=True):
                break
        assert found is not None, "the paper leaves room beyond the doubler"
        end, at, room = found
        other = (middle[0] - reach[0], middle[1]) if upright else (middle[0], middle[1] + reach[1])
        canvas.line(other, end, CHAIN)
        placer.follow([other, end])
        placer.labels.append(room)
        canvas.text(at, words, anchor="middle", bold=True, upwards=upright)


def _told(cut: CutOpening, doubler: Doubler, pattern: _Pattern) -> list[tuple[str, str]]:
    rivets, sheet = doubler.rivets, doubler.sheet
    size = said(doubler.size) if not sheet.rectangular else f"{said(doubler.size)} by {said(doubler.short_size)}"
    side = said(doubler.side) if not sheet.rectangular else f"{said(doubler.side)} by {said(doubler.short_side)}"
    several = doubler.in_several_rows
    return [
        ("doubler", f"{said(doubler.material)}, {said(doubler.thickness)}"),
        ("side", side),
        ("opening", f"{size}, {said(sheet.shape)}"),
        *([("radius of its corners", said(sheet.corner_radius))] if sheet.cornered else []),
        ("rivets", f"{said(rivets.size)} {said(rivets.alloy)}, hole {_hole(rivets.size)}"),
        ("heads", said(rivets.head)),
        ("rows on each side", f"{said(rivets.rows)}{f', {said(rivets.rows_stand)}' if several else ''}"),
        ("rivets in a row", f"{said(rivets.in_a_row)}{' on longer sides' if sheet.rectangular else ''}"),
        *([("rivets in a row", f"{said(rivets.in_a_short_row)} on shorter sides")] if sheet.rectangular else []),
        ("pitch", said(rivets.pitch)),
        *([("row to row", said(rivets.row_distance))] if several else []),
        ("opening to first row", said(rivets.from_opening)),
        ("last row to edge", said(rivets.from_edge)),
        ("rivets in all", f"{len(pattern.rivets)}"),
        ("sheet under it", f"{said(sheet.material)}, {said(sheet.thickness)}"),
        *((f"{one.kind} {one.name}", f"{one.coordinate} {said(one.at)}, flange {said(one.flange)}") for one in cut.stiffeners),
    ]


def _hole(size: Fact[str] | Missing) -> str:
    row = next(row for row in table("rivet_holes") if isinstance(size, Fact) and row.key == size.value)
    return str(row.hole.quantity)


def drill_template(doubler: Doubler, pattern: _Pattern) -> list[Drawing]:
    """The drill template at its own size."""
    face = f"Seen by whoever looks at the face that looks {said(doubler.sheet.faces)}; laid on from the other side it is mirrored."
    drilled = Pattern(
        tuple(Hole("", at, pattern.hole / 2) for at in pattern.rivets),
        ((_rectangle(pattern.side), FIRM), (_opening_line(doubler, pattern), DASHED)),
        pattern.to_the_right,
        pattern.upwards,
        (_where(doubler), face),
    )
    return templates(drilled, f"template-{doubler.name}", f"Drill template of the doubler of the {doubler.name}: {len(pattern.rivets)} rivet holes")


def _rectangle(side: Point) -> tuple[Point, ...]:
    x, y = side[0] / 2, side[1] / 2
    return (-x, -y), (x, -y), (x, y), (-x, y), (-x, -y)


def _opening_line(doubler: Doubler, pattern: _Pattern) -> tuple[Point, ...]:
    """The edge of the opening, once round."""
    a, b, r = pattern.opening[0] / 2, pattern.opening[1] / 2, pattern.radius
    if not doubler.sheet.cornered:
        return arc((0, 0), a, 0, 360)
    corners = (((a - r, b - r), 0), ((r - a, b - r), 90), ((r - a, r - b), 180), ((a - r, r - b), 270))
    found = [point for centre, start in corners for point in arc(centre, r, start, 90)]
    return (*found, found[0])


def _where(doubler: Doubler) -> str:
    at = doubler.middle
    return f"Centre datum: arm {said(at.arm)} from the {doubler.datum}, lateral {said(at.lateral)}, height {said(at.height)}."


def _opening(canvas: Canvas, doubler: Doubler, pattern: _Pattern, middle: Point, scale: float, pen: Pen) -> None:
    a, b, r = (length * scale for length in (pattern.opening[0] / 2, pattern.opening[1] / 2, pattern.radius))
    (x, y) = middle
    if not doubler.sheet.cornered:
        canvas.circle(middle, a, pen)
        return
    for one in (-1, 1):
        canvas.line((x - a + r, y + one * b), (x + a - r, y + one * b), pen)
        canvas.line((x + one * a, y - b + r), (x + one * a, y + b - r), pen)
        for other in (-1, 1):
            canvas.arc((x + one * a, y + other * (b - r)), (x + one * (a - r), y + other * b), r, pen, clockwise=one == other)
