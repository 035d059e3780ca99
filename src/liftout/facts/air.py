"""Air that takes heat away, and the bays that it warms."""

from __future__ import annotations

from typing import NamedTuple, get_args

from liftout.facts.curves import check_curve, curve_points
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.lines import Loop
from liftout.job.air import Watched
from liftout.job.errors import Fault, one_of

GROUND, ALOFT = "on the ground", "aloft"
HOT_IDLE, SHUTDOWN = "hot idle", "after shutdown"
OUTSIDE = "outside"
WATCHED: tuple[str, ...] = get_args(Watched)


class Duct(NamedTuple):
    """A piece of duct of one bore."""

    name: str
    place: Place
    bore: Amount
    length: Amount
    inside: Fact[str] | Missing
    loss_coefficient: Amount


class InTheAir(NamedTuple):
    """Something with a declared loss: a screen, a valve, the exchanger."""

    name: str
    flow: Amount
    pressure_drop: Amount
    density: Amount


class AirPath(NamedTuple):
    """The way of the air through one exchanger, and the loop that brings the heat."""

    name: str
    place: Place
    declined: Fact[str] | None
    item: Item | None
    loop: Loop | None
    fan_curve: tuple[tuple[Amount, Amount], ...]
    fan_density: Amount
    ducts: tuple[Duct, ...]
    losses: tuple[InTheAir, ...]
    """Screens and valves, and last the exchanger."""
    effectiveness: Amount
    transfer_units: Amount
    """By which the effectiveness is worked where the exchanger's maker declares them instead."""
    leaves_into: Fact[str] | Missing


class AirCase(NamedTuple):
    """An air path where the aircraft stands, or as high as the equipment runs."""

    path: AirPath
    case: str

    @property
    def name(self) -> str:
        """Path and case."""
        return f"{self.path.name}, {self.case}"


class Held(NamedTuple):
    """Something in a bay, and how hot it may become."""

    name: str
    hottest: Amount


class Bay(NamedTuple):
    """A bay that the equipment warms."""

    name: str
    place: Place
    declined: Fact[str] | None
    held: tuple[Held, ...]
    unnamed: tuple[str, ...]
    """Kinds that the job neither names here nor says to be absent."""
    blown_by: tuple[AirPath, ...]


class BayCase(NamedTuple):
    """A bay at hot idle or after shutdown."""

    bay: Bay
    case: str
    rise: Amount

    @property
    def name(self) -> str:
        """Bay and case."""
        return f"{self.bay.name}, {self.case}"


def air_paths(whole: Place, items: dict[str, Item], loops: tuple[Loop, ...], faults: list[Fault]) -> tuple[AirPath, ...]:
    """The air paths of the fit."""
    section = whole.part("air")
    bays = section.each("bays")
    found = []
    for name, place in section.each("paths").items():
        fan, exchanger = place.part("fan"), place.part("exchanger")
        if exchanger.said_at("transfer_units") is not None and exchanger.said_at("effectiveness") is not None:
            faults.append(exchanger.fault("transfer_units", "stands beside an effectiveness.", "Keep the one that the exchanger's maker declares."))
        check_curve(fan, faults)
        for holder, field in ((place, "cools"), (fan, "item")):
            said = holder.said_at(field)
            if said is not None and said not in items:
                faults.append(holder.fault(field, f'there is no item "{said}".', one_of(said, items)))
        leaves = place.word("leaves_into")
        if isinstance(leaves, Fact) and leaves.value not in (OUTSIDE, *bays):
            faults.append(place.fault("leaves_into", f'there is no bay "{leaves.value}".', one_of(leaves.value, (OUTSIDE, *bays))))
        cooled = place.said_at("cools")
        losses = [*place.each("screens").items(), ("exchanger", exchanger)]
        found.append(
            AirPath(
                name=name,
                place=place,
                declined=place.declined,
                item=items.get(cooled),
                loop=next((loop for loop in loops if cooled in [item.name for item in loop.items]), None),
                fan_curve=curve_points(fan),
                fan_density=fan.quantity("density"),
                ducts=tuple(
                    Duct(key, part, part.quantity("bore"), part.quantity("length"), part.word("inside"), part.quantity("loss_coefficient"))
                    for key, part in place.each("ducts").items()
                ),
                losses=tuple(InTheAir(key, part.quantity("flow"), part.quantity("pressure_drop"), part.quantity("density")) for key, part in losses),
                effectiveness=exchanger.quantity("effectiveness"),
                transfer_units=exchanger.quantity("transfer_units"),
                leaves_into=leaves,
            )
        )
    return tuple(found)


def air_cases(paths: tuple[AirPath, ...]) -> tuple[AirCase, ...]:
    """Every path on the ground and aloft."""
    return tuple(AirCase(path, case) for path in paths for case in (GROUND, ALOFT))


def bays(whole: Place, items: dict[str, Item], paths: tuple[AirPath, ...], faults: list[Fault]) -> tuple[Bay, ...]:
    """The bays that the equipment warms."""
    found = []
    for name, place in whole.part("air").each("bays").items():
        inside = place.each("holds")
        kinds = {part.said_at("kind") for part in inside.values()} | set(place.said_at("without") or {})
        strange = [item for item in place.said_at("items") or () if item not in items]
        faults.extend(place.fault("items", f'there is no item "{item}".', one_of(item, items)) for item in strange)
        ours = [(item, items[item].place) for item in place.said_at("items") or () if item in items]
        found.append(
            Bay(
                name=name,
                place=place,
                declined=place.declined,
                held=tuple(Held(key, part.quantity("hottest")) for key, part in (*inside.items(), *ours)),
                unnamed=tuple(kind for kind in WATCHED if kind not in kinds),
                blown_by=tuple(path for path in paths if isinstance(path.leaves_into, Fact) and path.leaves_into.value == name),
            )
        )
    return tuple(found)


def bay_cases(all_bays: tuple[Bay, ...]) -> tuple[BayCase, ...]:
    """Every bay at hot idle and after shutdown."""
    return tuple(
        BayCase(bay, case, bay.place.quantity(field))
        for bay in all_bays
        for case, field in ((HOT_IDLE, "hot_idle_rise"), (SHUTDOWN, "after_shutdown_rise"))
    )
