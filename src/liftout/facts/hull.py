"""What closes the openings of a pressure hull, with the equipment in and with it out."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.removal import Opening


class HullClosure(NamedTuple):
    """A pass-through, or the blank that takes its place; both are parts of the hull."""

    opening: Opening
    part: str
    """What it is, or what to name."""
    when: str
    seal_diameter: Amount
    rating: Amount
    relief: Amount
    leak_check: Fact[str] | Missing
    leak_limit: Fact[str] | Missing

    @property
    def name(self) -> str:
        """Opening, and with what it is closed when."""
        return f"{self.opening.name}, {self.when}"


def hull_closures(openings: tuple[Opening, ...], aircraft: Place) -> tuple[HullClosure, ...]:
    """Two for each opening in the hull: as it is with the equipment in, and with it out."""
    cabin = aircraft.part("cabin_pressure")
    pressure = (cabin.quantity("relief"), cabin.word("leak_check"), cabin.word("leak_limit"))
    found = []
    for opening in openings:
        if not opening.in_pressure_hull:
            continue
        blank = opening.blank.value if isinstance(opening.blank, Fact) else "its blank"
        seal = opening.place.quantity("seal_diameter")
        found.append(HullClosure(opening, "the pass-through", "equipment in", seal, opening.place.quantity("closure_rating"), *pressure))
        found.append(HullClosure(opening, blank, "equipment out", seal, opening.place.quantity("blank_rating"), *pressure))
    return tuple(found)
