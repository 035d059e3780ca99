"""Pilot's pages: a draft for the authority or a licensed person; few lines a failure, the first switches off."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.failures import MOST_ACTIONS, all_failures, switches
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.placing import on_the_ground
from liftout.documents.chapters.said import BLANK, NOT_SAID, SIGNER, listed, said
from liftout.facts import Fact, Facts


def pilot(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, number = matter.facts, matter.papers.number
    failures = [{"title": failure.title, "actions": failure.actions[:MOST_ACTIONS]} for failure in all_failures(facts, number)]
    return {
        "blank": BLANK,
        "signer": SIGNER,
        "switches": [
            (switches([run]), run.load.name if run.load else "its load", said(run.place.part("protection").word("rating"))) for run in facts.runs
        ],
        "no_switches": f"{NOT_SAID.capitalize()}: describe the circuits, or none with the reason."
        if not facts.wiring.there
        else "Not applicable, because the job names no circuit.",
        "before": [*_before(facts, number), *on_the_ground(matter)],
        "phases": [
            (item.name, listed(item.demand.phases.value, "none") if isinstance(item.demand.phases, Fact) else said(item.demand.phases))
            for item in facts.powered_items
        ],
        "failures": failures,
    }


def _before(facts: Facts, number: str) -> Iterator[str]:
    """What is done before each flight."""
    yield f"Compare the items that are in with the record in force in the amendment {number}-2."
    for item in facts.removable_items[:1]:
        yield f"Push the {item.name} and each other item by hand and look for movement."
    if facts.openings or any(out.disconnections for out in facts.removals):
        yield "Check that each line, socket and hole behind an item that is out is closed."
    if facts.runs:
        yield f"Set {switches(facts.runs)} to OFF before the engine is started."
    yield "Check full and free travel of all flight controls."
