"""Pass-throughs: openings that stay in the aircraft."""

from __future__ import annotations

from collections.abc import Sequence

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import filled_for_good
from liftout.documents.chapters.said import BLANK, NOT_SAID, absence, known, results, said, said_at, sentence, worded, worked_value
from liftout.documents.holds import hold
from liftout.documents.mentions import mention
from liftout.documents.part_numbers import Numbers
from liftout.facts import Fact, Facts, Missing
from liftout.facts.doublers import Doubler
from liftout.facts.removal import Opening
from liftout.figures.doubler import doubler_drawings, without_template
from liftout.figures.drawing import Drawing
from liftout.figures.outside_parts import outside_part_drawings
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.air_load import air_load
from liftout.worked.structure.outside_part_pull import outside_part_pull
from liftout.worked.structure.rivet_length import rivet_length

holes = table("rivet_holes")

OF_OPENINGS = (
    "structure.skin_opening",
    "structure.stiffener_distance",
    "structure.doubler_rivets",
    "structure.doubler_rivet_size",
    "structure.doubler_thickness",
    "structure.doubler_size",
    "structure.doubler_area",
    "structure.doubler_edge_distance",
    "structure.doubler_spacing",
    "structure.doubler_row_distance",
    "structure.doubler_pitch",
    "structure.outside_part_load",
    "structure.outside_part_pull",
    "structure.pressure_load",
)


def passthroughs(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, drawings = matter.facts, doubler_drawings(matter.facts)
    return {
        "absent": absence(facts.place.part("openings"))
        or ("" if facts.openings else f"{NOT_SAID.capitalize()}: list the openings, or none with the reason."),
        "openings": [
            (o.name, o.through, o.passes, said(o.made), outline(o, facts), said(o.blank), said(o.blank_kept), said_at(o.place, "drawing"))
            for o in facts.openings
        ],
        "routes": [(route.name, worded("{} to {}", route.begins_in, route.ends_in), said(route.passes)) for route in facts.routes],
        "displaced": absence(facts.place.part("displaced")) or f"{NOT_SAID.capitalize()}: list it, or none with the reason.",
        "displaced_parts": [(part.name, part.what, part.done, said(part.to)) for part in facts.displaced],
        "pressurised": said_at(facts.aircraft.place, "pressurised"),
        "holes": [_hole(opening, facts, drawings) for opening in facts.openings],
        "blank": BLANK,
        "doublers": drawings,
        "riveted": [_riveted(doubler, facts) for doubler in facts.doublers],
        "stiffeners": [
            (
                near.cut.name,
                f"{near.stiffener.kind} {near.stiffener.name}",
                f"{near.stiffener.coordinate} {said(near.stiffener.at)}",
                said(near.stiffener.flange),
            )
            for near in facts.stiffeners_near
            if near.stiffener is not None
        ],
        "untemplated": without_template(facts),
        "undoubled": [(cut.name, f"none, because {cut.declined.value}") for cut in facts.cut_openings if cut.declined is not None],
        "outside": [
            (
                part.name,
                part.what,
                said(part.frontal_area),
                worked_value(air_load(part, facts), "D"),
                worked_value(air_load(part, facts), "D_u"),
                worked_value(outside_part_pull(part, facts), "L"),
                worked_value(outside_part_pull(part, facts), "M"),
                worked_value(outside_part_pull(part, facts), "T_u"),
            )
            for part in facts.outside_parts
        ],
        "outside_drawings": outside_part_drawings(facts),
        "hull": [
            (c.name, c.part, said(c.seal_diameter), said(c.rating), limit_of(matter.finding("structure.pressure_load", c.name)))
            for c in facts.hull_closures
        ],
        "leak_check": [("Leak check of the aircraft's own manual", leak_line(facts))],
        "leak_hold": hold("pressure hull closed", "each seal and closure of the hull, and both leak checks"),
        "computed": results(matter.findings(OF_OPENINGS)),
    }


def outline(opening: Opening, facts: Facts) -> str:
    """Size of an opening; of one that is cut with corners, its shorter side and the radius of the corners as well."""
    cut = next((cut for cut in facts.cut_openings if cut.name == opening.name), None)
    if cut is None or not cut.sheet.cornered:
        return said_at(opening.place, "size")
    if cut.sheet.rectangular:
        return worded("{} by {}, corners of {} radius", cut.size, cut.short_size, cut.sheet.corner_radius)
    return worded("{} square, corners of {} radius", cut.size, cut.sheet.corner_radius)


def _riveted(doubler: Doubler, facts: Facts) -> tuple[str, ...]:
    """The rivets of a doubler with their holes and their length."""
    rivets = doubler.rivets
    hole = next((f"{row.hole.quantity}" for row in holes if isinstance(rivets.size, Fact) and row.key == rivets.size.value), NOT_SAID)
    return (doubler.name, worded("{} {}, {} head", rivets.size, rivets.alloy, rivets.head), hole, worked_value(rivet_length(doubler, facts), "L"))


def leak_line(facts: Facts) -> str:
    """The leak check of the aircraft's own manual with its limit; nothing where no opening lies in a pressure hull."""
    return worded("{}; limit: {}", facts.hull_closures[0].leak_check, facts.hull_closures[0].leak_limit) if facts.hull_closures else ""


def limit_of(finding: Finding | None) -> str:
    """The load that was worked for a part of the hull."""
    return finding.value_text if finding is not None and finding.value_text else NOT_SAID


def was_there(opening: Opening) -> bool:
    """Whether the job says that an opening was there before the fit."""
    return isinstance(opening.made, Fact) and opening.made.value == "existing"


def _mentioned(drawings: Sequence[Drawing], begins: str) -> str:
    """The first of the drawings whose caption begins so, as a step mentions it; nothing where there is none."""
    return next((mention(drawing) for drawing in drawings if drawing.caption.startswith(begins)), "")


def _hole(opening: Opening, facts: Facts, drawings: Sequence[Drawing]) -> Values:
    needed = {"made": opening.made, "size": opening.place.word("size"), "blank": opening.blank, "drawing": opening.place.word("drawing")}
    return {
        "title": sentence(opening.name),
        "name": opening.name,
        "through": opening.through,
        "existing": was_there(opening),
        "hull": opening.in_pressure_hull,
        "doubled": any(doubler.name == opening.name for doubler in facts.doublers),
        "doubler": _mentioned(drawings, f"Doubler of the {opening.name}"),
        "template": _mentioned(drawings, f"Drill template of the doubler of the {opening.name}"),
        **{field: said(fact) for field, fact in needed.items()},
        "outline": outline(opening, facts),
        "known": known(*needed.values()),
        "number": Numbers(facts).blank(opening.name),
        "kept": said(opening.blank_kept),
        "taken_out": isinstance(opening.blank_kept, Fact) and not filled_for_good(opening.name, facts),
        "hold": hold(f"opening {opening.name}", "size, edge, reinforcement, sealing and blank; no control rubs at it"),
        "gaps": [f"{need.what} ({need.where})" for need in needed.values() if isinstance(need, Missing)],
    }
