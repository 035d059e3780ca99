"""Bus diagram: sources and battery, the buses as a tree, and on each bus what was there before and what the fit adds.

Signs after IEC 60617 (from memory); each also carries its name in words. What the job lacks is a question mark.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from liftout.facts import Amount, Fact, Facts, Missing
from liftout.facts.electrical import ExistingLoad, Run
from liftout.facts.power import Feed
from liftout.figures.amounts import UNKNOWN, said
from liftout.figures.drawing import WIDTH, Drawing, drawing
from liftout.figures.lettering import shortened
from liftout.figures.placing import around
from liftout.figures.show import show
from liftout.figures.svg import DASHED, FIRM, HEAVY, THIN, Canvas

ROW = 4.2
"""Height of a row of the tree."""

SUPPLY = 12.0
"""Height of a source or the battery."""

SIGN, NAME, RAIL, STEP = 6.0, 12.0, 56.0, 4.0
"""Middle of a sign, where its name begins, the first line down, and from one to the next."""

DEPTH = 17.0
"""From the bar of a bus to that of a bus below it."""

ROWS_MOST = 34
"""More rows than these have no room on a page; what is left out is counted."""

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
    below: list[_Bus] = field(default_factory=list)

    def walk(self, depth: int = 0) -> Iterator[tuple[int, _Bus]]:
        """This bus and all below it, each with its depth."""
        yield depth, self
        for bus in self.below:
            yield from bus.walk(depth + 1)


def bus_diagram(facts: Facts) -> Drawing:
    """The diagram of the whole system, with everything in."""
    roots = _tree(facts)
    supplies = _supplies(facts)
    whole = [bus for root in roots for _, bus in root.walk()]
    most = _members_shown(whole)
    top = len(supplies) * SUPPLY + 3
    rows = sum(_rows(bus, most) for bus in whole)
    canvas = Canvas(WIDTH, top + rows * ROW + len(whole) * 3 + 4)
    rails = _draw_supplies(canvas, supplies)
    ends: dict[str, float] = {}
    bar = RAIL + STEP * len(supplies) + 12
    at = top
    for root in roots:
        at = _draw_bus(canvas, root, bar, at, rails, ends, most)
    for name, x in rails.items():
        start = [name for name, _, _ in supplies].index(name) * SUPPLY + SUPPLY - 3
        if name in ends:
            canvas.line((x, start), (x, ends[name]), FIRM)
    title = "Sources, buses and what hangs on each. Circuits of the fit carry a black square."
    return drawing(canvas, "buses", title, f"Bus diagram. {title} {_in_words(supplies, whole)}")


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
    return _Member(f"{run.name}, {run.load.name if run.load else UNKNOWN}, {said(run.current)}, {protection}", fit=True)


def _members_shown(whole: Sequence[_Bus]) -> int:
    """How many members of each bus have room."""
    most = max((len(bus.members) for bus in whole), default=0)
    while most > 1 and sum(_rows(bus, most) for bus in whole) > ROWS_MOST:
        most -= 1
    return most


def _rows(bus: _Bus, most: int) -> int:
    feeders = max(1, len(bus.fed_from))
    return feeders + min(len(bus.members), most) + (len(bus.members) > most)


def _draw_supplies(canvas: Canvas, supplies: Sequence[tuple[str, str, str]]) -> dict[str, float]:
    """The sources and the battery, each with its line down; the first one's is the rightmost, so that none crosses another's way out."""
    rails = {}
    for number, (name, figure, sign) in enumerate(supplies):
        y = number * SUPPLY + SUPPLY - 3
        x = RAIL + STEP * (len(supplies) - 1 - number)
        with canvas.group(name):
            if sign:
                canvas.circle((SIGN, y), 4.0, FIRM, "#fff")
                canvas.text((SIGN, y + 1.2), sign, 9, anchor="middle", bold=True)
                canvas.line((SIGN + 4.0, y), (x, y), FIRM)
            else:
                canvas.line((SIGN - 2.5, y), (SIGN, y), FIRM)
                canvas.line((SIGN, y - 3.4), (SIGN, y + 3.4), FIRM)
                canvas.line((SIGN + 2.0, y - 1.8), (SIGN + 2.0, y + 1.8), HEAVY)
                canvas.line((SIGN + 2.0, y), (x, y), FIRM)
            canvas.text((NAME, y - 4.9), shortened(name, RAIL - NAME - 2, 8, bold=True), bold=True)
            canvas.text((NAME, y - 1.3), shortened(figure, RAIL - NAME - 2, 8))
        rails[name] = x
    return rails


def _draw_bus(
    canvas: Canvas, bus: _Bus, bar: float, top: float, rails: dict[str, float], ends: dict[str, float], most: int, parent: float = 0
) -> float:
    """A bus, what hangs on it, and the buses below it; the height that is reached."""
    with canvas.group(bus.name):
        y = top + ROW / 2
        start = y
        lines = [name for name in bus.fed_from if name in rails]
        for name in lines:
            _feeder(canvas, rails[name], bar, y, bus)
            canvas.circle((rails[name], y), 0.7, None, "#000")
            ends[name] = y
            y += ROW
        if parent:
            _feeder(canvas, parent, bar, y, bus)
            y += ROW
        elif not lines:
            canvas.text((bar - 3, y + 1), UNKNOWN, 9, anchor="end", bold=True)
            y += ROW
        room = WIDTH - bar - 4
        heading = f"{bus.name}{', ' if bus.through else ''}{bus.through}"
        canvas.text((bar + 3, start + 1.1), shortened(heading, room, 8, bold=True), bold=True)
        for member in bus.members[:most]:
            canvas.line((bar, y), (bar + 5, y), FIRM)
            if member.fit:
                canvas.rectangle(around((bar + 6.2, y), 2.4, 2.4), None, "#000")
            canvas.text((bar + 9, y + 1.1), shortened(member.words, room - 6, 8))
            y += ROW
        if len(bus.members) > most:
            canvas.text((bar + 9, y + 1.1), f"and {len(bus.members) - most} more: see the table")
            y += ROW
        reached = y
        last = y - ROW
        for below in bus.below:
            first = reached + 1 + ROW / 2
            reached = _draw_bus(canvas, below, bar + DEPTH, reached + 1, rails, ends, most, parent=bar)
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
    canvas.rectangle(around((middle, y), 5, 2.6), FIRM, "#fff")
    canvas.line((middle - 2.5, y), (middle + 2.5, y), THIN)
    canvas.line((middle + 2.5, y), (bar, y), FIRM)


def _in_words(supplies: Sequence[tuple[str, str, str]], whole: Sequence[_Bus]) -> str:
    told = [f"{name}: {figure}." for name, figure, _ in supplies]
    for bus in whole:
        below = [f"bus {one.name}" for one in bus.below]
        hangs = "; ".join([*(member.words for member in bus.members), *below]) or "nothing"
        fed = " and ".join(bus.fed_from)
        told.append(f"{bus.name}{f', fed from {fed}' if fed else ''}{f', through {bus.through}' if bus.through else ''}: {hangs}.")
    return " ".join(told)


if __name__ == "__main__":
    show(bus_diagrams, sys.argv[1:])
