"""Items seen from the side, to scale: the geometry of the side view, without a line drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from liftout.facts import Facts
from liftout.facts.aircraft import Aircraft
from liftout.facts.clearance import Volume
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact
from liftout.facts.lines import Loop, Segment
from liftout.figures.amounts import among, on_scale, said
from liftout.figures.placing import Box, Point
from liftout.figures.scale import Scale

MOST_HEIGHT = 75.0
"""Most paper, in mm, that the heights take."""

LEAST_HEIGHT = 8.0
STRIP = 6.0
"""Paper below the heights for what has no height."""


@dataclass(frozen=True)
class Placed:
    """An item in the unit of the drawing; what the job lacks is None."""

    item: Item
    arm: float | None
    height: float | None
    length: float | None
    tall: float | None
    front: float | None
    underside: float | None

    @property
    def edges(self) -> tuple[float, float, float, float] | None:
        """Forward, aft, lower and upper edge: where the job says that the box stands, or about the centre of gravity."""
        if self.arm is None or self.height is None or self.length is None or self.tall is None:
            return None
        front = self.arm - self.length / 2 if self.front is None else self.front
        low = self.height - self.tall / 2 if self.underside is None else self.underside
        return front, front + self.length, low, low + self.tall


@dataclass(frozen=True)
class Kept:
    """A space that must stay clear, with its edges where the job gives all four."""

    volume: Volume
    edges: tuple[float, float, float, float] | None

    @property
    def words(self) -> str:
        """Its name and what it is kept clear for."""
        return f"{self.volume.name}, {self.volume.kind}"


@dataclass(frozen=True)
class Floor:
    """A piece of floor on which the contacts of an item show it to stand: from, to, and how high."""

    forward: float
    aft: float
    height: float


@dataclass(frozen=True)
class Station:
    """What is loaded at one arm: seats, baggage, fuel."""

    arm: Amount
    name: str
    in_full: str


@dataclass(frozen=True)
class Pipe:
    """A segment of a loop, from item to item where the job names items for its ends."""

    loop: Loop
    segment: Segment
    begins: str
    ends: str

    @property
    def words(self) -> str:
        """What it is, with its figures."""
        kind = self.loop.place.each("segments")[self.segment.name].said_at("kind")
        size = f"{said(self.segment.inside_diameter)} inside, {said(self.segment.length)} long"
        return f"{self.loop.name}, {self.segment.name}: {kind}, {size}, from {self.begins} to {self.ends}; arm of its middle"


class Elevation:
    """The side view as places on paper; `top` may be moved."""

    def __init__(self, facts: Facts, left: float, right: float) -> None:
        items = facts.items
        self.unit = among([a for i in items for a in (i.arm, i.length, i.height)] + [s.arm for s in facts.aircraft.stations], "in")
        self.items = [Placed(i, *(on_scale(a, self.unit) for a in (i.arm, i.height, i.length, i.tall, i.front, i.underside))) for i in items]
        self.kept = [Kept(volume, _edges(volume, self.unit)) for volume in facts.keep_clear.volumes]
        self.floors = _floors(facts, self.unit)
        self.stations = stations(facts.aircraft, self.unit)
        self.datums = {
            name: 0.0 if name == facts.aircraft.datum else on_scale(part.quantity("offset"), self.unit)
            for name, part in facts.aircraft.place.each("datums").items()
        }
        self.top = 0.0
        arms, heights = self._told()
        length, tall = max(arms) - min(arms) or 1.0, max(heights) - min(heights)
        self.mm = min((right - left) / (1.08 * length), MOST_HEIGHT / tall if tall else float("inf"))
        spare = (right - left) / self.mm - length
        self.arm = Scale(min(arms) - spare / 2, max(arms) + spare / 2, left, right)
        self.least, self.most = min(heights), max(heights)
        self.strip = STRIP if any(p.arm is not None and p.height is None for p in self.items) else 0.0

    def _told(self) -> tuple[list[float], list[float]]:
        arms: list[float | None] = [0.0, *self.datums.values(), *(on_scale(station.arm, self.unit) for station in self.stations)]
        heights: list[float | None] = []
        for placed in self.items:
            arms.append(placed.arm)
            heights.append(placed.height if placed.arm is not None else None)
            if placed.edges:
                arms.extend(placed.edges[:2])
                heights.extend(placed.edges[2:])
        for kept in self.kept:
            if kept.edges:
                arms.extend(kept.edges[:2])
                heights.extend(kept.edges[2:])
        for floor in self.floors:
            arms.extend((floor.forward, floor.aft))
            heights.append(floor.height)
        return [x for x in arms if x is not None], [y for y in heights if y is not None] or [0.0]

    @property
    def height(self) -> Scale:
        """The scale of heights."""
        foot = self.top + max((self.most - self.least) * self.mm, LEAST_HEIGHT)
        return Scale(self.least, self.least + 1, foot, foot - self.mm)

    @property
    def region(self) -> Box:
        """The paper that the view takes."""
        return Box(self.arm.start, self.top, self.arm.end, self.height.start + self.strip)

    def middle(self, placed: Placed) -> Point | None:
        """Where the centre of gravity of an item is drawn: in the strip where its height is missing."""
        if placed.arm is None:
            return None
        return self.arm.at(placed.arm), self.region.bottom - 2 if placed.height is None else self.height.at(placed.height)

    def box(self, placed: Placed) -> Box | None:
        """Where the outline of an item is drawn."""
        return self.outline(placed.edges)

    def outline(self, edges: tuple[float, float, float, float] | None) -> Box | None:
        """Forward, aft, lower and upper edge on the paper."""
        if edges is None:
            return None
        forward, aft, low, high = edges
        return Box(self.arm.at(forward), self.height.at(high), self.arm.at(aft), self.height.at(low))

    def path(self, pipe: Pipe, beside: int, of: int) -> tuple[Point, Point] | None:
        """Ends of a segment between two items, the one numbered `beside` of `of` such; None where it cannot be drawn."""
        ends = [next((p for p in self.items if p.item.name == name and p.height is not None), None) for name in (pipe.begins, pipe.ends)]
        if ends[0] is None or ends[1] is None or ends[0] is ends[1]:
            return None
        start, end = self.middle(ends[0]), self.middle(ends[1])
        if start is None or end is None or start == end:
            return None
        shift = (beside - (of - 1) / 2) * 3.0
        across = (0.0, shift) if abs(end[0] - start[0]) >= abs(end[1] - start[1]) else (shift, 0.0)
        start, end = (start[0] + across[0], start[1] + across[1]), (end[0] + across[0], end[1] + across[1])
        return _between(start, end, self.box(ends[0]), self.box(ends[1]))


def _edges(volume: Volume, unit: str) -> tuple[float, float, float, float] | None:
    """Forward, aft, lower and upper edge of a space; None where one is missing."""
    if volume.space is None:
        return None
    front, rear, low, high = (on_scale(face, unit) for face in (volume.space.front, volume.space.rear, volume.space.bottom, volume.space.top))
    return None if front is None or rear is None or low is None or high is None else (front, rear, low, high)


def _between(start: Point, end: Point, first: Box | None, last: Box | None) -> tuple[Point, Point] | None:
    """The piece of a line outside the boxes at its ends; None where they leave nothing of it."""
    out = first.piece_inside(start, end) if first else None
    into = last.piece_inside(end, start) if last else None
    a, b = out[1] if out else start, into[1] if into else end
    onwards = (b[0] - a[0]) * (end[0] - start[0]) + (b[1] - a[1]) * (end[1] - start[1])
    return (a, b) if onwards > 0 else None


def stations(plane: Aircraft, unit: str) -> list[Station]:
    """Seats, baggage spaces and tanks from forward aft, those of one arm together; those without an arm last."""
    named = [(s.arm, s.name, s.holds) for s in plane.stations] + [(t.arm, t.name, "fuel") for t in plane.tanks]
    found: dict[object, Station] = {}
    for arm, name, holds in named:
        key = on_scale(arm, unit) if isinstance(arm, Fact) else name
        in_full = name if name == holds else f"{name} ({holds})"
        found[key] = Station(arm, f"{found[key].name}, {name}", f"{found[key].in_full}; {in_full}") if key in found else Station(arm, name, in_full)
    return sorted(found.values(), key=lambda station: float("inf") if (place := on_scale(station.arm, unit)) is None else place)


def pipes(facts: Facts) -> list[Pipe]:
    """The segments of all loops."""
    found: list[Pipe] = []
    for loop in facts.loops:
        places = loop.place.each("segments")
        found.extend(Pipe(loop, s, places[s.name].said_at("begins"), places[s.name].said_at("ends")) for s in loop.segments)
    return found


def numbers(items: Sequence[Item], fits: int = 3) -> list[str]:
    """The items' numbers in the parts list where each has a short one of its own; else 1, 2, 3 ..."""
    given = [item.place.said_at("item_number") for item in items]
    if len(set(given)) == len(given) and all(number and len(number) <= fits for number in given):
        return [str(number) for number in given]
    return [str(number) for number in range(1, len(items) + 1)]


def _floors(facts: Facts, unit: str) -> list[Floor]:
    found = []
    for restraint in facts.restraints:
        spots = [(on_scale(contact.arm, unit), on_scale(contact.height, unit)) for contact in restraint.contacts]
        known = [(arm, height) for arm, height in spots if arm is not None and height is not None]
        if known and len({height for _, height in known}) == 1:
            found.append(Floor(min(arm for arm, _ in known), max(arm for arm, _ in known), known[0][1]))
    return found
