"""Pilot's card: what is done from memory in an emergency, on a page of its own in large letters; a draft for the authority or licensed person."""

from __future__ import annotations

from liftout.documents.chapters.failures import MOST_ACTIONS
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, said
from liftout.documents.effects import EMERGENCIES, effects
from liftout.documents.off_control import off_control
from liftout.facts import Facts


def pilot_card(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    plane = facts.aircraft
    return {
        "blank": BLANK,
        "aircraft": f"{plane.model}, serial number {said(plane.serial_number)}",
        "off": off_control(facts) if facts.runs else "",
        "cards": emergencies(facts),
    }


def emergencies(facts: Facts) -> list[Values]:
    """Each emergency with its lines, the first of which stops the equipment; why it does not apply, where it does not."""
    met = {effect.title: effect for effect in effects(facts)}
    return [
        {
            "title": title,
            "actions": met[title].actions[:MOST_ACTIONS],
            "absent": f"Not applicable, because {met[title].absent}." if met[title].absent else "",
        }
        for title in EMERGENCIES
    ]
