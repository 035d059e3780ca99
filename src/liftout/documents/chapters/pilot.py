"""Pilot's pages: a draft for the authority or a licensed person; limitations, emergencies, failures, normal use and performance, in this order."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.failures import MOST_ACTIONS, all_failures
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.pilot_card import emergencies
from liftout.documents.chapters.placing import on_the_ground
from liftout.documents.chapters.said import BLANK, NOT_SAID, SIGNER, listed, said, worked_value
from liftout.documents.off_control import off_control, switch_off, switches
from liftout.documents.power_placards import power_placards
from liftout.facts import Fact, Facts
from liftout.facts.states import everything_in
from liftout.worked.balance.amended_empty_weight import amended_empty_weight


def pilot(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, number = matter.facts, matter.papers.number
    failures = [{"title": failure.title, "actions": failure.actions[:MOST_ACTIONS]} for failure in all_failures(facts, number)]
    return {
        "blank": BLANK,
        "signer": SIGNER,
        "off": off_control(facts) if facts.runs else "",
        "switches": [(switches([run]), run.load.name, said(run.place.part("protection").word("rating"))) for run in facts.runs],
        "no_switches": f"{NOT_SAID.capitalize()}: describe the circuits, or none with the reason."
        if not facts.wiring.there
        else "Not applicable, because the job names no circuit.",
        "limitations": [*_limitations(facts, number), *(wording for _, wording, _ in power_placards(matter))],
        "emergencies": emergencies(facts),
        "before": [*_before(facts, number), *on_the_ground(matter)],
        "phases": [
            (item.name, listed(item.demand.phases.value, "none") if isinstance(item.demand.phases, Fact) else said(item.demand.phases))
            for item in facts.powered_items
        ],
        "failures": failures,
        "performance": _performance(facts),
    }


def _limitations(facts: Facts, number: str) -> Iterator[str]:
    """What the equipment adds to the limits of the flight manual."""
    yield f"Fly only in a state that the amendment {number}-2 names, with the record of that state in force."
    yield f"Load as the chapter What may be loaded of the amendment {number}-2 says."
    for item in facts.removable_items:
        yield f"The {item.name} stands in its place with every strap tight, or it is out with every cap and blank fitted."


def _before(facts: Facts, number: str) -> Iterator[str]:
    """What is done before each flight."""
    yield f"Compare the items that are in with the record in force in the amendment {number}-2."
    for item in facts.removable_items[:1]:
        yield f"Push the {item.name} and each other item by hand and look for movement."
    for held in facts.restraints:
        if held.straps:
            yield f"Look at each strap of the {held.item.name}, {listed((strap.name for strap in held.straps), 'none')}: latched, tight, not chafed."
    if facts.openings or any(out.disconnections for out in facts.removals):
        yield "Check that each line, socket and hole behind an item that is out is closed."
    if facts.runs:
        yield switch_off(facts).replace(" to OFF.", " to OFF before the engine is started.")
    yield "Operate each exit once."
    yield "Check full and free travel of all flight controls."


def _performance(facts: Facts) -> tuple[str, str]:
    """Empty weight before any change and with everything in."""
    before = next(state for state in facts.states if state.before)
    return worked_value(amended_empty_weight(before, facts), "W"), worked_value(amended_empty_weight(everything_in(facts.states), facts), "W")
