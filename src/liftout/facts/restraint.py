"""What holds each item, and in which direction it is asked to."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, NamedTuple, TypeVar

from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import STATED, Amount, Fact, Missing, Place, off
from liftout.job.errors import one_of
from liftout.job.restraint import Restraint as Said
from liftout.quantities import Quantity

T = TypeVar("T")
DIRECTIONS = ("forward", "aft", "up", "down", "left", "right")
"""Directions of the inertia force on the item relative to the aircraft."""


UNSAID = Missing("say it", "restraint")
"""Of a strap that no job describes: one that was made for a drawing."""


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
    at: Fact[str] | None = None
    """Name of its anchor, where the job names it."""
    others: tuple[str, ...] = ()
    """Names of other anchors that it could lead to."""
    besides: tuple[Fact[Quantity] | Fact[str], ...] = ()
    """What else its rating rests on: the rating of the stronger of strap and named anchor, and what that is."""
    webbing: Fact[str] | Missing = UNSAID
    stretch: Amount = UNSAID
    """Over its length, under the rating of the strap itself."""
    own_rating: Amount = UNSAID
    anchor_rating: Amount | None = None
    """Of its named anchor by itself."""
    beyond: tuple[Spot, ...] = ()
    """Of a strap that runs over the item: further points where it bends on it, and its far end."""

    @property
    def legs(self) -> tuple[tuple[Spot, Spot], ...]:
        """Where it leaves the item and the anchor that it leads to, once or twice."""
        if not self.beyond:
            return ((self.attached, self.anchored),)
        leaves = self.beyond[-2] if len(self.beyond) > 1 else self.attached
        return ((self.attached, self.anchored), (leaves, self.beyond[-1]))

    @property
    def way(self) -> tuple[Spot, ...]:
        """All its points from its anchor on."""
        return (self.anchored, self.attached, *self.beyond)

    @property
    def led_to(self) -> Fact[str] | Missing:
        """The anchor as papers name it: what it is, and its name where it has one."""
        if self.at is None or isinstance(self.anchor, Missing):
            return self.anchor
        return replace(self.anchor, value=f'{self.anchor.value} "{self.at.value}"')


class Belted(NamedTuple):
    """The seat that an item is belted on in place of an occupant."""

    place: Place
    seat: str
    rating: Amount
    rating_is: Fact[str] | Missing
    frees: tuple[str, ...]


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
    friction: Fact[Quantity] | None = None
    """Of the contacts, where the job tells it."""
    lower: Place | None = None
    """What holds with one strap missing, where the job tells it."""
    belted: Belted | None = None

    @property
    def name(self) -> str:
        """The item."""
        return self.item.name

    @property
    def moves_with_item(self) -> bool:
        """Whether no point that belongs to the item stays behind where the item goes."""
        return self.place.said_at("told_from") == "item" or not (self.straps or self.contacts)


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
    anchors = whole.part("aircraft").each("anchors")
    stations = tuple(whole.part("aircraft").each("stations"))
    for name, place in said.items():
        if name not in items:
            datums.faults.append(place.misnamed(f'there is no item "{name}".', one_of(name, items)))
    found = []
    for name, item in items.items():
        place = said.get(name) or Place(whole.job, ("restraint", name), Said, None)
        ends = _Ends(place, item, anchors, datums)
        found.append(
            Restraint(
                item=item,
                place=place,
                declined=place.declined,
                straps=tuple(ends.strap(part) for part in place.each("straps").values()),
                contacts=tuple(ends.on_item(part) for part in place.each("contacts").values()),
                blocked=place.said_at("blocked") or (),
                block_rating=place.quantity("block_rating"),
                frequent_removal=place.answer("frequent_removal"),
                friction=friction if isinstance(friction := place.quantity("friction"), Fact) else None,
                lower=lower if (lower := place.part("one_strap_missing")).there else None,
                belted=_belted(place.part("belted_on"), stations, datums),
            )
        )
    return tuple(found)


def spots(held: Restraint) -> list[Spot]:
    """Every point whose coordinates count."""
    return [*(spot for strap in held.straps for spot in strap.way), *held.contacts]


def _belted(part: Place, stations: tuple[str, ...], datums: Datums) -> Belted | None:
    if not part.there:
        return None
    seat = part.said_at("seat")
    if seat not in stations:
        datums.faults.append(part.fault("seat", f'there is no station "{seat}".', one_of(seat, stations)))
    return Belted(part, seat, part.quantity("rating"), part.word("rating_is"), part.said_at("frees") or ())


class _Ends(NamedTuple):
    """How the points of one restraint are told."""

    place: Place
    item: Item
    anchors: dict[str, Place]
    datums: Datums

    def strap(self, part: Place) -> Strap:
        """The strap at `part`, led to a named anchor or to a point of its own."""
        at = part.said_at("at")
        anchor = None if at is None else self._named(part, "at", at)
        for name in part.said_at("could_go_to") or ():
            self._named(part, "could_go_to", name)
        if at is not None:
            for field in ("anchored", "anchor"):
                if getattr(part.said, field) is not None:
                    right = "Keep either the name of the anchor, or its coordinates and kind."
                    self.datums.faults.append(part.fault(field, f'is told, and the anchor "{at}" besides.', right))
        strap = Strap(
            part.name,
            self.on_item(part.part("attached")),
            self._unnamed(part),
            part.quantity("rating"),
            part.word("rating_is"),
            part.word("anchor"),
            webbing=part.word("webbing"),
            stretch=part.quantity("stretch"),
            own_rating=part.quantity("rating"),
            beyond=self._beyond(part),
        )
        named = part.word("at")
        if anchor is not None and isinstance(named, Fact):
            strap = _led(strap, named, anchor, self.datums)._replace(others=tuple(part.said_at("could_go_to") or ()))
        if _same(strap):
            field = "anchored" if anchor is None else "at"
            self.datums.faults.append(part.fault(field, "is the point where the strap holds the item.", "Measure both ends."))
        return strap

    def on_item(self, part: Place) -> Spot:
        """A point that belongs to the item."""
        if self.place.said_at("told_from") != "item":
            return self._from_datum(part)
        centre = (self.item.arm, self.item.lateral, self.item.height)
        return Spot(*(_from(where, part.quantity(axis)) for where, axis in zip(centre, Spot._fields, strict=True)))

    def _beyond(self, part: Place) -> tuple[Spot, ...]:
        """The rest of its way, where it runs over the item."""
        over, far = part.each("runs_over").values(), part.part("far_end")
        if not over and not far.there:
            return ()
        need = part.missing("far_end")
        return (*(self.on_item(spot) for spot in over), self._from_datum(far) if far.there else Spot(need, need, need))

    def _unnamed(self, part: Place) -> Spot:
        if part.part("anchored").there:
            return self._from_datum(part.part("anchored"))
        need = part.missing("anchored")
        return Spot(need, need, need)

    def _from_datum(self, part: Place) -> Spot:
        return Spot(self.datums.from_named(part.quantity("arm"), self.place), part.quantity("lateral"), part.quantity("height"))

    def _named(self, part: Place, field: str, name: str) -> Place | None:
        if name not in self.anchors:
            self.datums.faults.append(part.fault(field, f'there is no anchor "{name}".', one_of(name, self.anchors)))
        return self.anchors.get(name)


def _led(strap: Strap, at: Fact[str], anchor: Place, datums: Datums) -> Strap:
    """The strap led to a named anchor: it holds no more than the weaker of both."""
    rating, rating_is, besides = _weaker((strap.rating, strap.rating_is), (anchor.quantity("rating"), anchor.word("rating_is")))
    return strap._replace(
        besides=besides,
        anchor_rating=anchor.quantity("rating"),
        anchored=Spot(datums.arm(anchor), anchor.quantity("lateral"), anchor.quantity("height")),
        rating=rating,
        rating_is=rating_is,
        anchor=anchor.word("kind"),
        at=at,
    )


Rated = tuple[Amount, Fact[str] | Missing]
"""A rating, and whether it is ultimate or working."""


def _weaker(strap: Rated, anchor: Rated) -> tuple[Amount, Fact[str] | Missing, tuple[Fact[Quantity] | Fact[str], ...]]:
    """The smaller rating, what it is, and the other. It rests on both: were the other wrong, it could be the smaller."""
    (of_strap, strap_is), (of_anchor, anchor_is) = strap, anchor
    if isinstance(of_strap, Missing) or isinstance(of_anchor, Missing):
        return (of_strap if isinstance(of_strap, Missing) else of_anchor), strap_is, ()
    if isinstance(strap_is, Missing) or isinstance(anchor_is, Missing):
        return of_strap, (strap_is if isinstance(strap_is, Missing) else anchor_is), ()
    if of_anchor.value.si < of_strap.value.si:
        of_strap, strap_is, of_anchor, anchor_is = of_anchor, anchor_is, of_strap, strap_is
    return _resting_on(of_strap, of_anchor), _resting_on(strap_is, anchor_is), (of_anchor, anchor_is)


def _resting_on(fact: Fact[T], other: Fact[Any]) -> Fact[T]:
    """The fact, resting on another too."""
    evidence = STATED if STATED in (fact.evidence, other.evidence) else "; ".join(dict.fromkeys((fact.evidence, other.evidence)))
    return replace(fact, evidence=evidence)


def _from(centre: Amount, offset: Amount) -> Amount:
    """A coordinate told from the item's centre of gravity, in the unit in which it was written."""
    if isinstance(centre, Missing):
        return centre
    if isinstance(offset, Missing):
        return offset
    unit = offset.value.unit
    moved = Quantity(unit.from_si(centre.value.si + offset.value.si).normalize(), unit)
    return replace(_resting_on(offset, centre), value=moved, tolerance=None, off=off((centre, 1), (offset, 1)))


def _same(strap: Strap) -> bool:
    """Whether both ends of a strap are one point."""
    ends = list(zip(strap.attached, strap.anchored, strict=True))
    return all(isinstance(one, Fact) and isinstance(other, Fact) and one.value.si == other.value.si for one, other in ends)


def items_in_directions(all_restraints: tuple[Restraint, ...]) -> tuple[ItemInDirection, ...]:
    """Every item in every direction."""
    return tuple(ItemInDirection(r.item, r, direction) for r in all_restraints for direction in DIRECTIONS)
