"""Spaces that must stay clear, from the left and from above, to scale, with the equipment hatched among them."""

from __future__ import annotations

import itertools
import math
import sys
from collections.abc import Sequence
from typing import Final, NamedTuple

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount
from liftout.figures.amounts import said
from liftout.figures.arrangement import ABOVE, SIDE, Arrangement, Edges, Kept, View, numbers, unit_of
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.keys import ROW, Symbol, key, outlined, rows_of_key, scale_bar
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.placing import Box, Placer, Point, around
from liftout.figures.scale import Scale
from liftout.figures.show import show
from liftout.figures.svg import FIRM, KEPT, THIN, Canvas, Pen, room_for
from liftout.quantities import unit


class _Sheet(NamedTuple):
    """One of the drawings of a view: the edges of its crowded part, if it has one, and whether it shows that alone."""

    crowd: Edges | None
    detail: bool


LEFT, RIGHT = 19.0, WIDTH - 4.0
BESIDE: Final = 11.0
"""Paper above, below and beside the spaces for the numbers of those that have no room inside."""
MOST_UP: Final = 105.0
"""Most paper, in mm, that the spaces take upwards."""
CROWD: Final = 6
"""Least number of spaces for which a detail is drawn."""
MOST_OF: Final = 0.6
"""Share of the spaces that a detail holds at least."""
LARGER: Final = 1.4
"""By how much a detail is larger at least."""
WORTH: Final = 0.75
"""What is left of the scale of a detail at least when further spaces are taken into it whole."""
RIM: Final = 3.0
"""Paper between the outermost spaces of a detail and its frame, in mm."""
ALONE: Final = 0.6
"""Distance of a dot from the outlines of other spaces, in mm."""
SEE_DETAIL: Final = "What lies wholly inside the frame has its number in the detail. "
CUT_OFF: Final = "What reaches beyond the frame is cut off there. "
NOTE: Final = "The boxes hold all that moves in them, as the job tells them. They may lie beside what they seem to hold in one view: look at both."


def kept_clear(facts: Facts) -> list[Drawing]:
    """Both views where the job tells the edges of a space, each with a detail where spaces lie crowded; nothing where it tells none."""
    views = [(view, Arrangement(facts, view, LEFT + BESIDE, RIGHT - BESIDE, MOST_UP, kept=True)) for view in (SIDE, ABOVE)]
    sheets: list[tuple[View, Arrangement, _Sheet]] = []
    for view, found in views:
        if not any(kept.edges for kept in found.kept):
            continue
        crowd = _crowd(found)
        sheets.append((view, found, _Sheet(crowd, detail=False)))
        if crowd:
            sheets.append((view, found.enlarged(crowd, LEFT + BESIDE, RIGHT - BESIDE, MOST_UP), _Sheet(crowd, detail=True)))
    return [_view(facts, view, found, sheet, keyed=sheet is sheets[-1][2]) for view, found, sheet in sheets]


def _crowd(shown: Arrangement) -> Edges | None:
    """The edges round the spaces that lie so crowded that a detail is worth its paper: the smallest part of the view that holds most of them."""
    told = [kept.edges for kept in shown.kept if kept.edges]
    least = max(CROWD, math.ceil(MOST_OF * len(told)))
    found: list[Edges] = []
    for forward, aft in itertools.product({e[0] for e in told}, {e[1] for e in told}):
        between = [e for e in told if forward <= e[0] and e[1] <= aft]
        for low in {e[2] for e in between} if len(between) >= least else ():
            tops = sorted(e[3] for e in between if e[2] >= low)
            if len(tops) >= least:
                found.append((forward, aft, low, tops[least - 1]))
    part = max(sorted(found), key=_largest, default=None)
    if part is None or _largest(part) < LARGER * shown.mm:
        return None
    smallest = WORTH * _largest(part)
    while wider := [w for e in told if (w := _both(part, e)) != part and _largest(w) >= smallest]:
        part = max(sorted(wider), key=_largest)
    forward, aft, low, high = part
    rim = RIM / _largest(part)
    return forward - rim, aft + rim, low - rim, high + rim


def _both(one: Edges, other: Edges) -> Edges:
    return min(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), max(one[3], other[3])


def _largest(part: Edges) -> float:
    """Paper for one unit, at most, of a detail that shows this part."""
    forward, aft, low, high = part
    return min((RIGHT - LEFT - 2 * BESIDE - 2 * RIM) / max(aft - forward, 1e-3), (MOST_UP - 2 * RIM) / max(high - low, 1e-3))


def kept_key(facts: Facts) -> Key:
    """What the numbers stand for."""
    rows: list[tuple[str, ...]] = []
    for number, volume in enumerate(facts.keep_clear.volumes, 1):
        space = volume.space
        if space is None:
            faces = ("not told: not drawn", "", "")
        else:
            faces = (_from_to(space.front, space.rear), _from_to(space.left, space.right), _from_to(space.bottom, space.top))
        rows.append((f"K{number}", f"{volume.name}, {volume.kind}", *faces))
    rows += [(number, item.name, said(item.arm), said(item.lateral), said(item.height)) for number, item in _numbered(facts)]
    return Key(
        ("No.", "Space, or item by its centre of gravity", "Arm", "Right", "Height"),
        tuple(rows),
        ("left", "left", "right", "right", "right"),
        "Key to the spaces that must stay clear",
    )


def _numbered(facts: Facts) -> list[tuple[str, Item]]:
    return list(zip(numbers(facts.items), facts.items, strict=True))


def _from_to(first: Amount, last: Amount) -> str:
    return f"{said(first)} to {said(last)}"


def _view(facts: Facts, view: View, shown: Arrangement, sheet: _Sheet, *, keyed: bool) -> Drawing:
    entries: list[tuple[Symbol, str]] = [(outlined(KEPT), "space that must stay clear"), (_hatched, "equipment")]
    notes = wrapped(f"{CUT_OFF if sheet.detail else SEE_DETAIL if sheet.crowd else ''}{NOTE}", WIDTH - 2)
    shown.top = BESIDE + 2
    axis = shown.region.bottom + BESIDE
    foot = axis + 12 + ROW * len(rows_of_key(entries))
    canvas = Canvas(WIDTH, foot + 6 + len(notes) * LINE)
    placer = Placer(Box(LEFT, 0.5, RIGHT, axis - 0.5))
    _axes(canvas, shown, view, axis)
    frame = shown.outline(sheet.crowd)
    window = frame if frame and sheet.detail else placer.region
    items = [
        (number, p.item.name, box) for number, p in zip(numbers(facts.items), shown.items, strict=True) if (box := _seen(shown, p.edges, window))
    ]
    for _, name, box in items:
        with canvas.group(name):
            _outline(canvas, box, window, FIRM)
            canvas.hatching(box.shared(window) or box, 1.6)
        placer.outline(box)
        placer.marks.append(box)
    boxes = [(f"K{number}", kept, box) for number, kept in enumerate(shown.kept, 1) if (box := _seen(shown, kept.edges, window))]
    for _, kept, box in boxes:
        with canvas.group(kept.words):
            _outline(canvas, box, window, KEPT)
        placer.outline(box)
    if frame:
        canvas.rectangle(frame, THIN)
        placer.outline(frame)
        if not sheet.detail and (room := placer.near((frame.centre[0], frame.top), *room_for("detail"), 0.8)):
            canvas.label(room, "detail")
    wanted = [one for one in _together(boxes) if sheet.detail or frame is None or not frame.holds(one[2])]
    # The smallest first: a large space has more places for its number.
    for number, words, box in sorted(wanted, key=lambda one: (one[2].width * one[2].height, one[0])):
        with canvas.group(words):
            _number(canvas, number, box, window, placer, [other for _, _, other in _together(boxes) if other is not box])
    for number, name, box in items:
        _item_number(canvas, number, name, box.shared(window) or box, placer)
    key(canvas, 1, axis + 12, entries)
    scale_bar(canvas, 4, foot + 3, shown.mm, shown.unit)
    canvas.lines((1, foot + 8), notes)
    what = "Detail of the spaces" if sheet.detail else "Spaces"
    title = f"{what} that must stay clear, seen {view.seen}, in the {facts.aircraft.model}."
    told = kept_key(facts)
    words = f"{title} Forward to the left, {view.sense} upwards. {told.in_words} {NOTE}"
    scale = to_scale(shown.mm / (float(unit(unit_of(facts)).factor) * 1000))
    return drawing(canvas, f"kept-clear-{view.seen}{'-detail' if sheet.detail else ''}", title, words, scale, told if keyed else None)


def _seen(shown: Arrangement, edges: Edges | None, window: Box) -> Box | None:
    """Where something is drawn; None where nothing of it lies in the window."""
    box = shown.outline(edges)
    # A space may be so thin that it is a line on the paper.
    return box if box and box.grown(0.001).overlaps(window) else None


def _outline(canvas: Canvas, box: Box, window: Box, pen: Pen) -> None:
    """The outline of a box, cut at the edges of the window."""
    if window.holds(box):
        canvas.rectangle(box, pen)
        return
    for side in box.sides:
        if piece := window.piece_inside(*side):
            canvas.line(*piece, pen)


def _axes(canvas: Canvas, shown: Arrangement, view: View, axis: float) -> None:
    canvas.line((LEFT, axis), (RIGHT, axis), FIRM)
    for value, text in shown.arm.ticks(10):
        x = shown.arm.at(value)
        canvas.line((x, axis), (x, axis + 1.2), FIRM)
        canvas.text((x, axis + 4.8), text, anchor="middle")
    canvas.text((RIGHT, axis + 9), f"Arm ({shown.unit})", anchor="end")
    top = shown.up.at(shown.most)
    canvas.line((LEFT - 4, top), (LEFT - 4, shown.up.start), THIN)
    up = Scale(shown.least, shown.most if shown.most > shown.least else shown.least + 1, shown.up.start, top)
    for value, text in up.ticks_apart(max(8.0, (shown.up.start - top) / 6), LINE):
        y = shown.up.at(value)
        if top - 0.1 <= y <= shown.up.start + 0.1:
            canvas.line((LEFT - 5, y), (LEFT - 4, y), THIN)
            canvas.text((LEFT - 5.5, y + SHIFT), text, anchor="end")
    canvas.text((3.2, max(shown.region.centre[1], 13)), f"{'Height' if view is SIDE else 'Right'} ({shown.unit})", anchor="middle", upwards=True)


def _together(boxes: Sequence[tuple[str, Kept, Box]]) -> list[tuple[str, str, Box]]:
    """Numbers and names of spaces with their outlines; those with one and the same outline on the paper have one label."""
    found: dict[tuple[float, ...], list[tuple[str, str, Box]]] = {}
    for number, kept, box in boxes:
        found.setdefault(tuple(round(edge, 1) for edge in (box.left, box.top, box.right, box.bottom)), []).append((number, kept.words, box))
    return [(", ".join(number for number, _, _ in same), "; ".join(words for _, words, _ in same), same[0][2]) for same in found.values()]


def _number(canvas: Canvas, number: str, outline: Box, window: Box, placer: Placer, others: Sequence[Box]) -> None:
    """The number of a space inside its outline, in a corner or along an edge; else outside, with a leader to a dot on its edge.

    Inside it stands in no smaller space, and a dot stands where no other space has an edge: so it is plain whose number it is.
    """
    box, (wide, high) = outline.shared(window) or outline, room_for(number)
    inside = Box(box.left + wide / 2 + 0.3, box.top + high / 2 + 0.3, box.right - wide / 2 - 0.3, box.bottom - high / 2 - 0.3)
    smaller = [other for other in others if other.width * other.height <= outline.width * outline.height]
    if inside.width >= 0 and inside.height >= 0:
        shares = (0.0, 1.0, 0.5, 0.25, 0.75)
        for up in shares:
            for across in shares:
                room = around((inside.left + across * inside.width, inside.top + up * inside.height), wide, high)
                if not any(other.overlaps(room) for other in smaller) and placer.free(room, clear=True):
                    placer.labels.append(room)
                    canvas.label(room, number)
                    return
    ends = _ends(outline, window, others)
    for reaches in (range(2, 6), range(6, 14), range(14, 40)):
        for end in ends:
            if any(label.overlaps(around(end, 1.2, 1.2)) for label in placer.labels):
                continue
            if outside := _outside(placer, end, wide, high, reaches):
                canvas.line(end, outside.centre, THIN)
                canvas.circle(end, 0.45, None, "#000")
                canvas.label(outside, number)
                return
    if beside := placer.near(box.centre, wide, high, 1.0):
        canvas.line(box.centre, beside.centre, THIN)
        canvas.label(beside, number)


def _ends(outline: Box, window: Box, others: Sequence[Box]) -> list[Point]:
    """Places for the dot of a leader: where no other outline passes, and only where there is none such, anywhere on the edge."""
    sides = [piece for side in outline.sides if (piece := window.piece_inside(*side))]
    points = [(a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])) for share in (0.5, 0.2, 0.8) for a, b in sides]
    alone = [
        point for point in points if not any(around(point, 2 * ALONE, 2 * ALONE).piece_inside(*side) for other in others for side in other.sides)
    ]
    return alone or points


def _outside(placer: Placer, end: Point, wide: float, high: float, reaches: range) -> Box | None:
    """The nearest free room above or below that crosses nothing, and its leader no other label."""
    for reach in reaches:
        for across in (0, -4, 4, -8, 8, -12, 12):
            for sign in (-1, 1):
                room = around((end[0] + across, end[1] + sign * (reach + high / 2)), wide, high)
                if placer.free(room, clear=True) and not any(label.piece_inside(end, room.centre) for label in placer.labels):
                    placer.labels.append(room)
                    placer.lines.append((end, room.centre))
                    placer.marks.append(around(end, 1.2, 1.2))
                    return room
    return None


def _item_number(canvas: Canvas, number: str, name: str, box: Box, placer: Placer) -> None:
    wide, high = room_for(number, bold=True)
    with canvas.group(name):
        room = around(box.centre, wide, high)
        if placer.free(room, clear=False) and box.grown(-0.5).holds(room):
            placer.labels.append(room)
            canvas.label(room, number, bold=True)
        elif beside := placer.near(box.centre, wide, high, max(box.width, box.height) / 2 + 1.0):
            canvas.line(box.centre, beside.centre, THIN)
            canvas.label(beside, number, bold=True)


def _hatched(canvas: Canvas, at: tuple[float, float]) -> None:
    box = around(at, 8, 3.4)
    canvas.rectangle(box, FIRM)
    canvas.hatching(box, 1.6)


if __name__ == "__main__":
    show(kept_clear, sys.argv[1:])
