"""Items on floors, with what the floor bears under feet and along its length."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place


class OnFloor(NamedTuple):
    """An item that stands on a floor."""

    item: Item
    floor: Fact[str] | Missing
    feet_declined: Fact[str] | None
    feet_limit: Amount
    running_declined: Fact[str] | None
    running_limit: Amount

    @property
    def name(self) -> str:
        """The item's name."""
        return self.item.name


def on_floors(items: tuple[Item, ...], aircraft: Place) -> tuple[OnFloor, ...]:
    """One for each item of which the job does not say that it stands on no floor."""
    floors, found = aircraft.each("floors"), []
    for item in items:
        if item.standing.declined is not None:
            continue
        floor = item.standing.floor
        place = floors.get(floor.value) if isinstance(floor, Fact) else None
        if place is None:
            need = floor if isinstance(floor, Missing) else aircraft.missing("floors")
            found.append(OnFloor(item, floor, None, need, None, need))
            continue
        feet, running = place.part("under_feet"), place.part("running")
        limits = (part.quantity("limit") if part.there else place.missing(field) for part, field in ((feet, "under_feet"), (running, "running")))
        feet_limit, running_limit = limits
        found.append(OnFloor(item, floor, feet.declined, feet_limit, running.declined, running_limit))
    return tuple(found)
