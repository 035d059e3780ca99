"""Side view with stations: where each item, line, seat, baggage space and tank is, from the datum.

A job describes no outline of the aircraft, so none is drawn: a scale of stations, a scale of heights, and what the
job places on them, to one scale both ways.
"""

from __future__ import annotations

import sys
from collections import Counter

from liftout.facts import Amount, Facts
from liftout.figures.amounts import UNKNOWN, needed, on_scale, said
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, drawing
from liftout.figures.elevation import Elevation, Kept, Pipe, Placed, numbers, pipes
from liftout.figures.keys import key, scale_bar
from liftout.figures.legend import Column, Legend, Symbol
from liftout.figures.lettering import shortened, wrapped
from liftout.figures.marks import centre_of_gravity, letters
from liftout.figures.placing import Box, Placer, Point, around, rows_of
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, THIN, Canvas, Pen, room_for

LEFT, RIGHT = 18.0, WIDTH - 6.0
BALLOON, ROW = 2.9, 6.6
LINE = 3.6
HEIGHT_UNKNOWN = f"height {UNKNOWN}"
KEPT = Pen(0.18, (0.8, 0.8), "#666")
NOTE = (
    "A box stands where the job says, or about its item's centre of gravity where the job does not say. "
    "Fine dashes bound spaces that must stay clear (K), with all that moves in them; they may lie beside what they seem to hold. "
    "{lines}No outline of the aircraft is drawn."
)
STRAIGHT = "Lines are drawn straight between the items that they join; the job does not say their route. "


def _from_to(first: Amount, last: Amount) -> str:
    return f"{said(first)} to {said(last)}"


def side_view(facts: Facts) -> Drawing:
    """The side view of a job."""
    view = _View(facts)
    note = NOTE.format(lines=STRAIGHT if view.pipes else "")
    notes = wrapped(note, WIDTH - 2, 8.0)
    table = view.table.within(TALLEST - view.bottom - 4 - len(notes) * LINE)
    canvas = Canvas(WIDTH, view.bottom + table.height + 4 + len(notes) * LINE)
    view.draw(canvas)
    table.draw(canvas, 1, view.bottom)
    for number, words in enumerate(notes):
        canvas.text((1, view.bottom + table.height + 4.5 + number * LINE), words)
    title = f"Side view of the equipment in the {facts.aircraft.model} with stations aft of the datum {facts.aircraft.datum}."
    return drawing(canvas, "side-view", title, f"{title} {view.in_words} {note}")


class _View:
    def __init__(self, facts: Facts) -> None:
        self.facts = facts
        self.all = Elevation(facts, LEFT, RIGHT)
        self.items = list(zip(numbers(facts.items), self.all.items, strict=True))
        count = sum(placed.arm is not None for _, placed in self.items) + sum(path is not None for _, _, path in self._paths(pipes(facts)))
        self.all.top = 2 + ROW * max(1, -(-count // int((RIGHT - LEFT) / ROW))) + 5
        self.pipes = self._paths(pipes(facts))
        self.axis = self.all.region.bottom + 5
        self.kept = [(f"K{number}", kept) for number, kept in enumerate(self.all.kept, 1)]
        self.stations = [(letters(number), station, on_scale(station.arm, self.all.unit)) for number, station in enumerate(self.all.stations)]
        arms = [arm for _, _, arm in self.stations if arm is not None]
        self.squares = rows_of([self.all.arm.at(arm) for arm in arms], ROW, LEFT, RIGHT)
        self.key = self.axis + 15 + ROW * max((row + 1 for row, _ in self.squares), default=0)
        self.bottom = self.key + 10

    def _paths(self, segments: list[Pipe]) -> list[tuple[str, Pipe, tuple[Point, Point] | None]]:
        pairs = [frozenset((pipe.begins, pipe.ends)) for pipe in segments]
        total, seen, found = Counter(pairs), Counter[frozenset[str]](), []
        for number, (pipe, pair) in enumerate(zip(segments, pairs, strict=True), 1):
            found.append((f"L{number}", pipe, self.all.path(pipe, seen[pair], total[pair])))
            seen[pair] += 1
        return found

    # -- words ------------------------------------------------------------------------------------------------------

    @property
    def table(self) -> Legend:
        """What numbers and letters stand for."""
        columns = (
            Column("No.", 10),
            Column("Item, line or station", 76),
            Column("Arm", 24, "end"),
            Column("Height", 22, "end"),
            Column("Length × width × height", 34, "end"),
        )
        return Legend(columns, tuple(self._rows()))

    def _rows(self) -> list[tuple[str, ...]]:
        rows: list[tuple[str, ...]] = []
        for number, placed in self.items:
            item = placed.item
            size = " × ".join(said(amount) for amount in (item.length, item.width, item.tall))
            lacks = "; ".join(words for fact in (item.arm, item.height) if (words := needed(fact)))
            name = f"{item.name}, {'removable' if item.removable else 'provision'}" + (f" ({lacks})" if lacks else "")
            rows.append((number, name, said(item.arm), said(item.height), "not told" if size == "? × ? × ?" else size))
        for number, pipe, path in self.pipes:
            rows.append((number, pipe.words + ("" if path else " (not drawn)"), f"{said(pipe.segment.arm)}", "", ""))
        for number, kept in self.kept:
            space = kept.volume.space
            arms, heights = ("not told", "") if space is None else (_from_to(space.front, space.rear), _from_to(space.bottom, space.top))
            rows.append((number, kept.words + ("" if kept.edges else " (not drawn)"), arms, heights, ""))
        for letter, station, arm in self.stations:
            rows.append((letter, station.in_full + (f" ({needed(station.arm)})" if arm is None else ""), said(station.arm), "", ""))
        return rows

    @property
    def in_words(self) -> str:
        """The table as sentences."""
        heads = ("", "", "arm ", "height ", "length, width and height ")
        return " ".join(f"{row[0]}: {', '.join(head + cell for head, cell in zip(heads[1:], row[1:], strict=True) if cell)}." for row in self._rows())

    # -- drawing ----------------------------------------------------------------------------------------------------

    def draw(self, canvas: Canvas) -> None:
        """Everything but the table."""
        placer = Placer(self.all.region.grown(1.5))
        self._axes(canvas, placer)
        self._floors(canvas)
        for _, kept in self.kept:
            if box := self.all.outline(kept.edges):
                with canvas.group(kept.words):
                    canvas.rectangle(box, KEPT)
        for _, pipe, path in self.pipes:
            if path:
                self._pipe(canvas, pipe, path)
                placer.follow(path)
        for _, placed in self.items:
            self._item(canvas, placed, placer)
        self._balloons(canvas, placer)
        self._datum_names(canvas, placer)
        for _, placed in self.items:
            middle = self.all.middle(placed)
            if middle and placed.height is None and (room := placer.beside(middle, *room_for(HEIGHT_UNKNOWN), 1.9)):
                canvas.label(room, HEIGHT_UNKNOWN)
        for _, placed in self.items:
            self._name(canvas, placed, placer)
        # Names of items matter more: they may cover these outlines, and only the numbers of spaces keep off them.
        boxes = [box for _, kept in self.kept if (box := self.all.outline(kept.edges))]
        for box in boxes:
            placer.outline(box)
        for number, kept in self.kept:
            if box := self.all.outline(kept.edges):
                self._kept(canvas, number, kept, box, placer)
        self._stations(canvas)
        self._keys(canvas)

    def _axes(self, canvas: Canvas, placer: Placer) -> None:
        view, region = self.all, self.all.region
        canvas.line((LEFT, self.axis), (RIGHT, self.axis), FIRM)
        for value, text in view.arm.ticks(12):
            x = view.arm.at(value)
            canvas.line((x, self.axis), (x, self.axis + 1.2), FIRM)
            canvas.text((x, self.axis + 4.6), text, anchor="middle")
        canvas.line((LEFT - 4, region.top), (LEFT - 4, view.height.start), THIN)
        span = (view.height.start - region.top) / view.mm
        for value, text in type(view.height)(view.least, view.least + span, view.height.start, region.top).ticks(max(1, int(region.height / 7))):
            canvas.line((LEFT - 5, view.height.at(value)), (LEFT - 4, view.height.at(value)), THIN)
            canvas.text((LEFT - 5.5, view.height.at(value) + 1), text, anchor="end")
        canvas.text((3.2, (region.top + view.height.start) / 2), f"Height ({view.unit})", anchor="middle", upwards=True)
        for name, arm in view.datums.items():
            if arm is not None:
                x = view.arm.at(arm)
                with canvas.group(f"datum {name}"):
                    canvas.line((x, region.top - 4), (x, self.axis), CHAIN)
                placer.follow([(x, region.top), (x, region.bottom)])

    def _datum_names(self, canvas: Canvas, placer: Placer) -> None:
        region = self.all.region
        for name, arm in self.all.datums.items():
            words = shortened(f"datum {name}, station 0" if name == self.facts.aircraft.datum else f"datum {name}", 40, 8)
            heights = (region.top + 2, region.centre[1], region.bottom - 2)
            rooms = (placer.beside((self.all.arm.at(arm), y), *room_for(words), 0.6) for y in heights if arm is not None)
            if room := next((room for room in rooms if room), None):
                canvas.label(room, words)

    def _floors(self, canvas: Canvas) -> None:
        for floor in self.all.floors:
            left, right, y = self.all.arm.at(floor.forward), self.all.arm.at(floor.aft), self.all.height.at(floor.height)
            canvas.line((left, y), (right, y), HEAVY)
            canvas.hatching(Box(left, y, right, y + 1.6), 1.4)

    def _pipe(self, canvas: Canvas, pipe: Pipe, path: tuple[Point, Point]) -> None:
        (x1, y1), (x2, y2) = path
        length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        side = (-(y2 - y1) / length * 0.5, (x2 - x1) / length * 0.5)
        with canvas.group(pipe.words):
            for sign in (1, -1):
                canvas.line((x1 + sign * side[0], y1 + sign * side[1]), (x2 + sign * side[0], y2 + sign * side[1]), THIN)

    def _item(self, canvas: Canvas, placed: Placed, placer: Placer) -> None:
        middle, box = self.all.middle(placed), self.all.box(placed)
        if middle is None:
            return
        with canvas.group(placed.item.name):
            if box:
                canvas.rectangle(box, FIRM if placed.item.removable else DASHED)
                placer.outline(box)
            centre_of_gravity(canvas, middle)
            placer.marks.append(around(middle, 3, 3))

    def _name(self, canvas: Canvas, placed: Placed, placer: Placer) -> None:
        """The name of an item inside its box or right beside it, where there is room; its number stands for it anyhow."""
        middle, box = self.all.middle(placed), self.all.box(placed)
        targets = [(middle, 1.9)] if middle else []
        if box:
            x, y = box.centre
            targets += [((x, box.bottom), 2.4), ((x, box.top), 0.8), ((box.right, y), 0.8), ((box.left, y), 0.8)]
        name = shortened(placed.item.name, 32, 8)
        for target, gap in targets:
            if room := placer.beside(target, *room_for(name), gap):
                canvas.label(room, name)
                return

    def _kept(self, canvas: Canvas, number: str, kept: Kept, box: Box, placer: Placer) -> None:
        """The number of a space inside its outline, in a corner of it or beside it; with a leader where there is no room."""
        size = room_for(number)
        inside = Box(box.left + size[0] / 2 + 0.4, box.top + size[1] / 2 + 0.4, box.right - size[0] / 2 - 0.4, box.bottom - size[1] / 2 - 0.4)
        with canvas.group(kept.words):
            for centre in (
                (inside.left, inside.top),
                (inside.right, inside.top),
                (inside.left, inside.bottom),
                (inside.right, inside.bottom),
                box.centre,
            ):
                if inside.width >= 0 and inside.height >= 0 and placer.free(room := around(centre, *size), clear=True):
                    placer.labels.append(room)
                    canvas.label(room, number)
                    return
            y = box.centre[1]
            ends = [box.centre, (box.left, y), (box.right, y)]
            end = next((end for end in ends if not any(label.piece_inside(end, end) for label in placer.labels)), box.centre)
            if beside := placer.near(end, *size, 1.0):
                canvas.line(end, beside.centre, KEPT)
                canvas.label(beside, number)

    def _balloons(self, canvas: Canvas, placer: Placer) -> None:
        targets = [(number, placed.item.name, middle, self.all.box(placed)) for number, placed in self.items if (middle := self.all.middle(placed))]
        targets += [(number, pipe.words, self._heart(pipe, *path), None) for number, pipe, path in self.pipes if path]
        places = rows_of([target[0] for _, _, target, _ in targets], ROW, LEFT, RIGHT)
        centres = [(x, 2 + BALLOON + row * ROW) for row, x in places]
        for (_, name, target, box), centre in zip(targets, centres, strict=True):
            end = (target[0], box.top + 1.0) if box else target
            placer.follow([centre, end])
            with canvas.group(name):
                canvas.line(centre, end, THIN)
                canvas.circle(end, 0.45, None, "#000")
        for (number, name, _, _), centre in zip(targets, centres, strict=True):
            with canvas.group(name):
                canvas.circle(centre, BALLOON, FIRM, "#fff")
                canvas.text((centre[0], centre[1] + 1), number, 8, anchor="middle", bold=True)

    def _heart(self, pipe: Pipe, start: Point, end: Point) -> Point:
        """The point of a line at the arm that the job gives for its middle; half way where that lies beyond its ends."""
        arm = on_scale(pipe.segment.arm, self.all.unit)
        run = end[0] - start[0]
        share = (self.all.arm.at(arm) - start[0]) / run if arm is not None and run else 0.5
        share = share if 0 <= share <= 1 else 0.5
        return start[0] + share * run, start[1] + share * (end[1] - start[1])

    def _stations(self, canvas: Canvas) -> None:
        drawn = [(letter, station, self.all.arm.at(arm)) for letter, station, arm in self.stations if arm is not None]
        centres = [(x, self.axis + 10 + row * ROW) for row, x in self.squares]
        for (_, _, x), centre in zip(drawn, centres, strict=True):
            canvas.line((x, self.axis), (x, self.axis + 1.2), HEAVY)
            canvas.polyline([(x, self.axis + 5.6), (x, self.axis + 6.4), centre], THIN)
        for (letter, station, _), centre in zip(drawn, centres, strict=True):
            with canvas.group(station.in_full):
                canvas.rectangle(around(centre, 2 * BALLOON, 2 * BALLOON - 1), FIRM, "#fff")
                canvas.text((centre[0], centre[1] + 1), letter, 8, anchor="middle", bold=True)
        foot = max((y for _, y in centres), default=self.key) + BALLOON + 4
        placer = Placer(Box(LEFT, self.axis + 7, RIGHT, foot), labels=[around(centre, 2 * BALLOON + 0.4, 2 * BALLOON - 1) for centre in centres])
        for (_, _, x), centre in zip(drawn, centres, strict=True):
            placer.follow([(x, self.axis + 6.4), centre])
        for (_, station, _), centre in zip(drawn, centres, strict=True):
            # No name stands below a letter that is not its own.
            placer.marks = [Box(x - BALLOON, y, x + BALLOON, foot) for x, y in centres if (x, y) != centre]
            room = placer.beside(centre, *room_for(station.name), BALLOON + 0.4)
            if room:
                canvas.label(room, station.name)

    def _keys(self, canvas: Canvas) -> None:
        def outline(pen: Pen) -> Symbol:
            return lambda c, at: c.rectangle(around(at, 8, 3.4), pen)

        def line(c: Canvas, at: Point) -> None:
            for y in (-0.5, 0.5):
                c.line((at[0] - 4, at[1] + y), (at[0] + 4, at[1] + y), THIN)

        def floor(c: Canvas, at: Point) -> None:
            c.line((at[0] - 4, at[1] - 0.6), (at[0] + 4, at[1] - 0.6), HEAVY)
            c.hatching(Box(at[0] - 4, at[1] - 0.6, at[0] + 4, at[1] + 1), 1.4)

        key(
            canvas,
            1,
            self.key,
            [
                (outline(FIRM), "removable"),
                (outline(DASHED), "provision"),
                (centre_of_gravity, "centre of gravity"),
                *([(line, "liquid line")] if self.pipes else []),
                (floor, "floor at the contacts"),
            ],
        )
        scale_bar(canvas, 4, self.key + 8, self.all.mm, self.all.unit)
        words = f"Stations: arm aft of the datum {self.facts.aircraft.datum} ({self.all.unit})"
        canvas.text((RIGHT, self.key + 8), shortened(words, 90, 8), anchor="end")


if __name__ == "__main__":
    show(lambda facts: [side_view(facts)], sys.argv[1:])
