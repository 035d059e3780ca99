"""Spaces that must stay clear, and the items that could stand in them."""

from __future__ import annotations

from itertools import combinations
from typing import NamedTuple, get_args

from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import STATED, Amount, Fact, Missing, Place
from liftout.job.errors import Fault, one_of
from liftout.job.space import Needed

KINDS: tuple[str, ...] = get_args(Needed)
"""Kinds of which a job must name one, or say why the aircraft has none."""

HEADS = "head path"

OPPOSITE = (("front", "rear"), ("left", "right"), ("bottom", "top"))
"""Faces of a space, the smaller coordinate first."""


class Space(NamedTuple):
    """Coordinates of the faces of a box."""

    front: Amount
    rear: Amount
    left: Amount
    right: Amount
    bottom: Amount
    top: Amount


class Volume(NamedTuple):
    """A space that must stay clear; `space` is None where the job gives no box."""

    name: str
    place: Place
    kind: str
    space: Space | None
    control: Fact[str] | Missing
    clear: Fact[bool] | Missing
    clearance: Amount
    reached_from: tuple[str, ...] = ()
    by_way_of: tuple[str, ...] = ()
    head_of: Fact[str] | Missing | None = None
    """The station whose occupants' heads move through it; None of what is no head path."""


class KeptKind(NamedTuple):
    """A kind of space that must stay clear: what the job names of it, or why it has none."""

    name: str
    volumes: tuple[Volume, ...]
    without: Fact[str] | None


class KeepClear(NamedTuple):
    """All that must stay clear."""

    place: Place
    volumes: tuple[Volume, ...]
    kinds: tuple[KeptKind, ...]

    @property
    def declined_or_silent(self) -> bool:
        """Whether the job names no space at all, which the kinds ask."""
        return not self.place.there or self.place.declined is not None


class Near(NamedTuple):
    """An item and a space that it must leave clear; None where the item has no box or the job names no space."""

    item: Item
    volume: Volume | None

    @property
    def name(self) -> str:
        """Item and space."""
        return self.item.name if self.volume is None else f"{self.item.name}, {self.volume.name}"


class Pair(NamedTuple):
    """Two items beside each other."""

    first: Item
    second: Item

    @property
    def name(self) -> str:
        """Both items."""
        return f"{self.first.name}, {self.second.name}"


def keep_clear(plane: Place, datums: Datums) -> KeepClear:
    """What must stay clear in the aircraft that the job describes."""
    place = plane.part("keep_clear")
    volumes = tuple(_volume(name, part, datums) for name, part in place.each("volumes").items())
    names, stations = [volume.name for volume in volumes], list(plane.each("stations"))
    for volume in volumes:
        heads = (volume.head_of.value,) if isinstance(volume.head_of, Fact) else ()
        for field, told, known in (
            ("by_way_of", volume.by_way_of, names),
            ("reached_from", volume.reached_from, stations),
            ("head_of", heads, stations),
        ):
            for name in told:
                if name not in known:
                    datums.faults.append(volume.place.fault(field, f'there is no "{name}".', one_of(name, known, "some")))
    reasons = {
        kind: Fact(reason, place.job.place((*place.path, "without", kind)), STATED, (*place.path, "without", kind))
        for kind, reason in (place.said_at("without") or {}).items()
    }
    kinds = []
    for kind in KINDS:
        named = tuple(volume for volume in volumes if volume.kind == kind)
        if named and kind in reasons:
            datums.faults.append(
                place.fault("without", f'says that there is no {kind}, and "{named[0].name}" is one.', "Keep either the space or the reason.")
            )
        kinds.append(KeptKind(kind, named, reasons.get(kind)))
    return KeepClear(place, volumes, tuple(kinds))


def _volume(name: str, place: Place, datums: Datums) -> Volume:
    box = place.part("box")
    for low, high in OPPOSITE:
        _in_order(box, low, high, datums.faults)
    arms = [datums.from_named(box.quantity(face), box) for face in ("front", "rear")]
    space = Space(*arms, *(box.quantity(face) for face in ("left", "right", "bottom", "top"))) if box.there else None
    kind = place.said_at("kind") or ""
    return Volume(
        name,
        place,
        kind,
        space,
        place.word("control"),
        place.answer("clear"),
        place.quantity("clearance"),
        *_ways(place),
        head_of=place.word("head_of") if kind == HEADS else None,
    )


def _ways(place: Place) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return place.said_at("reached_from") or (), place.said_at("by_way_of") or ()


def _in_order(box: Place, low: str, high: str, faults: list[Fault]) -> None:
    first, last = box.quantity(low), box.quantity(high)
    if isinstance(first, Fact) and isinstance(last, Fact) and first.value.si > last.value.si:
        faults.append(
            box.fault(high, f"is {last.value}, and the {low} is {first.value}.", "Arms grow aft, lateral distances to the right, heights up.")
        )


def check_positions(items: tuple[Item, ...], faults: list[Fault]) -> None:
    """The centre of gravity of an item lies inside its box: where it does not, one of the two positions is a slip."""
    for item in items:
        position = item.position
        if isinstance(position, Missing):
            continue
        for where, face, size, what in (
            (item.arm, item.front, item.length, "arm"),
            (item.lateral, item.left, item.width, "lateral"),
            (item.height, item.underside, item.tall, "height"),
        ):
            if isinstance(where, Fact) and isinstance(face, Fact) and isinstance(size, Fact):
                inside = where.value.si - face.value.si
                if not 0 <= inside <= size.value.si:
                    faults.append(
                        position.fault(
                            what,
                            f"puts the centre of gravity at {where.value}, outside the item's box, which begins at {face.value} and measures {size.value}.",
                            "Measure both again: the centre of gravity, and the face of the box.",
                        )
                    )


def items_near(items: tuple[Item, ...], kept: KeepClear, unused: frozenset[tuple[str, str]] = frozenset()) -> tuple[Near, ...]:
    """Every item beside every space that must stay clear; an item without a box, or without a space, once.

    Args:
        items: items.
        kept: spaces.
        unused: head paths that an item leaves without a head, both by name.
    """
    return tuple(
        near
        for item in items
        for near in (
            [Near(item, volume) for volume in kept.volumes if (item.name, volume.name) not in unused]
            if kept.volumes and item.without_box is None
            else [Near(item, None)]
        )
    )


def pairs(items: tuple[Item, ...]) -> tuple[Pair, ...]:
    """Every two items that lift out and have a box; by name, so that the order of the job file decides nothing."""
    boxed = sorted((item for item in items if item.removable and item.without_box is None), key=lambda item: item.name)
    return tuple(Pair(first, second) for first, second in combinations(boxed, 2))
