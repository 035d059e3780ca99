"""Station diagram: datum, wheels, seats, baggage, tanks, equipment and limits on one scale of arms."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from liftout.facts import Amount, Fact, Facts, Missing
from liftout.figures.amounts import UNKNOWN, among, needed, on_scale, said
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, drawing
from liftout.figures.elevation import numbers, stations
from liftout.figures.legend import Column, Legend
from liftout.figures.lettering import shortened, width
from liftout.figures.marks import letters
from liftout.figures.placing import Box, around, rows_of
from liftout.figures.scale import Scale, spanning
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, FIRM, GRID, HEAVY, THIN, Canvas

LEFT, RIGHT = 6.0, WIDTH - 6.0
TITLE, ROW, MARK, CLEAR = 4.5, 6.6, 2.9, 1.6
"""Paper, in mm, for the title of a lane and for a row of marks; half a mark; from the marks to the line of the lane."""
TOP: Final = 7.0


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
    heights = [TITLE + ROW * max((row + 1 for row, _ in rows), default=0) + CLEAR for _, rows in drawn]
    axis = TOP + sum(heights) + TITLE + 3.0
    rows = [(place.mark, place.name + _lack(place.arm), said(place.arm)) for lane in lanes for place in lane.places]
    rows += [("bar", "limits of the centre of gravity, foremost to rearmost", f"{said(told[0])} to {said(told[-1])}")] if told else []
    table = Legend((Column("Mark", 14), Column("What", 104), Column("Arm", 48, "end")), tuple(rows)).within(TALLEST - axis - 18)
    canvas = Canvas(WIDTH, axis + 14 + table.height)
    _scale(canvas, scale, axis, f"Arm aft of the datum {plane.datum} ({unit})")
    _datum(canvas, scale.at(0.0), axis, f"datum {plane.datum}")
    base = TOP
    for (lane, places), height in zip(drawn, heights, strict=True):
        base += height
        _lane(canvas, lane, _known(lane, unit), places, scale, base, base - height)
    _limits(canvas, limits, scale, base)
    table.draw(canvas, 1, axis + 12)
    title = f"Stations of the {plane.model} aft of the datum {plane.datum}."
    words = " ".join(f"{mark}: {name}, arm {arm}." for mark, name, arm in rows)
    return drawing(canvas, "station-diagram", title, f"{title} {words}")


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


def _scale(canvas: Canvas, scale: Scale, axis: float, words: str) -> None:
    for value, text in scale.ticks(12):
        x = scale.at(value)
        canvas.line((x, TOP), (x, axis), GRID)
        canvas.line((x, axis), (x, axis + 1.2), FIRM)
        canvas.text((x, axis + 4.6), text, anchor="middle")
    canvas.line((LEFT, axis), (RIGHT, axis), FIRM)
    canvas.text(((LEFT + RIGHT) / 2, axis + 9.2), shortened(words, RIGHT - LEFT, 8.5), 8.5, anchor="middle")


def _datum(canvas: Canvas, x: float, axis: float, name: str) -> None:
    words = shortened(name, RIGHT - LEFT, 8.0)
    half = width(words, 8.0) / 2
    with canvas.group(name):
        canvas.line((x, TOP - 2), (x, axis), CHAIN)
        canvas.text((min(max(x, LEFT + half), RIGHT - half), TOP - 3), words, anchor="middle")


def _lane(
    canvas: Canvas, lane: Lane, places: Sequence[tuple[Place, float]], rows: Sequence[tuple[int, float]], scale: Scale, base: float, top: float
) -> None:
    """Marks above a line, each with a leader to where it belongs on the line."""
    title = shortened(lane.title, RIGHT - LEFT, 8.0)
    canvas.rectangle(Box(LEFT, top + 0.6, LEFT + width(title, 8.0, bold=True) + 1, top + TITLE - 0.4), None, "#fff")
    canvas.text((LEFT, top + TITLE - 1.4), title, bold=True)
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
            canvas.text((centre[0], centre[1] + 1), place.mark, 8, anchor="middle", bold=True)


def _limits(canvas: Canvas, limits: Sequence[float], scale: Scale, top: float) -> None:
    """From the foremost to the rearmost limit."""
    title = "Limits of the centre of gravity"
    canvas.rectangle(Box(LEFT, top + 0.6, LEFT + width(title, 8.0, bold=True) + 1, top + TITLE - 0.4), None, "#fff")
    canvas.text((LEFT, top + TITLE - 1.4), title, bold=True)
    if limits:
        with canvas.group(title):
            canvas.line((scale.at(min(limits)), top + TITLE + 1), (scale.at(max(limits)), top + TITLE + 1), HEAVY)
            for arm in (min(limits), max(limits)):
                canvas.line((scale.at(arm), top + TITLE - 0.2), (scale.at(arm), top + TITLE + 2.2), FIRM)


if __name__ == "__main__":
    show(lambda facts: [station_diagram(facts)], sys.argv[1:])
