"""Instructions for continued airworthiness: every heading, each with content from the job or why it does not apply."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import coolants
from liftout.documents.chapters.said import BLANK, LINE, MAKERS, NOT_SAID, absence, listed, said, said_at
from liftout.documents.chapters.structure import anchors
from liftout.documents.off_control import off_control
from liftout.facts import Fact, Facts
from liftout.facts.upkeep import Upkeep

TROUBLES = (
    ("An item does not run", "its breaker, its socket, voltage at its terminals", "Electrical"),
    ("A breaker opens again", "damaged wires, a load that draws more than the job says", "Electrical"),
    ("An item moves", "straps, their anchors, contacts with the floor", "Equipment placing and restraint"),
    ("Removal does not go as written", "the job file, which must then be corrected", "Removal and refitting"),
)
OF_LOOPS = (
    ("Liquid outside the loop", "couplings, hoses, clamps; wires and contacts below", "Lines"),
    ("The flow is low", "kinks, couplings not fully home, glycol concentration", "Lines"),
)

OF_CIRCUITS = ("calibrated crimp tool", "bonding tester", "clamp meter", "voltmeter")
TO_LOOPS = ("refractometer", "pressure gauge", "flow meter", "can for liquid")
OF_BRACKETS = ("torque wrench", "drill with pilot drill", "steel rule")


def continued(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    filled = [loop for loop in facts.loops if loop.declined is None]
    return {
        "blank": BLANK,
        "off": off_control(facts) if facts.runs else BLANK,
        "makers": MAKERS,
        "items": [{"name": item.name, "description": item.description} for item in facts.items],
        "controls": list(_controls(facts)),
        "coolants": list(coolants(facts)),
        "tasks": [(what, how, LINE) for what, how in _tasks(facts)],
        "upkeep": [_upkeep(part) for part in facts.upkeep],
        "troubles": [*TROUBLES, *(OF_LOOPS if filled else ())],
        "removals": [{"name": out.name, "time": said(out.time)} for out in facts.removals],
        "anchors": list(anchors(facts)),
        "tools": list(_tools(facts)),
        "commuter": _commuter(facts),
        "shop": matter.shop,
        "amendment": f"{matter.papers.number}-2",
    }


def _controls(facts: Facts) -> Iterator[tuple[str, str, str, str]]:
    for item in facts.items:
        if item.demand.declined is not None:
            yield (item.name, "none", "none", f"not applicable, because {item.demand.declined.value}")
            continue
        fed = [run for run in facts.runs if run.load is item]
        labels = (said_at(run.place.part("protection"), "label") for run in fed)
        nothing = f"{NOT_SAID}: describe the circuit that feeds it"
        yield (item.name, listed((run.name for run in fed), nothing), listed(labels, nothing), said(item.demand.phases))


def _tasks(facts: Facts) -> Iterator[tuple[str, str]]:
    for held in facts.restraints:
        if held.straps:
            yield (
                f"Straps of the {held.item.name}: {listed((strap.name for strap in held.straps), '')}",
                "look for cuts, fraying, loose stitches; pull by hand",
            )
    for run in facts.runs:
        yield (f"Circuit {run.name}", "look for chafing and heat; operate its breaker")
    for loop in facts.loops:
        if loop.declined is None:
            yield (f"Lines of the {loop.name}", "look for leaks, kinks and chafing; measure the glycol concentration")
    for out in facts.removals:
        for part in out.disconnections:
            if part.kind != "strap":
                closed = f"; check that it is closed by {said(part.closed_by)}" if isinstance(part.closed_by, Fact) else ""
                yield (f"{part.name} of the {out.name}", f"look at the parting faces{closed}")
    for opening in facts.openings:
        yield (f"Opening {opening.name}", "look for cracks and corrosion at its edge; fit its blank once")
    yield ("Bonds", "measure with a bonding tester")
    yield ("Placards", "read each; renew what is not legible")


def _upkeep(part: Upkeep) -> tuple[str, ...]:
    """A kind of part, its interval and criterion, and what both rest on."""
    if absent := absence(part.place):
        return (
            part.name,
            absent if part.place.declined else LINE,
            LINE if not part.place.declined else "",
            NOT_SAID if not part.place.declined else "",
        )
    evidence = part.every.evidence if isinstance(part.every, Fact) else NOT_SAID
    return (part.name, said(part.every), said(part.criterion), evidence)


def _tools(facts: Facts) -> Iterator[str]:
    for out in facts.removals:
        yield f"{out.name}, removal: {listed(out.tools, f'{NOT_SAID}: name the tools')}."
    if facts.runs:
        yield f"Circuits: {', '.join(OF_CIRCUITS)}."
    if any(loop.declined is None for loop in facts.loops):
        yield f"Loops: {', '.join(TO_LOOPS)}."
    if not facts.removals and not facts.runs:
        yield f"{NOT_SAID.capitalize()}: name the tools."


def work_tools(facts: Facts) -> Iterator[str]:
    """Tools that the work takes whichever items lift out."""
    if facts.runs:
        yield from OF_CIRCUITS
    if any(loop.declined is None for loop in facts.loops):
        yield from TO_LOOPS
    if facts.brackets:
        yield from OF_BRACKETS


def _commuter(facts: Facts) -> str:
    category = facts.aircraft.basis.category
    if isinstance(category, Fact) and category.value != "commuter":
        return f"Not applicable, because the aircraft is flown in the {category.value} category ({category.origin})."
    return f"Category: {said(category)}."
