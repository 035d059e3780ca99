"""Before panels close: what cannot be seen afterwards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from liftout.documents.blocks import ChecklistRow
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.passthroughs import outline
from liftout.documents.chapters.said import BLANK, MAKERS, known, published, said, said_at, text, worded
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.facts.lines import Loop
from liftout.tables import table

clearances, supports, conditions = table("clearances"), table("line_supports"), table("line_conditions")

ROUTE: Final = "along its whole route"


def closing(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    found = {
        "Openings, outside parts and anchors": [*_openings(facts), *_outside(facts), *_anchors(facts)],
        "Circuits": [row for run in facts.runs for row in _circuit(run)],
        "Lines": [row for loop in facts.loops if loop.declined is None for row in _line(loop)],
        "Last look": [_last()],
    }
    return {"parts": [{"title": title, "rows": rows} for title, rows in found.items() if rows]}


def _openings(facts: Facts) -> Iterator[ChecklistRow]:
    for opening in facts.openings:
        where, drawing = f"through the {opening.through}", f"drawing {said_at(opening.place, 'drawing')}"
        yield ChecklistRow(f"Opening {opening.name}: size", where, "measure", f"expected {outline(opening, facts)}", drawing, hold=True)
        yield ChecklistRow(
            f"Opening {opening.name}: reinforcement, edge distance, sealing",
            where,
            "look and measure",
            f"as in the data of the licensed person: {BLANK}",
            "data of the licensed person",
            hold=True,
        )


def _outside(facts: Facts) -> Iterator[ChecklistRow]:
    for part in facts.outside_parts:
        yield ChecklistRow(
            f"Outside part {part.name}: what lies behind it",
            "from the part aft, as the air flows",
            "look",
            "no inlet, probe, propeller or control surface where ice that breaks off it could strike, or as the licensed person decides",
            "common practice, no source",
        )


def _anchors(facts: Facts) -> Iterator[ChecklistRow]:
    for held in facts.restraints:
        for strap in held.straps:
            where = f"{said(strap.led_to)}, {held.item.name}"
            yield ChecklistRow(
                f"Anchor of strap {strap.name}: fasteners and their torque", where, "look; torque wrench", MAKERS, "data of the anchor", hold=True
            )


def _circuit(run: Run) -> Iterator[ChecklistRow]:
    control, above, near = (
        clearances.row(key) for key in ("wire near a movable control", "wire above a flammable or oxygen line", "wire near a line")
    )
    conductor = run.place.part("conductor")
    name = f"Circuit {run.name}"
    insulation = worded("expected gauge {}, {}, insulation {}", run.gauge, conductor.word("material"), run.insulation_rating)
    yield ChecklistRow(f"{name}: wire", ROUTE, "read the marking of the wire", insulation, hold=True)
    yield ChecklistRow(
        f"{name}: distance from movable controls",
        ROUTE,
        "ruler, light hand pressure, controls over full travel",
        published("at least", control.distance),
        control.citation,
        hold=True,
        second_person=True,
    )
    yield ChecklistRow(
        f"{name}: distance from lines",
        ROUTE,
        "look; ruler",
        f"above each line; {text(above.distance.quantity)}, or {published('at least', near.distance)} and not parallel",
        near.citation,
        hold=True,
    )
    yield ChecklistRow(
        f"{name}: terminals", "both ends", "look; torque wrench", f"crimp whole; torque, {MAKERS}", "AC 43.13-1B pars 11-174 to 11-178", hold=True
    )
    yield ChecklistRow(f"{name}: protection", f"wire from the {run.source}", "look; ruler", _protection(run), hold=True)


def _protection(run: Run) -> str:
    if run.protection_declined is not None:
        return f"none, because {run.protection_declined.value}"
    protection = run.place.part("protection")
    return worded("expected {}, {}, {} from the source", *(protection.word(field) for field in ("device", "rating", "from_source")))


def _line(loop: Loop) -> Iterator[ChecklistRow]:
    hose, slack = supports.row("flexible hose"), conditions.row("hose slack")
    cable, rod = clearances.row("line near a flexible moving control"), clearances.row("line near a rigid moving control")
    for name, part in loop.place.each("segments").items():
        line = f"Line {name}"
        if part.said_at("kind") == "hose":
            yield ChecklistRow(f"{line}: supports", ROUTE, "ruler", f"{published('at most', hose.spacing)} apart", hose.citation, hold=True)
            share = f"{text(slack.least.quantity)} to {text(slack.most.quantity)} of the {slack.of.text}"
            yield ChecklistRow(f"{line}: slack and twist", ROUTE, "look; ruler", f"{share}; no twist", slack.citation, hold=True)
        else:
            yield ChecklistRow(f"{line}: supports", ROUTE, "ruler", MAKERS, "by its outside diameter", hold=True)
        smallest = part.quantity("smallest_bend")
        bend = f"at least {said(smallest)}" if known(smallest) else MAKERS
        yield ChecklistRow(f"{line}: smallest bend radius", "each bend", "radius gauge", bend, "by the specification of the line", hold=True)
        yield ChecklistRow(
            f"{line}: fittings", f"at the {part.said_at('begins')} and the {part.said_at('ends')}", "torque wrench", f"torque, {MAKERS}", hold=True
        )
        distance = f"{published('at least', cable.distance)} from cables, {published('at least', rod.distance)} from rigid parts"
        yield ChecklistRow(
            f"{line}: distance from flight controls",
            ROUTE,
            "ruler, controls over full travel",
            distance,
            f"{cable.citation}, for want of one for coolant",
            hold=True,
            second_person=True,
        )


def _last() -> ChecklistRow:
    return ChecklistRow(
        "Tools, swarf and loose parts",
        "behind each panel that was opened",
        "look, count the tools",
        "none left behind",
        "common practice, no source",
        hold=True,
        second_person=True,
    )
