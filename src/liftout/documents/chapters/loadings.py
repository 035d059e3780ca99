"""Named loadings: what each is, and how it stands to the limits in every state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, absence, brief, listed, said, sentence
from liftout.documents.working import text_of
from liftout.facts import Facts
from liftout.facts.loadings import LANDING, TAKEOFF, Fuel, Loaded, Loading
from liftout.figures.drawing import Drawing
from liftout.figures.loading_envelope import Loading as Mark
from liftout.figures.loading_region import fuel_burns
from liftout.findings import Finding
from liftout.worked.balance.without_fuel import without_fuel

MOST_DRAWN: Final = 4
"""Loadings on one chart, each with three marks."""


def loadings(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, place = matter.facts, matter.facts.place.part("loadings")
    results = {(one.name, one.state.name): matter.finding("balance.named_loading", one.name, one.state.name) for one in facts.loaded}
    return {
        "absent": absence(place) or ("" if facts.loadings else f"{NOT_SAID.capitalize()}: {facts.place.missing('loadings').what}."),
        "drawings": list(_charts(facts, results)),
        "loadings": [_loading(one, facts, results) for one in facts.loadings],
        "record": f"{matter.papers.number}-4",
    }


def _loading(loading: Loading, facts: Facts, results: dict[tuple[str, str], Finding | None]) -> Values:
    empty = [station.name for station in facts.aircraft.stations if station.name not in loading.stations]
    flown = [one for one in facts.loaded if one.loading.name == loading.name]
    return {
        "title": sentence(loading.name),
        "caption": f"{sentence(loading.name)}: every state to which it belongs",
        "facts": [
            *((sentence(name), said(amount)) for name, amount in loading.stations.items()),
            ("Left empty", listed(empty, "none")),
            ("Fuel at take-off", _fuel(loading.at_takeoff, f"{NOT_SAID}: {loading.place.missing('fuel_at_takeoff').what}")),
            ("Fuel at landing", _fuel(loading.at_landing, "the minimum fuel")),
            *([("Only with these items out", listed(loading.without, ""))] if loading.without else []),
        ],
        "rows": [_row(one, results[one.name, one.state.name]) for one in flown],
    }


def _fuel(fuel: tuple[Fuel, ...], otherwise: str) -> str:
    return listed((f"{said(one.amount)} in {one.tank.name}" for one in fuel), otherwise)


def _row(loaded: Loaded, finding: Finding | None) -> tuple[str, str, str, str, str]:
    if finding is None:
        return loaded.state.name, loaded.when, "", "", "not assessed"
    steps = {step.symbol: text_of(step.result) for step in finding.steps}
    return loaded.state.name, loaded.when, steps.get("W", ""), steps.get("x_cg", ""), brief(finding)


def _charts(facts: Facts, results: dict[tuple[str, str], Finding | None]) -> Iterator[Drawing]:
    """How the loadings move while fuel is burnt, with everything in that each may be flown with; some on each chart."""
    for on in facts.aircraft.undercarriages:
        drawn: dict[str, list[tuple[str, list[Mark]]]] = {}
        for loading in facts.loadings:
            flown = [one for one in facts.loaded if one.loading.name == loading.name and one.when == TAKEOFF and one.state.undercarriage == on.name]
            if flown:
                most = max(flown, key=lambda one: (len(one.state.items), len(one.state.filled)))
                marks = [
                    mark
                    for when in (TAKEOFF, LANDING)
                    for mark in _marks(f"{loading.name}, {when}", results.get((f"{loading.name}, {when}", most.state.name)))
                ]
                drawn.setdefault(most.state.name, []).append((loading.name, [*marks, *_without_fuel(most, facts)]))
        for name, found in drawn.items():
            state = next(state for state in facts.states if state.name == name)
            for first in range(0, len(found), MOST_DRAWN):
                part = found[first : first + MOST_DRAWN]
                made = fuel_burns(facts, on.limits, state, [mark for _, marks in part for mark in marks], [loading for loading, _ in part])
                yield replace(made, name=f"{made.name}-{name}-{first}") if any(marks for _, marks in part) else made


def _marks(name: str, finding: Finding | None) -> Iterator[Mark]:
    steps = {step.symbol: step for step in finding.steps} if finding else {}
    if "W" in steps and "x_cg" in steps:
        weight, arm = steps["W"], steps["x_cg"]
        yield Mark(name, weight.quantity, arm.quantity, (text_of(weight.result), text_of(arm.result)))


def _without_fuel(loaded: Loaded, facts: Facts) -> Iterator[Mark]:
    steps = {step.symbol: step for step in without_fuel(loaded, facts).steps}
    if "W" in steps and "x_cg" in steps:
        weight, arm = steps["W"], steps["x_cg"]
        yield Mark(f"{loaded.loading.name}, no usable fuel", weight.quantity, arm.quantity, (text_of(weight.result), text_of(arm.result)))
