"""How removable items come out, and what stays open behind them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.equipment import Item
from liftout.facts.fact import CHOSEN, Amount, Fact, Missing, Place
from liftout.job.errors import Fault, one_of
from liftout.job.removal import Removal as Said

if TYPE_CHECKING:
    from liftout.facts import Facts


class Disconnection(NamedTuple):
    """Something that parts when an item comes out."""

    name: str
    kind: str
    closed_by: Fact[str] | Missing


class Breaker(NamedTuple):
    """The breaker of a circuit while the item that it feeds is out."""

    position: Fact[str] | Missing
    label: Fact[str] | Missing


class Hands(NamedTuple):
    """Where the hands are at one end of a lift."""

    reach: Amount
    height: Amount
    turned: Amount


class Lift(NamedTuple):
    """How an item is lifted by hand."""

    place: Place
    declined: Fact[str] | None
    persons: Fact[str] | Missing
    start: Hands
    end: Hands
    grip: Fact[str] | Missing
    hands: Fact[str] | Missing
    posture: Fact[str] | Missing
    lifts_a_minute: Fact[str] | Missing


class Removal(NamedTuple):
    """How one item comes out."""

    item: Item
    place: Place
    declined: Fact[str] | None
    steps: tuple[Fact[str], ...]
    tools: tuple[str, ...]
    time: Amount
    disconnections: tuple[Disconnection, ...]
    nothing_parts: Fact[str] | Missing
    breakers: dict[str, Breaker]
    lift: Lift
    stowed: Fact[str] | Missing

    @property
    def name(self) -> str:
        """The item's name."""
        return self.item.name


class Opening(NamedTuple):
    """A hole that stays in the aircraft."""

    name: str
    place: Place
    through: str
    passes: str
    made: Fact[str] | Missing
    blank: Fact[str] | Missing
    blank_kept: Fact[str] | Missing
    in_pressure_hull: bool = False
    """Whether what it goes through holds cabin pressure, as far as the job says it."""


MOVED = "moved"


class Displaced(NamedTuple):
    """Something of the aircraft that the fit moves or takes out."""

    name: str
    place: Place
    what: str
    done: str
    to: Fact[str] | Missing
    mass: Amount
    arm: Amount
    new_arm: Amount

    @property
    def aboard(self) -> bool:
        """Whether it stays in the aircraft, at another place."""
        return self.done == MOVED


def must_part(removal: Removal, facts: Facts) -> tuple[str, ...]:
    """Kinds of things that part because of what else the job says of the item: its circuit, its loop, its condensate tube, its straps."""
    item = removal.item
    held = next((r for r in facts.restraints if r.item is item), None)
    kinds = {
        "coolant line": any(item in loop.items for loop in facts.loops),
        "electrical connector": any(run.load is item for run in facts.runs),
        "drain": any(water.item is item and water.tube.there and water.declined is None for water in facts.condensates),
        "strap": held is not None and bool(held.straps),
    }
    return tuple(kind for kind, parts in kinds.items() if parts)


def line_ends(removal: Removal, facts: Facts) -> int:
    """How many ends of coolant lines lie at the item."""
    segments = [part for loop in facts.loops for part in loop.place.each("segments").values()]
    return sum(part.said_at(end) == removal.name for part in segments for end in ("begins", "ends"))


def removals(whole: Place, items: dict[str, Item], faults: list[Fault]) -> tuple[Removal, ...]:
    """One for each removable item, said or not."""
    said = whole.each("removal")
    for name, place in said.items():
        if name not in items or not items[name].removable:
            removable = ", ".join(key for key, item in items.items() if item.removable)
            faults.append(place.misnamed(f'there is no removable item "{name}".', f"Write one of: {removable}."))
    found = []
    for name, item in items.items():
        if not item.removable:
            continue
        place = said.get(name) or Place(whole.job, ("removal", name), Said, None)
        steps = place.said_at("steps") or ()
        found.append(
            Removal(
                item=item,
                place=place,
                declined=place.declined,
                steps=tuple(Fact(step, place.job.place((*place.path, "steps", str(n))), CHOSEN) for n, step in enumerate(steps, 1)),
                tools=place.said_at("tools") or (),
                time=place.quantity("time"),
                disconnections=tuple(
                    Disconnection(key, part.said_at("kind"), part.word("closed_by")) for key, part in place.each("disconnections").items()
                ),
                nothing_parts=place.word("nothing_parts"),
                breakers={key: Breaker(part.word("position"), part.word("label")) for key, part in place.each("breakers").items()},
                lift=_lift(place.part("lift")),
                stowed=place.word("stowed"),
            )
        )
        _check_breakers(whole, place, name, faults)
        if place.said_at("nothing_parts") and place.said_at("disconnections"):
            faults.append(place.fault("nothing_parts", "stands beside disconnections.", "Keep either the reason or the disconnections."))
    return tuple(found)


def _lift(place: Place) -> Lift:
    start, end = (Hands(*(place.part(where).quantity(field) for field in ("reach", "height", "turned"))) for where in ("start", "end"))
    words = (place.word(field) for field in ("grip", "hands", "posture", "lifts_a_minute"))
    return Lift(place, place.declined, place.word("persons"), start, end, *words)


def _check_breakers(whole: Place, removal: Place, item: str, faults: list[Fault]) -> None:
    """A breaker is named after a circuit that feeds the item."""
    wiring = whole.part("wiring")
    feeding = [name for name, run in wiring.each("runs").items() if run.said_at("load") == item]
    for name, place in removal.each("breakers").items():
        if wiring.there and name not in feeding:
            faults.append(place.misnamed(f'no circuit "{name}" feeds the {item}.', one_of(name, feeding)))


def openings(whole: Place) -> tuple[Opening, ...]:
    """Holes that stay in the aircraft."""
    pressurised = whole.part("aircraft").answer("pressurised")
    return tuple(
        Opening(
            name,
            part,
            part.said_at("through"),
            part.said_at("for_"),
            part.word("made"),
            part.word("blank"),
            part.word("blank_kept"),
            _holds_pressure(part, pressurised),
        )
        for name, part in whole.part("openings").each("holes").items()
    )


def _holds_pressure(opening: Place, pressurised: Fact[bool] | Missing) -> bool:
    """A pressure bulkhead always does; the skin of a pressurised aircraft does where the job does not say that it lies outside the hull."""
    if opening.said_at("through") == "pressure bulkhead":
        return True
    told = opening.answer("in_pressure_hull")
    if isinstance(told, Fact):
        return told.value
    return opening.said_at("through") == "skin" and isinstance(pressurised, Fact) and pressurised.value


def displaced(whole: Place, datums: Datums) -> tuple[Displaced, ...]:
    """What the fit moves or takes out of the aircraft."""
    found = []
    for name, part in whole.part("displaced").each("parts").items():
        done = part.said_at("is_")
        if done != MOVED and part.said_at("new_arm") is not None:
            datums.faults.append(part.fault("new_arm", "is told of a part that leaves the aircraft.", "Leave it out, or say that the part is moved."))
        arms = (datums.arm(part, field) for field in ("arm", "new_arm"))
        found.append(Displaced(name, part, part.said_at("what"), done, part.word("to"), part.quantity("mass"), *arms))
    return tuple(found)
