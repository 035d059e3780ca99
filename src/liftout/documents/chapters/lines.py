"""Lines: liquid loops, how their lines are fitted, filled and tested, and drains."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.acceptance import acceptance
from liftout.documents.chapters.air import CRITERIA as OF_AIR
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import (
    MAKERS,
    NOT_SAID,
    NOTHING,
    absence,
    brief,
    known,
    limit_text,
    listed,
    published,
    results,
    said,
    said_at,
    sentence,
    text,
    worded,
    worked_value,
)
from liftout.documents.holds import hold
from liftout.documents.mentions import mention
from liftout.documents.part_numbers import Numbers
from liftout.facts import Fact, Missing
from liftout.facts.condensate import Point
from liftout.facts.lines import Line, Loop, LoopCase, Segment, loop_cases
from liftout.figures.routes import line_routes
from liftout.tables import table
from liftout.worked.fluids.condensate_rate import condensate_rate
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worked.fluids.loop_pressure import loop_pressure

clearances, supports, conditions, tubes = table("clearances"), table("line_supports"), table("line_conditions"), table("tubes")


def lines(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, accepted = matter.facts, acceptance(matter)
    above, near = clearances.row("wire above a flammable or oxygen line"), clearances.row("wire near a line")
    cable, rod = clearances.row("line near a flexible moving control"), clearances.row("line near a rigid moving control")
    hose, slack = supports.row("flexible hose"), conditions.row("hose slack")
    return {
        "absent": absence(facts.place.part("lines"))
        or ("" if facts.loops else f"{NOT_SAID.capitalize()}: describe the loops, or none with the reason."),
        "loops": [{**_loop(loop, matter), "tests": accepted(f"of the {loop.name}")} for loop in facts.loops],
        "preferred": text(above.distance.quantity),
        "least": published("at least", near.distance),
        "flexible": published("at least", cable.distance),
        "rigid": published("at least", rod.distance),
        "slack": f"{text(slack.least.quantity)} to {text(slack.most.quantity)}",
        "slack_of": slack.of.text,
        "sources": list(dict.fromkeys(row.citation for row in (above, cable, hose, slack))),
        "makers": MAKERS,
        "drains": [
            (part.name, removal.name, said(part.closed_by)) for removal in facts.removals for part in removal.disconnections if part.kind == "drain"
        ],
        "undrained": [(water.name, water.declined.value) for water in facts.condensates if water.declined is not None],
        "dry": [water.name for water in facts.condensates if isinstance(water.makes, Fact) and not water.makes.value and water.item.removable],
        "tubes": [
            (
                water.name,
                said(water.bore),
                _point(water.tray),
                _point(water.outlet),
                said(water.drips_onto),
                worked_value(condensate_rate(water, facts), "V_w"),
            )
            for water in facts.condensates
            if water.tube.there and water.declined is None
        ],
        "results": results(finding for finding in matter.findings(["fluids"]) if finding.criterion not in OF_AIR),
    }


def _point(point: Point) -> str:
    return worded("arm {}, lateral {}, height {}", point.arm, point.lateral, point.height)


def size(segment: Segment) -> str:
    """A hose by its inside diameter and, where it is told, its specification; a tube by its outside diameter and wall."""
    if segment.is_hose:
        specification = segment.place.said_at("specification")
        return worded("inside {}", segment.inside_diameter) + (f", {specification}" if specification else "")
    return worded("outside {}, wall {}", segment.outside_diameter, segment.place.quantity("wall"))


def _leak_test(loop: Loop) -> list[tuple[str, str]]:
    """Pressure, time and largest drop where somebody declares them; else nothing, and the maker or a licensed person says."""
    test = loop.leak_test
    if not test.there or test.declined is not None:
        return []
    return [
        ("Test pressure", said(test.quantity("pressure"))),
        ("Time", said(test.quantity("time"))),
        ("Largest drop of pressure", said(test.quantity("most_drop"))),
    ]


def fitted_parts(loop: Loop) -> Iterator[tuple[str, ...]]:
    """Line, what it is, part number and how many, of every fitting and clamp."""
    for segment in loop.segments:
        for fitting in segment.fittings:
            yield segment.name, fitting.name, said_at(fitting.place, "part_number"), said(fitting.number)
        if not segment.fittings:
            yield segment.name, "fittings", said(segment.place.missing("fittings")), NOTHING
        yield segment.name, "clamps", said_at(segment.clamps, "part"), said(segment.clamps.quantity("count"))


def _flows(loop: Loop, matter: Matter) -> list[tuple[str, str, str]]:
    """Where pump and loop agree: liquid, its temperature, what was found."""
    found = [(case, matter.finding("fluids.coolant_flow", case.name)) for case in loop_cases((loop,))]
    return [(case.case, said(case.temperature), brief(finding)) for case, finding in found if finding is not None]


def _caution(matter: Matter, case: LoopCase) -> str:
    """What a finding on the flow warns of."""
    finding = matter.finding("fluids.coolant_flow", case.name)
    return sentence(finding.caution) + "." if finding is not None and finding.caution else ""


def _limits(segment: Segment, loop: Loop, matter: Matter) -> dict[str, str]:
    """Smallest bend and largest distance of supports, as the findings hold the line to them."""
    name = Line(loop, segment).name
    return {
        "bend": limit_text(matter.finding("fluids.line_bend", name)),
        "support": limit_text(matter.finding("fluids.line_support", name)),
        "torque": _nut_torque(segment),
    }


def _nut_torque(segment: Segment) -> str:
    """Torque of the nut of a tube of this outside and metal; of a hose its maker says it."""
    outside, material = segment.outside_diameter, segment.place.word("material")
    if segment.is_hose or isinstance(outside, Missing) or isinstance(material, Missing):
        return MAKERS
    metal = {"aluminium alloy": "aluminium", "steel": "steel"}[material.value]
    for row in tubes:
        if row.outside.quantity is not None and row.outside.quantity.si == outside.value.si:
            return f"{text(row.cells[f'torque_{metal}_least'].quantity)} to {text(row.cells[f'torque_{metal}_most'].quantity)} ({row.citation})"
    return MAKERS


def _loop(loop: Loop, matter: Matter) -> Values:
    facts, numbers, drawings = matter.facts, Numbers(matter.facts), line_routes(loop)
    if loop.declined is not None:
        return {"title": sentence(loop.name), "declined": absence(loop.place)}
    fill = liquid_fill(facts.filled(loop), facts)
    mixed: list[Fact[str] | Missing] = [loop.kind, loop.fraction, loop.basis, loop.filling, loop.hottest]  # type: ignore[list-item]
    return {
        "title": sentence(loop.name),
        "declined": "",
        "facts": [
            ("Coolant", said(loop.kind)),
            ("Glycol concentration", worded("{} by {}", loop.fraction, loop.basis)),
            ("Quantity, worked", worked_value(fill, "V")),
            ("Weight, worked", worked_value(fill, "m")),
            ("Coldest air", said(loop.coldest)),
            ("Least distance from freezing to the coldest air", said(loop.freezing_margin)),
            ("Liquid at the coldest start", said(loop.cold_start)),
            ("Liquid at work", said(loop.at_work)),
            ("Liquid at its hottest", said(loop.hottest)),
            ("Cap or relief opens at", said(loop.cap_pressure)),
            ("Highest pressure, worked", worked_value(loop_pressure(loop, facts), "p")),
            ("Height of the cap over the lowest point", said(loop.static_head)),
            ("Room to expand", said(loop.expansion_room)),
            ("Reserve for the cold", said(loop.reserve)),
        ],
        "drawings": drawings,
        "shown": mention(drawings[0]) if drawings else "",
        "hold": hold(f"lines of the {loop.name}", "distance of each line from flight controls over full travel, supports, slack and fittings"),
        "accepted": f"Acceptance of the {loop.name}; the chapter Functional tests says when and how",
        "closed": hold(f"{loop.name} closed and tight", "caps, couplings, leak test and level"),
        "segments": [
            (
                segment.name,
                *(said_at(segment.place, field) for field in ("kind", "begins", "ends")),
                size(segment),
                said(segment.length),
                said(segment.arm),
            )
            for segment in loop.segments
        ],
        "fitted": [
            (
                segment.name,
                *(
                    said_at(segment.place, field)
                    for field in ("tightest_bend", "support_spacing", "rated_pressure", "coldest_rated", "hottest_rated")
                ),
                listed(segment.place.said_at("passes") or (), "none"),
            )
            for segment in loop.segments
        ],
        "ordered": list(fitted_parts(loop)),
        "flows": _flows(loop, matter),
        "flow_cautions": list(dict.fromkeys(words for case in loop_cases((loop,)) if (words := _caution(matter, case)))),
        "test": _leak_test(loop),
        "devices": [(part.name, said(part.number), said(part.pressure_drop), said(part.flow)) for part in loop.devices],
        "routes": [
            {
                "name": segment.name,
                "number": numbers.line(loop, segment),
                "clamps": worded("{} clamps, {}", segment.clamps.quantity("count"), segment.clamps.word("part")),
                "kind": said_at(segment.place, "kind"),
                **{end: numbers.at_end(said_at(segment.place, end)) for end in ("begins", "ends")},
                **_limits(segment, loop, matter),
            }
            for segment in loop.segments
        ],
        "hoses": [segment.name for segment in loop.segments if segment.is_hose],
        "mixed": known(*mixed),
        "pumped": loop.place.part("pump").said_at("item") or "",
        "gaps": [f"{need.what} ({need.where})" for need in mixed if isinstance(need, Missing)],
        "kind": said(loop.kind),
        "share": worded("{} by {}", loop.fraction, loop.basis),
        "glycol": worked_value(fill, "G"),
        "water": worked_value(fill, "W"),
        "reserve": said(loop.reserve),
        "room": said(loop.expansion_room),
        "warm": said(loop.at_work),
        "filling": said(loop.filling),
        "hottest": said(loop.hottest) if known(loop.hottest) else "",
        "volume": worked_value(fill, "V"),
    }
