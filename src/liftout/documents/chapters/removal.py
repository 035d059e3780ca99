"""Removal and refitting: the job's own steps, with what is dangerous before each, and the same steps undone."""

from __future__ import annotations

import re
from collections.abc import Iterator

from liftout.criteria.removability.removal_steps import VERBS, WAYS_IN
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import filled_for_good, lifted, weight_of
from liftout.documents.chapters.said import BLANK, NOT_SAID, absence, known, listed, results, said
from liftout.documents.holds import Hold, hold
from liftout.documents.mentions import mention_of
from liftout.documents.off_control import off_control, switch_off
from liftout.documents.part_numbers import Numbers
from liftout.documents.undone import UNKNOWN_UNDOING, undone
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
        "card": f"{matter.papers.number}-5",
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
    steps = printed_steps(out, facts)
    back, last = _undone(steps)
    tools = listed(out.tools, f"{NOT_SAID}: {out.place.missing('tools').what}")
    return {
        "name": out.name,
        "number": Numbers(facts).item(out.item),
        "persons": lifted(out.item, facts),
        "absent": absence(out.place),
        "weight": weight_of(out.item, facts),
        "facts": [
            ("Time for one person, with a second one for the lift" if lifted(out.item, facts) == "2" else "Time for one person", said(out.time)),
            ("Tools", tools),
            (
                "Persons who lift it",
                said(out.lift.persons) if out.lift.declined is None else f"not lifted by hand, because {out.lift.declined.value}",
            ),
            ("Caps and loose parts are kept in", said(out.stowed)),
        ],
        "breakers": [_breaker(circuit, out, facts) for circuit in dead_without(out.item, facts)],
        "holes": [
            {"name": opening.name, "blank": opening.blank.value, "number": Numbers(facts).blank(opening.name)}
            for opening in facts.openings
            if isinstance(opening.blank, Fact) and not filled_for_good(opening.name, facts) and not fitted_by_a_step(opening.blank.value, facts)
        ],
        "out_hold": hold(f"{out.name} out", "caps and blanks fitted, breakers marked, full and free travel of all flight controls"),
        "in_hold": hold(f"{out.name} in", "couplings, sockets and straps; full and free travel of all flight controls"),
        "off": switch_off(facts) if any(run.load is out.item for run in facts.runs) else "",
        "control": off_control(facts) if facts.runs else "",
        "whole": _beside(out, facts),
        "hottest": _hottest(out, facts),
        "gap": "" if steps else f"{NOT_SAID.capitalize()}: {out.place.missing('steps').what}.",
        "coolant": any(part.kind == "coolant line" for part in out.disconnections),
        "steps": [
            {"number": number, "text": _numbered(text, out, facts), "hold": _closing(text), **_dangers(steps, number)}
            for number, text in enumerate(steps, 1)
        ],
        "reverse": [{"number": number, "text": _refitted(text, out, facts), "hold": _closing(text)} for number, text in enumerate(back, 1)],
        "closing": [{"number": number, "text": text, "hold": _closing(text)} for number, text in enumerate(last, 1)],
    }


def _undone(steps: list[str]) -> tuple[list[str], list[str]]:
    """The steps undone from the last to the first, and those at the end that close a panel: they wait until all behind it was looked at."""
    back = [text for text in map(undone, reversed(steps)) if text]
    last: list[str] = []
    while back and _closing(back[-1]):
        last.insert(0, back.pop())
    return back, last


def _numbered(step: str, out: Removal, facts: Facts) -> str:
    """A step with the numbers of the caps and blanks that it names by their part numbers."""
    numbers = Numbers(facts)
    closures = [(numbers.closure(out, part), part.closed_by) for part in out.disconnections if part.kind != "strap"]
    closures += [(numbers.blank(opening.name), opening.blank) for opening in facts.openings]
    named = [number for number, closed in closures if isinstance(closed, Fact) and any(mark in step for mark in _marks(closed.value))]
    return f"{step.rstrip('.')} ({', '.join(named)})." if named else step


def _refitted(step: str, out: Removal, facts: Facts) -> str:
    """A step of the refitting: the item itself is placed as its drawing shows."""
    if step != f"Place the {out.name}.":
        return _numbered(step, out, facts)
    held = next(held for held in facts.restraints if held.item is out.item)
    shown = f", as {mention_of(f'restraint-{out.name}')} shows" if held.place.there and held.declined is None else ""
    return f"Place the {out.name} ({Numbers(facts).item(out.item)}){shown}."


def printed_steps(out: Removal, facts: Facts) -> list[str]:
    """The job's own steps without those that do no more than set a breaker of the item: all breakers are left and marked before the first step."""
    labels = [label for run in facts.runs if run.load is out.item and (label := run.protection.said_at("label"))]
    return [step.value for step in out.steps if not any(_only_sets(label, step.value) for label in labels)]


def words_of_steps(facts: Facts) -> Iterator[str]:
    """Every step as it is printed, done and undone, in the words of the job; what this chapter words itself is left out."""
    for out in facts.removals:
        steps = printed_steps(out, facts)
        yield from (_numbered(text, out, facts) for text in steps)
        yield from (_refitted(text, out, facts) for part in _undone(steps) for text in part if not text.startswith(("Place the ", UNKNOWN_UNDOING)))


def _only_sets(label: str, step: str) -> bool:
    return re.fullmatch(rf"(Set|Pull|Switch|Push) the {re.escape(label)} (breaker|fuse)( to (off|on))?\.", step) is not None


def _closing(step: str) -> Hold | None:
    """The hold point before a step that closes a panel, a door, a cover or a hatch."""
    way = WAYS_IN.match(step.lower())
    if way is None or way[1] != "close":
        return None
    return hold(f"before the {way[2]} is closed", "couplings, sockets, straps, caps, tools and flight controls behind it")


def fitted_by_a_step(blank: str, facts: Facts) -> bool:
    """Whether a removal step of the job fits a blank, known by its part number, or else by its last words."""
    marks = _marks(blank) or [" ".join(re.split(r" (?:on|in|of|for|at) ", blank)[0].split()[-2:])]
    return any(mark in step.value for mark in marks for out in facts.removals for step in out.steps)


def _marks(closure: str) -> list[str]:
    """Part numbers in the words for a cap or a blank."""
    return [word for word in closure.split() if re.search(r"[0-9]", word)]


def _breaker(circuit: DeadCircuit, out: Removal, facts: Facts) -> dict[str, str]:
    """A circuit that stays dead: how its breaker is left, what marks it, and which other items must be in before it is set again."""
    device = listed((word for word in (circuit.run.protection.said_at("label"), circuit.run.protection.said_at("device")) if word), circuit.run.name)
    beside = [
        other.name
        for other in facts.removals
        if other.item is not out.item and circuit.run.name in [one.run.name for one in dead_without(other.item, facts)]
    ]
    position, label = circuit.breaker or (None, None)
    return {
        "name": device.replace(", ", " "),
        "position": position.value if isinstance(position, Fact) and position.value != "on" else "",
        "label": label.value if isinstance(label, Fact) else "",
        "others": " and the ".join(beside),
        "be": "is" if len(beside) == 1 else "are",
        "gap": " and ".join(words for words, told in (("how it is left", position), ("what marks it", label)) if not isinstance(told, Fact)),
    }


def _beside(out: Removal, facts: Facts) -> str:
    """The other items of its loop, and the verb after them: while one is out, the loop is none."""
    others = [
        item.name
        for loop in facts.loops
        if loop.declined is None and out.item in loop.items
        for item in loop.items
        if item is not out.item and item.removable
    ]
    return f"{' and the '.join(dict.fromkeys(others))} {'is' if len(set(others)) == 1 else 'are'}" if others else ""


def _hottest(out: Removal, facts: Facts) -> str:
    """How hot the liquid of the item's loop gets; nothing where the job does not say."""
    told = (loop.hottest for loop in facts.loops if loop.declined is None and out.name in [item.name for item in loop.items])
    return next((said(one) for one in told if known(one)), "")


def _dangers(steps: list[str], number: int) -> dict[str, bool]:
    """Which warnings stand before a step: those of what it parts, the first time that a step names it."""
    words = {"coolant": VERBS["coolant line"], "socket": VERBS["electrical connector"], "strap": VERBS["strap"]}
    before = " ".join(steps[: number - 1]).lower()
    return {name: word in steps[number - 1].lower() and word not in before for name, word in words.items()}
