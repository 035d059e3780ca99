"""Named loadings: what each is, and how it stands to the limits in every state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, absence, brief, listed, said, sentence
from liftout.documents.working import text_of
from liftout.facts import Facts
from liftout.facts.loadings import Fuel, Loaded, Loading
from liftout.facts.states import everything_in
from liftout.figures.loading_envelope import Loading as Mark
from liftout.figures.loading_envelope import loading_envelope
from liftout.findings import Finding

CAPTION: Final = "Centre-of-gravity envelope with the named loadings, everything in, at take-off and at landing."


def loadings(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, place = matter.facts, matter.facts.place.part("loadings")
    results = {(one.name, one.state.name): matter.finding("balance.named_loading", one.name, one.state.name) for one in facts.loaded}
    full = everything_in(facts.states).name
    marks = [mark for (name, state), finding in results.items() if state == full and finding for mark in _marks(name, finding)]
    return {
        "absent": absence(place) or ("" if facts.loadings else f"{NOT_SAID.capitalize()}: {facts.place.missing('loadings').what}."),
        "drawings": [replace(loading_envelope(facts, (), marks), name="named-loadings", caption=CAPTION)] if marks else [],
        "loadings": [_loading(one, facts, results) for one in facts.loadings],
        "record": f"{matter.papers.number}-4",
    }


def _loading(loading: Loading, facts: Facts, results: dict[tuple[str, str], Finding | None]) -> Values:
    empty = [station.name for station in facts.aircraft.stations if station.name not in loading.stations]
    flown = [one for one in facts.loaded if one.loading.name == loading.name]
    return {
        "title": sentence(loading.name),
        "caption": f"{sentence(loading.name)}: every state in which it may be flown",
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


def _marks(name: str, finding: Finding) -> Iterator[Mark]:
    steps = {step.symbol: step for step in finding.steps}
    if "W" in steps and "x_cg" in steps:
        weight, arm = steps["W"], steps["x_cg"]
        yield Mark(name, weight.quantity, arm.quantity, (text_of(weight.result), text_of(arm.result)))
