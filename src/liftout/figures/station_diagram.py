"""Station diagram: datum, wheels, seats, baggage, tanks, equipment and limits on one scale of arms."""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from liftout.facts import Amount, Fact, Facts, Missing
from liftout.figures.amounts import UNKNOWN, among, needed, on_scale, said
from liftout.figures.arrangement import numbers, stations
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.lettering import LINE, SHIFT, width, wrapped
from liftout.figures.marks import letters
from liftout.figures.placing import Box, around, rows_of
from liftout.figures.scale import Scale, spanning
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, FIRM, GRID, HEAVY, THIN, Canvas
from liftout.quantities import unit as unit_named

LEFT, RIGHT = 6.0, WIDTH - 6.0
TITLE, ROW, MARK, CLEAR = 5.2, 7.2, 3.1, 1.6
"""Paper, in mm, for the title of a lane and for a row of marks; half a mark; from the marks to the line of the lane."""
TOP: Final = 4.0
"""Paper above the lanes, besides that for the name of the datum."""


@dataclass(frozen=True)
class Place:
    """Something on the scale: its mark, what it is, and where."""

    mark: str
    name: str
    arm: Amount


@dataclass(frozen=True)
class Lane:
    """Things of one kind, side by side on a line of their own."""

    title: str
    places: tuple[Place, ...]
    square: bool = False


def station_diagram(facts: Facts) -> Drawing:
    """The station diagram of a job."""
    plane = facts.aircraft
    unit = among([station.arm for station in plane.stations] + [item.arm for item in facts.items], "in")
    lanes = _lanes(facts, unit)
    told = [corner.arm for one in plane.undercarriages for corner in (*one.limits.forward, *one.limits.aft) if isinstance(corner.arm, Fact)]
    told.sort(key=lambda arm: arm.value.si)
    limits = [float(arm.value.to(unit)) for arm in told]
    arms = [0.0, *limits, *(arm for lane in lanes for place in lane.places if (arm := on_scale(place.arm, unit)) is not None)]
    scale = Scale(*spanning(arms, 0.06), LEFT, RIGHT)
    drawn = [(lane, rows_of([scale.at(arm) for _, arm in _known(lane, unit)], ROW, LEFT, RIGHT)) for lane in lanes]
    named = wrapped(f"datum {plane.datum}", RIGHT - LEFT)
    top = TOP + len(named) * LINE
    heights = [TITLE + ROW * max((row + 1 for row, _ in rows), default=0) + CLEAR for _, rows in drawn]
    axis = top + math.fsum(heights) + TITLE + 3.0
    rows = [(place.mark, place.name + _lack(place.arm), said(place.arm)) for lane in lanes for place in lane.places]
    rows += [("bar", "limits of the centre of gravity, foremost to rearmost", f"{said(told[0])} to {said(told[-1])}")] if told else []
    told_so = Key(("Mark", "What", "Arm"), tuple(rows), ("left", "left", "right"), "Key to the station diagram")
    words = wrapped(f"Arm aft of the datum {plane.datum} ({unit})", RIGHT - LEFT)
    canvas = Canvas(WIDTH, axis + 7 + len(words) * LINE)
    _scale(canvas, scale, top, axis, words)
    _datum(canvas, scale.at(0.0), top, axis, named)
    base = top
    for (lane, places), height in zip(drawn, heights, strict=True):
        base += height
        _lane(canvas, lane, _known(lane, unit), places, scale, base, base - height)
    _limits(canvas, limits, scale, base)
    title = f"Stations of the {plane.model} aft of the datum {plane.datum}."
    spoken = " ".join(f"{mark}: {name}, arm {arm}." for mark, name, arm in rows)
    return drawing(
        canvas, "station-diagram", title, f"{title} {spoken}", to_scale(scale.mm_per_unit / (float(unit_named(unit).factor) * 1000)), told_so
    )


def _lanes(facts: Facts, unit: str) -> list[Lane]:
    wheels, plane = facts.wheels, facts.aircraft
    items = tuple(
        Place(number, f"{item.name}, {'removable' if item.removable else 'provision'}", item.arm)
        for number, item in zip(numbers(facts.items), facts.items, strict=True)
    )
    seats = tuple(Place(letters(number), station.in_full, station.arm) for number, station in enumerate(stations(plane, unit)))
    found = [Lane("Equipment", items), Lane("Seats, baggage and tanks", seats, square=True)]
    if wheels.declined is None:
        other = "nose or tail wheel" if isinstance(wheels.layout, Missing) else wheels.layout.value
        found.append(Lane("Wheels", (Place("W1", "main wheels", wheels.main), Place("W2", other, wheels.other))))
    return found


def _known(lane: Lane, unit: str) -> list[tuple[Place, float]]:
    return [(place, arm) for place in lane.places if (arm := on_scale(place.arm, unit)) is not None]


def _lack(arm: Amount) -> str:
    return f" ({needed(arm)})" if said(arm) == UNKNOWN else ""


def _scale(canvas: Canvas, scale: Scale, top: float, axis: float, words: Sequence[str]) -> None:
    for value, text in scale.ticks(12):
        x = scale.at(value)
        canvas.line((x, top), (x, axis), GRID)
        canvas.line((x, axis), (x, axis + 1.2), FIRM)
        canvas.text((x, axis + 4.8), text, anchor="middle")
    canvas.line((LEFT, axis), (RIGHT, axis), FIRM)
    canvas.lines(((LEFT + RIGHT) / 2, axis + 9.2), words, anchor="middle")


def _datum(canvas: Canvas, x: float, top: float, axis: float, words: Sequence[str]) -> None:
    half = max(map(width, words)) / 2
    with canvas.group(" ".join(words)):
        canvas.line((x, top - 2), (x, axis), CHAIN)
        canvas.lines((min(max(x, LEFT + half), RIGHT - half), LINE), words, anchor="middle")


def _lane(
    canvas: Canvas, lane: Lane, places: Sequence[tuple[Place, float]], rows: Sequence[tuple[int, float]], scale: Scale, base: float, top: float
) -> None:
    """Marks above a line, each with a leader to where it belongs on the line."""
    _title(canvas, lane.title, top)
    canvas.line((LEFT, base), (RIGHT, base), THIN)
    centres = [(x, base - CLEAR - MARK - row * ROW) for row, x in rows]
    for (place, arm), centre in zip(places, centres, strict=True):
        with canvas.group(place.name):
            canvas.line((scale.at(arm), base), centre, THIN)
            canvas.line((scale.at(arm), base - 0.9), (scale.at(arm), base + 0.9), HEAVY)
    for (place, _), centre in zip(places, centres, strict=True):
        with canvas.group(place.name):
            if lane.square:
                canvas.rectangle(around(centre, 2 * MARK, 2 * MARK - 1), FIRM, "#fff")
            else:
                canvas.circle(centre, MARK, FIRM, "#fff")
            canvas.text((centre[0], centre[1] + SHIFT), place.mark, anchor="middle", bold=True)


def _title(canvas: Canvas, title: str, top: float) -> None:
    canvas.rectangle(Box(LEFT, top + 0.6, LEFT + width(title, bold=True) + 1, top + TITLE - 0.4), None, "#fff")
    canvas.text((LEFT, top + TITLE - 1.5), title, bold=True)


def _limits(canvas: Canvas, limits: Sequence[float], scale: Scale, top: float) -> None:
    """From the foremost to the rearmost limit."""
    title = "Limits of the centre of gravity"
    _title(canvas, title, top)
    if limits:
        with canvas.group(title):
            canvas.line((scale.at(min(limits)), top + TITLE + 1), (scale.at(max(limits)), top + TITLE + 1), HEAVY)
            for arm in (min(limits), max(limits)):
                canvas.line((scale.at(arm), top + TITLE - 0.2), (scale.at(arm), top + TITLE + 2.2), FIRM)


if __name__ == "__main__":
    show(lambda facts: [station_diagram(facts)], sys.argv[1:])
