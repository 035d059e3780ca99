"""What may be loaded: the worst loading of each state, what can no longer be loaded, and the loading schedule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOTHING, brief, listed, said, sentence, text, worked_value
from liftout.documents.working import decided_by, text_of
from liftout.facts import Amount, Fact, Facts, Missing
from liftout.facts.loads import standard_person
from liftout.facts.states import BEFORE, PROVISIONS, State, everything_in
from liftout.facts.undercarriages import Undercarriage
from liftout.figures.amounts import written
from liftout.figures.drawing import Drawing
from liftout.figures.loading_envelope import Loading
from liftout.figures.loading_region import loading_region
from liftout.figures.station_diagram import station_diagram
from liftout.findings import Finding, Verdict
from liftout.tables import table
from liftout.worked.balance.load_left import load_left
from liftout.worked.balance.loading_schedule import NO_FUEL, Scheduled, loading_schedule, scheduled
from liftout.worked.balance.moment_table import MomentTable, scheduled_table

CHECKS: Final = ("balance.loading_region", "balance.lateral_loading")
methods = table("methods")
SCHEDULE_HEAD: Final = ("State", "Fuel", "Persons beside the pilot", "Baggage", "Centre of gravity at take-off", "Without usable fuel")
FIRST_IN_WORDS: Final = {
    "full fuel": "Full tanks: persons, then baggage, that may be aboard besides",
    "all seats": "Every seat taken: fuel, then baggage, that may be aboard besides",
    "all baggage": "As much baggage as there is room for: fuel, then persons, that may be aboard besides",
}


def may_be_loaded(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, every = matter.facts, matter.findings(CHECKS)
    findings = tuple(finding for finding in every if finding.verdict is not Verdict.NOT_APPLICABLE)
    compared = [state for on in facts.aircraft.undercarriages for state in compared_on(on, facts)]
    found = {state.name: scheduled(state, facts) for state in compared}
    rows = [row for made in found.values() for row in made if isinstance(row, Scheduled)]
    outside = [finding for finding in findings if finding.margin is not None and finding.margin.quantity.magnitude < 0]
    return {
        "drawings": [_chart(on, findings, facts) for on in facts.aircraft.undercarriages],
        "stations": station_diagram(facts),
        "conform": bool(findings) and all(finding.verdict is Verdict.CONFORMS for finding in findings),
        "worst": list(_worst(findings, facts)),
        "unsearched": [f"{finding.title}: {brief(finding)}" for finding in every if finding.verdict is Verdict.NOT_APPLICABLE],
        "outside": [_outside(finding) for finding in outside],
        "left": [_left(state, facts) for state in facts.states],
        "whole": [{"state": state.name, **_whole(state, facts)} for state in compared if state.equipped not in (BEFORE, PROVISIONS)],
        "before": BEFORE,
        "schedule": [
            {"caption": FIRST_IN_WORDS[first], "rows": [_scheduled(row, rows, facts) for row in rows if row.first == first]}
            for first in FIRST_IN_WORDS
            if any(row.first == first for row in rows)
        ],
        "schedule_head": SCHEDULE_HEAD,
        "short": [f"{sentence(row.first)} first, {row.state.name}" for row in rows if not row.full],
        "lacking": list(dict.fromkeys(need.what for made in found.values() for need in made if isinstance(need, Missing))),
        "nobody": [name for name, made in found.items() if not made],
        "sheets": [_sheet(row, rows, facts) for row in rows if row.state.equipped not in (BEFORE, PROVISIONS)],
        "person": written(standard_person().value),
        "person_source": standard_person().origin,
        "density": [(tank.name, said(tank.density)) for tank in facts.aircraft.tanks],
        "no_order": len(facts.aircraft.tanks) > 1 and not facts.aircraft.fuel_order,
        "rule": methods.row("loading schedule").citation,
        "record": f"{matter.papers.number}-4",
    }


def compared_on(on: Undercarriage, facts: Facts) -> list[State]:
    """States that are compared on an undercarriage: before any change, provisions only, everything in."""
    states = tuple(state for state in facts.states if state.undercarriage == on.name)
    full = everything_in(states)
    return [state for state in states if state.equipped in (BEFORE, PROVISIONS) or state is full]


def _chart(on: Undercarriage, findings: tuple[Finding, ...], facts: Facts) -> Drawing:
    """The region before any change and with everything in, on the limits of an undercarriage."""
    before, *_, full = compared_on(on, facts)
    worst = [
        mark
        for state in (before, full)
        for finding in findings
        if finding.state == state.name and finding.subject in ("forward limit", "aft limit")
        for mark in _mark(finding)
    ]
    made = loading_region(facts, on.limits, (before, full), worst)
    return replace(made, name=f"{made.name}-{on.name}".rstrip("-"))


def _mark(finding: Finding) -> Iterator[Loading]:
    steps = {step.symbol: step for step in finding.steps}
    if "W" in steps and "x_cg" in steps:
        weight, arm = steps["W"], steps["x_cg"]
        yield Loading(
            f"worst loading, {finding.state}, {finding.subject}", weight.quantity, arm.quantity, (text_of(weight.result), text_of(arm.result))
        )


# --- worst loadings -----------------------------------------------------------------------------------------------


def _worst(findings: tuple[Finding, ...], facts: Facts) -> Iterator[Values]:
    """One table for each limit, a row for each state."""
    ordered = sorted(findings, key=lambda finding: list(dict.fromkeys(one.subject for one in findings)).index(finding.subject))
    for subject, alike in groupby(ordered, key=lambda finding: finding.subject):
        yield {"caption": f"Worst loading of all against the {subject}", "rows": [_row(finding, facts) for finding in alike]}


def _row(finding: Finding, facts: Facts) -> tuple[str, str, str, str, str]:
    if finding.margin is None:
        return finding.state, str(finding.verdict), NOTHING, NOTHING, brief(finding)
    # Number and unit stay on one line, also on a telephone.
    margin, value, limit = (told.replace(" ", "\u00a0") for told in (finding.margin.text, finding.value_text, finding.limit_text))
    return finding.state, margin if finding.verdict is Verdict.CONFORMS else f"{margin}, {finding.verdict}", value, limit, aboard(finding, facts)


def aboard(finding: Finding, facts: Facts) -> str:
    """What the worst loading holds, in words: stations in the order of the job, the pilot among them, then fuel."""
    rows = [row for step in finding.steps if step.symbol == "w" for row in step.rows]
    held = {row.label: text_of(row.printed) for row in rows if row.printed.number.strip("0.")}
    order = [*(station.name for station in facts.aircraft.stations if station.name in held), *held]
    return "; ".join(f"{name} {held[name]}" for name in dict.fromkeys(order)) or "nothing"


def _outside(finding: Finding) -> tuple[str, str, str]:
    """State and limit, what brings every loading inside, and what was decided."""
    found = finding.referral.question if finding.referral else "No single limit on one station or tank brings every loading inside."
    made = finding.decision
    return f"{finding.state}, {finding.subject}", sentence(found), f"{made.decision}: {decided_by(made)}" if made else "open"


# --- what is gone -------------------------------------------------------------------------------------------------


def _left(state: State, facts: Facts) -> tuple[str, ...]:
    sheet = load_left(state, facts)
    return state.name, worked_value(sheet, "dU"), worked_value(sheet, "U", "down"), worked_value(sheet, "L", "down")


def _whole(state: State, facts: Facts) -> Values:
    """What a state costs, in the words of an owner."""
    sheet = load_left(state, facts)
    return {
        name: worked_value(sheet, symbol, "down" if name == "left" else "nearest")
        for name, symbol in (("less", "dU"), ("left", "L"), ("before", "L_b"))
    }


# --- loading schedule ---------------------------------------------------------------------------------------------


def _scheduled(row: Scheduled, rows: list[Scheduled], facts: Facts) -> tuple[str, ...]:
    sheet, dry = loading_schedule(row, facts), loading_schedule(row._replace(when=NO_FUEL), facts)
    return (
        row.state.name,
        text(row.fuel),
        _persons(row, facts, anywhere=_alone(row, rows)),
        _baggage(row, facts),
        worked_value(sheet, "x_cg"),
        worked_value(dry, "x_cg"),
    )


def _alone(row: Scheduled, rows: list[Scheduled]) -> bool:
    """Whether the seating makes no other row of it."""
    return sum(other.first == row.first and other.state.name == row.state.name for other in rows) == 1


def _persons(row: Scheduled, facts: Facts, *, anywhere: bool) -> str:
    """How many, and where they sit where that matters."""
    if not row.persons or anywhere:
        return f"{row.persons}, in any seats" if row.persons else "none"
    return f"{row.persons}, {row.seating}: {listed((f'{name} {said(amount)}' for name, amount in _at(row, facts, 'occupants')), 'none')}"


def _baggage(row: Scheduled, facts: Facts) -> str:
    at = [(name, amount) for name, amount in _at(row, facts, "baggage") if isinstance(amount, Fact) and amount.value.magnitude]
    if not at:
        return "none"
    places = listed((f"{name} {said(amount)}" for name, amount in at), "")
    return places if len(at) == 1 else f"{text(row.baggage)}: {places}"


def _at(row: Scheduled, facts: Facts, holds: str) -> list[tuple[str, Amount]]:
    kinds = {station.name: station.holds for station in facts.aircraft.stations}
    return [(name, amount) for name, amount in row.loaded.loading.stations.items() if kinds[name] == holds]


def _sheet(row: Scheduled, rows: list[Scheduled], facts: Facts) -> Values:
    made, sheet = scheduled_table(row, facts), loading_schedule(row, facts)
    seating = "in any seats" if _alone(row, rows) else row.seating
    return {
        "caption": f"{sentence(row.first)} first, {seating}, {row.state.name}, at take-off",
        "rows": [
            *(moment_rows(made) if made else []),
            ("Forward limit at this weight", NOTHING, worked_value(sheet, "x_forward"), NOTHING),
            ("Aft limit at this weight", NOTHING, worked_value(sheet, "x_aft"), NOTHING),
            ("Left up to the maximum weight", worked_value(sheet, "W_left", "down"), NOTHING, NOTHING),
        ],
        "adds_up": made is None or made.adds_up,
    }


def moment_rows(made: MomentTable) -> list[tuple[str, str, str, str]]:
    """Item, weight, arm, moment; the total last, at its centre of gravity."""
    rows = (*made.rows, made.total._replace(name="total, and centre of gravity"))
    return [(sentence(row.name), text_of(row.weight), text_of(row.arm), text_of(row.moment)) for row in rows]
