"""What identifies the aircraft and each item."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import Fact, Missing, Place


class Identified(NamedTuple):
    """A thing and the marks that tell it from all others."""

    name: str
    place: Place
    marks: dict[str, Fact[str] | Missing]


def identified(plane: Place, items: tuple[Item, ...]) -> tuple[Identified, ...]:
    """The aircraft, and every item."""
    sheet = plane.part("data_sheet")
    data_sheet = sheet.word("number") if sheet.there else plane.missing("data_sheet")
    aircraft = Identified("aircraft", plane, {"serial number": plane.word("serial_number"), "data sheet": data_sheet})
    return (
        aircraft,
        *(
            Identified(item.name, item.place, {"part number": item.place.word("part_number"), "serial number": item.place.word("serial")})
            for item in items
        ),
    )
