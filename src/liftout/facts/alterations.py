"""The lines of the alteration, each with the data that it is made to, as far as a person has filled that in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from liftout.facts.fact import Fact, Missing, Place
from liftout.job.alterations import AlterationData
from liftout.job.errors import Fault, one_of

if TYPE_CHECKING:
    from liftout.facts import Facts


class Alteration(NamedTuple):
    """One line of the alteration."""

    name: str
    what: str
    place: Place
    data: Fact[str] | Missing
    marks: dict[str, Fact[str] | Missing]


def alterations(facts: Facts) -> tuple[Alteration, ...]:
    """A line for each item, circuit, loop and opening that is made."""
    said = facts.place.each("alterations")
    found = []
    for name, what in _lines(facts):
        part = said.get(name) or Place(facts.place.job, ("alterations", name), AlterationData, None)
        marks = {mark: part.word(mark) for mark in ("number", "revision", "by")}
        found.append(Alteration(name, what, part, part.word("data"), marks))
    return tuple(found)


def check_alterations(facts: Facts, faults: list[Fault]) -> None:
    """Data is told of lines that are there; while a part that may hold them is not described, nobody can say."""
    if not all(facts.place.part(section).there for section in ("wiring", "lines", "openings")):
        return
    known = [name for name, _ in _lines(facts)]
    faults.extend(
        part.misnamed(f'there is no line "{name}" in this alteration.', one_of(name, known))
        for name, part in facts.place.each("alterations").items()
        if name not in known
    )


def _lines(facts: Facts) -> Iterator[tuple[str, str]]:
    for item in facts.items:
        yield item.name, "removable item" if item.removable else "fixed provision"
    for run in facts.runs:
        yield run.name, "circuit"
    for loop in facts.loops:
        if loop.declined is None:
            yield loop.name, "liquid loop"
    for opening in facts.openings:
        if not (isinstance(opening.made, Fact) and opening.made.value == "existing"):
            yield opening.name, f"opening through the {opening.through}"
