"""What the aircraft is flown on, wheels, skis or floats by turns, with the weight record and the limits that hold for it."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.chord import Chord
from liftout.facts.datums import Datums
from liftout.facts.fact import Place
from liftout.facts.limits import Limits, limits
from liftout.facts.weight_record import Sheet, sheets


class Undercarriage(NamedTuple):
    """One of them; without a name where the aircraft has only one."""

    name: str
    sheets: tuple[Sheet, ...]
    limits: Limits
    further_limits: tuple[Limits, ...]

    @property
    def record(self) -> Sheet:
        """The sheet of the weight record that is in force."""
        return self.sheets[-1]


def undercarriages(place: Place, datums: Datums, stations: list[str], chord: Chord) -> tuple[Undercarriage, ...]:
    """The undercarriages of the aircraft at `place`, or the aircraft itself as the only one."""
    several = place.each("undercarriages")
    for field in ("weight_record", "limits", "further_limits") if several else ():
        if place.said_at(field):
            datums.faults.append(place.fault(field, "stands beside undercarriages.", "Write it under each undercarriage."))
    return tuple(_one(name, part, place, datums, stations, chord) for name, part in (several or {"": place}).items())


def _one(name: str, part: Place, plane: Place, datums: Datums, stations: list[str], chord: Chord) -> Undercarriage:
    category = plane.part("certification_basis").said_at("category") or ""
    return Undercarriage(
        name,
        sheets(name, part, datums),
        limits(part.part("limits"), category, datums, stations, chord),
        tuple(limits(further, other, datums, stations, chord) for other, further in part.each("further_limits").items()),
    )
