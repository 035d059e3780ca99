"""States side by side: what each means, and how far from each limit it stays."""

from __future__ import annotations

from liftout.documents.chapters.empty_weight import useful
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.removal import state_columns, state_row
from liftout.documents.chapters.said import UNKNOWN, listed, or_blank, said, worked_value
from liftout.facts import Facts
from liftout.facts.electrical_state import ElectricalState
from liftout.facts.states import PROVISIONS, Room, State
from liftout.findings import Finding, Verdict
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.compartment_room import compartment_room

CHECKS = ("balance.centre_of_gravity", "balance.loading_region")
SIDES = ("forward limit", "aft limit")


def states(matter: Matter) -> Values:
    """What the chapter prints."""
    all_states = matter.facts.states
    loads = {state.name: matter.finding("balance.useful_load", "aircraft", state.name) for state in all_states}
    return {
        "state_head": ("State", *state_columns(matter.facts), "Empty weight", "Arm"),
        "state_sides": ("left", *("left" for _ in state_columns(matter.facts)), "right", "right"),
        "states": [(*state_row(state, matter.facts), *_figures(state, matter.facts)) for state in all_states],
        "electrical": [_electrical(state) for state in matter.facts.electrical_states] if matter.facts.runs else [],
        "margins": [(state.name, *(_left(matter.finding(check, side, state.name)) for check in CHECKS for side in SIDES)) for state in all_states],
        "provisions": PROVISIONS,
        "filled": next((state.name for state in all_states if state.equipped.startswith(PROVISIONS) and state.filled), ""),
        "rooms": [_room(room, matter.facts) for room in matter.facts.rooms],
        "useful": [(name, useful(load), str(load.verdict) if load else "not assessed") for name, load in loads.items()],
    }


def _figures(state: State, facts: Facts) -> tuple[str, str]:
    """Empty weight and arm of a state."""
    sheet = amended_empty_weight(state, facts)
    return worked_value(sheet, "W"), worked_value(sheet, "x_cg")


def _electrical(state: ElectricalState) -> tuple[str, str, str]:
    """A state, the circuits that may be switched on in it, and how the breakers of the others are left."""
    dead = (
        f"{circuit.run.name}: {', '.join(dict.fromkeys(or_blank(told) for told in circuit.breaker) if circuit.breaker else [UNKNOWN])}"
        for circuit in state.dead
    )
    return state.name, listed((run.name for run in state.live), "none"), "; ".join(dead) or "none"


def _room(room: Room, facts: Facts) -> tuple[str, ...]:
    """A compartment with equipment in it: state, compartment, items, limit, what they weigh and what they leave."""
    left = compartment_room(room, facts)
    items = listed((item.name for item in room.items), "not said")
    return room.state.name, room.name, items, said(room.compartment.maximum), worked_value(left, "w_eq", "up"), worked_value(left, "R", "down")


def _left(finding: Finding | None) -> str:
    """Margin of a finding; its verdict where that is not: conforms."""
    if finding is None:
        return "not assessed"
    if finding.margin is None:
        return str(finding.verdict)
    return finding.margin.text if finding.verdict is Verdict.CONFORMS else f"{finding.margin.text}, {finding.verdict}"
