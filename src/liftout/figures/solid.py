"""What holds an item, in three dimensions and in the unit of the drawing."""

from __future__ import annotations

from dataclasses import dataclass

from liftout.facts import Amount
from liftout.facts.restraint import Restraint, Spot, Strap
from liftout.figures.amounts import among, on_scale

Spatial = tuple[float, float, float]
"""Arm, right of the centre line, up."""


@dataclass(frozen=True)
class Solid:
    """The geometry of a restraint in the unit of the drawing; what the job lacks is None or left out."""

    unit: str
    middle: Spatial | None
    size: Spatial | None
    contacts: list[Spatial]
    straps: list[tuple[Strap, Spatial, Spatial]]

    @property
    def points(self) -> list[Spatial]:
        """Every point that must be on the paper."""
        found = [*self.contacts, *(p for _, a, b in self.straps for p in (a, b))]
        if self.middle:
            (x, y, z), (length, width, tall) = self.middle, self.size or (0.0, 0.0, 0.0)
            found += [(x + sign * length / 2, y + sign * width / 2, z + sign * tall / 2) for sign in (1, -1)]
        return found or [(0.0, 0.0, 0.0)]

    def extent(self, axis: int) -> tuple[float, float]:
        """Least and largest along an axis."""
        values = [point[axis] for point in self.points]
        return min(values), max(values)


def solid_of(restraint: Restraint) -> Solid:
    """The geometry of a restraint, told in the unit in which the job tells the item's arm."""
    item = restraint.item
    unit = among([item.arm, item.length, *(strap.anchored.arm for strap in restraint.straps), *(c.arm for c in restraint.contacts)], "in")

    def three(*amounts: Amount) -> Spatial | None:
        x, y, z = (on_scale(amount, unit) for amount in amounts)
        return None if x is None or y is None or z is None else (x, y, z)

    def spot(place: Spot) -> Spatial | None:
        return three(place.arm, place.lateral, place.height)

    straps = [(strap, spot(strap.attached), spot(strap.anchored)) for strap in restraint.straps]
    return Solid(
        unit,
        three(item.arm, item.lateral, item.height),
        three(item.length, item.width, item.tall),
        [place for contact in restraint.contacts if (place := spot(contact))],
        [(strap, start, end) for strap, start, end in straps if start and end],
    )
