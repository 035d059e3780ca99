"""Worked values that findings and other papers use, kind by kind."""

from __future__ import annotations

from typing import Final

from liftout.documents.blocks import Shared, Tabled
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence
from liftout.documents.tabled import alike
from liftout.worked import Worked
from liftout.worked.balance.changed_weight_fitted import changed_weight_fitted
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worked.electrical.state_current import state_current

SPELLED: Final = {"percent": "per cent", "mac": "MAC"}
"""Words of names of worked values that are spelled otherwise in print."""


def worked_values(matter: Matter) -> Values:
    """What the chapter prints."""
    # Worked for the records, which come after this paper; their working stands here with all others.
    for case in matter.facts.sources_in_all_phases:
        load_analysis(case, matter.facts)
    for state in matter.facts.electrical_states:
        state_current(state, matter.facts)
    for scenario in matter.facts.scenarios:
        changed_weight_fitted(scenario, matter.facts)
    kinds: dict[str, list[Worked]] = {}
    for sheet in matter.assessment.worked:
        if sheet.sheet is not None and all(step.formula is None for step in sheet.steps):
            continue  # nothing had to be worked, such as how long a battery lasts that is being charged
        kinds.setdefault(sheet.name, []).append(sheet)
    return {"kinds": [_kind(name, sheets) for name, sheets in kinds.items()]}


def _kind(name: str, sheets: list[Worked]) -> Values:
    shared = Shared(tuple(sheets)) if len(sheets) > 1 else None
    tables = [Tabled(found, shared) for found in alike(shared)] if shared else []
    tabled = {id(of) for table in tables for of in table.of}
    return {
        "title": sentence(" ".join(SPELLED.get(word, word) for word in name.rpartition(".")[2].split("_"))),
        "subject": sentence(sheets[0].subject),
        "shared": [shared] if shared else [],
        "tables": tables,
        "sheets": [sheet for sheet in sheets if id(sheet) not in tabled],
    }
