"""Limits of weight and centre of gravity, one category each."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.chord import Chord
from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place, shifted
from liftout.job.aircraft import Aircraft
from liftout.job.errors import one_of


class Corner(NamedTuple):
    """A corner of a limit line."""

    weight: Amount
    arm: Amount


class Limits(NamedTuple):
    """Weight and centre-of-gravity limits of one category.

    A limit that the job declines with a reason is None; one of which nothing is said is missing.
    """

    category: str
    place: Place
    maximum_takeoff: Amount
    maximum_landing: Amount
    maximum_ramp: Amount | None
    maximum_zero_fuel: Amount | None
    forward: tuple[Corner, ...]
    aft: tuple[Corner, ...]
    in_moment: bool
    left: Amount | None
    right: Amount | None
    empty: Fact[tuple[str, ...]] | None
    """Stations that stay empty in this category."""

    @property
    def silence(self) -> Missing:
        """What to say where no limits are given."""
        return Place(self.place.job, self.place.path[:-1], Aircraft, None).missing("limits")

    def side(self, side: str) -> tuple[Corner, ...]:
        """Corners of the forward or of the aft limit."""
        return self.forward if side == "forward" else self.aft


def limits(place: Place, category: str, datums: Datums, stations: list[str], chord: Chord) -> Limits:
    """The limits at `place`."""
    lateral, empty = place.part("lateral"), None
    if "empty" in place.model.KEYS:
        told = place.list_of("empty")
        empty = told if isinstance(told, Fact) else None
        wrong = [name for name in (empty.value if empty else ()) if name not in stations]
        datums.faults.extend(place.fault("empty", f'there is no station "{name}".', one_of(name, stations, "some")) for name in wrong)
    return Limits(
        category,
        place,
        place.quantity("maximum_takeoff"),
        place.quantity("maximum_landing"),
        _weight(place.part("maximum_ramp")),
        _weight(place.part("maximum_zero_fuel")),
        _corners(place, "forward", datums, chord),
        _corners(place, "aft", datums, chord),
        place.said_at("straight_in") == "moment",
        None if lateral.declined else lateral.quantity("left"),
        None if lateral.declined else lateral.quantity("right"),
        empty,
    )


def _weight(place: Place) -> Amount | None:
    if place.declined:
        return None
    return place.quantity("weight") if place.there else place.silence


def _corners(limits: Place, side: str, datums: Datums, chord: Chord) -> tuple[Corner, ...]:
    name = limits.said_at("datum")
    offset = datums.places[name].quantity("offset") if name in datums.places and name != datums.first else None
    if limits.there and name not in datums.places:
        datums.faults.append(limits.fault("datum", f'there is no datum "{name}".', one_of(name, datums.places)))
    corners = []
    heaviest = max((part.said_at("weight").si for part in limits.each(side).values()), default=None)
    allowed = limits.said_at("maximum_takeoff")
    if heaviest is not None and allowed is not None and heaviest < allowed.si:
        datums.faults.append(limits.fault(side, f"ends below the maximum take-off weight of {allowed}.", "Write its corners up to that weight."))
    for part in limits.each(side).values():
        corners.append(Corner(part.quantity("weight"), _arm(part, chord, offset, str(name))))
        if len(corners) > 1 and not _rises(corners[-2].weight, corners[-1].weight):
            datums.faults.append(
                part.fault("weight", "is not more than that of the corner before.", "Write the corners in order of weight, each weight once.")
            )
    return tuple(corners)


def _arm(corner: Place, chord: Chord, offset: Amount | None, datum: str) -> Amount:
    """Arm of a corner from the maker's datum."""
    if corner.said_at("of_chord") is not None:
        return chord.arm_of(corner.quantity("of_chord"))
    arm = corner.quantity("arm")
    return arm if offset is None else shifted(arm, offset, datum)


def _rises(before: Amount, after: Amount) -> bool:
    return isinstance(before, Missing) or isinstance(after, Missing) or before.value.si < after.value.si
