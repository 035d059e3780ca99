"""Mountings: brackets with their fasteners, and in which direction they are asked to hold."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import STATED, Amount, Fact, Missing, Place, off
from liftout.facts.restraint import ItemInDirection, Spot
from liftout.job.errors import one_of
from liftout.job.structure import Mounting as Said
from liftout.quantities import Quantity

COORDINATES = ("arm", "lateral", "height")
COORDINATE = {"forward": "arm", "aft": "arm", "left": "lateral", "right": "lateral", "up": "height", "down": "height"}
"""Coordinate along which a direction runs."""
SIGN = {"forward": -1, "aft": 1, "left": -1, "right": 1, "up": 1, "down": -1}
"""Whether the coordinate grows in that direction: arms count aft, lateral arms to the right."""
AWAY = {"above": "up", "below": "down", "ahead": "forward", "behind": "aft", "left": "left", "right": "right"}
"""Direction in which a bracket comes away from the sheet, by the side of it on which it lies."""


HOLDS_PRESSURE = ("pressure bulkhead", "pressure hull skin")
"""What a bracket may be fastened to that holds cabin pressure: works for unpressurised structure are not named beside it."""


class Sheet(NamedTuple):
    """A sheet that fasteners go through."""

    material: Fact[str] | Missing
    thickness: Amount
    bearing_strength: Amount
    shear_strength: Amount


class Bending(NamedTuple):
    """How a bracket bends."""

    place: Place
    as_: Fact[str] | Missing
    width: Amount
    lever: Amount
    strength: Amount


class Clamp(NamedTuple):
    """A clamp with its rating."""

    place: Place
    rating: Amount
    rating_is: Fact[str] | Missing


class Fastener(NamedTuple):
    """One fastener, where it goes through the sheet."""

    name: str
    at: Spot


class Bracket(NamedTuple):
    """One bracket with its fasteners."""

    item: Item
    label: str
    place: Place
    frequent_removal: Fact[bool] | Missing
    alike: Amount
    carries: Amount
    sole: bool
    """Whether it alone carries the whole item."""
    centre: Spot
    lies: Fact[str] | Missing
    fastener: Fact[str] | Missing
    size: Fact[str] | Missing
    stocked: tuple[str, ...]
    alloy: Fact[str] | Missing
    head: Fact[str] | Missing
    nut: Fact[str] | Missing
    shear_plane: Fact[str] | Missing
    diameter: Amount
    shear_rating: Amount
    tension_rating: Amount
    fasteners: tuple[Fastener, ...]
    bearing_edge: Amount
    edge_distance: Amount
    bracket_sheet: Sheet
    structure_sheet: Sheet
    fastened_to: Fact[str] | Missing
    anchor_rating: Amount
    anchor_rating_is: Fact[str] | Missing
    clamp: Clamp
    taken_apart: Fact[str] | Missing
    retained_by: tuple[str, ...]
    nut_locks: Fact[str] | Missing
    fastener_material: Fact[str] | Missing
    torque: Amount
    head_diameter: Amount
    bending: Bending

    @property
    def clamped(self) -> bool:
        """Whether a clamp holds it, and no fastener goes through the structure."""
        return isinstance(self.fastener, Fact) and self.fastener.value == "clamp"

    @property
    def in_pressure_hull(self) -> bool:
        """Whether its fasteners go through what holds cabin pressure."""
        return isinstance(self.fastened_to, Fact) and self.fastened_to.value in HOLDS_PRESSURE

    @property
    def threaded(self) -> bool:
        """Whether bolts or screws hold it."""
        return isinstance(self.fastener, Fact) and self.fastener.value in ("bolt", "screw with plate nut")

    @property
    def name(self) -> str:
        """Item and bracket."""
        return f"{self.item.name}, {self.label}"

    @property
    def unplaced(self) -> tuple[Fact[str] | Missing, ...]:
        """What is needed before the geometry of the joint can be told."""
        return (self.lies, *(() if self.fasteners else (self.place.missing("pattern"),)), *_missing(self.centre, *(one.at for one in self.fasteners)))


class BracketInDirection(NamedTuple):
    """A bracket pulled by the inertia of what it carries in one direction."""

    bracket: Bracket
    pull: ItemInDirection

    @property
    def direction(self) -> str:
        """Direction of the inertia force."""
        return self.pull.direction

    @property
    def name(self) -> str:
        """Item, bracket and direction."""
        return f"{self.bracket.name}, {self.direction}"

    @property
    def along(self) -> str:
        """Coordinate along the load."""
        return COORDINATE[self.direction]

    @property
    def normal(self) -> str:
        """Coordinate along which the fasteners run."""
        assert isinstance(self.bracket.lies, Fact)
        return COORDINATE[AWAY[self.bracket.lies.value]]

    @property
    def sheared(self) -> bool:
        """Whether the load runs in the plane of the joint."""
        return self.along != self.normal

    @property
    def away(self) -> bool:
        """Whether the load pulls the bracket straight off the sheet."""
        assert isinstance(self.bracket.lies, Fact)
        return self.direction == AWAY[self.bracket.lies.value]

    @property
    def in_plane(self) -> tuple[str, str]:
        """Coordinates in the plane of the joint: the one along the load first, where the load runs in it."""
        one, other = (name for name in COORDINATES if name != self.normal)
        return (other, one) if other == self.along else (one, other)


class Mounting(NamedTuple):
    """What fastens one item."""

    item: Item
    place: Place
    declined: Fact[str] | None
    brackets: tuple[Bracket, ...]

    @property
    def name(self) -> str:
        """The item's name."""
        return self.item.name


def mountings(whole: Place, items: dict[str, Item], datums: Datums) -> tuple[Mounting, ...]:
    """One for each item; an item of which the job says nothing has one without brackets."""
    section = whole.part("structure")
    said = section.each("mountings")
    for name, place in said.items():
        if name not in items:
            datums.faults.append(place.misnamed(f'there is no item "{name}".', one_of(name, items)))
    found = []
    for name, item in items.items():
        place = said.get(name) or Place(whole.job, ("structure", "mountings", name), Said, None)
        brackets = tuple(_bracket(item, label, part, place, datums) for label, part in place.each("brackets").items())
        found.append(Mounting(item, place, place.declined or section.declined, brackets))
    return tuple(found)


def _bracket(item: Item, label: str, place: Place, mounting: Place, datums: Datums) -> Bracket:
    lies = place.word("lies")
    fasteners = _fasteners(place, mounting, lies, datums)
    alike = place.quantity("alike")
    sole = len(mounting.each("brackets")) == 1 and isinstance(alike, Fact) and alike.value.magnitude == 1
    return Bracket(
        item=item,
        label=label,
        place=place,
        frequent_removal=mounting.answer("frequent_removal"),
        alike=alike,
        carries=place.quantity("carries"),
        sole=sole,
        centre=_centre(place.part("centre"), mounting, item, datums, sole=sole),
        lies=lies,
        fastener=place.word("fastener"),
        size=place.word("size"),
        stocked=place.said_at("stocked") or (),
        alloy=place.word("alloy"),
        head=place.word("head"),
        nut=place.word("nut"),
        shear_plane=place.word("shear_plane"),
        diameter=place.quantity("diameter"),
        shear_rating=place.quantity("shear_rating"),
        tension_rating=place.quantity("tension_rating"),
        fasteners=fasteners,
        bearing_edge=place.quantity("bearing_edge"),
        edge_distance=place.quantity("edge_distance"),
        bracket_sheet=_sheet(place.part("bracket_sheet")),
        structure_sheet=_sheet(place.part("structure_sheet")),
        fastened_to=place.word("fastened_to"),
        anchor_rating=place.quantity("anchor_rating"),
        anchor_rating_is=place.word("anchor_rating_is"),
        clamp=_clamp(place.part("clamp")),
        taken_apart=place.word("taken_apart"),
        retained_by=place.said_at("retained_by") or (),
        nut_locks=place.word("nut_locks"),
        fastener_material=place.word("fastener_material"),
        torque=place.quantity("torque"),
        head_diameter=place.quantity("head_diameter"),
        bending=_bending(place.part("bending")),
    )


def _clamp(place: Place) -> Clamp:
    return Clamp(place, place.quantity("rating"), place.word("rating_is"))


def _bending(place: Place) -> Bending:
    return Bending(place, place.word("as_"), *(place.quantity(field) for field in ("width", "lever", "strength")))


def _sheet(place: Place) -> Sheet:
    return Sheet(place.word("material"), *(place.quantity(field) for field in ("thickness", "bearing_strength", "shear_strength")))


def _spot(place: Place, mounting: Place, datums: Datums) -> Spot:
    return Spot(datums.from_named(place.quantity("arm"), mounting), place.quantity("lateral"), place.quantity("height"))


def _centre(place: Place, mounting: Place, item: Item, datums: Datums, *, sole: bool) -> Spot:
    """Where the weight sits that a bracket carries: the item's own, where a sole bracket carries it all."""
    if place.there:
        return _spot(place, mounting, datums)
    if sole:
        return Spot(item.arm, item.lateral, item.height)
    need = Missing("measure where the weight sits that the bracket carries", f"{' / '.join(place.path)}, below {place.job.place(place.path[:-1])}")
    return Spot(need, need, need)


def _missing(*spots: Spot) -> tuple[Missing, ...]:
    return tuple(value for spot in spots for value in spot if isinstance(value, Missing))


def _fasteners(place: Place, mounting: Place, lies: Fact[str] | Missing, datums: Datums) -> tuple[Fastener, ...]:
    named = tuple(Fastener(name, _spot(part, mounting, datums)) for name, part in place.each("positions").items())
    pattern = place.part("pattern")
    if named and pattern.there:
        datums.faults.append(place.fault("positions", "stand beside a pattern.", "Keep either the positions or the pattern."))
    if pattern.there and isinstance(lies, Fact):
        named = _of_pattern(pattern, mounting, COORDINATE[AWAY[lies.value]], datums)
    if isinstance(lies, Fact):
        _check(named, place, COORDINATE[AWAY[lies.value]], datums)
    return named


def _check(fasteners: tuple[Fastener, ...], place: Place, normal: str, datums: Datums) -> None:
    """Fasteners of a bracket lie in one plane, each in a place of its own."""
    points = [tuple(value.value.si for value in one.at if isinstance(value, Fact)) for one in fasteners]
    whole = [point for point in points if len(point) == len(COORDINATES)]
    field = "positions" if place.said_at("positions") else "pattern"
    if len({point[COORDINATES.index(normal)] for point in whole}) > 1:
        datums.faults.append(
            place.fault(
                field, f"do not lie in one plane: their {normal} differs.", "Describe what is fastened in each plane as a bracket of its own."
            )
        )
    if len(set(whole)) < len(whole):
        datums.faults.append(place.fault(field, "put two fasteners in one place.", "Measure each of them."))


def _of_pattern(pattern: Place, mounting: Place, normal: str, datums: Datums) -> tuple[Fastener, ...]:
    along = pattern.said_at("along")
    if along == normal:
        datums.faults.append(
            pattern.fault("along", f"runs along the fasteners, which stand {normal} by {normal}.", "Name a coordinate in the plane of the joint.")
        )
        return ()
    across = next(name for name in COORDINATES if name not in (along, normal))
    middle = _spot(pattern.part("middle"), mounting, datums)
    count, rows = (int(pattern.said_at(field).magnitude) for field in ("in_a_row", "rows"))
    for field, number in (("in_a_row", count), ("rows", rows)):
        if number < 1:
            datums.faults.append(pattern.fault(field, "is nothing.", "Count the fasteners."))
    apart = pattern.quantity("row_distance") if rows > 1 else pattern.quantity("pitch")
    found = []
    for row in range(rows):
        for one in range(count):
            moved = {
                along: _moved(getattr(middle, along), pattern.quantity("pitch"), Decimal(2 * one - count + 1) / 2),
                across: _moved(getattr(middle, across), apart, Decimal(2 * row - rows + 1) / 2),
            }
            found.append(Fastener(f"{row + 1}.{one + 1}", middle._replace(**moved)))
    return tuple(found)


def _moved(middle: Amount, step: Amount, times: Decimal) -> Amount:
    """A coordinate of the pattern's middle, so many steps on, in the unit in which the middle was written."""
    if isinstance(middle, Missing):
        return middle
    if not times:
        return middle
    if isinstance(step, Missing):
        return step
    unit = middle.value.unit
    evidence = STATED if STATED in (middle.evidence, step.evidence) else f"{middle.evidence}; {step.evidence}"
    there = Quantity(unit.from_si(middle.value.si + times * step.value.si).normalize(), unit)
    return Fact(there, f"{middle.origin}, {step.origin}", evidence, step.path, off=off((middle, 1), (step, times)))
