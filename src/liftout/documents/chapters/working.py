"""How each empty weight of the amendment was worked."""

from __future__ import annotations

from liftout.documents.chapters.equipment_list import fillings
from liftout.documents.chapters.matter import Matter, Values
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.percent_mac import percent_mac
from liftout.worked.fluids.liquid_fill import liquid_fill


def working(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    sheets = [(f"Liquid: {fill.name}", liquid_fill(fill, facts)) for fill in fillings(facts)]
    for state in facts.states:
        sheets.append((f"Empty weight: {state.name}", amended_empty_weight(state, facts)))
        sheets.append((f"Share of the chord: {state.name}", percent_mac(state, facts)))
    return {"sheets": [{"title": title, "of": sheet} for title, sheet in sheets]}
