"""Old and new empty weight: each state with weight, arm, moment, share of the chord, useful load."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import said, worded, worked_value
from liftout.facts.states import BEFORE, State
from liftout.figures.loading_envelope import loading_envelope
from liftout.findings import Finding
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.percent_mac import percent_mac


def empty_weight(matter: Matter) -> Values:
    """What the chapter prints."""
    plane = matter.facts.aircraft
    return {
        "drawings": [loading_envelope(matter.facts)],
        "weights": [_row(state, matter) for state in matter.facts.states],
        "limits": [("Maximum take-off weight", said(plane.limits.maximum_takeoff)), ("Arms told from the datum", plane.datum)],
        "before": BEFORE,
        "chord": worded("{}, leading edge at {}", plane.chord.length, plane.chord.leading_edge),
    }


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
