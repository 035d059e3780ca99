"""Parts and consumables: items, hardware, wires and lines with their lengths, caps, coolant."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.lines import fitted_parts, size
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import MAKERS, NOT_SAID, NOTHING, absence, listed, or_blank, said, said_at, worded, worked_value
from liftout.documents.part_numbers import Numbers
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.equipment import Item
from liftout.facts.structure import Bracket
from liftout.worked.electrical.cut_length import cut_length
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.fluids.liquid_fill import liquid_fill


def parts(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    wiring, lines = facts.place.part("wiring"), facts.place.part("lines")
    numbers = Numbers(facts)
    return {
        "items": [
            (
                numbers.item(item),
                item.name,
                identity_of(item),
                "no" if item.removable else "yes",
                said(item.mass_dry),
                worked_value(filled_mass(item, facts), "m"),
            )
            for item in facts.items
        ],
        "holding": [(item.name, listed((loop.name for loop in held), "")) for item in facts.items if (held := facts.lines_held_by(item))],
        "descriptions": [(item.name, item.description, _size(item)) for item in facts.items],
        "hardware": list(_hardware(facts)),
        "brackets": [_bracket(bracket, numbers) for bracket in facts.brackets],
        "straps": [(held.item.name, strap.name, said(strap.led_to), said(strap.rating)) for held in facts.restraints for strap in held.straps],
        "wiring_absent": absence(wiring) or ("" if facts.runs else f"{NOT_SAID.capitalize()}: describe the circuits."),
        "wires": [_wires(run, facts) for run in facts.runs],
        "protections": [_protection(run) for run in facts.runs],
        "lines_absent": absence(lines) or ("" if facts.loops else f"{NOT_SAID.capitalize()}: describe the loops."),
        "lines": list(_lines(facts, numbers)),
        "ordered": list(_ordered(facts)),
        "caps": list(caps(facts)),
        "coolants": list(coolants(facts)),
        "makers": MAKERS,
    }


def _size(item: Item) -> str:
    """Length, width and height, or why there is no box."""
    if item.without_box is not None:
        return f"not applicable, because {item.without_box.value}"
    return worded("{} × {} × {}", item.length, item.width, item.tall)


def _hardware(facts: Facts) -> Iterator[tuple[str, str, str]]:
    for item in facts.items:
        named = item.place.said_at("hardware") or {}
        yield from ((item.name, name, description) for name, description in named.items())


def _bracket(bracket: Bracket, numbers: Numbers) -> tuple[str, ...]:
    """A bracket with the fasteners that hold it."""
    held = (
        "a clamp, with no fastener through the structure"
        if bracket.clamped
        else worded("{} {}, {} head", bracket.fastener, bracket.size, bracket.head)
    )
    each = NOTHING if bracket.clamped else str(len(bracket.fasteners))
    return (numbers.bracket(bracket), bracket.item.name, bracket.label, said(bracket.alike), held, each)


def filled_for_good(opening: str, facts: Facts) -> bool:
    """Whether a line or a circuit passes an opening: both stay, and what seals them there stays with them."""
    passing = [run.place for run in facts.runs] + [segment.place for loop in facts.loops for segment in loop.segments]
    return any(opening in (place.said_at("passes") or ()) for place in passing)


def lifted(item: Item, facts: Facts) -> str:
    """How many persons lift an item: "1" or "2"; empty where the job does not say it, or no hand lifts it."""
    out = next((out for out in facts.removals if out.item is item), None)
    return out.lift.persons.value if out is not None and out.lift.declined is None and isinstance(out.lift.persons, Fact) else ""


def weight_of(item: Item, facts: Facts) -> str:
    """Weight of an item with its liquid, for a warning; nothing where it could not be worked."""
    sheet = filled_mass(item, facts)
    return worked_value(sheet, "m") if sheet.sheet is not None else ""


def identity_of(item: Item) -> str:
    """Part and serial number of an item in one cell."""
    return worded("{}, {}", item.place.word("part_number"), item.place.word("serial"))


def wires_of(run: Run) -> str:
    """How many wires a circuit takes."""
    if not isinstance(run.return_path, Fact):
        return said(run.return_path)
    return "two: out and back" if run.return_path.value == "wire" else "one: the structure returns"


def _wires(run: Run, facts: Facts) -> tuple[str, ...]:
    conductor = run.place.part("conductor")
    return (
        run.name,
        wires_of(run),
        f"{worded('gauge {}, {}', run.gauge, conductor.word('material'))}; {said_at(conductor, 'specification')}",
        said(run.length),
        worked_value(cut_length(run, facts), "L_cut"),
        said(run.insulation_rating),
    )


def _protection(run: Run) -> tuple[str, ...]:
    protection = run.place.part("protection")
    if run.protection_declined is not None:
        return (run.name, f"none, because {run.protection_declined.value}", "none", "none", "none", said_at(run.place, "connector"))
    return (run.name, *(said_at(protection, field) for field in ("device", "rating", "label", "from_source")), said_at(run.place, "connector"))


def _lines(facts: Facts, numbers: Numbers) -> Iterator[tuple[str, ...]]:
    for loop in facts.loops:
        for segment in loop.segments:
            place = segment.place
            yield (
                numbers.line(loop, segment),
                loop.name,
                segment.name,
                said_at(place, "kind"),
                place.said_at("part_number") or NOTHING,
                size(segment),
                said(segment.length),
                *(said_at(place, field) for field in ("begins", "ends")),
            )


def _ordered(facts: Facts) -> Iterator[tuple[str, ...]]:
    """Fittings and clamps of the lines, and the devices between them."""
    for loop in facts.running_loops:
        yield from ((loop.name, *part) for part in fitted_parts(loop))
        yield from ((loop.name, "loop", device.name, device.place.said_at("part_number") or NOTHING, said(device.number)) for device in loop.devices)


def caps(facts: Facts) -> Iterator[tuple[str, str, str, str]]:
    """What closes each thing that parts and each hole that stays: number, for what, where, closed by."""
    numbers = Numbers(facts)
    for removal in facts.removals:
        yield from (
            (numbers.closure(removal, part), f"{part.name} ({part.kind})", removal.name, or_blank(part.closed_by))
            for part in removal.disconnections
            if part.kind != "strap"
        )
        if not removal.disconnections and not isinstance(removal.nothing_parts, Fact):
            yield (
                NOTHING,
                "what parts",
                removal.name,
                said(removal.nothing_parts) if removal.declined is None else f"not applicable, because {removal.declined.value}",
            )
    for opening in facts.openings:
        yield (numbers.blank(opening.name), opening.name, f"hole through the {opening.through}", said(opening.blank))


def coolants(facts: Facts) -> Iterator[tuple[str, ...]]:
    """Coolant of each loop: kind, share, glycol and water, quantity, weight."""
    for loop in facts.loops:
        if loop.declined is None:
            fill = liquid_fill(facts.filled(loop), facts)
            yield (
                loop.name,
                said(loop.kind),
                worded("{} by {}", loop.fraction, loop.basis),
                worked_value(fill, "G"),
                worked_value(fill, "W"),
                worked_value(fill, "V"),
                worked_value(fill, "m"),
            )
