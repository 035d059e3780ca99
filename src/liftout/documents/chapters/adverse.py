"""Adverse loadings: the forward and the aft check of each state, laid out item by item with weight, arm and moment."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOTHING, listed, said, sentence
from liftout.documents.working import text_of
from liftout.facts import Facts
from liftout.facts.loads import PossibleLoad, possible_loads
from liftout.facts.states import State, StateSide
from liftout.findings import Finding, Verdict
from liftout.worked.balance.moment_table import MomentTable, adverse_table

SIDES: Final = ("forward", "aft")
RESULTS: Final = ("State", "Forward check", "Limit", "Left", "Aft check", "Limit", "Left")
HEAD: Final = ("Item", "Arm", "Forward check: weight", "Moment", "Aft check: weight", "Moment")


def adverse(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, findings = matter.facts, matter.findings(["balance.adverse_loading"])
    return {
        "results": [_result(state, findings) for state in facts.states],
        "results_head": RESULTS,
        "loads": [(load.name, said(load.most), said(load.arm), _counted(load, facts)) for load in possible_loads(facts.aircraft)],
        "combined": [(one.name, listed(one.stations, "none"), said(one.maximum)) for one in facts.aircraft.compartments if one.combined],
        "states": [_state(state, findings, facts) for state in facts.states],
        "head": HEAD,
        "record": f"{matter.papers.number}-4",
    }


def _counted(load: PossibleLoad, facts: Facts) -> str:
    """Whether a load comes in any amount, and whose weight comes off it."""
    inside = {item.name: None for room in facts.rooms if room.name == load.station for item in room.items}
    how = "any amount" if load.any_amount else "whole, or not at all"
    return f"{how}; less {listed(inside, '')} where it is in" if inside else how


def _state(state: State, findings: tuple[Finding, ...], facts: Facts) -> Values:
    """Both checks of a state side by side, an item a row."""
    both = [next((one for one in findings if (one.state, one.subject) == (state.name, f"{side} limit")), None) for side in SIDES]
    tables = [adverse_table(StateSide(state, side), one, facts) if one else None for side, one in zip(SIDES, both, strict=True)]
    if None in both or None in tables or any(one.verdict is Verdict.NOT_ASSESSED for one in both if one):
        return {"title": sentence(state.name), "rows": [], "results": [], "adds_up": True}
    made, checks = [table for table in tables if table], [one for one in both if one]
    items = dict.fromkeys((row.name, text_of(row.arm)) for table in made for row in table.rows)
    rows = [(sentence(name), arm, *(cell for table in made for cell in _cells(table, name, arm))) for name, arm in items]
    rows.append(("Total", NOTHING, *(cell for table in made for cell in (text_of(table.total.weight), text_of(table.total.moment)))))
    rows.append(("Centre of gravity", NOTHING, *_arms(checks, "x_cg")))
    rows.append(("Limit at this weight", NOTHING, *_arms(checks, "x_limit")))
    return {
        "title": sentence(state.name),
        "caption": f"{sentence(state.name)}: forward and aft check",
        "rows": rows,
        "results": [(sentence(one.subject), one.sentence) for one in checks],
        "adds_up": all(table.adds_up for table in made),
    }


def _result(state: State, findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Centre of gravity, limit and what is left, of both checks of a state; the verdict where it is another than: conforms."""
    cells: list[str] = []
    for side in SIDES:
        one = next((one for one in findings if (one.state, one.subject) == (state.name, f"{side} limit")), None)
        if one is None or one.margin is None:
            cells += [str(one.verdict) if one else "not assessed", NOTHING, NOTHING]
        else:
            left = one.margin.text if one.verdict is Verdict.CONFORMS else f"{one.margin.text}, {one.verdict}"
            cells += [one.value_text, one.limit_text, left]
    return state.name, *cells


def _cells(table: MomentTable, name: str, arm: str) -> tuple[str, str]:
    """Weight and moment of an item in one check; nothing where it is not aboard there."""
    found = next((row for row in table.rows if (row.name, text_of(row.arm)) == (name, arm)), None)
    return (text_of(found.weight), text_of(found.moment)) if found else (NOTHING, NOTHING)


def _arms(checks: list[Finding], symbol: str) -> Iterator[str]:
    """An arm of each check, below its weights."""
    for one in checks:
        yield from (next((text_of(step.result) for step in one.steps if step.symbol == symbol), NOTHING), NOTHING)
