"""What closes the openings of a pressure hull, with the equipment in and with it out; and which loops reach out of it."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.lines import Loop
from liftout.facts.removal import Opening

INSIDE = ("with occupants", "baggage compartment")
"""Parts of a pressurised aircraft that may lie inside its hull. Whoever goes from a baggage compartment through the hull passes an opening of it."""


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


def leaves_hull(loop: Loop, openings: tuple[Opening, ...]) -> bool | Missing:
    """Whether a line of a loop passes an opening of the pressure hull or a part of it lies outside; what to say first, where nothing tells.

    Args:
        loop: a loop of a pressurised aircraft.
        openings: holes that stay in the aircraft.
    """
    in_hull = {opening.name for opening in openings if opening.in_pressure_hull}
    passed = {name for segment in loop.segments for name in segment.place.said_at("passes") or ()}
    located = [item.location for item in (*loop.items, *([loop.serves] if loop.serves else []))]
    ends = [segment.place.word(end) for segment in loop.segments for end in ("begins_in", "ends_in")]
    if in_hull & passed or any(isinstance(where, Fact) and where.value not in INSIDE for where in (*located, *ends)):
        return True
    unsaid = [segment.place.missing("passes") for segment in loop.segments if segment.place.said_at("passes") is None]
    return next((where for where in (*located, *unsaid) if isinstance(where, Missing)), False)
