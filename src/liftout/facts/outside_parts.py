"""Parts that stand out into the air."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.structure import Sheet
from liftout.job.errors import Fault


class OutsidePart(NamedTuple):
    """A scoop, a deflector, an antenna."""

    name: str
    place: Place
    what: str
    frontal_area: Amount
    intake_area: Amount
    plan_area: Amount
    lever: Amount
    length: Amount
    width: Amount
    stands_out: Amount
    fasteners: Amount
    foremost: Amount
    to_rear_edge: Amount
    tension_rating: Amount
    head_diameter: Amount
    fastened_with: Fact[str] | Missing
    size: Fact[str] | Missing
    alloy: Fact[str] | Missing
    shear_rating: Amount
    edge_distance: Amount
    sheet: Sheet

    @property
    def riveted(self) -> bool:
        """Whether rivets hold it: the job says so, or tells their alloy."""
        return isinstance(self.alloy, Fact) or (isinstance(self.fastened_with, Fact) and self.fastened_with.value == "rivets")


def outside_parts(whole: Place, faults: list[Fault]) -> tuple[OutsidePart, ...]:
    """Every outside part of the fit."""
    found = []
    for name, part in whole.part("structure").each("outside_parts").items():
        under = part.part("sheet")
        sheet = Sheet(under.word("material"), *(under.quantity(field) for field in ("thickness", "bearing_strength", "shear_strength")))
        for short, long in (("lever", "stands_out"), ("to_rear_edge", "length"), ("foremost", "fasteners")):
            less, more = part.quantity(short), part.quantity(long)
            if isinstance(less, Fact) and isinstance(more, Fact) and less.value.si > more.value.si:
                faults.append(part.fault(short, f"is {less.value}, and the {long.replace('_', ' ')} is {more.value}.", "Measure both again."))
        found.append(
            OutsidePart(
                name=name,
                place=part,
                what=part.said_at("what"),
                frontal_area=part.quantity("frontal_area"),
                intake_area=part.quantity("intake_area"),
                plan_area=part.quantity("plan_area"),
                lever=part.quantity("lever"),
                length=part.quantity("length"),
                width=part.quantity("width"),
                stands_out=part.quantity("stands_out"),
                fasteners=part.quantity("fasteners"),
                foremost=part.quantity("foremost"),
                to_rear_edge=part.quantity("to_rear_edge"),
                tension_rating=part.quantity("tension_rating"),
                head_diameter=part.quantity("head_diameter"),
                fastened_with=part.word("fastened_with"),
                size=part.word("size"),
                alloy=part.word("alloy"),
                shear_rating=part.quantity("shear_rating"),
                edge_distance=part.quantity("edge_distance"),
                sheet=sheet,
            )
        )
    return tuple(found)
