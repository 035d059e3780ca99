"""Whether an item comes out as the job declares.

Requires: the removal of each removable item is written step by step, with a step for each breaker, each thing that parts and each closure.
Because: what only its installer knows how to take out stays in, comes out with damage, or leaves a line open.
Method: steps that must be there, less those found by their words, counted; what is opened is closed again, and what is closed was opened.
Leaves out: whether the steps work on this aircraft, which a timed removal at the inspection shows.
"""

import re

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.removal import Removal, must_part
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined

VERBS = {
    "coolant line": "coolant",
    "electrical connector": "socket",
    "air duct": "duct",
    "drain": "condensate",
    "strap": "strap",
}
"""The word that a step must hold for each kind of thing that parts."""

WAYS_IN = re.compile(r"(open|close) (?:the )?((?:[\w-]+ )*?(?:panel|door|cover|hatch))\b")
"""A step that opens or closes a way to the item, and what it names: a valve may be closed that nobody opened, a panel may not."""


@criterion(each="removals")
def removal_steps(removal: Removal, facts: Facts) -> Finding:
    if removal.declined is not None:
        return declined(removal.declined)
    sheet = Worksheet()
    if not removal.place.there:
        sheet.needs(removal.place.silence)
    if not removal.steps:
        sheet.needs(removal.place.missing("steps"))
    if not removal.tools:
        sheet.needs(removal.place.missing("tools"))
    sheet.needs(removal.time, removal.stowed)
    wanted = _wanted(removal, facts)
    absent = [what for what, there in wanted.items() if not there]
    sheet.count("n_wanted", len(wanted), "steps that must be there", removal.place)
    sheet.count("n_found", len(wanted) - len(absent), "of these, found by their words", removal.place)
    sheet.work("n_absent", "n_wanted - n_found", "steps that are not there", places=0)
    return sheet.at_most("n_absent", 0, case={"without a step": ", ".join(absent)} if absent else {})


def _wanted(removal: Removal, facts: Facts) -> dict[str, bool]:
    """What the steps must do, and whether one does it."""
    steps = [step.value.lower() for step in removal.steps]
    marks = [mark for part in removal.disconnections if isinstance(part.closed_by, Fact) for mark in _marks(part.closed_by.value)]
    closures = {mark.lower(): mark for mark in marks}
    parting = [step for step in steps if not any(mark in step for mark in closures)]
    kinds = dict.fromkeys([*(part.kind for part in removal.disconnections), *must_part(removal, facts)])
    opened, closed = (tuple(found[2] for found in map(WAYS_IN.match, steps) if found and found[1] == verb) for verb in ("open", "close"))
    labels = [label for run in facts.runs if run.load is removal.item and (label := run.protection.said_at("label"))]
    return {
        **{f"set the breaker {label}": any(_cuts(step.value, label, labels) for step in removal.steps) for label in labels},
        **{f"part the {kind}": any(VERBS[kind] in step for step in parting) for kind in kinds},
        **{f"fit {closures[mark]}": any(mark in step for step in steps) for mark in sorted(closures)},
        f"take the {removal.name} out": any(removal.name.lower() in step and " out" in step for step in steps),
        **{f"open the {way}": _named(way, opened) for way in closed},
        "close what was opened": _begin(steps, "close") >= _begin(steps, "open") and all(_named(way, closed) for way in opened),
    }


def _marks(closure: str) -> list[str]:
    """The words by which a step that fits a closure is known: its part number, else its name; a self-sealing half needs no step."""
    parts = [part for part in re.split(r",| and ", closure) if not part.strip().lower().startswith("self-sealing")]
    return [
        next((word for word in part.split() if re.search(r"[0-9]", word)), re.split(r" (?:on|in|of|for|at) ", part)[0].split()[-1]) for part in parts
    ]


def _cuts(step: str, label: str, labels: list[str]) -> bool:
    """Whether a step names this label as it is written, and not a longer one that holds it, and does not switch on again."""
    longer = [other for other in labels if label in other and other != label]
    return label in step and not any(other in step for other in longer) and not step.rstrip(".").endswith(" on")


def _named(way: str, others: tuple[str, ...]) -> bool:
    """Whether a way in is among others, where one of both may be told shorter: the tail access panel, the access panel."""
    return any(way.endswith(other) or other.endswith(way) for other in others)


def _begin(steps: list[str], word: str) -> int:
    return sum(step.split()[0] == word for step in steps)
