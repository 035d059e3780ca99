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
    """The centre of gravity."""
    size: Spatial | None
    corner: Spatial | None
    """The front, left and lower corner of the box: where its faces are told, else about the centre of gravity."""
    contacts: list[Spatial]
    straps: list[tuple[Strap, tuple[Spatial, ...]]]
    """Each with its way: from the item to its anchor; of one that runs over the item, from anchor to anchor."""

    @property
    def points(self) -> list[Spatial]:
        """Every point that must be on the paper."""
        found = [*self.contacts, *(place for _, way in self.straps for place in way)]
        found += [self.middle] if self.middle else []
        return [*found, *(self.box or ())]

    @property
    def box(self) -> tuple[Spatial, Spatial] | None:
        """Two corners of the box, opposite each other."""
        if self.corner is None or self.size is None:
            return None
        (x, y, z), (length, width, tall) = self.corner, self.size
        return self.corner, (x + length, y + width, z + tall)

    @property
    def drawable(self) -> bool:
        """Whether there are points apart from each other: one point has no scale."""
        return any(high > low for low, high in map(self.extent, range(3)))

    def extent(self, axis: int) -> tuple[float, float]:
        """Least and largest along an axis."""
        values = [point[axis] for point in self.points] or [0.0]
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

    def corner() -> Spatial | None:
        told = zip((item.front, item.left, item.underside), (item.arm, item.lateral, item.height), (item.length, item.width, item.tall), strict=True)
        x, y, z = (_face(*(on_scale(amount, unit) for amount in along)) for along in told)
        return None if x is None or y is None or z is None else (x, y, z)

    straps: list[tuple[Strap, tuple[Spatial, ...]]] = []
    for strap in restraint.straps:
        way = [place for told in (strap.way if strap.beyond else (strap.attached, strap.anchored)) if (place := spot(told))]
        if len(way) == (len(strap.way) if strap.beyond else 2):
            straps.append((strap, tuple(way)))
    return Solid(
        unit,
        three(item.arm, item.lateral, item.height),
        three(item.length, item.width, item.tall),
        corner(),
        [place for contact in restraint.contacts if (place := spot(contact))],
        straps,
    )


def _face(face: float | None, centre: float | None, size: float | None) -> float | None:
    """The forward, left or lower face of a box; about the centre of gravity where it is not told."""
    return centre - size / 2 if face is None and centre is not None and size is not None else face
