"""Parts that stand out into the air."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.structure import Sheet


class OutsidePart(NamedTuple):
    """A scoop, a deflector, an antenna."""

    name: str
    place: Place
    what: str
    frontal_area: Amount
    intake_area: Amount
    fasteners: Amount
    size: Fact[str] | Missing
    alloy: Fact[str] | Missing
    shear_rating: Amount
    edge_distance: Amount
    sheet: Sheet


def outside_parts(whole: Place) -> tuple[OutsidePart, ...]:
    """Every outside part of the fit."""
    found = []
    for name, part in whole.part("structure").each("outside_parts").items():
        under = part.part("sheet")
        sheet = Sheet(under.word("material"), under.quantity("thickness"), under.quantity("bearing_strength"), under.missing("bearing_strength"))
        found.append(
            OutsidePart(
                name=name,
                place=part,
                what=part.said_at("what"),
                frontal_area=part.quantity("frontal_area"),
                intake_area=part.quantity("intake_area"),
                fasteners=part.quantity("fasteners"),
                size=part.word("size"),
                alloy=part.word("alloy"),
                shear_rating=part.quantity("shear_rating"),
                edge_distance=part.quantity("edge_distance"),
                sheet=sheet,
            )
        )
    return tuple(found)
