"""Old and new empty weight: each state with weight, arm, moment, share of the chord, useful load."""

from __future__ import annotations

from dataclasses import replace

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import known, said, worded, worked_value
from liftout.facts.states import BEFORE, State
from liftout.figures.loading_envelope import loading_envelope
from liftout.findings import Finding
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.lateral_arm import lateral_arm
from liftout.worked.balance.percent_mac import percent_mac


def empty_weight(matter: Matter) -> Values:
    """What the chapter prints."""
    plane, states = matter.facts.aircraft, matter.facts.states
    drawings = [(one, loading_envelope(matter.facts, [state for state in states if state.undercarriage == one.name])) for one in plane.undercarriages]
    return {
        "drawings": [replace(made, name=f"{made.name}-{one.name}".rstrip("-"), caption=_on(one.name, made.caption)) for one, made in drawings],
        "weights": [_row(state, matter) for state in states],
        "limits": [
            *((_on(one.name, "Maximum take-off weight"), said(one.limits.maximum_takeoff)) for one in plane.undercarriages),
            ("Arms measured from the datum", plane.datum),
        ],
        "lateral": [
            (state.name, worked_value(lateral_arm(state, matter.facts), "y"))
            for state in states
            if known(plane.on(state.undercarriage).record.lateral)
        ],
        "before": BEFORE,
        "chord": worded("{}, leading edge at {}", plane.chord.length, plane.chord.leading_edge),
    }


def _on(undercarriage: str, words: str) -> str:
    """Words with the undercarriage that they hold for, where there are several."""
    return f"{undercarriage}: {words}" if undercarriage else words


def _row(state: State, matter: Matter) -> tuple[str, ...]:
    sheet = amended_empty_weight(state, matter.facts)
    share = worked_value(percent_mac(state, matter.facts), "p")
    return (
        state.name,
        *(worked_value(sheet, symbol) for symbol in ("W", "x_cg", "M")),
        share,
        useful(matter.finding("balance.useful_load", "aircraft", state.name)),
    )


def useful(finding: Finding | None) -> str:
    """Useful load of a state as its finding prints it."""
    if finding is None:
        return "not assessed"
    return finding.value_text or finding.sentence
