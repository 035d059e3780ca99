"""Empty weight before the changes made at the same time as the fit, with each alone and with all: from the record in force, and with everything in."""

from __future__ import annotations

from liftout.documents.chapters.said import sentence, worked_value
from liftout.facts import Facts
from liftout.worked.balance.changed_weight import changed_weight
from liftout.worked.balance.changed_weight_fitted import changed_weight_fitted


def changed_weights(facts: Facts) -> list[tuple[str, ...]]:
    """One row a scenario: weight, moment and arm from the record as it is, then with everything in."""
    return [
        (
            sentence(one.name),
            *(worked_value(sheet(one, facts), symbol) for sheet in (changed_weight, changed_weight_fitted) for symbol in ("W", "M", "x")),
        )
        for one in facts.scenarios
    ]
