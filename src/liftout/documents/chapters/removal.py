"""Removal and refitting: the job's own steps, with what is dangerous before each, and the same steps undone."""

from __future__ import annotations

from liftout.criteria.removability.removal_steps import VERBS
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import weight_of
from liftout.documents.chapters.said import BLANK, NOT_SAID, absence, known, listed, results, said, worded
from liftout.documents.off_control import switch_off
from liftout.facts import Fact, Facts
from liftout.facts.electrical_state import DeadCircuit, dead_without
from liftout.facts.removal import Removal
from liftout.facts.states import State


def removal(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    return {
        "blank": BLANK,
        "state_head": ("State", *state_columns(facts)),
        "states": [state_row(state, facts) for state in facts.states],
        "items": [_item(out, facts) for out in facts.removals],
        "amendment": f"{matter.papers.number}-2",
        "results": results(matter.findings(["removability"])),
    }


def state_columns(facts: Facts) -> tuple[str, ...]:
    """What is told of a state; of loops where the job has one."""
    return ("Items in", "Loops filled") if _loops(facts) else ("Items in",)


def state_row(state: State, facts: Facts) -> tuple[str, ...]:
    """A state: its name, the items that are in, the loops that are filled where the job has one."""
    row = (state.name, listed((item.name for item in state.items), "none"))
    return (*row, listed((loop.name for loop in state.filled), "none")) if _loops(facts) else row


def _loops(facts: Facts) -> bool:
    return any(loop.declined is None for loop in facts.loops)


def _item(out: Removal, facts: Facts) -> Values:
    steps = [step.value for step in out.steps]
    tools = listed(out.tools, f"{NOT_SAID}: {out.place.missing('tools').what}")
    return {
        "name": out.name,
        "absent": absence(out.place),
        "weight": weight_of(out.item, facts),
        "facts": [
            ("Time, timed with one person" if _lifters(out) > 1 else "Time for one person", said(out.time)),
            ("Tools", tools),
            (
                "Persons who lift it",
                said(out.lift.persons) if out.lift.declined is None else f"not lifted by hand, because {out.lift.declined.value}",
            ),
            ("Caps and loose parts are kept in", said(out.stowed)),
        ],
        "breakers": [_breaker(circuit) for circuit in dead_without(out.item, facts)],
        "off": switch_off(facts) if any(run.load is out.item for run in facts.runs) else "",
        "hottest": _hottest(out, facts),
        "gap": "" if steps else f"{NOT_SAID.capitalize()}: {out.place.missing('steps').what}.",
        "coolant": any(part.kind == "coolant line" for part in out.disconnections),
        "steps": [{"number": number, "text": text, **_dangers(steps, number)} for number, text in enumerate(steps, 1)],
        "reverse": [
            {"number": number, "undoes": undoes, "text": text, "closes": text.lower().startswith("open")}
            for number, (undoes, text) in enumerate(reversed(list(enumerate(steps, 1))), 1)
        ],
    }


def _breaker(circuit: DeadCircuit) -> tuple[str, str]:
    """A circuit that stays dead, and how its breaker is left."""
    if circuit.breaker is None:
        return circuit.run.name, f"{NOT_SAID}: say how the breaker of {circuit.run.name} is left and marked"
    return circuit.run.name, worded("{}, marked by the {}", *circuit.breaker)


def _hottest(out: Removal, facts: Facts) -> str:
    """How hot the liquid of the item's loop gets; nothing where the job does not say."""
    told = (loop.hottest for loop in facts.loops if loop.declined is None and out.name in [item.name for item in loop.items])
    return next((said(one) for one in told if known(one)), "")


def _lifters(out: Removal) -> int:
    """Persons who lift an item; one where none is said to."""
    return int(out.lift.persons.value) if isinstance(out.lift.persons, Fact) and out.lift.declined is None else 1


def _dangers(steps: list[str], number: int) -> dict[str, bool]:
    """Which warnings stand before a step: those of what it parts, the first time that a step names it."""
    words = {"coolant": VERBS["coolant line"], "socket": VERBS["electrical connector"], "strap": VERBS["strap"]}
    before = " ".join(steps[: number - 1]).lower()
    return {name: word in steps[number - 1].lower() and word not in before for name, word in words.items()}
