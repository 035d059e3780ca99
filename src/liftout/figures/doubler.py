"""A doubler to scale, with its dimensions, and its drill template at its own size with two bars to check the print by.

The pattern is its own quarter turn, so a template too large for a page shows one quarter, to be turned about the middle.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from liftout.facts import Fact, Facts
from liftout.facts.doublers import Doubler
from liftout.facts.fact import si_of
from liftout.figures.amounts import said
from liftout.figures.drawing import WIDTH, Drawing, drawing
from liftout.figures.keys import scale_bar
from liftout.figures.lettering import wrapped
from liftout.figures.placing import Box, Point
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, THIN, Canvas
from liftout.physics.doubler import rivet_positions_m
from liftout.tables import table

DRAWN: Final = 84.0
"""Paper that the doubler takes in the drawing to scale, in mm."""

WHOLE: Final = 146.0
"""Largest side of a doubler whose template stands on a page as a whole, in mm."""

QUARTER: Final = 140.0
"""Largest half side of a doubler of which a quarter stands on a page, in mm."""

BAR_MM: Final = 100.0
BAR_IN: Final = 4.0
MM_PER_INCH: Final = 25.4
LINE: Final = 3.7
HALF_CROSS: Final = 1.8

MEASURE_FIRST: Final = (
    "MEASURE BEFORE DRILLING. Both bars must measure what is written on them; otherwise do not use this sheet.",
    "Measure from each hole to the nearest rivet, stiffener and edge of the aircraft, and look behind the place, before you drill.",
)


class _Pattern(NamedTuple):
    """A doubler in mm from the middle of its opening."""

    opening: float
    side: float
    hole: float
    pitch: float
    row_distance: float
    from_opening: float
    from_edge: float
    rivets: tuple[Point, ...]


def doubler_drawings(facts: Facts) -> list[Drawing]:
    """Of each doubler that the job describes in full the drawing to scale and the drill template."""
    found = []
    for doubler in facts.doublers:
        if pattern := _pattern(doubler):
            found.append(doubler_drawing(doubler, pattern))
            found.extend(_template(doubler, pattern))
    return found


def _pattern(doubler: Doubler) -> _Pattern | None:
    told, rivets = doubler, doubler.rivets
    needed = (told.size, told.side, rivets.in_a_row, rivets.rows, rivets.pitch, rivets.from_opening, rivets.from_edge)
    if not all(isinstance(amount, Fact) for amount in needed) or not isinstance(rivets.size, Fact) or not isinstance(told.sheet.shape, Fact):
        return None
    if doubler.in_several_rows and not isinstance(rivets.row_distance, Fact):
        return None
    row = next((row for row in table("rivet_holes") if row.key == rivets.size.value), None)
    if row is None:
        return None
    opening, side, in_a_row, rows, pitch, out, edge = (si_of(amount) for amount in needed)
    apart = si_of(rivets.row_distance) if doubler.in_several_rows else 0.0
    points = rivet_positions_m(opening, out, int(rows), apart, int(in_a_row), pitch)
    assert row.hole.quantity is not None
    opening, side, hole, pitch, apart, out, edge = (length * 1000 for length in (opening, side, row.hole.quantity.si_float, pitch, apart, out, edge))
    return _Pattern(opening, side, hole, pitch, apart, out, edge, tuple((x * 1000, y * 1000) for x, y in points))


def doubler_drawing(doubler: Doubler, pattern: _Pattern) -> Drawing:
    """The doubler to scale, with its dimensions."""
    scale = DRAWN / pattern.side
    left, top = 16.0, 12.0
    middle = (left + DRAWN / 2, top + DRAWN / 2)
    canvas = Canvas(WIDTH, top + DRAWN + 24)
    canvas.rectangle(Box(left, top, left + DRAWN, top + DRAWN), FIRM)
    _opening(canvas, doubler, middle, pattern.opening * scale)
    for x, y in pattern.rivets:
        canvas.circle((middle[0] + x * scale, middle[1] - y * scale), max(pattern.hole * scale / 2, 0.5), THIN, "#fff")
    reach = DRAWN / 2 + 3
    canvas.line((middle[0] - reach, middle[1]), (middle[0] + reach, middle[1]), CHAIN)
    canvas.line((middle[0], middle[1] - reach), (middle[0], middle[1] + reach), CHAIN)
    low = top + DRAWN
    for x in (left, left + DRAWN):
        canvas.line((x, low + 1), (x, low + 9), THIN)
    canvas.dimension((left, low + 8), (left + DRAWN, low + 8), said(doubler.side))
    for y in (-1, 1):
        canvas.line((left - 8, middle[1] + y * pattern.opening * scale / 2), (middle[0], middle[1] + y * pattern.opening * scale / 2), THIN)
    canvas.dimension((left - 7, middle[1] - pattern.opening * scale / 2), (left - 7, middle[1] + pattern.opening * scale / 2), said(doubler.size))
    scale_bar(canvas, left, low + 20, scale * MM_PER_INCH, "in")
    for number, (what, value) in enumerate(_told(doubler, pattern)):
        canvas.text((left + DRAWN + 10, top + 4 + number * LINE * 1.35), f"{what}: {value}")
    title = f"Doubler of the {doubler.name}, to scale."
    words = "; ".join(f"{what} {value}" for what, value in _told(doubler, pattern))
    return drawing(canvas, f"doubler-{doubler.name}", title, f"{title} A square sheet round the opening, rivets on all four sides. {words}.")


def _told(doubler: Doubler, pattern: _Pattern) -> list[tuple[str, str]]:
    rivets = doubler.rivets
    rows = [("rows on each side", said(rivets.rows)), ("rivets in a row", said(rivets.in_a_row)), ("pitch", said(rivets.pitch))]
    if doubler.in_several_rows:
        rows.append(("row to row", said(rivets.row_distance)))
    return [
        ("doubler", f"{said(doubler.material)}, {said(doubler.thickness)}"),
        ("side", said(doubler.side)),
        ("opening", f"{said(doubler.size)}, {said(doubler.sheet.shape)}"),
        ("rivets", f"{said(rivets.size)} {said(rivets.alloy)}"),
        ("heads", said(rivets.head)),
        *rows,
        ("opening to first row", said(rivets.from_opening)),
        ("last row to edge", said(rivets.from_edge)),
        ("rivets in all", f"{len(pattern.rivets)}"),
        ("sheet under it", f"{said(doubler.sheet.material)}, {said(doubler.sheet.thickness)}"),
    ]


def _template(doubler: Doubler, pattern: _Pattern) -> list[Drawing]:
    if pattern.side <= WHOLE:
        return [drill_template(doubler, pattern, quarter=False)]
    return [drill_template(doubler, pattern, quarter=True)] if pattern.side / 2 <= QUARTER else []


def drill_template(doubler: Doubler, pattern: _Pattern, *, quarter: bool) -> Drawing:
    """The drill template at its own size, whole or one quarter of it."""
    head, reach = 30.0, pattern.side / 2
    notes = wrapped(" ".join((*MEASURE_FIRST, _where(doubler), _turn(quarter=quarter))), WIDTH - 4, 8.0, most=9)
    tall = reach + 6 if quarter else pattern.side
    canvas = Canvas(WIDTH, head + tall + 6 + len(notes) * LINE + 2)
    _bars(canvas, 4.0, 10.0)
    middle = (8.0, head + reach) if quarter else (WIDTH / 2, head + reach)
    inside = _quarter if quarter else _everywhere
    if quarter:
        canvas.polyline([(middle[0], middle[1] - reach), (middle[0] + reach, middle[1] - reach), (middle[0] + reach, middle[1])], FIRM)
        half = pattern.opening / 2
        if said(doubler.sheet.shape) == "round":
            canvas.arc((middle[0], middle[1] - half), (middle[0] + half, middle[1]), half, DASHED)
        else:
            canvas.polyline([(middle[0], middle[1] - half), (middle[0] + half, middle[1] - half), (middle[0] + half, middle[1])], DASHED)
        canvas.line((middle[0] - 5, middle[1]), (middle[0] + reach + 4, middle[1]), CHAIN)
        canvas.line((middle[0], middle[1] - reach - 4), (middle[0], middle[1] + 5), CHAIN)
    else:
        canvas.rectangle(Box(middle[0] - reach, middle[1] - reach, middle[0] + reach, middle[1] + reach), FIRM)
        _opening(canvas, doubler, middle, pattern.opening, dashed=True)
        canvas.line((middle[0] - reach - 4, middle[1]), (middle[0] + reach + 4, middle[1]), CHAIN)
        canvas.line((middle[0], middle[1] - reach - 4), (middle[0], middle[1] + reach + 4), CHAIN)
    canvas.circle(middle, 1.2, HEAVY, "#fff")
    canvas.text((middle[0] + 2.4, middle[1] - 1.6), "centre datum")
    for x, y in filter(inside, pattern.rivets):
        _cross(canvas, (middle[0] + x, middle[1] - y), pattern.hole / 2)
    for number, words in enumerate(notes):
        canvas.text((2.0, head + tall + 8 + number * LINE), words)
    title = f"Drill template of the doubler of the {doubler.name}{', one quarter' if quarter else ''}. Print at full size: 168 mm wide."
    shown = sum(1 for _ in filter(inside, pattern.rivets))
    return drawing(canvas, f"template-{doubler.name}", title, f"{title} {shown} holes are marked with crosses. {' '.join(MEASURE_FIRST)}")


def _quarter(point: Point) -> bool:
    """Upper right quarter, with what lies on its edges."""
    return point[0] >= -1e-9 and point[1] >= -1e-9


def _everywhere(_: Point) -> bool:
    return True


def _where(doubler: Doubler) -> str:
    at = doubler.middle
    return f"Centre datum: arm {said(at.arm)} from the {doubler.datum}, lateral {said(at.lateral)}, height {said(at.height)}."


def _turn(*, quarter: bool) -> str:
    return "This is one quarter: mark it, turn it by a quarter about the centre datum, and mark again, four times." if quarter else ""


def _opening(canvas: Canvas, doubler: Doubler, middle: Point, across: float, *, dashed: bool = False) -> None:
    pen = DASHED if dashed else FIRM
    if said(doubler.sheet.shape) == "round":
        canvas.circle(middle, across / 2, pen)
    else:
        canvas.rectangle(Box(middle[0] - across / 2, middle[1] - across / 2, middle[0] + across / 2, middle[1] + across / 2), pen)


def _cross(canvas: Canvas, at: Point, radius: float) -> None:
    canvas.circle(at, radius, THIN)
    canvas.line((at[0] - HALF_CROSS, at[1]), (at[0] + HALF_CROSS, at[1]), THIN)
    canvas.line((at[0], at[1] - HALF_CROSS), (at[0], at[1] + HALF_CROSS), THIN)


def _bars(canvas: Canvas, left: float, base: float) -> None:
    """Two bars by which the print is checked: 100 mm and 4 in."""
    for number, (long, words) in enumerate(((BAR_MM, "100 mm"), (BAR_IN * MM_PER_INCH, "4 in"))):
        y = base + number * 9
        canvas.line((left, y), (left + long, y), HEAVY)
        for x in (left, left + long):
            canvas.line((x, y - 2), (x, y + 2), FIRM)
        canvas.text((left + long + 4, y + 1), f"{words}: measure this bar on the print")
