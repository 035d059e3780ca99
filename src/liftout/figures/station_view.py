"""A view of the equipment with stations: where each item, line, seat, baggage space and tank is, from the datum.

A job describes no outline of the aircraft, so none is drawn: a scale of stations, a scale across it, and what the job places
on them, to one scale both ways. Side view and plan view are drawn alike and share their numbers, letters and key.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence
from typing import Final

from liftout.facts import Facts
from liftout.figures.amounts import UNKNOWN, needed, on_scale, said
from liftout.figures.arrangement import ABOVE, SIDE, Arrangement, Pipe, Placed, View, lettered, numbers, pipes, unit_of
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.keys import ROW as KEY_ROW
from liftout.figures.keys import Symbol, key, outlined, rows_of_key, ruled, scale_bar
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.marks import centre_of_gravity
from liftout.figures.placing import Box, Placer, Point, around, rows_of
from liftout.figures.scale import Scale
from liftout.figures.svg import CHAIN, DASHED, FIRM, HEAVY, THIN, Canvas, room_for
from liftout.quantities import unit

LEFT, RIGHT = 19.0, WIDTH - 6.0
BALLOON, ROW = 3.1, 7.2
MOST_UP = 100.0
"""Most paper, in mm, that the items take upwards."""

NAME_WIDTH = 34.0
"""A longer name stands in the key only, beside its number."""

NOTE: Final = (
    "A box stands where the job says, or about its item's centre of gravity where the job does not say. {lines}No outline of the aircraft is drawn."
)
STRAIGHT: Final = "Lines are drawn straight between the items that they join, where the job does not tell their route. "
WORDS: Final = {SIDE: ("Side view", "Height"), ABOVE: ("Plan view", "Right")}


def station_view(facts: Facts, view: View, *, keyed: bool = False) -> Drawing:
    """The side view or the plan view of a job."""
    shown = _Shown(facts, view)
    canvas = Canvas(WIDTH, shown.bottom)
    shown.draw(canvas)
    name = WORDS[view][0]
    title = f"{name} of the equipment in the {facts.aircraft.model} with stations aft of the datum {facts.aircraft.datum}."
    told = station_key(facts)
    words = f"{title} Seen {view.seen}, forward to the left, {view.sense} upwards. {told.in_words} {shown.note}"
    scale = to_scale(shown.all.mm / (float(unit(shown.all.unit).factor) * 1000))
    return drawing(canvas, name.replace(" ", "-"), title, words, scale, told if keyed else None)


def station_key(facts: Facts) -> Key:
    """What numbers and letters stand for."""
    measure = unit_of(facts)
    rows: list[tuple[str, ...]] = []
    for number, item in zip(numbers(facts.items), facts.items, strict=True):
        size = " × ".join(said(amount) for amount in (item.length, item.width, item.tall))
        lacks = "; ".join(words for fact in (item.arm, item.lateral, item.height) if (words := needed(fact)))
        name = f"{item.name}, {'removable' if item.removable else 'provision'}" + (f" ({lacks})" if lacks else "")
        rows.append((number, name, said(item.arm), said(item.lateral), said(item.height), "not told" if size == "? × ? × ?" else size))
    for n, pipe in enumerate(pipes(facts), 1):
        rows.append((f"L{n}", pipe.words, said(pipe.segment.arm), said(pipe.segment.route.lateral), "", ""))
    for letter, station in lettered(facts):
        lacks = f" ({needed(station.arm)})" if on_scale(station.arm, measure) is None else ""
        rows.append((letter, station.in_full + lacks, said(station.arm), "", "", ""))
    return Key(
        ("No.", "Item, line or station", "Arm", "Right", "Height", "Length × width × height"),
        tuple(rows),
        ("left", "left", "right", "right", "right", "right"),
        "Key to the side view and the plan view",
    )


class _Shown:
    def __init__(self, facts: Facts, view: View) -> None:
        self.facts = facts
        self.view = view
        found = pipes(facts)
        balloons = len(facts.items) + len(found)
        top = 2 + ROW * max(1, -(-balloons // int((RIGHT - LEFT) / ROW))) + 5
        self.entries = self._entries(bool(found))
        self.note = NOTE.format(lines=STRAIGHT if any(not pipe.segment.route.turns for pipe in found) else "")
        self.notes = wrapped(self.note, WIDTH - 2)
        self.axis_words = wrapped(f"Stations: arm aft of the datum {facts.aircraft.datum} ({unit_of(facts)})", RIGHT - LEFT)
        arms = [arm for _, station in lettered(facts) if (arm := on_scale(station.arm, unit_of(facts))) is not None]
        squares = -(-len(arms) // int((RIGHT - LEFT) / ROW))
        below = 15 + len(self.axis_words) * LINE + ROW * squares + KEY_ROW * len(rows_of_key(self.entries)) + 10 + len(self.notes) * LINE
        self.all = Arrangement(facts, view, LEFT, RIGHT, min(MOST_UP, TALLEST - top - below - 14))
        self.all.top = top
        self.items = list(zip(numbers(facts.items), self.all.items, strict=True))
        self.pipes = self._paths(found)
        self.axis = self.all.region.bottom + 5
        self.stations = [(letter, station, on_scale(station.arm, self.all.unit)) for letter, station in lettered(facts)]
        self.squares = rows_of([self.all.arm.at(arm) for _, _, arm in self.stations if arm is not None], ROW, LEFT, RIGHT)
        self.words = self.axis + 13 + ROW * max((row + 1 for row, _ in self.squares), default=0)
        self.key = self.words + len(self.axis_words) * LINE + 1
        self.bar = self.key + KEY_ROW * len(rows_of_key(self.entries)) + 4
        self.bottom = self.bar + 2.5 + len(self.notes) * LINE + 1

    def _paths(self, segments: list[Pipe]) -> list[tuple[str, Pipe, list[Point]]]:
        pairs = [frozenset((pipe.begins, pipe.ends)) for pipe in segments]
        total, seen, found = Counter(pairs), Counter[frozenset[str]](), []
        for number, (pipe, pair) in enumerate(zip(segments, pairs, strict=True), 1):
            found.append((f"L{number}", pipe, self.all.path(pipe, seen[pair], total[pair])))
            seen[pair] += 1
        return found

    def _entries(self, piped: bool) -> list[tuple[Symbol, str]]:
        def floor(c: Canvas, at: Point) -> None:
            c.line((at[0] - 4, at[1] - 0.6), (at[0] + 4, at[1] - 0.6), HEAVY)
            c.hatching(Box(at[0] - 4, at[1] - 0.6, at[0] + 4, at[1] + 1), 1.4)

        return [
            (outlined(FIRM), "removable"),
            (outlined(DASHED), "provision"),
            (centre_of_gravity, "centre of gravity"),
            *([(_pipe_sign, "liquid line")] if piped else []),
            *([(floor, "floor at the contacts")] if self.view is SIDE else [(ruled(CHAIN), "centre line, datum")]),
        ]

    # -- drawing ----------------------------------------------------------------------------------------------------

    def draw(self, canvas: Canvas) -> None:
        """Everything."""
        placer = Placer(self.all.region.grown(1.5))
        self._axes(canvas, placer)
        self._floors(canvas)
        for _, pipe, path in self.pipes:
            if path:
                with canvas.group(pipe.words):
                    double(canvas, path)
                placer.follow(path)
        for _, placed in self.items:
            self._item(canvas, placed, placer)
        self._balloons(canvas, placer)
        self._datum_names(canvas, placer)
        lacking = f"{self.view.upwards} {UNKNOWN}"
        for _, placed in self.items:
            middle = self.all.middle(placed)
            if middle and placed.up is None and (room := placer.beside(middle, *room_for(lacking), 1.9)):
                canvas.label(room, lacking)
        for _, placed in self.items:
            self._name(canvas, placed, placer)
        self._stations(canvas)
        canvas.lines((RIGHT, self.words), self.axis_words, anchor="end")
        key(canvas, 1, self.key, self.entries)
        scale_bar(canvas, 4, self.bar, self.all.mm, self.all.unit)
        canvas.lines((1, self.bar + 5.5), self.notes)

    def _axes(self, canvas: Canvas, placer: Placer) -> None:
        view, region = self.all, self.all.region
        canvas.line((LEFT, self.axis), (RIGHT, self.axis), FIRM)
        for value, text in view.arm.ticks(12):
            x = view.arm.at(value)
            canvas.line((x, self.axis), (x, self.axis + 1.2), FIRM)
            canvas.text((x, self.axis + 4.8), text, anchor="middle")
        canvas.line((LEFT - 4, region.top), (LEFT - 4, view.up.start), THIN)
        span = (view.up.start - region.top) / view.mm
        for value, text in Scale(view.least, view.least + span, view.up.start, region.top).ticks_apart(8.0, LINE):
            canvas.line((LEFT - 5, view.up.at(value)), (LEFT - 4, view.up.at(value)), THIN)
            canvas.text((LEFT - 5.5, view.up.at(value) + SHIFT), text, anchor="end")
        words = wrapped(f"{WORDS[self.view][1]} ({view.unit})", max(region.height, 24))
        middle = max((region.top + view.up.start) / 2, 26 / 2)
        for number, line in enumerate(words):
            canvas.text((3.2 + (number - len(words) + 1) * LINE, middle), line, anchor="middle", upwards=True)
        if self.view is ABOVE:
            y = view.up.at(0.0)
            with canvas.group("centre line"):
                canvas.line((LEFT - 4, y), (RIGHT, y), CHAIN)
            placer.follow([(LEFT, y), (RIGHT, y)])
        for name, arm in view.datums.items():
            if arm is not None:
                x = view.arm.at(arm)
                with canvas.group(f"datum {name}"):
                    canvas.line((x, region.top - 4), (x, self.axis), CHAIN)
                placer.follow([(x, region.top), (x, region.bottom)])

    def _datum_names(self, canvas: Canvas, placer: Placer) -> None:
        region = self.all.region
        for name, arm in self.all.datums.items():
            words = f"datum {name}, station 0" if name == self.facts.aircraft.datum else f"datum {name}"
            heights = (region.top + 2, region.centre[1], region.bottom - 2)
            rooms = (placer.beside((self.all.arm.at(arm), y), *room_for(words), 0.6) for y in heights if arm is not None)
            if room := next((room for room in rooms if room), None):
                canvas.label(room, words)

    def _floors(self, canvas: Canvas) -> None:
        for floor in self.all.floors:
            left, right, y = self.all.arm.at(floor.forward), self.all.arm.at(floor.aft), self.all.up.at(floor.height)
            canvas.line((left, y), (right, y), HEAVY)
            canvas.hatching(Box(left, y, right, y + 1.6), 1.4)

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
        size = room_for(placed.item.name)
        for target, gap in targets if size[0] <= NAME_WIDTH else []:
            if room := placer.beside(target, *size, gap):
                canvas.label(room, placed.item.name)
                return

    def _balloons(self, canvas: Canvas, placer: Placer) -> None:
        targets = [(number, placed.item.name, middle, self.all.box(placed)) for number, placed in self.items if (middle := self.all.middle(placed))]
        targets += [(number, pipe.words, self._heart(pipe, path), None) for number, pipe, path in self.pipes if path]
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
                canvas.text((centre[0], centre[1] + SHIFT), number, anchor="middle", bold=True)

    def _heart(self, pipe: Pipe, path: Sequence[Point]) -> Point:
        """The point of a line at the arm that the job gives for its middle; the middle of its longest piece where it has none there."""
        arm = on_scale(pipe.segment.arm, self.all.unit)
        for start, end in itertools.pairwise(path):
            run = end[0] - start[0]
            share = (self.all.arm.at(arm) - start[0]) / run if arm is not None and run else -1
            if 0 <= share <= 1:
                return start[0] + share * run, start[1] + share * (end[1] - start[1])
        start, end = max(itertools.pairwise(path), key=lambda piece: abs(piece[1][0] - piece[0][0]))
        return (start[0] + end[0]) / 2, (start[1] + end[1]) / 2

    def _stations(self, canvas: Canvas) -> None:
        drawn = [(letter, station, self.all.arm.at(arm)) for letter, station, arm in self.stations if arm is not None]
        centres = [(x, self.axis + 10.5 + row * ROW) for row, x in self.squares]
        for (_, _, x), centre in zip(drawn, centres, strict=True):
            canvas.line((x, self.axis), (x, self.axis + 1.2), HEAVY)
            canvas.polyline([(x, self.axis + 6.0), (x, self.axis + 6.8), centre], THIN)
        for (letter, station, _), centre in zip(drawn, centres, strict=True):
            with canvas.group(station.in_full):
                canvas.rectangle(around(centre, 2 * BALLOON, 2 * BALLOON - 1), FIRM, "#fff")
                canvas.text((centre[0], centre[1] + SHIFT), letter, anchor="middle", bold=True)
        foot = max((y for _, y in centres), default=self.key) + BALLOON + 1
        placer = Placer(Box(LEFT, self.axis + 7, RIGHT, foot), labels=[around(centre, 2 * BALLOON + 0.4, 2 * BALLOON - 1) for centre in centres])
        for (_, _, x), centre in zip(drawn, centres, strict=True):
            placer.follow([(x, self.axis + 6.8), centre])
        for (_, station, _), centre in zip(drawn, centres, strict=True):
            # No name stands below a letter that is not its own.
            placer.marks = [Box(x - BALLOON, y, x + BALLOON, foot) for x, y in centres if (x, y) != centre]
            room = placer.beside(centre, *room_for(station.name), BALLOON + 0.4, degrees=(0, 180))
            if room:
                canvas.label(room, station.name)


def double(canvas: Canvas, path: Sequence[Point]) -> None:
    """A line as a pipe: two thin lines along it."""
    for (x1, y1), (x2, y2) in itertools.pairwise(path):
        length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        if not length:
            continue
        side = (-(y2 - y1) / length * 0.5, (x2 - x1) / length * 0.5)
        for sign in (1, -1):
            canvas.line((x1 + sign * side[0], y1 + sign * side[1]), (x2 + sign * side[0], y2 + sign * side[1]), THIN)


def _pipe_sign(canvas: Canvas, at: Point) -> None:
    double(canvas, [(at[0] - 4, at[1]), (at[0] + 4, at[1])])
