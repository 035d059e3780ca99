"""How each empty weight of the amendment was worked."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence
from liftout.worked.balance.amended_empty_weight import amended_empty_weight


def working(matter: Matter) -> Values:
    """What the chapter prints."""
    states = matter.facts.states
    return {
        "sheets": [{"title": sentence(state.name), "of": amended_empty_weight(state, matter.facts)} for state in states],
        "record": f"{matter.papers.number}-4",
    }
