"""What holds one item, in three views to one scale: box, centre of gravity, contacts, straps and their anchors.

First-angle arrangement: side view from the left, the view from the front to its right, the plan below.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final, NamedTuple

from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.fact import Missing
from liftout.facts.restraint import Restraint, Spot
from liftout.figures.amounts import said
from liftout.figures.drawing import NOT_TO_SCALE, WIDTH, Drawing, Key, drawing, to_scale
from liftout.figures.keys import ROW, Symbol, entry_width, key, rows_of_key, scale_bar
from liftout.figures.lettering import SHIFT, width
from liftout.figures.marks import centre_of_gravity
from liftout.figures.placing import Box, Placer, Point, around
from liftout.figures.show import show
from liftout.figures.solid import Solid, Spatial, solid_of
from liftout.figures.svg import DASHED, FIRM, HEAVY, THIN, Canvas, room_for
from liftout.findings import Step
from liftout.quantities import unit
from liftout.worked.structure.strap_loads import strap_loads

ALONG: Final = {"forward": (0, -1), "aft": (0, 1), "left": (1, -1), "right": (1, 1), "down": (2, -1), "up": (2, 1)}
"""Axis and sense of each direction: arms count aft, lateral arms to the right, heights up."""

INERTIA = 6.5
"""Paper from the centre of gravity to the head of an inertia load, in mm: not to scale, its figure stands beside it."""

GAPS: Final = (0.5, 1.0, 1.8)
"""Distances from the head of a load at which its figure is tried without a leader, in mm."""

APART: Final = 1.0
"""By how much, in mm, a figure stands nearer to the head of its own load than to any other."""

OnPaper = Callable[[Spatial], Point]

MARGIN = 8.0
"""Paper round the geometry of a view for the names of anchors."""

MOST_HEIGHT = 125.0
"""Paper that the side view and the plan may take together, in mm."""

LEFT, RIGHT, GAP = 8.0, 8.0, 12.0
TITLE, HEAD, FOOT = 5.0, 12.0, 6.5
LONGEST_NAME = 16.0
"""Where the name of a strap is wider, in mm, all straps of the item carry numbers, and the key says whose they are."""
ABOUT = "drawn about the centre of gravity; the job does not say where its {faces} lies"
NOT_DRAWN = "Nothing is drawn, because the job gives no two points that lie apart."


@dataclass(frozen=True)
class _View:
    """One view: which axis runs across and which up, and in which sense."""

    title: str
    across: int
    sense: int
    up: int
    across_word: str
    up_word: str


SIDE = _View("from the left", 0, 1, 2, "forward", "up")
FRONT = _View("from the front", 1, -1, 2, "right", "up")
PLAN = _View("from above", 0, 1, 1, "forward", "right")


def _strap_sign(canvas: Canvas, at: Point) -> None:
    canvas.line((at[0] - 3, at[1]), (at[0] + 3, at[1]), HEAVY)
    canvas.circle((at[0] - 3, at[1]), 0.9, FIRM, "#fff")
    canvas.rectangle(around((at[0] + 3, at[1]), 1.9, 1.9), FIRM, "#000")


def _contact_sign(canvas: Canvas, at: Point) -> None:
    canvas.polygon([(at[0], at[1] - 1), (at[0] - 1.1, at[1] + 0.8), (at[0] + 1.1, at[1] + 0.8)], THIN, "#fff")


def _load_sign(canvas: Canvas, at: Point) -> None:
    canvas.arrow((at[0] + 3, at[1]), (at[0] - 3, at[1]), FIRM)


KEY: Final[tuple[tuple[Symbol, str], ...]] = (
    (_strap_sign, "strap, from item to anchor"),
    (_contact_sign, "contact with the floor"),
    (centre_of_gravity, "centre of gravity"),
)


BORNE: Final[tuple[Symbol, str]] = (_load_sign, "ultimate load")
"""The entry of loads, where there are any."""


class Loads(NamedTuple):
    """What an item and its straps bear under ultimate loads, as it is printed."""

    inertia: dict[str, str]
    """Load of the item by direction."""
    most: dict[str, str]
    """Largest pull of each strap, and in which direction."""


NO_LOADS = Loads({}, {})


def restraint_loads(restraint: Restraint, facts: Facts) -> Loads:
    """The ultimate loads of an item and the largest pull of each of its straps; empty where something is missing for them."""
    inertia: dict[str, str] = {}
    pulls: dict[str, tuple[Decimal, str]] = {}
    for pull in facts.load_paths:
        if pull.restraint is not restraint:
            continue
        steps = {step.symbol: step for step in strap_loads(pull, facts).steps}
        if "P" in steps:
            inertia[pull.direction] = _printed(steps["P"])
        for number, strap in enumerate(restraint.straps, 1):
            step = steps.get(f"T_{number}")
            told = None if step is None or step.quantity is None else (step.quantity.si, f"{_printed(step)} {pull.direction}")
            if told is not None and told[0] > pulls.get(strap.name, (Decimal(0), ""))[0]:
                pulls[strap.name] = told
    return Loads(inertia, {name: words for name, (_, words) in pulls.items()})


def _printed(step: Step) -> str:
    return f"{step.result.number} {step.result.unit}"


def restraint_sketch(restraint: Restraint, facts: Facts, loads: Loads = NO_LOADS) -> Drawing:
    """The sketch of what holds one item, with its ultimate loads where they are given."""
    solid = solid_of(restraint)
    if not solid.drawable:
        canvas = Canvas(WIDTH, 8)
        canvas.text((1, 5), NOT_DRAWN)
        return _finished(canvas, restraint, solid, facts, "not drawn", loads, NOT_TO_SCALE)
    spans = [max(high - low, 1e-9) for low, high in (solid.extent(axis) for axis in range(3))]
    mm = min((WIDTH - LEFT - GAP - RIGHT - 4 * MARGIN) / (spans[0] + spans[1]), (MOST_HEIGHT - 4 * MARGIN) / (spans[2] + spans[1]), 60 / max(spans))
    aside = _asides(spans, mm, loads)
    wide, deep, high = spans[0] * mm + 2 * aside[0], spans[1] * mm + 2 * aside[1], spans[2] * mm + 2 * MARGIN
    side = Box(LEFT, HEAD, LEFT + wide, HEAD + high)
    front = Box(side.right + GAP, HEAD, side.right + GAP + deep, HEAD + high)
    tall = spans[1] * mm + 2 * MARGIN
    plan = Box(LEFT, side.bottom + FOOT + TITLE, side.right, side.bottom + FOOT + TITLE + tall)
    entries = (*KEY, BORNE) if loads.inertia else KEY
    left = plan.right + GAP
    beside = WIDTH - left > max(entry_width(words) for _, words in entries) + 1
    below = plan.bottom + FOOT + 5
    rows = len(rows_of_key(entries, WIDTH - left if beside else WIDTH - 2))
    foot = max(plan.bottom + FOOT + 2, plan.top + 10 + ROW * rows) if beside else below + ROW * rows + 6
    canvas = Canvas(WIDTH, foot)
    for view, region in ((SIDE, side), (FRONT, front), (PLAN, plan)):
        _draw(canvas, view, region, solid, restraint, mm, loads)
    if beside:
        down = key(canvas, left, plan.top + 2, entries, room=WIDTH - left)
        scale_bar(canvas, left + 4, plan.top + 2 + down + 5, mm, solid.unit)
    else:
        scale_bar(canvas, 4, below + key(canvas, 1, below, entries) + 4, mm, solid.unit)
    scale = to_scale(mm / (float(unit(solid.unit).factor) * 1000))
    return _finished(canvas, restraint, solid, facts, "views from the left, from the front and from above", loads, scale)


def _asides(spans: Sequence[float], mm: float, loads: Loads) -> tuple[float, float]:
    """Paper beside the geometry seen from the left and from the front: more where figures of loads have no room inside and the paper has it."""
    needs = max((INERTIA + GAPS[-1] + room_for(load)[0] for load in loads.inertia.values()), default=0.0)
    spare = WIDTH - LEFT - GAP - RIGHT - 4 * MARGIN - (spans[0] + spans[1]) * mm
    wanted = [min(max(0.0, needs - span * mm / 2 - MARGIN), MARGIN) for span in spans[:2]]
    share = min(1.0, spare / 2 / math.fsum(wanted)) if any(wanted) else 0.0
    return MARGIN + share * wanted[0], MARGIN + share * wanted[1]


def _finished(canvas: Canvas, restraint: Restraint, solid: Solid, facts: Facts, shown: str, loads: Loads, scale: str) -> Drawing:
    title = f"Restraint of the {restraint.item.name}: {shown}."
    told = Key(
        ("What", "On the item: arm, right, up", "Anchor: arm, right, up", "Rating, anchored to", "Largest ultimate pull"),
        (*_rows(restraint, loads), *_other_rows(restraint, solid, loads)),
        ("left", "left", "left", "left", "left"),
        f"Restraint of the {restraint.item.name}; arms from the datum {facts.aircraft.datum}",
    )
    rows = " ".join(f"{row[0][:1].upper()}{row[0][1:]}: {', '.join(cell for cell in row[1:] if cell)}." for row in told.rows)
    return drawing(canvas, f"restraint-{restraint.item.name}", title, f"{title} {rows}", scale, told)


def restraint_sketches(facts: Facts) -> list[Drawing]:
    """The sketches of all items that the job says are held by something."""
    return [restraint_sketch(r, facts, restraint_loads(r, facts)) for r in facts.restraints if r.place.there and r.declined is None]


def _rows(restraint: Restraint, loads: Loads) -> list[tuple[str, str, str, str, str]]:
    item = restraint.item
    rows = [("centre of gravity", _coordinates(Spot(item.arm, item.lateral, item.height)), "", "", "")]
    rows.append(("box", f"{said(item.length)} long, {said(item.width)} wide, {said(item.tall)} high", "", "", ""))
    rows.append(("its front, left and lower face", _coordinates(Spot(item.front, item.left, item.underside)), "", "", ""))
    if out := _sticking_out(item):
        rows.append(("sticks out of the box", out, "", "", ""))
    rows += [
        (
            named,
            "; ".join(_coordinates(spot) for spot in (strap.attached, *strap.beyond[:-1])),
            "; ".join(_coordinates(anchor) for _, anchor in strap.legs),
            f"{said(strap.rating)} {said(strap.rating_is)}, {said(strap.led_to)}",
            loads.most.get(strap.name, ""),
        )
        for strap, named in zip(restraint.straps, _keyed(restraint), strict=True)
    ]
    if not restraint.straps:
        rows.append(("straps", "none told", "", "", ""))
    return rows


def _coordinates(place: Spot) -> str:
    return ", ".join(said(amount) for amount in (place.arm, place.lateral, place.height))


def _sticking_out(item: Item) -> str:
    """How far something sticks out of the box, where it does."""
    told = [(word, item.projection.quantity(word)) for word in ("forward", "aft", "left", "right", "up", "down")] if item.projection.there else []
    return ", ".join(f"{word} {said(amount)}" for word, amount in told if isinstance(amount, Missing) or amount.value.magnitude)


def _place_of_box(item: Item, solid: Solid) -> str:
    """How the box is drawn where its faces are not told."""
    faces = {"front": item.front, "left side": item.left, "underside": item.underside}
    untold = [word for word, amount in faces.items() if isinstance(amount, Missing)]
    return ABOUT.format(faces=" or ".join(untold)) if solid.box and untold else ""


def _labels(restraint: Restraint) -> list[str]:
    """What stands at the anchors: the names of the straps, or numbers where one is too long."""
    names = [strap.name for strap in restraint.straps]
    return names if all(width(name, bold=True) <= LONGEST_NAME for name in names) else [str(number) for number in range(1, len(names) + 1)]


def _keyed(restraint: Restraint) -> list[str]:
    """The straps as the key names them."""
    return [
        f"strap {strap.name}" if label == strap.name else f"{label}: strap {strap.name}"
        for label, strap in zip(_labels(restraint), restraint.straps, strict=True)
    ]


def _other_rows(restraint: Restraint, solid: Solid, loads: Loads) -> Iterator[tuple[str, str, str, str, str]]:
    """Contacts, stops, loads, and what is missing."""
    contacts = "; ".join(_coordinates(contact) for contact in restraint.contacts) or "none told"
    yield "contacts with the floor", contacts, "", "", ""
    if restraint.blocked:
        yield "stops at the base", ", ".join(restraint.blocked), "", f"each {said(restraint.block_rating)}", ""
    if loads.inertia:
        yield "ultimate inertia loads", ", ".join(f"{words} {direction}" for direction, words in loads.inertia.items()), "", "", ""
    if about := _place_of_box(restraint.item, solid):
        yield "place of the box", about, "", "", ""
    if lacks := dict.fromkeys(need.what for need in _missing(restraint)):
        yield "not assessed", "; ".join(lacks), "", "", ""


def _missing(restraint: Restraint) -> Iterator[Missing]:
    """What the drawing lacks, by which something is a question mark or not drawn."""
    item = restraint.item
    ends = [spot for strap in restraint.straps for spot in strap.way]
    places = [Spot(item.arm, item.lateral, item.height), Spot(item.length, item.width, item.tall), *ends, *restraint.contacts]
    facts = [fact for place in places for fact in (place.arm, place.lateral, place.height)]
    ratings = [fact for strap in restraint.straps for fact in (strap.rating, strap.rating_is, strap.anchor)]
    yield from (fact for fact in (*facts, *ratings) if isinstance(fact, Missing))


# -- drawing --------------------------------------------------------------------------------------------------------


def _draw(canvas: Canvas, view: _View, region: Box, solid: Solid, restraint: Restraint, mm: float, loads: Loads) -> None:
    across, up = solid.extent(view.across), solid.extent(view.up)
    centre = region.centre

    def at(point: Spatial) -> Point:
        x = view.sense * (point[view.across] - math.fsum(across) / 2) * mm
        return centre[0] + x, centre[1] - (point[view.up] - math.fsum(up) / 2) * mm

    placer = Placer(region)
    canvas.text((region.left, region.top - (1.5 if view is PLAN else 8.0)), view.title, bold=True)
    _directions(canvas, view, region)
    with canvas.group(f"{restraint.item.name}, {view.title}"):
        box = _box(canvas, solid, at, placer, removable=restraint.item.removable)
        if box:
            _base_stops(canvas, view, box, restraint.blocked)
            _sizes(canvas, view, region, box, restraint.item, placer)
        _floor(canvas, view, solid, at, placer)
        if solid.middle:
            centre_of_gravity(canvas, at(solid.middle))
            placer.marks.append(around(at(solid.middle), 3, 3))
    for strap, way in solid.straps:
        places = [at(point) for point in way]
        with canvas.group(strap.name):
            if len(places) == 2:
                canvas.line(places[0], places[1], HEAVY)
            else:
                canvas.polyline(places, HEAVY)
            for place in places[1:-1] if len(places) > 2 else places[:1]:
                canvas.circle(place, 0.9, FIRM, "#fff")
            for place in (places[0], places[-1]) if len(places) > 2 else places[-1:]:
                canvas.rectangle(around(place, 1.9, 1.9), FIRM, "#000")
        placer.follow(places)
        placer.marks.extend(around(place, 2, 2) for place in places)
    _inertia(canvas, view, placer, at, solid, loads)
    labels = dict(zip((strap.name for strap in restraint.straps), _labels(restraint), strict=True))
    for words, place in _together([(labels[strap.name], at(way[-1])) for strap, way in solid.straps]):
        room = placer.near(place, *room_for(words, bold=True), 1.6)
        if room:
            if math.dist(place, room.centre) > room.width / 2 + 3:
                canvas.line(place, room.centre, THIN)
            canvas.label(room, words, bold=True)


def _box(canvas: Canvas, solid: Solid, at: OnPaper, placer: Placer, *, removable: bool) -> Box | None:
    """The outline of the item."""
    if solid.box is None:
        return None
    (x1, y1), (x2, y2) = map(at, solid.box)
    box = Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))
    canvas.rectangle(box, FIRM if removable else DASHED)
    placer.outline(box)
    return box


def _sizes(canvas: Canvas, view: _View, region: Box, box: Box, item: Item, placer: Placer) -> None:
    """Length over the side view, width over the front view, height beside it."""
    if view is PLAN:
        return
    y, x = region.top - 1.5, region.right + 4.5
    for edge in (box.left, box.right):
        canvas.line((edge, box.top - 0.8), (edge, y - 0.8), THIN)
        placer.follow([(edge, box.top), (edge, y)])
    words = said(item.length if view is SIDE else item.width)
    canvas.dimension((box.left, y), (box.right, y), words if width(words) <= region.width + GAP - 2 else "")
    if view is FRONT:
        for edge in (box.top, box.bottom):
            canvas.line((box.right + 0.8, edge), (x + 0.8, edge), THIN)
            placer.follow([(box.right, edge), (x, edge)])
        words = said(item.tall)
        canvas.dimension((x, box.bottom), (x, box.top), words if width(words) <= region.height - 2 else "")


def _inertia(canvas: Canvas, view: _View, placer: Placer, at: OnPaper, solid: Solid, loads: Loads) -> None:
    """The ultimate loads that lie in the plane of the view, as arrows from the centre of gravity with their figures."""
    if solid.middle is None:
        return
    x, y = at(solid.middle)
    ways = {word: way for word in loads.inertia if (way := _way(view, word))}
    # Upright loads first: fewer places would do for their figures.
    tips = {word: (x + across * INERTIA, y + down * INERTIA) for word, (across, down) in sorted(ways.items(), key=lambda told: told[1][1] == 0)}
    for tip in tips.values():
        placer.follow([(x, y), tip])
    for word, tip in tips.items():
        load, (across, down) = loads.inertia[word], ways[word]
        others = [other for other in tips.values() if other != tip]
        room, led = _room_of_load(placer, tip, ways[word], others, room_for(load))
        if room is None:
            continue
        with canvas.group(f"{word} {load}"):
            canvas.arrow((x + across * 1.6, y + down * 1.6), tip, FIRM)
            if led:
                canvas.line(tip, room.centre, THIN)
            canvas.label(room, load)


def _way(view: _View, word: str) -> tuple[int, int] | None:
    """Across and down the paper, the way that a load pulls; None where it does not lie in the plane of the view."""
    axis, sign = ALONG[word]
    if axis == view.across:
        return sign * view.sense, 0
    return (0, -sign) if axis == view.up else None


def _room_of_load(placer: Placer, tip: Point, way: tuple[int, int], others: Sequence[Point], size: tuple[float, float]) -> tuple[Box | None, bool]:
    """Room for the figure of a load nearer to its own head than to another, or elsewhere with a leader; whether it needs the leader.

    None only where the view is full: then the arrow is not drawn either, and the load stands in the key alone.
    """
    own = (box for box in _about_head(tip, way, *size) if all(box.distance(tip) + APART <= box.distance(other) for other in others))
    if room := placer.first(own):
        return room, False
    return placer.near(tip, *size, 1.6), True


def _about_head(tip: Point, way: tuple[int, int], wide: float, high: float) -> Iterator[Box]:
    """Places for the figure of a load: ahead of its head, then to either side of it, the nearest first."""
    for gap in GAPS:
        if way[0]:
            places = [(gap + wide / 2, 0.0), *((on, sign * (gap + high / 2)) for on in (0.0, gap + wide / 2, -wide / 4) for sign in (1, -1))]
        else:
            # Beside the line of an upright load its figure still ends at its head.
            places = [(gap + high / 2, 0.0), *((on, sign * (gap + wide / 2)) for on in (-high / 2, 0.0, gap + high / 2) for sign in (1, -1))]
        for on, off in places:
            yield around((tip[0] + way[0] * on - way[1] * off, tip[1] + way[1] * on + way[0] * off), wide, high)


def _directions(canvas: Canvas, view: _View, region: Box) -> None:
    """Arrows with the words forward, right, up, outside the view."""
    y = region.bottom + 3
    canvas.arrow((region.left + 9, y), (region.left, y))
    canvas.text((region.left + 10, y + SHIFT), view.across_word)
    x = region.left - 3
    canvas.arrow((x, region.bottom), (x, region.bottom - 9))
    canvas.text((x + SHIFT, region.bottom - 10), view.up_word, upwards=True)


def _floor(canvas: Canvas, view: _View, solid: Solid, at: OnPaper, placer: Placer) -> None:
    """Contacts; seen from the side, with the floor that they show."""
    places = [at(contact) for contact in solid.contacts]
    placer.marks.extend(around(place, 2.2, 3.6 if view.up == 2 else 2.2) for place in places)
    for x, y in places:
        if view.up == 2:
            canvas.polygon([(x, y), (x - 1.1, y + 1.8), (x + 1.1, y + 1.8)], THIN, "#fff")
        else:
            canvas.polygon([(x, y - 1.1), (x + 1.1, y + 0.9), (x - 1.1, y + 0.9)], THIN, "#fff")
    if view.up == 2 and places and len({round(y, 6) for _, y in places}) == 1:
        left, right, y = min(x for x, _ in places) - 2, max(x for x, _ in places) + 2, places[0][1] + 1.8
        canvas.line((left, y), (right, y), HEAVY)
        canvas.hatching(Box(left, y, right, y + 1.6), 1.4)
        placer.marks.append(Box(left, y - 0.4, right, y + 1.6))


def _base_stops(canvas: Canvas, view: _View, box: Box, blocked: Sequence[str]) -> None:
    """Stops that hold the base, as small black blocks against the sides that they hold."""
    sides = {"forward": (0, -1), "aft": (0, 1), "left": (1, -1), "right": (1, 1)}
    for word in blocked:
        axis, sign = sides[word]
        if axis == view.across:
            x = box.right if sign * view.sense > 0 else box.left - 1.2
            y = box.bottom - 2.4 if view.up == 2 else box.centre[1] - 1.2
            canvas.rectangle(Box(x, y, x + 1.2, y + 2.4), None, "#000")
        elif axis == view.up:
            y = box.top - 1.2 if sign > 0 else box.bottom
            canvas.rectangle(Box(box.centre[0] - 1.2, y, box.centre[0] + 1.2, y + 1.2), None, "#000")


def _together(named: Sequence[tuple[str, Point]]) -> list[tuple[str, Point]]:
    """Names of points that fall on one another, three to a label."""
    groups: list[tuple[list[str], Point]] = []
    for name, place in named:
        group = next((names for names, other in groups if math.dist(place, other) < 0.8 and len(names) < 3), None)
        if group is None:
            groups.append(([name], place))
        else:
            group.append(name)
    return [(", ".join(names), place) for names, place in groups]


if __name__ == "__main__":
    show(restraint_sketches, sys.argv[1:])
