"""Liquid loops."""

from __future__ import annotations

import itertools
from typing import NamedTuple

from liftout.facts.curves import check_curve, curve_points
from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import STATED, Amount, Fact, Missing, Place, off
from liftout.facts.line_routes import LineRoute, line_route
from liftout.facts.removal import Opening
from liftout.job.errors import Fault, one_of
from liftout.quantities import Quantity


class Fitting(NamedTuple):
    """Fittings of one kind on a line."""

    name: str
    place: Place
    number: Amount
    loss_coefficient: Amount
    """Of one, as its maker declares it."""
    published: Fact[str] | Missing
    """Row of the table of fitting losses that stands for it."""


class Segment(NamedTuple):
    """A piece of line of one bore."""

    name: str
    place: Place
    is_hose: bool
    inside_diameter: Amount
    outside_diameter: Amount
    inside: Fact[str] | Missing
    length: Amount
    route: LineRoute
    arm: Amount
    """Arm of its middle, worked from its route where one is told."""
    loss_coefficient: Amount
    """Of its bends together."""
    fittings: tuple[Fitting, ...]
    clamps: Place


class Device(NamedTuple):
    """Something with a declared loss."""

    name: str
    place: Place
    flow: Amount
    pressure_drop: Amount
    number: Amount


class LinePart(NamedTuple):
    """Something that stands the pressure and the temperature of a loop: a line, a fitting, a device or an item."""

    loop: Loop
    part: str
    pressure: Amount
    coldest: Amount
    hottest: Amount

    @property
    def name(self) -> str:
        """Loop and part."""
        return f"{self.loop.name}, {self.part}"


class Line(NamedTuple):
    """A line in its loop."""

    loop: Loop
    segment: Segment

    @property
    def name(self) -> str:
        """Loop and line."""
        return f"{self.loop.name}, {self.segment.name}"


class PassedEdge(NamedTuple):
    """A line where it passes an opening."""

    line: Line
    opening: str
    edge: Fact[str] | Missing
    through: str

    @property
    def name(self) -> str:
        """Loop, line and opening."""
        return f"{self.line.name}, {self.opening}"


class Loop(NamedTuple):
    """One closed loop."""

    name: str
    place: Place
    declined: Fact[str] | None
    kind: Fact[str] | Missing
    fraction: Amount
    basis: Fact[str] | Missing
    freezing: Amount
    freezing_margin: Amount
    filling: Amount
    coldest: Amount
    cold_start: Amount
    at_work: Amount
    hottest: Amount
    cap_pressure: Amount
    static_head: Amount
    expansion_room: Amount
    reserve: Amount
    tolerable_leak: Amount
    leak_test: Place
    segments: tuple[Segment, ...]
    devices: tuple[Device, ...]
    pump_curve: tuple[tuple[Amount, Amount], ...]
    pump: Place
    serves: Item | None
    items: tuple[Item, ...]


class LoopCase(NamedTuple):
    """A loop at one liquid temperature."""

    loop: Loop
    case: str
    temperature: Amount

    @property
    def name(self) -> str:
        """Loop and case."""
        return f"{self.loop.name}, {self.case}"


def loops(whole: Place, items: dict[str, Item], datums: Datums) -> tuple[Loop, ...]:
    """The loops of the fit."""
    found = []
    for name, place in whole.part("lines").each("loops").items():
        coolant, pump = place.part("coolant"), place.part("pump")
        check_curve(pump, datums.faults)
        _check_temperatures(place, datums.faults)
        if pump.there and pump.said_at("item") not in items:
            datums.faults.append(pump.fault("item", f'there is no item "{pump.said_at("item")}".', one_of(pump.said_at("item"), items)))
        for asked in (place.said_at("serves"), *(place.said_at("items") or ())):
            if asked is not None and asked not in items:
                field = "serves" if asked == place.said_at("serves") else "items"
                datums.faults.append(place.fault(field, f'there is no item "{asked}".', one_of(asked, items)))
        found.append(
            Loop(
                name=name,
                place=place,
                declined=place.declined,
                kind=coolant.word("kind"),
                fraction=coolant.quantity("fraction"),
                basis=coolant.word("basis"),
                freezing=coolant.quantity("freezing"),
                freezing_margin=place.quantity("freezing_margin"),
                filling=place.quantity("filling"),
                coldest=place.quantity("coldest"),
                cold_start=place.quantity("cold_start"),
                at_work=place.quantity("at_work"),
                hottest=place.quantity("hottest"),
                cap_pressure=place.quantity("cap_pressure"),
                static_head=place.quantity("static_head"),
                expansion_room=place.quantity("expansion_room"),
                reserve=place.quantity("reserve"),
                tolerable_leak=place.quantity("tolerable_leak"),
                leak_test=place.part("leak_test"),
                segments=tuple(_segment(key, part, datums) for key, part in place.each("segments").items()),
                devices=tuple(
                    Device(key, part, part.quantity("flow"), part.quantity("pressure_drop"), part.quantity("count"))
                    for key, part in place.each("devices").items()
                ),
                pump_curve=curve_points(pump),
                pump=pump,
                serves=items.get(place.said_at("serves")),
                items=tuple(items[key] for key in place.said_at("items") or () if key in items),
            )
        )
    return tuple(found)


def _segment(name: str, place: Place, datums: Datums) -> Segment:
    is_hose, route = place.said_at("kind") == "hose", line_route(place, datums)
    return Segment(
        name=name,
        place=place,
        is_hose=is_hose,
        inside_diameter=place.quantity("inside_diameter") if is_hose else _bore(place, datums.faults),
        outside_diameter=place.quantity("outside_diameter"),
        inside=place.word("inside"),
        length=place.quantity("length"),
        route=route,
        arm=route.middle,
        loss_coefficient=place.quantity("loss_coefficient"),
        fittings=tuple(
            Fitting(key, part, part.quantity("count"), part.quantity("loss_coefficient"), part.word("as_"))
            for key, part in place.each("fittings").items()
        ),
        clamps=place.part("clamps"),
    )


def _bore(tube: Place, faults: list[Fault]) -> Amount:
    """Bore of a tube, which is known by its outside: outside less two walls."""
    if tube.said_at("inside_diameter") is not None:
        faults.append(tube.fault("inside_diameter", "is told of a tube.", "A tube is known by its outside diameter: write that and its wall."))
    outside, wall = tube.quantity("outside_diameter"), tube.quantity("wall")
    if isinstance(outside, Missing):
        return outside
    if isinstance(wall, Missing):
        return wall
    bore = Quantity(outside.value.unit.from_si(outside.value.si - 2 * wall.value.si), outside.value.unit)
    if bore.magnitude <= 0:
        faults.append(tube.fault("wall", "leaves no bore.", "Measure the wall again; it is one side of the tube only."))
    evidence = STATED if STATED in (outside.evidence, wall.evidence) else outside.evidence
    return Fact(bore, f"{outside.origin}, less two walls ({wall.origin})", evidence, outside.path, off=off((outside, 1), (wall, -2)))


def _check_temperatures(place: Place, faults: list[Fault]) -> None:
    """Coldest, cold start, at work, hottest: each at least as warm as the one before."""
    told = [(field, place.said_at(field)) for field in ("coldest", "cold_start", "at_work", "hottest")]
    for (_, cooler), (field, warmer) in itertools.pairwise([(field, value) for field, value in told if value is not None]):
        if warmer.si < cooler.si:
            faults.append(
                place.fault(
                    field, "is colder than the temperature that comes before it.", "Write coldest, cold start, at work and hottest in rising order."
                )
            )


def check_liquids(lines: Place, all_loops: tuple[Loop, ...], items: dict[str, Item], faults: list[Fault]) -> None:
    """Liquid in an item belongs to a loop, or nobody weighs it. Where no loops are described yet, findings ask for them."""
    if not lines.there:
        return
    filled = {item.name for loop in all_loops for item in loop.items}
    for name, item in items.items():
        if isinstance(item.holds_liquid, Fact) and item.holds_liquid.value.magnitude and name not in filled:
            faults.append(item.place.fault("holds_liquid", "is said, but no loop fills this item.", 'List the item under "items" of its loop.'))


def loop_cases(all_loops: tuple[Loop, ...]) -> tuple[LoopCase, ...]:
    """Every loop at its coldest start, at work and at its hottest."""
    return tuple(
        LoopCase(loop, case, temperature)
        for loop in all_loops
        for case, temperature in (("cold start", loop.cold_start), ("at work", loop.at_work), ("hottest", loop.hottest))
    )


def line_parts(all_loops: tuple[Loop, ...]) -> tuple[LinePart, ...]:
    """Everything that stands the pressure and temperature of its loop."""
    found = []
    for loop in all_loops:
        held = [*loop.place.each("segments").items(), *loop.place.each("devices").items()]
        held += [(f"{segment.name}, {fitting.name}", fitting.place) for segment in loop.segments for fitting in segment.fittings]
        lines = [(name, place, "rated_pressure", "coldest_rated", "hottest_rated") for name, place in held]
        items = [(item.name, item.place, "highest_pressure", "coldest", "hottest") for item in loop.items]
        found += [LinePart(loop, name, *(place.quantity(field) for field in fields)) for name, place, *fields in (*lines, *items)]
    return tuple(found)


def lines(all_loops: tuple[Loop, ...]) -> tuple[Line, ...]:
    """Every line of every loop."""
    return tuple(Line(loop, segment) for loop in all_loops for segment in loop.segments)


def passed_edges(all_loops: tuple[Loop, ...], openings: tuple[Opening, ...]) -> tuple[PassedEdge, ...]:
    """Every line at every opening that it passes."""
    holes = {opening.name: opening for opening in openings}
    return tuple(
        PassedEdge(line, name, holes[name].place.word("edge"), holes[name].through)
        for line in lines(all_loops)
        for name in line.segment.place.said_at("passes") or ()
        if name in holes
    )
