"""Water that items make by cooling air, and its way out."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.condensate import Tube
from liftout.job.errors import one_of


class Point(NamedTuple):
    """A point in aircraft coordinates."""

    arm: Amount
    lateral: Amount
    height: Amount


class Inlet(NamedTuple):
    """A static port or another inlet in the outside skin."""

    name: str
    kind: str
    at: Point
    keep_clear: Amount


class Condensate(NamedTuple):
    """The water of one item: whether it makes any, its tube, and the inlets that are there."""

    item: Item
    section: Place
    tube: Place
    declined: Fact[str] | None
    makes: Fact[bool] | Missing
    bore: Amount
    tray: Point
    outlet: Point
    ends_in: Fact[str] | Missing
    drips_onto: Fact[str] | Missing
    inlets: tuple[Inlet, ...]

    @property
    def name(self) -> str:
        """The item's name."""
        return self.item.name


def condensates(whole: Place, items: dict[str, Item], datums: Datums) -> tuple[Condensate, ...]:
    """One for each item, whether it makes water or not."""
    section = whole.part("condensate")
    tubes = section.each("tubes")
    for name, place in tubes.items():
        if name not in items:
            datums.faults.append(place.misnamed(f'there is no item "{name}".', one_of(name, items)))
    inlets = tuple(
        Inlet(name, part.said_at("kind"), _point(part, datums), part.quantity("keep_clear")) for name, part in section.each("inlets").items()
    )
    found = []
    for name, item in items.items():
        tube = tubes.get(name) or Place(whole.job, ("condensate", "tubes", name), Tube, None)
        found.append(
            Condensate(
                item=item,
                section=section,
                tube=tube,
                declined=section.declined or tube.declined,
                makes=item.place.answer("makes_condensate"),
                bore=tube.quantity("bore"),
                tray=_point(tube.part("tray"), datums),
                outlet=_point(tube.part("outlet"), datums),
                ends_in=tube.word("ends_in"),
                drips_onto=tube.word("drips_onto"),
                inlets=inlets,
            )
        )
    return tuple(found)


def _point(place: Place, datums: Datums) -> Point:
    return Point(datums.arm(place), place.quantity("lateral"), place.quantity("height"))
