"""What holds each item, and in which direction it is asked to."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.aircraft import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault
from liftout.job.restraint import Restraint as Said

DIRECTIONS = ("forward", "aft", "up", "down", "left", "right")
"""Directions of the inertia force on the item relative to the aircraft."""


class Spot(NamedTuple):
    """A point in aircraft coordinates: arm, right of the centre line, up."""

    arm: Amount
    lateral: Amount
    height: Amount


class Strap(NamedTuple):
    """A strap; it only pulls."""

    name: str
    attached: Spot
    anchored: Spot
    rating: Amount
    rating_is: Fact[str] | Missing
    anchor: Fact[str] | Missing


class Restraint(NamedTuple):
    """What holds one item."""

    item: Item
    place: Place
    declined: Fact[str] | None
    straps: tuple[Strap, ...]
    contacts: tuple[Spot, ...]
    blocked: tuple[str, ...]
    block_rating: Amount
    frequent_removal: Fact[bool] | Missing


class ItemInDirection(NamedTuple):
    """An item pulled by its own inertia in one direction."""

    item: Item
    restraint: Restraint
    direction: str

    @property
    def name(self) -> str:
        """Item and direction."""
        return f"{self.item.name}, {self.direction}"


def restraints(whole: Place, items: dict[str, Item], datums: Datums) -> tuple[Restraint, ...]:
    """One for each item; an item of which the job says nothing has one without straps."""
    said = whole.each("restraint")
    for name, place in said.items():
        if name not in items:
            node = place.job.said.at(place.path)
            datums.faults.append(
                Fault(node.file, node.line, node.column, place.path, f'there is no item "{name}".', f"Write one of: {', '.join(items)}.")
            )
    found = []
    for name, item in items.items():
        place = said.get(name) or Place(whole.job, ("restraint", name), Said, None)
        for part in place.each("straps").values():
            if _same(part):
                datums.faults.append(part.fault("anchored", "is the point where the strap holds the item.", "Measure both ends."))
        found.append(
            Restraint(
                item=item,
                place=place,
                declined=place.declined,
                straps=tuple(
                    Strap(
                        key,
                        _spot(part.part("attached"), place, datums),
                        _spot(part.part("anchored"), place, datums),
                        part.quantity("rating"),
                        part.word("rating_is"),
                        part.word("anchor"),
                    )
                    for key, part in place.each("straps").items()
                ),
                contacts=tuple(_spot(part, place, datums) for part in place.each("contacts").values()),
                blocked=place.said_at("blocked") or (),
                block_rating=place.quantity("block_rating"),
                frequent_removal=place.answer("frequent_removal"),
            )
        )
    return tuple(found)


def _same(strap: Place) -> bool:
    """Whether both ends of a strap are one point."""
    ends = [strap.part(end) for end in ("attached", "anchored")]
    return all(ends[0].said_at(axis).si == ends[1].said_at(axis).si for axis in ("arm", "lateral", "height"))


def spots(held: Restraint) -> list[Spot]:
    """Every point whose coordinates count."""
    return [*(spot for strap in held.straps for spot in (strap.attached, strap.anchored)), *held.contacts]


def _spot(place: Place, restraint: Place, datums: Datums) -> Spot:
    return Spot(datums.from_named(place.quantity("arm"), restraint), place.quantity("lateral"), place.quantity("height"))


def items_in_directions(all_restraints: tuple[Restraint, ...]) -> tuple[ItemInDirection, ...]:
    """Every item in every direction."""
    return tuple(ItemInDirection(r.item, r, direction) for r in all_restraints for direction in DIRECTIONS)
