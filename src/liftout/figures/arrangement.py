"""Items seen from one side, to scale: the geometry of the side view, the plan view and the spaces kept clear, without a line drawn."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass
from typing import Final

from liftout.facts import Facts
from liftout.facts.aircraft import Aircraft
from liftout.facts.clearance import Space, Volume
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact
from liftout.facts.lines import Loop, Segment
from liftout.figures.amounts import among, on_scale, said
from liftout.figures.marks import letters
from liftout.figures.placing import Box, Point
from liftout.figures.scale import Scale

LEAST_UP = 12.0
"""Least paper, in mm, that what stands upwards on the paper takes."""

STRIP = 7.0
"""Paper below for what is not told upwards."""

Edges = tuple[float, float, float, float]
"""Forward, aft, lower and upper edge on the paper, in the unit of the drawing."""


@dataclass(frozen=True)
class View:
    """From where one looks, and what stands upwards on the paper; arms always run to the right, so the nose points to the left."""

    seen: str
    upwards: str
    """The coordinate."""
    sense: str
    """What its larger values mean."""

    def centre(self, item: Item) -> Amount:
        """Of the centre of gravity."""
        return item.height if self is SIDE else item.lateral

    def size(self, item: Item) -> Amount:
        """Of the box."""
        return item.tall if self is SIDE else item.width

    def low(self, item: Item) -> Amount:
        """Of the lower edge of the box on the paper: its underside, or its left face."""
        return item.underside if self is SIDE else item.left

    def of_space(self, space: Space) -> tuple[Amount, Amount]:
        """Of the lower and the upper edge of a space on the paper."""
        return (space.bottom, space.top) if self is SIDE else (space.left, space.right)


SIDE: Final = View("from the left", "height", "up")
ABOVE: Final = View("from above", "lateral", "right")


@dataclass(frozen=True)
class Placed:
    """An item in the unit of the drawing; what the job lacks is None."""

    item: Item
    arm: float | None
    up: float | None
    length: float | None
    tall: float | None
    front: float | None
    low: float | None

    @property
    def edges(self) -> Edges | None:
        """Where the job says that the box stands, or about the centre of gravity."""
        if self.arm is None or self.up is None or self.length is None or self.tall is None:
            return None
        front = self.arm - self.length / 2 if self.front is None else self.front
        low = self.up - self.tall / 2 if self.low is None else self.low
        return front, front + self.length, low, low + self.tall


@dataclass(frozen=True)
class Kept:
    """A space that must stay clear, with its edges where the job gives all four."""

    volume: Volume
    edges: Edges | None

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
        return f"{self.loop.name}, {self.segment.name}: {kind}, {size}, from {self.begins} to {self.ends}; arm and lateral of its middle"

    @property
    def name(self) -> str:
        """Loop and segment."""
        return f"{self.loop.name}, {self.segment.name}"


class Arrangement:
    """One view as places on paper; `top` may be moved."""

    def __init__(self, facts: Facts, view: View, left: float, right: float, most: float, *, kept: bool = False) -> None:
        """The view, `most` mm tall at most; `kept`: the spaces that must stay clear, and the items as far as they are near."""
        items = facts.items
        self.view = view
        self.unit = unit_of(facts)
        self.items = [
            Placed(i, *(on_scale(a, self.unit) for a in (i.arm, view.centre(i), i.length, view.size(i), i.front, view.low(i)))) for i in items
        ]
        self.kept = [Kept(volume, _edges(volume, view, self.unit)) for volume in facts.keep_clear.volumes] if kept else []
        self.floors = _floors(facts, self.unit) if view is SIDE else []
        self.stations = [] if kept else stations(facts.aircraft, self.unit)
        self.datums = (
            {}
            if kept
            else {
                name: 0.0 if name == facts.aircraft.datum else on_scale(part.quantity("offset"), self.unit)
                for name, part in facts.aircraft.place.each("datums").items()
            }
        )
        self.routes = {} if kept else {(loop.name, s.name): self._turns(s) for loop in facts.loops for s in loop.segments}
        self.top = 0.0
        arms, ups = self._told()
        length, tall = max(arms) - min(arms) or 1.0, max(ups) - min(ups)
        self.mm = min((right - left) / (1.08 * length), most / tall if tall else float("inf"))
        spare = (right - left) / self.mm - length
        self.arm = Scale(min(arms) - spare / 2, max(arms) + spare / 2, left, right)
        self.least, self.most = min(ups), max(ups)
        self.strip = STRIP if any(p.arm is not None and p.up is None for p in self.items) and not kept else 0.0

    def _turns(self, segment: Segment) -> list[tuple[float, float]]:
        """Arm and upward coordinate of the turns of a route."""
        found = []
        for turn in segment.route.turns:
            arm, up = on_scale(turn.arm, self.unit), on_scale(turn.height if self.view is SIDE else turn.lateral, self.unit)
            if arm is not None and up is not None:
                found.append((arm, up))
        return found

    def _told(self) -> tuple[list[float], list[float]]:
        whole: list[float | None] = [*self.datums.values(), *(on_scale(station.arm, self.unit) for station in self.stations)]
        arms = whole if self.kept else [0.0, *whole]
        ups: list[float | None] = [0.0] if self.view is ABOVE else []
        for placed in self.items:
            arms.append(placed.arm)
            ups.append(placed.up if placed.arm is not None else None)
        for edges in (*(placed.edges for placed in self.items), *(kept.edges for kept in self.kept)):
            if edges:
                arms.extend(edges[:2])
                ups.extend(edges[2:])
        for floor in self.floors:
            arms.extend((floor.forward, floor.aft))
            ups.append(floor.height)
        for turns in self.routes.values():
            arms.extend(arm for arm, _ in turns)
            ups.extend(up for _, up in turns)
        return [x for x in arms if x is not None] or [0.0], [y for y in ups if y is not None] or [0.0]

    def enlarged(self, edges: Edges, left: float, right: float, most: float) -> Arrangement:
        """The same view of what lies between these edges, to a larger scale of its own, `most` mm tall at most."""
        forward, aft, low, high = edges
        found = copy(self)
        found.mm = min((right - left) / (aft - forward), most / (high - low))
        spare = (right - left) / found.mm - (aft - forward)
        found.arm = Scale(forward - spare / 2, aft + spare / 2, left, right)
        found.least, found.most = low, high
        return found

    @property
    def up(self) -> Scale:
        """The scale of what stands upwards."""
        foot = self.top + max((self.most - self.least) * self.mm, LEAST_UP)
        return Scale(self.least, self.least + 1, foot, foot - self.mm)

    @property
    def region(self) -> Box:
        """The paper that the view takes."""
        return Box(self.arm.start, self.top, self.arm.end, self.up.start + self.strip)

    def middle(self, placed: Placed) -> Point | None:
        """Where the centre of gravity of an item is drawn: in the strip where it is not told how far up it is."""
        if placed.arm is None:
            return None
        return self.arm.at(placed.arm), self.region.bottom - 2 if placed.up is None else self.up.at(placed.up)

    def box(self, placed: Placed) -> Box | None:
        """Where the outline of an item is drawn."""
        return self.outline(placed.edges)

    def outline(self, edges: Edges | None) -> Box | None:
        """Edges on the paper."""
        if edges is None:
            return None
        forward, aft, low, high = edges
        return Box(self.arm.at(forward), self.up.at(high), self.arm.at(aft), self.up.at(low))

    def path(self, pipe: Pipe, beside: int, of: int) -> list[Point]:
        """The way of a segment: its route, or straight between two items, the one numbered `beside` of `of` such; empty where it cannot be drawn."""
        if turns := self.routes.get((pipe.loop.name, pipe.segment.name)):
            return [(self.arm.at(arm), self.up.at(up)) for arm, up in turns]
        ends = [next((p for p in self.items if p.item.name == name and p.up is not None), None) for name in (pipe.begins, pipe.ends)]
        if ends[0] is None or ends[1] is None or ends[0] is ends[1]:
            return []
        start, end = self.middle(ends[0]), self.middle(ends[1])
        if start is None or end is None or start == end:
            return []
        shift = (beside - (of - 1) / 2) * 3.0
        across = (0.0, shift) if abs(end[0] - start[0]) >= abs(end[1] - start[1]) else (shift, 0.0)
        start, end = (start[0] + across[0], start[1] + across[1]), (end[0] + across[0], end[1] + across[1])
        return list(_between(start, end, self.box(ends[0]), self.box(ends[1])) or ())


def unit_of(facts: Facts) -> str:
    """The unit in which the job tells where its items are."""
    return among([a for i in facts.items for a in (i.arm, i.length, i.height)] + [s.arm for s in facts.aircraft.stations], "in")


def lettered(facts: Facts) -> list[tuple[str, Station]]:
    """Seats, baggage spaces and tanks with their letters."""
    return [(letters(number), station) for number, station in enumerate(stations(facts.aircraft, unit_of(facts)))]


def _edges(volume: Volume, view: View, unit: str) -> Edges | None:
    """Edges of a space on the paper; None where one is missing."""
    if volume.space is None:
        return None
    front, rear, low, high = (on_scale(face, unit) for face in (volume.space.front, volume.space.rear, *view.of_space(volume.space)))
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
