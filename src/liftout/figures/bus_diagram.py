"""Bus diagram: sources and battery, the buses as a tree, and on each bus what was there before and what the fit adds.

Signs after IEC 60617 (from memory); each also carries its name in words. What the job lacks is a question mark.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from liftout.facts import Amount, Fact, Facts, Missing
from liftout.facts.electrical import ExistingLoad, Run
from liftout.facts.power import Feed
from liftout.figures.amounts import UNKNOWN, said
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, Key, drawing
from liftout.figures.keys import ROW as KEY_ROW
from liftout.figures.keys import Symbol, key, rows_of_key
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.placing import Point, around
from liftout.figures.show import show
from liftout.figures.svg import DASHED, FIRM, HEAVY, THIN, Canvas

ROW = 4.4
"""Height of a row of the tree."""

SIGN, NAME, RAIL, STEP = 6.0, 12.0, 52.0, 4.0
"""Middle of a sign, where its name begins, the first line down, and from one to the next."""

DEPTH = 17.0
"""From the bar of a bus to that of a bus below it, where there is room."""

LEAST_ROOM = 46.0
"""Least paper for the words of the lowest bus."""

BATTERY = "battery"


@dataclass(frozen=True)
class _Member:
    """What hangs on a bus: a load that was there before, or a circuit of the fit."""

    words: str
    fit: bool


@dataclass
class _Bus:
    """A bus with what hangs on it, and the buses below it."""

    name: str
    fed_from: tuple[str, ...]
    through: str
    protected: bool
    known: bool
    members: list[_Member] = field(default_factory=list)
    bar: float = 0.0
    """Where its bar stands on the paper."""
    heading: list[str] = field(default_factory=list)
    lines: list[list[str]] = field(default_factory=list)
    """The words of its members, each in lines."""
    below: list[_Bus] = field(default_factory=list)

    def walk(self, depth: int = 0) -> Iterator[tuple[int, _Bus]]:
        """This bus and all below it, each with its depth."""
        yield depth, self
        for bus in self.below:
            yield from bus.walk(depth + 1)


@dataclass
class _Supply:
    """A source or the battery: its name, its figure, its sign, and its name in lines."""

    name: str
    figure: str
    sign: str
    words: list[str]

    @property
    def height(self) -> float:
        """Paper that it takes."""
        return max(9.5, (len(self.words) + 1) * LINE + 4.5)


def bus_diagram(facts: Facts) -> Drawing:
    """The diagram of the whole system, with everything in."""
    roots = _tree(facts)
    supplies = [_Supply(name, figure, sign, wrapped(name, RAIL - NAME - 2, bold=True)) for name, figure, sign in _supplies(facts)]
    whole = [bus for root in roots for _, bus in root.walk()]
    _letter(roots, RAIL + STEP * len(supplies) + 12)
    foot = math.fsum(supply.height for supply in supplies) + 3
    entries: list[tuple[Symbol, str]] = [
        *([(_fit_sign, "circuit of the fit")] if any(member.fit for bus in whole for member in bus.members) else []),
        *([(_protection_sign, "protection of a bus")] if any(bus.protected for bus in whole) else []),
    ]
    legend = KEY_ROW * len(rows_of_key(entries)) + 1
    if foot + math.fsum(_height(bus, 0) for bus in whole) + 4 + legend > TALLEST:
        # Nothing but buses has room: the caption still tells of the square, and each bus names its protection in words.
        entries, legend = [], 0.0
    most = _members_shown(whole, TALLEST - foot - 4 - legend)
    canvas = Canvas(WIDTH, foot + math.fsum(_height(bus, most) for bus in whole) + 4 + legend)
    rails = _draw_supplies(canvas, supplies)
    ends: dict[str, float] = {}
    at = foot
    for root in roots:
        at = _draw_bus(canvas, root, at, rails, ends, most)
    for name, (x, start) in rails.items():
        if name in ends:
            canvas.line((x, start), (x, ends[name]), FIRM)
    key(canvas, 1, canvas.height - legend + 1, entries)
    title = "Sources, buses and what hangs on each. Circuits of the fit carry a black square."
    told = Key(
        ("Bus", "Fed from", "Through", "What hangs on it"),
        tuple(_row(bus) for bus in whole),
        ("left", "left", "left", "left"),
        "Buses, in words",
    )
    left_out = any(len(bus.members) > most for bus in whole)
    return drawing(canvas, "buses", title, f"Bus diagram. {title} {_in_words(supplies, whole)}", key=told if left_out else None)


def bus_diagrams(facts: Facts) -> list[Drawing]:
    """The diagram, where the job names a source."""
    return [bus_diagram(facts)] if facts.sources else []


def _supplies(facts: Facts) -> list[tuple[str, str, str]]:
    """Name, figure and sign of each source and of the battery."""
    sources = [(source.name, said(source.rating), "G") for source in facts.sources]
    return [*sources, (BATTERY, said(facts.battery.quantity("capacity")), "")]


def _tree(facts: Facts) -> list[_Bus]:
    found = {feed.name: _bus(feed, facts) for feed in facts.feeds}
    roots: list[_Bus] = []
    for feed in facts.feeds:
        (found[feed.parent].below if feed.parent else roots).append(found[feed.name])
    loads = [load for source in facts.sources for load in source.existing if isinstance(load.bus, Missing)]
    runs = [run for run in facts.runs if isinstance(run.bus.name, Missing)]
    if loads or runs:
        members = [*(_load(load, facts) for load in loads), *(_run(run) for run in runs)]
        roots.append(_Bus(f"bus {UNKNOWN}", (), "", protected=False, known=False, members=members))
    return roots


def _bus(feed: Feed, facts: Facts) -> _Bus:
    through = feed.place.part("fed_through")
    words = "no protection" if through.declined is not None else f"{said(through.word('device'))} {said(through.quantity('rating'))}"
    fed = tuple(name for name in feed.fed_from.value if name != feed.parent) if isinstance(feed.fed_from, Fact) else (UNKNOWN,)
    members = [*(_load(load, facts) for load in feed.own), *(_run(run) for run in feed.own_runs)]
    return _Bus(feed.name, fed, words, protected=through.declined is None, known=True, members=members)


def _load(load: ExistingLoad, facts: Facts) -> _Member:
    return _Member(f"{load.name}, {said(load.current)}, {_kept(load, facts)}", fit=False)


def _kept(load: ExistingLoad, facts: Facts) -> str:
    if isinstance(load.essential, Missing):
        return f"stays on: {UNKNOWN}"
    if load.essential.value:
        return "stays on"
    order = facts.electrical.list_of("shed")
    place = order.value.index(load.name) + 1 if isinstance(order, Fact) and load.name in order.value else None
    return f"shed, no. {place}" if place else f"shed: {UNKNOWN}"


def _run(run: Run) -> _Member:
    rating: Amount = run.device.rating
    protection = "no protection" if run.protection_declined is not None else f"{said(run.device.kind)} {said(rating)}"
    return _Member(f"{run.name}, {run.load.name}, {said(run.current)}, {protection}", fit=True)


def _letter(roots: Sequence[_Bus], bar: float) -> None:
    """Where each bus stands, and its words in the lines that have room there."""
    deepest = max((depth for root in roots for depth, _ in root.walk()), default=0)
    step = min(DEPTH, max(9.0, (WIDTH - LEAST_ROOM - bar) / max(deepest, 1)))
    for root in roots:
        for depth, bus in root.walk():
            bus.bar = min(bar + depth * step, WIDTH - 24.0)
            room = WIDTH - bus.bar - 5
            bus.heading = wrapped(f"{bus.name}{', ' if bus.through else ''}{bus.through}", room, bold=True)
            bus.lines = [wrapped(member.words, room - 6) for member in bus.members]


def _members_shown(whole: Sequence[_Bus], room: float) -> int:
    """How many members of each bus have room."""
    most = max((len(bus.members) for bus in whole), default=0)
    while most > 0 and math.fsum(_height(bus, most) for bus in whole) > room:
        most -= 1
    return most


def _top_rows(bus: _Bus) -> int:
    """Rows of the ways in and of the heading beside them."""
    return max(1, len(bus.fed_from), len(bus.heading))


def _height(bus: _Bus, most: int) -> float:
    left_out = len(bus.members) > most
    return (_top_rows(bus) + sum(map(len, bus.lines[:most])) + left_out) * ROW + 3


def _draw_supplies(canvas: Canvas, supplies: Sequence[_Supply]) -> dict[str, tuple[float, float]]:
    """The sources and the battery, each with its line down; the first one's is the rightmost, so that none crosses another's way out."""
    rails, top = {}, 0.0
    for number, supply in enumerate(supplies):
        y = top + supply.height - 3
        x = RAIL + STEP * (len(supplies) - 1 - number)
        with canvas.group(supply.name):
            if supply.sign:
                canvas.circle((SIGN, y), 4.0, FIRM, "#fff")
                canvas.text((SIGN, y + SHIFT), supply.sign, anchor="middle", bold=True)
                canvas.line((SIGN + 4.0, y), (x, y), FIRM)
            else:
                canvas.line((SIGN - 2.5, y), (SIGN, y), FIRM)
                canvas.line((SIGN, y - 3.4), (SIGN, y + 3.4), FIRM)
                canvas.line((SIGN + 2.0, y - 1.8), (SIGN + 2.0, y + 1.8), HEAVY)
                canvas.line((SIGN + 2.0, y), (x, y), FIRM)
            canvas.lines((NAME, y - 1.3 - len(supply.words) * LINE), supply.words, bold=True)
            canvas.text((NAME, y - 1.3), supply.figure)
        rails[supply.name] = (x, y)
        top += supply.height
    return rails


def _draw_bus(
    canvas: Canvas, bus: _Bus, top: float, rails: dict[str, tuple[float, float]], ends: dict[str, float], most: int, parent: float = 0
) -> float:
    """A bus, what hangs on it, and the buses below it; the height that is reached."""
    bar = bus.bar
    with canvas.group(bus.name):
        start = y = top + ROW / 2
        lines = [name for name in bus.fed_from if name in rails]
        for name in lines:
            _feeder(canvas, rails[name][0], bar, y, bus)
            canvas.circle((rails[name][0], y), 0.7, None, "#000")
            ends[name] = y
            y += ROW
        if parent:
            _feeder(canvas, parent, bar, y, bus)
        elif not lines:
            canvas.text((bar - 3, y + SHIFT), UNKNOWN, anchor="end", bold=True)
        canvas.lines((bar + 3, start + SHIFT), bus.heading, bold=True, pitch=ROW)
        y = start + _top_rows(bus) * ROW
        for member, words in list(zip(bus.members, bus.lines, strict=True))[:most]:
            canvas.line((bar, y), (bar + 5, y), FIRM)
            if member.fit:
                _fit_sign(canvas, (bar + 6.2, y))
            canvas.lines((bar + 9, y + SHIFT), words, pitch=ROW)
            y += len(words) * ROW
        if len(bus.members) > most:
            canvas.text((bar + 9, y + SHIFT), f"and {len(bus.members) - most} more: see the key")
            y += ROW
        reached = y
        last = y - ROW
        for below in bus.below:
            first = reached + 1 + ROW / 2
            reached = _draw_bus(canvas, below, reached + 1, rails, ends, most, parent=bar)
            last = first
        canvas.line((bar, start - 1.8), (bar, last + 1.8), HEAVY if bus.known else DASHED)
    return reached + 1


def _feeder(canvas: Canvas, left: float, bar: float, y: float, bus: _Bus) -> None:
    """The way into a bus, with the sign of its protection; a bus on two feeders shows it on each."""
    if not bus.protected:
        canvas.line((left, y), (bar, y), FIRM)
        return
    middle = bar - 6.5
    canvas.line((left, y), (middle - 2.5, y), FIRM)
    _protection_sign(canvas, (middle, y))
    canvas.line((middle + 2.5, y), (bar, y), FIRM)


def _fit_sign(canvas: Canvas, at: Point) -> None:
    canvas.rectangle(around(at, 2.4, 2.4), None, "#000")


def _protection_sign(canvas: Canvas, at: Point) -> None:
    canvas.rectangle(around(at, 5, 2.6), FIRM, "#fff")
    canvas.line((at[0] - 2.5, at[1]), (at[0] + 2.5, at[1]), THIN)


def _row(bus: _Bus) -> tuple[str, str, str, str]:
    """The bus in words: what feeds it, through what, and what hangs on it."""
    below = [f"bus {one.name}" for one in bus.below]
    hangs = "; ".join([*(member.words for member in bus.members), *below]) or "nothing"
    return bus.name, " and ".join(bus.fed_from), bus.through, hangs


def _in_words(supplies: Sequence[_Supply], whole: Sequence[_Bus]) -> str:
    told = [f"{supply.name}: {supply.figure}." for supply in supplies]
    for name, fed, through, hangs in map(_row, whole):
        told.append(f"{name}{f', fed from {fed}' if fed else ''}{f', through {through}' if through else ''}: {hangs}.")
    return " ".join(told)


if __name__ == "__main__":
    show(bus_diagrams, sys.argv[1:])
