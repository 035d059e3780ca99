"""What of the fit wears, and how often it is looked at or renewed."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from liftout.facts.fact import Fact, Missing, Place
from liftout.job.errors import Fault
from liftout.job.upkeep import Upkeep as Said

if TYPE_CHECKING:
    from liftout.facts import Facts

KINDS = ("coolant", "hose", "seal", "strap", "connector", "filter")


class Upkeep(NamedTuple):
    """Upkeep of one kind of part that wears."""

    name: str
    place: Place
    every: Fact[str] | Missing
    criterion: Fact[str] | Missing


def upkeep(facts: Facts) -> tuple[Upkeep, ...]:
    """One for each kind of part that the fit has, and the filter, which nothing else in a job tells of."""
    said = facts.place.each("upkeep")
    wet, fed = any(loop.declined is None for loop in facts.loops), bool(facts.runs)
    has = {
        "coolant": wet,
        "hose": wet,
        "seal": wet,
        "strap": any(held.straps for held in facts.restraints),
        "connector": fed,
        "filter": bool(facts.items),
    }
    found = []
    for kind in KINDS:
        if has[kind] or kind in said:
            place = said.get(kind) or Place(facts.place.job, ("upkeep", kind), Said, None)
            found.append(Upkeep(kind, place, place.word("every"), place.word("criterion")))
    return tuple(found)


def check_upkeep(root: Place, faults: list[Fault]) -> None:
    """Upkeep is told of kinds that are known here."""
    right = f"Write one of: {', '.join(KINDS)}."
    faults.extend(
        part.misnamed(f'"{name}" is no kind of part with upkeep.', right) for name, part in root.each("upkeep").items() if name not in KINDS
    )
