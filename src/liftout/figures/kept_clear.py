"""Spaces that must stay clear, from the left and from above, to scale, with the equipment hatched among them."""

from __future__ import annotations

import sys
from typing import Final

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount
from liftout.figures.amounts import said
from liftout.figures.arrangement import ABOVE, SIDE, Arrangement, Kept, View, numbers, unit_of
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.keys import ROW, Symbol, key, outlined, rows_of_key, scale_bar
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.placing import Box, Placer, around
from liftout.figures.show import show
from liftout.figures.svg import FIRM, KEPT, THIN, Canvas, room_for
from liftout.quantities import unit

LEFT, RIGHT = 19.0, WIDTH - 4.0
BESIDE: Final = 11.0
"""Paper above, below and beside the spaces for the numbers of those that have no room inside."""
MOST_UP: Final = 105.0
"""Most paper, in mm, that the spaces take upwards."""
NOTE: Final = "The boxes hold all that moves in them, as the job tells them. They may lie beside what they seem to hold in one view: look at both."


def kept_clear(facts: Facts) -> list[Drawing]:
    """Both views where the job tells the edges of a space; nothing where it tells none."""
    views = [(view, Arrangement(facts, view, LEFT + BESIDE, RIGHT - BESIDE, MOST_UP, kept=True)) for view in (SIDE, ABOVE)]
    shown = [(view, found) for view, found in views if any(kept.edges for kept in found.kept)]
    return [_view(facts, view, found, keyed=view is shown[-1][0]) for view, found in shown]


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


def _view(facts: Facts, view: View, shown: Arrangement, *, keyed: bool) -> Drawing:
    entries: list[tuple[Symbol, str]] = [(outlined(KEPT), "space that must stay clear"), (_hatched, "equipment")]
    notes = wrapped(NOTE, WIDTH - 2)
    shown.top = BESIDE + 2
    axis = shown.region.bottom + BESIDE
    foot = axis + 12 + ROW * len(rows_of_key(entries))
    canvas = Canvas(WIDTH, foot + 6 + len(notes) * LINE)
    placer = Placer(Box(LEFT, 0.5, RIGHT, axis - 0.5))
    _axes(canvas, shown, view, axis)
    for placed in shown.items:
        if box := shown.box(placed):
            with canvas.group(placed.item.name):
                canvas.rectangle(box, FIRM)
                canvas.hatching(box, 1.6)
            placer.outline(box)
            placer.marks.append(box)
    boxes = [(f"K{number}", kept, box) for number, kept in enumerate(shown.kept, 1) if (box := shown.outline(kept.edges))]
    for _, kept, box in boxes:
        with canvas.group(kept.words):
            canvas.rectangle(box, KEPT)
        placer.outline(box)
    # The smallest first: a large space has more places for its number.
    for number, kept, box in sorted(boxes, key=lambda one: (one[2].width * one[2].height, one[0])):
        _number(canvas, number, kept, box, placer)
    for number, placed in zip(numbers(facts.items), shown.items, strict=True):
        if box := shown.box(placed):
            _item_number(canvas, number, placed.item.name, box, placer)
    key(canvas, 1, axis + 12, entries)
    scale_bar(canvas, 4, foot + 3, shown.mm, shown.unit)
    canvas.lines((1, foot + 8), notes)
    title = f"Spaces that must stay clear, seen {view.seen}, in the {facts.aircraft.model}."
    told = kept_key(facts)
    words = f"{title} Forward to the left, {view.sense} upwards. {told.in_words} {NOTE}"
    scale = to_scale(shown.mm / (float(unit(unit_of(facts)).factor) * 1000))
    return drawing(canvas, f"kept-clear-{view.seen}", title, words, scale, told if keyed else None)


def _axes(canvas: Canvas, shown: Arrangement, view: View, axis: float) -> None:
    canvas.line((LEFT, axis), (RIGHT, axis), FIRM)
    for value, text in shown.arm.ticks(10):
        x = shown.arm.at(value)
        canvas.line((x, axis), (x, axis + 1.2), FIRM)
        canvas.text((x, axis + 4.8), text, anchor="middle")
    canvas.text((RIGHT, axis + 9), f"Arm ({shown.unit})", anchor="end")
    top = shown.up.at(shown.most)
    canvas.line((LEFT - 4, top), (LEFT - 4, shown.up.start), THIN)
    for value, text in type(shown.up)(shown.least, shown.most if shown.most > shown.least else shown.least + 1, shown.up.start, top).ticks(6):
        y = shown.up.at(value)
        if top - 0.1 <= y <= shown.up.start + 0.1:
            canvas.line((LEFT - 5, y), (LEFT - 4, y), THIN)
            canvas.text((LEFT - 5.5, y + SHIFT), text, anchor="end")
    canvas.text((3.2, max(shown.region.centre[1], 13)), f"{'Height' if view is SIDE else 'Right'} ({shown.unit})", anchor="middle", upwards=True)


def _number(canvas: Canvas, number: str, kept: Kept, box: Box, placer: Placer) -> None:
    """The number of a space inside its outline, in a corner or along an edge; else outside, with a leader to a dot on its edge."""
    wide, high = room_for(number)
    inside = Box(box.left + wide / 2 + 0.3, box.top + high / 2 + 0.3, box.right - wide / 2 - 0.3, box.bottom - high / 2 - 0.3)
    with canvas.group(kept.words):
        if inside.width >= 0 and inside.height >= 0:
            shares = (0.0, 1.0, 0.5, 0.25, 0.75)
            for up in shares:
                for across in shares:
                    room = around((inside.left + across * inside.width, inside.top + up * inside.height), wide, high)
                    if placer.free(room, clear=True):
                        placer.labels.append(room)
                        canvas.label(room, number)
                        return
        x, y = box.centre
        ends = ((x, box.top), (x, box.bottom), (box.left, y), (box.right, y), (box.left, box.top), (box.right, box.bottom))
        for end in ends:
            if any(label.overlaps(around(end, 1.2, 1.2)) for label in placer.labels):
                continue
            if outside := _outside(placer, end, wide, high):
                canvas.line(end, outside.centre, THIN)
                canvas.circle(end, 0.45, None, "#000")
                canvas.label(outside, number)
                return
        if beside := placer.near(box.centre, wide, high, 1.0):
            canvas.line(box.centre, beside.centre, THIN)
            canvas.label(beside, number)


def _outside(placer: Placer, end: tuple[float, float], wide: float, high: float) -> Box | None:
    """The nearest free room above or below that crosses nothing, and its leader no other label."""
    for reach in range(2, 40):
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
