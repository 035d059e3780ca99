"""Adverse loadings: the worst loading of each state against each limit, drawn, listed and worked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import brief, listed, said, sentence
from liftout.documents.working import text_of
from liftout.facts import Facts
from liftout.facts.loads import PossibleLoad, possible_loads
from liftout.facts.states import everything_in
from liftout.figures.loading_envelope import Loading, loading_envelope
from liftout.findings import Finding, Verdict

CAPTION: Final = "Centre-of-gravity envelope with the worst loading of each state against each limit."


def adverse(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, findings = matter.facts, matter.findings(["balance.adverse_loading"])
    full = everything_in(facts.states).name
    return {
        "drawings": [replace(loading_envelope(facts, (), list(_loadings(findings))), name="worst-loadings", caption=CAPTION)],
        "results": [(finding.state, finding.subject, brief(finding)) for finding in findings],
        "loads": [(load.name, said(load.most), said(load.arm), _counted(load, facts)) for load in possible_loads(facts.aircraft)],
        "combined": [(one.name, listed(one.stations, "none"), said(one.maximum)) for one in facts.aircraft.compartments if one.combined],
        "states": [_state(state.name, [finding for finding in findings if finding.state == state.name]) for state in facts.states],
        "full": [{"title": f"{sentence(finding.state)}, {finding.subject}", "of": finding} for finding in findings if finding.state == full],
        "record": f"{matter.papers.number}-4",
    }


def _counted(load: PossibleLoad, facts: Facts) -> str:
    """Whether a load comes in any amount, and whose weight comes off it."""
    inside = {item.name: None for room in facts.rooms if room.name == load.station for item in room.items}
    how = "any amount" if load.any_amount else "whole, or not at all"
    return f"{how}; less {listed(inside, '')} where it is in" if inside else how


def _state(name: str, findings: list[Finding]) -> Values:
    assessed = [finding for finding in findings if finding.verdict is not Verdict.NOT_ASSESSED]
    return {
        "title": sentence(name),
        "sides": [{"caption": f"{sentence(name)}: worst loading against the {one.subject}", "rows": list(_lines(one))} for one in assessed],
    }


def _lines(finding: Finding) -> Iterator[tuple[str, str]]:
    """What was worked before; what is loaded, as the search found it; every worked line of the sheet; the conclusion."""
    loaded: dict[str, list[str]] = {}
    for step in finding.steps:
        if step.formula is None and not step.result.number:
            for row in step.rows:
                loaded.setdefault(row.label, []).append(text_of(row.printed))
    yield from ((step.meaning, text_of(step.result)) for step in finding.steps if step.origin.startswith("worked: "))
    yield from ((f"loaded: {label}", " at ".join(values)) for label, values in loaded.items())
    yield from ((step.meaning, text_of(step.result)) for step in finding.steps if step.formula is not None)
    yield ("result", finding.sentence)


def _loadings(findings: tuple[Finding, ...]) -> Iterator[Loading]:
    """The worst loadings that were found, as the envelope shows them, with the figures of their sheets."""
    for finding in findings:
        steps = {step.symbol: step for step in finding.steps}
        if "W" in steps and "x_cg" in steps:
            weight, arm = steps["W"], steps["x_cg"]
            label = f"worst loading, {finding.state}, {finding.subject}"
            yield Loading(label, weight.quantity, arm.quantity, (text_of(weight.result), text_of(arm.result)))
