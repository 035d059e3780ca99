"""What happens when something of the equipment fails, from the names, placards and circuits of the job."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import BLANK, NOT_SAID, absence, known, listed, said, worded, worked_value
from liftout.documents.checklist import CHECKLIST_LINE, Line
from liftout.documents.effects import Effect, effects
from liftout.documents.off_control import first_action, switch_off
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run, Source
from liftout.facts.equipment import Item
from liftout.facts.lines import Loop
from liftout.facts.restraint import Restraint
from liftout.worked.fluids.liquid_fill import liquid_fill

LEAST_ACTIONS, MOST_ACTIONS = 2, 5
"""Lines of a failure on the pilot's pages."""


@dataclass(frozen=True, slots=True)
class Failure:
    """One failure. `actions` are what a pilot reads: the first switches off what the failure is of, where that has a circuit."""

    kind: str
    title: str
    happens: str
    seen: str
    stays: str
    rests: str
    actions: tuple[str, ...]

    @property
    def first(self) -> str:
        """The first action."""
        return self.actions[0]


KINDS = (
    ("breaker", "Protection opens"),
    ("power", "Loss of power"),
    ("leak", "Leak of a loop"),
    ("strap", "Strap loosened"),
    ("fan", "Fan stopped"),
    ("source", "Failure of a source"),
)
"""Kinds of failures, in the order of print."""


def failures(matter: Matter) -> Values:
    """What the chapter prints."""
    found = list(all_failures(matter.facts, matter.papers.number))
    return {
        "kinds": [
            {
                "title": title,
                "absent": _absent(kind, matter.facts),
                "failures": [
                    {
                        "title": failure.title,
                        "pairs": [
                            ("What happens", failure.happens),
                            ("What the crew sees", failure.seen),
                            ("First action", failure.first),
                            ("What stays", failure.stays),
                            ("From", failure.rests),
                        ],
                    }
                    for failure in found
                    if failure.kind == kind
                ],
            }
            for kind, title in KINDS
        ],
        "effects": [
            (f"{effect.title}. {effect.happens}", effect.seen, " ".join(effect.actions), looked_at(effect, matter.checklist_lines), BLANK)
            for effect in effects(matter.facts)
            if effect.applies
        ],
        "checklist_number": f"{matter.papers.number}-3",
        "without": [(effect.title, effect.absent) for effect in effects(matter.facts) if not effect.applies],
        "blank": BLANK,
    }


def looked_at(effect: Effect, lines: Sequence[Line]) -> str:
    """The lines of the checklist that look at an effect: the first of each kind, and how many more are like it."""
    told = []
    for pattern in effect.checked:
        found = [line for line in lines if re.search(pattern, f"{line.row.item} | {line.row.where}")]
        if found:
            more = f" and {len(found) - 1} more like it" if len(found) > 1 else ""
            told.append(f"{CHECKLIST_LINE} {found[0].number}: {found[0].row.item}{more}")
    return "; ".join(told) or f"{NOT_SAID}: the job names nothing that the checklist could look at"


def all_failures(facts: Facts, number: str) -> Iterator[Failure]:
    """Every failure of the job; `number` is the docket's."""
    off = switch_off(facts)
    for run in facts.runs:
        if run.protection_declined is None:
            yield _opened(run, facts, off)
    for item in facts.powered_items:
        if fed := [run for run in facts.runs if run.load is item]:
            yield _stopped(item, fed, facts, off)
    for loop in facts.loops:
        if loop.declined is None:
            yield _leaking(loop, facts, off, number)
    for held in facts.restraints:
        if held.straps:
            yield _loose(held, facts)
    for loop in facts.loops:
        if loop.declined is None:
            yield from _fans(loop, facts, off)
    for source in facts.sources:
        if fed := [run for run in facts.runs if run.source == source.name]:
            yield _failed(source, fed, facts, off, number)


def _absent(kind: str, facts: Facts) -> str:
    """Why a kind of failure cannot happen, or why nothing can be told of it."""
    if kind == "leak":
        return absence(facts.place.part("lines")) or "Not applicable, because the job names no filled loop."
    if kind == "fan":
        return absence(facts.place.part("lines")) or "Not applicable, because no powered item of a loop stands apart from its pump."
    if kind == "strap":
        return "Not applicable, because the job names no strap."
    return absence(facts.wiring) or "Not applicable, because the job names no circuit."


def _where(*facts: object) -> str:
    return listed(dict.fromkeys(fact.origin for fact in facts if isinstance(fact, Fact)), "names of the job")


def _doing(item: Item, facts: Facts) -> str:
    """What stops with an item."""
    pumped = _pumped(item, facts)
    return f"The {item.name} stops" + (f", and with it the pump of the {listed(pumped, '')}." if pumped else ".")


def _stopping(run: Run, beside: list[Run], facts: Facts) -> str:
    """What stops when one circuit of an item is dead; where others feed it too, nobody told which part of it each feeds."""
    if not beside:
        return _doing(run.load, facts)
    name, loops = run.load.name, listed(_pumped(run.load, facts), "")
    return f"What circuit {run.name} feeds of the {name} stops. The job does not tell which part that is." + (
        f" The pump of the {loops} may stop with it." if loops else ""
    )


def _pumped(item: Item, facts: Facts) -> list[str]:
    """Loops whose pump an item holds."""
    return [loop.name for loop in facts.loops if loop.declined is None and loop.pump.there and loop.pump.said_at("item") == item.name]


def _others(dead: Sequence[Run], facts: Facts) -> str:
    return listed((f"{run.load.name} on circuit {run.name}" for run in facts.runs if run not in dead), "no other item")


def _opened(run: Run, facts: Facts, off: str) -> Failure:
    protection = run.place.part("protection")
    label, rating, device = protection.word("label"), protection.word("rating"), protection.word("device")
    name = said(label) if known(label) else BLANK
    beside = [other for other in facts.runs if other.load is run.load and other is not run]
    still = f"Of the {run.load.name} a part is still, or all of it." if beside else f"The {run.load.name} is still."
    out = (
        f"The button of {name} stands out."
        if isinstance(device, Fact) and device.value == "breaker"
        else f"The protection of circuit {run.name} gives no sign of its own."
    )
    return Failure(
        "breaker",
        f"{name} opens: circuit {run.name}",
        f"{_stopping(run, beside, facts)} {worded('The {} opens at more than {}.', device, rating)}",
        f"{out} {still}",
        f"Still fed: {_others([run], facts)}. Weight and balance do not change.",
        _where(label, rating, device),
        (
            off,
            f"Leave {name} open for the rest of the flight.",
            "Look for smoke, a smell and liquid.",
            "Write the event into the aircraft records after landing.",
        ),
    )


def _stopped(item: Item, fed: list[Run], facts: Facts, off: str) -> Failure:
    names = listed((run.name for run in fed), "")
    dead = f"Circuit {names} carries nothing" if len(fed) == 1 else f"None of its circuits {names} carries anything"
    return Failure(
        "power",
        f"The {item.name} loses power",
        f"{_doing(item, facts)} {dead}: a socket, a wire or the bus is open.",
        f"The {item.name} is still; no protection has opened.",
        f"Still fed: {_others(fed, facts)}. Weight and balance do not change.",
        _where(item.place.word("description"), *(run.gauge for run in fed)),
        (
            off,
            "Look for smoke, a smell and liquid.",
            "Leave the equipment off until its sockets and wires are inspected.",
        ),
    )


def _leaking(loop: Loop, facts: Facts, off: str, number: str) -> Failure:
    fill = liquid_fill(facts.filled(loop), facts)
    items = listed((item.name for item in loop.items), "no item named")
    return Failure(
        "leak",
        f"The {loop.name} leaks",
        f"Up to {worked_value(fill, 'V')} of {said(loop.kind)} and water runs out along the lines or at: {items}. The liquid may be as hot as {said(loop.hottest)}. "
        "Beside silver that carries direct current it can start a fire.",
        "Liquid or a sweet smell (common practice, no source). The job names no gauge that shows it.",
        f"The rest of the liquid. Filled and drained are both assessed states: amendment {number}-2.",
        _where(loop.kind, loop.hottest, *(segment.inside_diameter for segment in loop.segments)),
        (
            off,
            "If smoke appears, use the smoke procedure of the flight manual.",
            "Keep the liquid off skin, eyes and food.",
            "Leave the equipment off until wires and contacts below the leak are inspected.",
            "Put the record of the state that now holds in force after landing.",
        ),
    )


def _loose(held: Restraint, facts: Facts) -> Failure:
    item = held.item
    names = listed((strap.name for strap in held.straps), "")
    return Failure(
        "strap",
        f"A strap of the {item.name} loosens",
        f"The {item.name} may move. Straps that hold it: {names}. How far it is held with one of them off: chapter Equipment placing and restraint of the manual.",
        f"The {item.name} moves or rattles. The job names no other sign.",
        f"The other straps, and what stands on the floor. Weight does not change; the arm does when the {item.name} has moved.",
        _where(*(strap.led_to for strap in held.straps)),
        (
            first_action(item, facts),
            f"Keep persons and loose baggage clear of the {item.name}.",
            "Do not unfasten another strap in flight.",
            "After landing, look at each strap and its anchor.",
        ),
    )


def _fans(loop: Loop, facts: Facts, off: str) -> Iterator[Failure]:
    pump = loop.pump.said_at("item") if loop.pump.there else None
    for item in loop.items:
        if item.name != pump and item in facts.powered_items and any(run.load is item for run in facts.runs):
            yield Failure(
                "fan",
                f"The {item.name} stands still in the {loop.name}",
                f"Heat stays in the {loop.name}. The highest temperature of the liquid that was assessed: {said(loop.hottest)}.",
                f"Cooling fades. The {item.name} ({item.description}) is still. The job names no gauge of temperature.",
                f"The {loop.serves.name if loop.serves else 'rest of the loop'} runs on until it is switched off. Weight and balance do not change.",
                _where(loop.hottest, item.place.word("description")),
                (
                    off,
                    "Leave the equipment off for the rest of the flight.",
                    "Let the loop cool before you touch a line.",
                ),
            )


def _failed(source: Source, fed: list[Run], facts: Facts, off: str, number: str) -> Failure:
    battery = facts.electrical.part("battery").quantity("capacity")
    return Failure(
        "source",
        f"The {source.name} fails",
        f"The battery feeds everything that is still on: circuits {listed((run.name for run in fed), '')} and the loads that were there before.",
        f"The job says how the crew sees an overload: {said(source.monitoring)}. How it sees a failure stands in the flight manual.",
        f"Battery: {said(battery)}. The loads that were there before: chapter Electrical load analysis. How long the battery lasts: calculation record {number}-4.",
        _where(source.rating, source.monitoring, battery),
        (
            off,
            f"Use the procedure of the flight manual for a failed {source.name}.",
            "Leave the equipment off for the rest of the flight.",
        ),
    )
