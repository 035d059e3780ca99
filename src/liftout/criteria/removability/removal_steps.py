"""Whether an item comes out as the job declares.

Requires: the removal of each removable item is written step by step: each breaker, in time, then each thing that parts and each closure.
Because: what only its installer knows how to take out stays in, or comes out with damage; a live connector arcs, an open line drips.
Method: steps that must be there, less those found by their words, counted; what is opened is closed again, and what is closed was opened.
Leaves out: whether the steps work on this aircraft, which a timed removal at the inspection shows, and the order of all steps but the breakers'.
"""

import re
from collections.abc import Collection

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

PARTS = re.compile(r"\b(?:disconnect|loosen|part|pull|release|remove|separate|take|undo|unplug|unscrew)")
"""What a step does that parts a connector, where others name its socket too."""


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
    breakers = [(label, _cut(removal, label, labels), _needs_it_off(removal, closures)) for label in labels]
    return {
        **{_breaker(label, cut, before): cut is not None and (before is None or cut < before[0]) for label, cut, before in breakers},
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


At = tuple[int, int]
"""Where something is named: the step, and how far into it."""


def _cut(removal: Removal, label: str, labels: list[str]) -> At | None:
    """Where the steps first set a breaker off."""
    return next(((n, step.value.index(label)) for n, step in enumerate(removal.steps) if _cuts(step.value, label, labels)), None)


def _needs_it_off(removal: Removal, closures: Collection[str]) -> tuple[At, str] | None:
    """Where the steps first do what no live circuit may see, and what that is: part a connector, or take the item out."""
    steps, socket = [step.value.lower() for step in removal.steps], VERBS["electrical connector"]
    naming = [(n, step) for n, step in enumerate(steps) if socket in step and not any(mark in step for mark in closures)]
    parting = next(((n, step.index(socket)) for n, step in naming if PARTS.search(step)), None)
    if parting is None and naming:
        parting = naming[-1][0], naming[-1][1].index(socket)
    out = [(n, step.index(" out")) for n, step in enumerate(steps) if removal.name.lower() in step and " out" in step]
    found = [*([(parting, "before the socket parts")] if parting else []), *([(out[-1], f"before the {removal.name} comes out")] if out else [])]
    return min(found, default=None)


def _breaker(label: str, cut: At | None, before: tuple[At, str] | None) -> str:
    """The step that sets a breaker off, in time where it is there but too late."""
    return f"set the breaker {label}{f' {before[1]}' if cut and before and cut >= before[0] else ''}"


def _named(way: str, others: tuple[str, ...]) -> bool:
    """Whether a way in is among others, where one of both may be told shorter: the tail access panel, the access panel."""
    return any(way.endswith(other) or other.endswith(way) for other in others)


def _begin(steps: list[str], word: str) -> int:
    return sum(step.split()[0] == word for step in steps)
