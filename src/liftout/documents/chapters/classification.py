"""Classification worksheet: the questions of each authority, what the job says to them, and no decision.

An answer is printed only where it follows from the job alone. A flag says: candidate for a major change.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby
from typing import Final, NamedTuple

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.passthroughs import was_there
from liftout.documents.chapters.said import LINE, NOT_SAID, SIGNER, known, listed, named, said, worked_value
from liftout.documents.rule_sets import HEAD, rules_of
from liftout.facts import Place
from liftout.facts.removal import Opening
from liftout.facts.states import everything_in
from liftout.tables import Row, table
from liftout.worked.balance.amended_empty_weight import amended_empty_weight

questions = table("classification_questions")

STAYS_OPEN: Final = (
    "Which class of change the provisions and the equipment are, in this country and on this aircraft",
    "Whether an earlier approval or a standard change covers the fit",
    "Each hole in the skin or the structure: strength, static pressure, water, ice, fumes drawn in",
    "Each pass-through of a pressure vessel: doubler, sealing, leak rate",
    "Who may take the equipment out and refit it, and whether each time needs an entry",
    "Clearance to flight controls over full travel; vibration and fatigue of brackets",
    "Fire behaviour of what is carried, of wires and of lines; distance to what can ignite",
    "Effect on radios and compass, which only a test on the aircraft shows",
    "Effect on flight characteristics, and the need for a check flight",
    "What may be loaded in the place of the equipment when it is out",
)
"""Left to licensed persons and authorities, whatever the job says."""


class Bearing(NamedTuple):
    """What the job says to a question: its words, and yes or no where that follows."""

    text: str
    answer: str = ""


def classification(matter: Matter) -> Values:
    """What the chapter prints."""
    asked = [(row, FACTS[row.fact.text](matter)) for row in questions]
    raised = [(row, bearing) for row, bearing in asked if row.flag.text == "yes" and bearing.answer == "yes"]
    return {
        "flags": [(row.authority.text, row.question.text, bearing.text, _cited(row)) for row, bearing in raised],
        "parts": [(item.name, "removable unit" if item.removable else "fixed provision", said(item.location)) for item in matter.facts.items],
        "authorities": [
            {
                "name": name,
                "rules": rules_of(name),
                "rules_title": f"Rules that the questions were taken from: {name}",
                "rows": [_row(row, bearing) for row, bearing in found],
            }
            for name, found in groupby(asked, key=lambda pair: pair[0].authority.text)
        ],
        "rules_head": HEAD,
        "stays_open": [(what, LINE, LINE) for what in STAYS_OPEN],
        "decisions": [
            ("Class of change of the fixed provisions", LINE),
            ("Class of change of the removable unit", LINE),
            ("Data and reference of the decision", LINE),
            ("Removal and refitting may be done by", LINE),
        ],
        "signer": SIGNER,
    }


def _row(row: Row, bearing: Bearing) -> tuple[str, ...]:
    answer = f"{bearing.answer}, from the job alone" if bearing.answer and row.follows.text == "yes" else LINE
    flag = (
        ". Major candidate: answer needed from the authority or a certificated person" if row.flag.text == "yes" and bearing.answer == "yes" else ""
    )
    return (
        f"{row.question.text} {row.says.text} {'Taken from ' if row.citation.startswith(row.read) else ''}{_cited(row)}.",
        f"{bearing.text}{flag}",
        answer,
    )


def _cited(row: Row) -> str:
    if row.citation.startswith(row.read):  # common practice is no publication that was read in one way or another
        return f"{row.citation} (to confirm)"
    reading = "read in a stored copy" if row.read == "stored copy" else f"{row.read}, to confirm"
    return f"{row.citation} ({reading})"


# --- what the job says ----------------------------------------------------------------------------------------


def _silence(place: Place) -> Bearing | None:
    """The part of the job that would answer, where it is declined or silent."""
    if place.declined is not None:
        return Bearing(f"no: {place.declined.value} ({place.declined.origin})", "no")
    return None if place.there else Bearing(f"{NOT_SAID}: {place.silence.what}")


def _power(matter: Matter) -> Bearing:
    facts = matter.facts
    if silent := _silence(facts.wiring):
        return silent
    fed = listed((f"circuit {run.name} from the {run.source} to the {run.load.name}" for run in facts.runs), "")
    return Bearing(f"fed by {fed}", "yes") if fed else Bearing(f"{NOT_SAID}: describe the circuits")


def _holes(matter: Matter, through: tuple[str, ...], none: str) -> Bearing:
    openings = matter.facts.place.part("openings")
    if silent := _silence(openings):
        return silent
    found = [opening for opening in matter.facts.openings if opening.through in through]
    if not found:
        return Bearing(none, "no")
    # An opening of which nobody said that it was there before counts as one that is made.
    made = [opening for opening in found if not was_there(opening)]
    if not made:
        return Bearing(f"uses openings that were there before, and makes none: {_told(found)}", "no")
    before = [opening for opening in found if was_there(opening)]
    return Bearing(f"openings made: {_told(made)}" + (f"; there before: {_told(before)}" if before else ""), "yes")


def _told(openings: list[Opening]) -> str:
    return listed((f"{opening.name} through the {opening.through}" for opening in openings), "")


def _openings(matter: Matter) -> Bearing:
    return _holes(matter, ("skin", "floor", "bulkhead", "pressure bulkhead"), "the job lists no opening")


def _exterior(matter: Matter) -> Bearing:
    if outside := [part.name for part in matter.facts.outside_parts]:
        return Bearing(f"stands outside: {listed(outside, '')}", "yes")
    return _holes(matter, ("skin",), "the job lists nothing that stands outside and no opening through the skin")


def _pressure(matter: Matter) -> Bearing:
    return _holes(matter, ("pressure bulkhead",), "the job lists no opening through a pressure bulkhead")


def _limits(matter: Matter) -> Bearing:
    changed = [override for override in matter.assessment.job.overrides if "limits" in override.path or "floors" in override.path]
    if changed:
        return Bearing("limits that the job changes: " + listed((f"{named(one.path)} from {one.old} to {one.new}" for one in changed), ""), "yes")
    return Bearing("the job changes no limit of the airframe's own file", "no")


def _systems(matter: Matter) -> Bearing:
    facts = matter.facts
    parts = [*(f"circuit {run.name}" for run in facts.runs), *(loop.name for loop in facts.loops if loop.declined is None)]
    if parts:
        return Bearing(f"added: {listed(parts, '')}", "yes")
    return _silence(facts.wiring) or _silence(facts.place.part("lines")) or Bearing("the job adds no circuit and no loop", "no")


def _weight(matter: Matter) -> Bearing:
    facts = matter.facts
    before = next(state for state in facts.states if state.before)
    inside = everything_in(facts.states)
    first, last = (amended_empty_weight(state, facts) for state in (before, inside))
    told = f"{worked_value(first, 'W')} at {worked_value(first, 'x_cg')} before any change, {worked_value(last, 'W')} at {worked_value(last, 'x_cg')} {inside.name}"
    return Bearing(f"empty weight and arm: {told}")


def _restraint(matter: Matter) -> Bearing:
    held = [f"{strap.name} to the {said(strap.led_to)}" for held in matter.facts.restraints for strap in held.straps if known(strap.anchor)]
    return Bearing(f"anchors used: {listed(held, f'{NOT_SAID}: describe what holds each item')}")


def _open(_: Matter) -> Bearing:
    return Bearing("stays open: nothing in the job answers it")


FACTS: Final[dict[str, Callable[[Matter], Bearing]]] = {
    "power": _power,
    "openings": _openings,
    "exterior": _exterior,
    "pressure": _pressure,
    "limits": _limits,
    "systems": _systems,
    "weight": _weight,
    "restraint": _restraint,
    "open": _open,
}
"""By the word in the table."""
