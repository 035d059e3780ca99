"""Equipment list before and after: what is installed, removed and relocated, with sign, weight, arm and moment."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import identity_of
from liftout.documents.chapters.said import absence, known, listed, said, said_at, worked_value
from liftout.facts import Amount, Facts
from liftout.facts.ballast import BallastPlace
from liftout.facts.equipment import Item
from liftout.facts.removal import Displaced
from liftout.facts.states import Filled
from liftout.worked.balance.ballast_moment import ballast_moment
from liftout.worked.balance.direction import direction
from liftout.worked.balance.displaced_moment import displaced_moment
from liftout.worked.balance.item_moment import item_moment
from liftout.worked.fluids.liquid_fill import liquid_fill


def equipment_list(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    inside = list({item.name: item for room in facts.rooms for item in room.items}.values())
    return {
        "items": [*(_row(item, facts) for item in facts.items), *(_ballast(place, facts) for place in facts.carried_ballast)],
        "counted": listed(_counted(facts), ""),
        "record": facts.aircraft.record.title,
        "removed": [_removed(part, facts) for part in facts.displaced if not part.aboard],
        "relocated": [_relocated(part, facts) for part in facts.displaced if part.aboard],
        "declined": absence(facts.place.part("displaced")),
        "liquids": [
            (fill.loop.name, fill.state.name, *(_added(worked_value(liquid_fill(fill, facts), symbol)) for symbol in ("m", "M")))
            for fill in fillings(facts)
        ],
        "baggage": [
            f"When a compartment holds the {item.name}, load no more there than these papers leave. What stands there counts towards its limit."
            for item in inside
            if item.removable
        ],
        "stays": [item.name for item in inside if not item.removable],
    }


def _counted(facts: Facts) -> list[str]:
    """What of the list the record in force counts already, so that nobody enters it twice."""
    record = facts.aircraft.record
    return [
        *(item.name for item in facts.items if item.name in record.includes),
        *(f"{part.name}, {'in its new place' if part.aboard else 'taken out'}" for part in facts.displaced if part.name in record.includes),
        *(f"the liquid of the {loop.name}" for loop in facts.loops if loop.name in record.filled),
    ]


def _row(item: Item, facts: Facts) -> tuple[str, ...]:
    counted = item.name in facts.aircraft.record.includes
    after = "fitted, lifts out" if item.removable else "fitted, stays"
    moment = worked_value(item_moment(item, facts), "M")
    return (
        said_at(item.place, "item_number"),
        item.name,
        identity_of(item),
        f"aboard, counted already in {facts.aircraft.record.title}" if counted else "not fitted",
        after,
        said(item.mass_dry) if counted else _signed(item.mass_dry),
        said(item.arm),
        moment if counted else _added(moment),
    )


def _removed(part: Displaced, facts: Facts) -> tuple[str, ...]:
    change = displaced_moment(part, facts)
    counted = f"; counted already in {facts.aircraft.record.title}" if part.name in facts.aircraft.record.includes else ""
    return part.name, part.what, f"taken out: {said(part.to)}{counted}", worked_value(change, "dW"), said(part.arm), worked_value(change, "dM")


def _relocated(part: Displaced, facts: Facts) -> tuple[str, ...]:
    """A part that stays aboard: its weight changes nothing, its moment does."""
    change = displaced_moment(part, facts)
    way = direction(change, "dM", towards=("aft", "forward")) or "not at all"
    return part.name, f"{part.what}, to: {said(part.to)}", said(part.mass), said(part.arm), f"{said(part.new_arm)}, {way}", worked_value(change, "dM")


def _ballast(place: BallastPlace, facts: Facts) -> tuple[str, ...]:
    moment = _added(worked_value(ballast_moment(place, facts), "M"))
    return "", f"fixed ballast at {place.name}", "", "not fitted", "fitted, stays", _signed(place.amount), said(place.arm), moment


def _signed(amount: Amount) -> str:
    return _added(said(amount)) if known(amount) else said(amount)


def _added(told: str) -> str:
    """What comes in, with its sign; a moment ahead of the datum keeps its own, what is not assessed stays as it is."""
    return told if told.startswith(("not ", "\u2212")) else f"+{told}"


def fillings(facts: Facts) -> list[Filled]:
    """Each loop in each state in which it is filled."""
    return [Filled(loop, state) for state in facts.states for loop in state.filled]
