"""Modifications that the aircraft carries already, each beside each item of the fit, and the search of its directives."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import Fact, Missing, Place
from liftout.job.errors import Fault, one_of

ASPECTS = ("structure", "electrics", "weight", "space", "cooling")
"""In which a modification and an item of the fit may get in each other's way."""


class Modification(NamedTuple):
    """A modification that is there already."""

    name: str
    what: str
    place: Place


class Beside(NamedTuple):
    """A modification that is there already, beside an item of the fit; both empty where nothing is said of modifications."""

    modification: Modification | None
    item: Item
    place: Place
    aspects: dict[str, Fact[str] | Missing]

    @property
    def name(self) -> str:
        """The item and the modification."""
        return f"{self.item.name} beside {self.modification.name}" if self.modification else self.item.name


class DirectiveSearch(NamedTuple):
    """How far the directives of the aircraft were searched."""

    name: str
    place: Place
    marks: dict[str, Fact[str] | Missing]
    touching: tuple[str, ...]


def modifications(plane: Place) -> tuple[Modification, ...]:
    """All that the job names."""
    return tuple(Modification(name, part.said_at("what"), part) for name, part in plane.part("modifications").each("named").items())


def beside_each(plane: Place, made: tuple[Modification, ...], items: tuple[Item, ...], faults: list[Fault]) -> tuple[Beside, ...]:
    """Every item beside every modification; an item alone where the job names none."""
    names = [item.name for item in items]
    for one in made:
        beside = one.place.each("beside")
        faults.extend(part.misnamed(f'there is no item "{name}".', one_of(name, names)) for name, part in beside.items() if name not in names)
    if not made:
        return tuple(Beside(None, item, plane.part("modifications"), {}) for item in items)
    return tuple(_beside(one, item) for one in made for item in items)


def _beside(one: Modification, item: Item) -> Beside:
    said = one.place.each("beside").get(item.name)
    if said is None:
        need = Missing(f"look at the {item.name} beside the {one.name}: {', '.join(ASPECTS)}", one.place.missing("beside").where)
        return Beside(one, item, one.place, dict.fromkeys(ASPECTS, need))
    return Beside(one, item, said, {aspect: said.word(aspect) for aspect in ASPECTS})


def directive_searches(plane: Place) -> tuple[DirectiveSearch, ...]:
    """The one search of the aircraft's directives, said or not."""
    part = plane.part("directives")
    marks = {"searched to": part.word("checked_to"), "by": part.word("by")}
    return (DirectiveSearch("aircraft", part, marks, tuple(part.said_at("touching") or ())),)
