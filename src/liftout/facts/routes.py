"""Routes of wires, lines and condensate tubes: which parts of the aircraft they join, and which openings they pass."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import CHOSEN, Fact, Missing, Place
from liftout.job.errors import Fault

SEVERAL_PARTS = "outside or forward of occupants"
"""A class of load factors that covers more than one part of the aircraft: a route that ends there says in which."""

OUTSIDE = "outside"


class Route(NamedTuple):
    """One wire run, line or tube."""

    name: str
    place: Place
    begins_in: Fact[str] | Missing
    ends_in: Fact[str] | Missing
    passes: Fact[tuple[str, ...]] | Missing


def routes(whole: Place, items: dict[str, Item], faults: list[Fault]) -> tuple[Route, ...]:
    """Every route that the job describes; what lies between two parts of one item is no route."""
    found = []
    for name, place in whole.part("wiring").each("runs").items():
        found.append(_route(f"circuit {name}", place, None, items.get(place.said_at("load")), faults))
    for loop in whole.part("lines").each("loops").values():
        for name, place in loop.each("segments").items():
            ends = items.get(place.said_at("begins")), items.get(place.said_at("ends"))
            found.append(_route(f"line {name} of the {loop.name}", place, *ends, faults))
    for name, place in whole.part("condensate").each("tubes").items():
        if place.declined is None:
            found.append(_route(f"condensate tube of the {name}", place, items.get(name), None, faults))
    return tuple(found)


def _route(name: str, place: Place, first: Item | None, last: Item | None, faults: list[Fault]) -> Route:
    passes = place.said_at("passes")
    path = (*place.path, "passes")
    return Route(
        name=name,
        place=place,
        begins_in=_part(place, "begins_in", first, faults),
        ends_in=_part(place, "ends_in", last, faults),
        passes=place.missing("passes") if passes is None else Fact(tuple(passes), place.job.place(path), CHOSEN, path),
    )


def _part(place: Place, field: str, item: Item | None, faults: list[Fault]) -> Fact[str] | Missing:
    """The part of the aircraft that an end lies in: its item's, or as the route says."""
    said = place.word(field)
    sits = item.location if item is not None else said
    if item is None or isinstance(sits, Missing) or sits.value == SEVERAL_PARTS:
        return said
    if isinstance(said, Fact) and said.value != sits.value:
        faults.append(place.fault(field, f"is {said.value}, and the {item.name} sits {sits.value}.", "Say the same of both, or leave it out here."))
    return sits
