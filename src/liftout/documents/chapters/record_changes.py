"""Changes since the last weighing: how much weight and arm have changed in each state, against what published texts call small."""

from __future__ import annotations

from liftout.documents.changed_weights import changed_weights
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import sentence, worked_value
from liftout.facts import Facts
from liftout.facts.states import State, everything_in
from liftout.tables import table
from liftout.worked import Worked
from liftout.worked.balance.arm_change import arm_change
from liftout.worked.balance.cumulative_change import cumulative_change
from liftout.worked.balance.direction import direction
from liftout.worked.balance.empty_weight_tolerance import empty_weight_tolerance
from liftout.worked.balance.weight_change import weight_change

negligible, cumulative = table("negligible_change"), table("cumulative_change")


def record_changes(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    return {
        "from": [(one.name or "the aircraft", one.record.chain[0].name) for one in facts.aircraft.undercarriages],
        "changes": [_change(state, facts) for state in facts.states],
        "negligible": [(state.name, *_negligible(state, facts)) for state in facts.states],
        "cumulative": [(state.name, *_cumulative(state, facts)) for state in facts.states],
        "sentences": [_sentence(state, facts) for state in (facts.states[0], everything_in(facts.states))],
        "within": [(state.name, worked_value(empty_weight_tolerance(state, facts), "t_W")) for state in facts.states],
        "changed": changed_weights(facts),
        "circular": negligible.row("arm of an aeroplane").citation,
        "european": cumulative.row("dry operating mass").citation,
    }


def _change(state: State, facts: Facts) -> tuple[str, ...]:
    """Weight and arm of a state against the last weighing, with the way the arm moved."""
    weight, arm = weight_change(state, facts), arm_change(state, facts)
    return state.name, worked_value(weight, "dW"), worked_value(arm, "dx"), _way(arm) or "none", worked_value(arm, "p")


def _sentence(state: State, facts: Facts) -> str:
    """The change of a state in words; the words for its way come from the sign of the change."""
    weight, arm = weight_change(state, facts), arm_change(state, facts)
    first = facts.aircraft.on(state.undercarriage).record.chain[0]
    if weight.sheet is None or arm.sheet is None:
        return f"{sentence(state.name)}, against {first.name}: {worked_value(weight, 'a')}; {worked_value(arm, 'p')}."
    heavier = direction(weight, "dW", towards=("heavier", "lighter"))
    by = f"{worked_value(weight, 'a')} {heavier} than" if heavier else "as heavy as"
    way = f"{worked_value(arm, 'd')} {_way(arm)}, {worked_value(arm, 'p')} of the chord" if _way(arm) else "nowhere"
    return f"{sentence(state.name)}, the empty aircraft is {by} at {first.name}. Its arm has moved {way}."


def _way(arm: Worked) -> str:
    return direction(arm, "dx", towards=("aft", "forward"))


def _negligible(state: State, facts: Facts) -> tuple[str, str]:
    """Weight and arm against what the circular calls negligible: on the limit a weight is, an arm is not."""
    weight, arm = weight_change(state, facts), arm_change(state, facts)
    return (
        _against(weight, "a", weight, "a_n", over=("more than", "not more than")),
        _against(arm, "p", arm, "p_n", over=("not less than", "less than"), on_it=True),
    )


def _cumulative(state: State, facts: Facts) -> tuple[str, str]:
    """Weight and arm against the sums of changes above which the European text asks for a revision."""
    weight, arm = weight_change(state, facts), arm_change(state, facts)
    words = ("more than", "not more than")
    return _against(weight, "a", cumulative_change(state, facts), "a_c", over=words), _against(arm, "p", arm, "p_c", over=words)


def _against(of: Worked, symbol: str, by: Worked, limit: str, *, over: tuple[str, str], on_it: bool = False) -> str:
    """A figure with what it is compared with; `on_it`: whether it counts as over its limit when it is on it."""
    if by.sheet is None:
        return f"{worked_value(of, symbol)}; {worked_value(by, limit)}"
    beyond = not by.sheet.exceeds(limit, symbol) if on_it else by.sheet.exceeds(symbol, limit)
    return f"{worked_value(of, symbol)}, {over[0] if beyond else over[1]} {worked_value(by, limit)}"
