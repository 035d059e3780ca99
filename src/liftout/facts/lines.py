"""Liquid loops."""

from __future__ import annotations

import itertools
from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault


class Segment(NamedTuple):
    """A piece of line of one bore."""

    name: str
    inside_diameter: Amount
    inside: Fact[str] | Missing
    length: Amount
    arm: Amount
    loss_coefficient: Amount


class Device(NamedTuple):
    """Something with a declared loss."""

    name: str
    flow: Amount
    pressure_drop: Amount
    number: Amount


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
        _check_curve(pump, datums.faults)
        _check_temperatures(place, datums.faults)
        if pump.there and pump.said_at("item") not in items:
            datums.faults.append(pump.fault("item", f'there is no item "{pump.said_at("item")}".', f"Write one of: {', '.join(items)}."))
        for asked in (place.said_at("serves"), *(place.said_at("items") or ())):
            if asked is not None and asked not in items:
                field = "serves" if asked == place.said_at("serves") else "items"
                datums.faults.append(place.fault(field, f'there is no item "{asked}".', f"Write one of: {', '.join(items)}."))
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
                segments=tuple(
                    Segment(
                        key,
                        part.quantity("inside_diameter"),
                        part.word("inside"),
                        part.quantity("length"),
                        datums.arm(part),
                        part.quantity("loss_coefficient"),
                    )
                    for key, part in place.each("segments").items()
                ),
                devices=tuple(
                    Device(key, part.quantity("flow"), part.quantity("pressure_drop"), part.quantity("count"))
                    for key, part in place.each("devices").items()
                ),
                pump_curve=tuple((part.quantity("flow"), part.quantity("pressure")) for part in pump.each("curve").values()),
                pump=pump,
                serves=items.get(place.said_at("serves")),
                items=tuple(items[key] for key in place.said_at("items") or () if key in items),
            )
        )
    return tuple(found)


def _check_curve(pump: Place, faults: list[Fault]) -> None:
    """Flow rises from point to point and pressure does not."""
    points = list(pump.each("curve").values())
    if pump.there and len(points) < 2:
        faults.append(pump.fault("curve", "has fewer than two points.", "Write pressure rise by flow, from no flow to the largest."))
    for before, after in itertools.pairwise(points):
        if after.said_at("flow").si <= before.said_at("flow").si:
            faults.append(after.fault("flow", "is not more than that of the point before.", "Write the points in order of flow."))
        if after.said_at("pressure").si > before.said_at("pressure").si:
            faults.append(after.fault("pressure", "is more than that of the point before.", "Leave out the rising branch: a pump is unsteady there."))


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


def check_liquids(all_loops: tuple[Loop, ...], items: dict[str, Item], faults: list[Fault]) -> None:
    """Liquid in an item belongs to a loop, or nobody weighs it."""
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
