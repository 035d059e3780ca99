"""Lines: liquid loops, how their lines are fitted, filled and tested, and drains."""

from __future__ import annotations

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import (
    MAKERS,
    NOT_SAID,
    absence,
    known,
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
from liftout.facts import Fact, Facts, Missing
from liftout.facts.condensate import Point
from liftout.facts.lines import Loop, Segment
from liftout.figures.line_routes import line_routes
from liftout.tables import table
from liftout.worked.fluids.condensate_rate import condensate_rate
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worked.fluids.loop_pressure import loop_pressure

clearances, supports, conditions = table("clearances"), table("line_supports"), table("line_conditions")


def lines(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    above, near = clearances.row("wire above a flammable or oxygen line"), clearances.row("wire near a line")
    cable, rod = clearances.row("line near a flexible moving control"), clearances.row("line near a rigid moving control")
    hose, slack = supports.row("flexible hose"), conditions.row("hose slack")
    return {
        "absent": absence(facts.place.part("lines"))
        or ("" if facts.loops else f"{NOT_SAID.capitalize()}: describe the loops, or none with the reason."),
        "loops": [_loop(loop, facts) for loop in facts.loops],
        "preferred": text(above.distance.quantity),
        "least": published("at least", near.distance),
        "flexible": published("at least", cable.distance),
        "rigid": published("at least", rod.distance),
        "hose_support": published("at most", hose.spacing),
        "slack": f"{text(slack.least.quantity)} to {text(slack.most.quantity)}",
        "slack_of": slack.of.text,
        "sources": list(dict.fromkeys(row.citation for row in (above, cable, hose, slack))),
        "makers": MAKERS,
        "drains": [
            (part.name, removal.name, said(part.closed_by)) for removal in facts.removals for part in removal.disconnections if part.kind == "drain"
        ],
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
        "results": results(matter.findings(["fluids"])),
    }


def _point(point: Point) -> str:
    return worded("arm {}, lateral {}, height {}", point.arm, point.lateral, point.height)


def _size(segment: Segment) -> str:
    """A hose by its inside diameter, a tube by its outside diameter and wall."""
    if segment.is_hose:
        return worded("inside {}", segment.inside_diameter)
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


def _loop(loop: Loop, facts: Facts) -> Values:
    if loop.declined is not None:
        return {"title": sentence(loop.name), "declined": absence(loop.place)}
    parts = loop.place.each("segments")
    fill = liquid_fill(facts.filled(loop), facts)
    mixed: list[Fact[str] | Missing] = [loop.kind, loop.fraction, loop.basis, loop.filling, loop.hottest]  # type: ignore[list-item]
    return {
        "title": sentence(loop.name),
        "declined": "",
        "facts": [
            ("Coolant", said(loop.kind)),
            ("Share of glycol", worded("{} by {}", loop.fraction, loop.basis)),
            ("Quantity, worked", worked_value(fill, "V")),
            ("Weight, worked", worked_value(fill, "m")),
            ("Coldest air", said(loop.coldest)),
            ("Least distance from freezing to the coldest air", said(loop.freezing_margin)),
            ("Liquid at the coldest start", said(loop.cold_start)),
            ("Liquid at work", said(loop.at_work)),
            ("Liquid at its hottest", said(loop.hottest)),
            ("Cap or relief opens at", said(loop.cap_pressure)),
            ("Highest pressure, worked", worked_value(loop_pressure(loop, facts), "p")),
            ("Room to expand", said(loop.expansion_room)),
        ],
        "drawing": line_routes(loop),
        "segments": [
            (
                segment.name,
                *(said_at(segment.place, field) for field in ("kind", "begins", "ends")),
                _size(segment),
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
        "test": _leak_test(loop),
        "devices": [(part.name, said(part.number), said(part.pressure_drop), said(part.flow)) for part in loop.devices],
        "routes": [{"name": name, **{field: said_at(part, field) for field in ("kind", "begins", "ends")}} for name, part in parts.items()],
        "hoses": [name for name, part in parts.items() if part.said_at("kind") == "hose"],
        "tubes": [name for name, part in parts.items() if part.said_at("kind") == "tube"],
        "mixed": known(*mixed),
        "gaps": [f"{need.what} ({need.where})" for need in mixed if isinstance(need, Missing)],
        "kind": said(loop.kind),
        "share": worded("{} by {}", loop.fraction, loop.basis),
        "filling": said(loop.filling),
        "hottest": said(loop.hottest) if known(loop.hottest) else "",
        "volume": worked_value(fill, "V"),
    }
