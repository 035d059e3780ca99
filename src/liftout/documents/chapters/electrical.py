"""Electrical: the system that the equipment is fitted to, demand, circuits, bonding."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.acceptance import acceptance
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import (
    MAKERS,
    NOT_SAID,
    NOTHING,
    absence,
    known,
    listed,
    published,
    results,
    said,
    said_at,
    text,
    worded,
    worked_value,
)
from liftout.documents.holds import hold
from liftout.documents.mentions import mention
from liftout.facts import Fact, Facts, Missing
from liftout.facts.changes import altering
from liftout.facts.electrical import Run, Source
from liftout.facts.equipment import Item
from liftout.figures.routes import wire_routes
from liftout.figures.wiring_diagram import wiring_diagram
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.electrical.cut_length import cut_length
from liftout.worked.electrical.stocked_sizes import stocked_sizes

clearances, bonding = table("clearances"), table("bonding_limits")

HELD = {
    "conductor_current": "current in the wire",
    "protection_rating": "protection for the wire",
    "load_on_protection": "load on the protection",
    "voltage_drop": "voltage drop",
    "voltage_at_load": "lowest voltage at the item",
    "highest_voltage": "highest voltage",
    "current_at_lowest_voltage": "current at the lowest voltage",
    "voltage_at_start": "voltage at the start",
}
"""Criteria that hold a circuit, and what each holds."""
RADIOS = ("radio", "navigation receiver", "transponder", "intercom")
"""Kinds of instruments whose bonds the limit for radio equipment is for."""


def electrical(matter: Matter) -> Values:
    """What the chapter prints."""
    facts, system, wiring, accepted = matter.facts, matter.facts.electrical, matter.facts.wiring, acceptance(matter)
    routes = wire_routes(facts)
    movable, above, near = (
        clearances.row(key) for key in ("wire near a movable control", "wire above a flammable or oxygen line", "wire near a line")
    )
    return {
        "system_absent": absence(system),
        "system": [
            ("System voltage", said_at(system, "nominal")),
            ("Lowest bus voltage", said_at(system, "bus_minimum")),
            ("Highest bus voltage", said_at(system, "bus_maximum")),
            ("Battery", said_at(system.part("battery"), "capacity")),
            ("Charging current after a start", said_at(system.part("battery"), "recharge")),
            ("Structure is metal", said_at(system, "metal_structure")),
        ],
        "sources": list(_sources(facts)),
        "changes": listed((change.name for change in facts.changes), ""),
        "loads": [(load.name, load.source, said(load.current), text(load.phases)) for source in facts.sources for load in source.existing],
        "demands": [_demand(item) for item in facts.items],
        "circuits_absent": absence(wiring) or ("" if facts.runs else f"{NOT_SAID.capitalize()}: describe the circuits."),
        "circuits": [_circuit(run) for run in facts.runs],
        "routes": routes,
        "routed": mention(routes[0]) if routes else "",
        "coolant": [loop for loop in facts.loops if loop.declined is None],
        "wires": [row for run in facts.runs for row in _wires(run, facts)],
        "labels": [_label(run) for run in facts.runs if run.protection.there and run.protection_declined is None],
        "sizes": [row for run in facts.runs for row in _sizes(run, facts)],
        "limits": [row for run in facts.runs for row in _limits(run, matter)],
        "runs": [{**_steps(run, facts), "tests": accepted(f"circuit {run.name}")} for run in facts.runs],
        "movable": published("at least", movable.distance),
        "preferred": text(above.distance.quantity),
        "least": published("at least", near.distance),
        "clearances": list(dict.fromkeys((movable.citation, above.citation))),
        "ground": _ground(facts),
        "ground_absent": absence(facts.electrical.part("ground_power")),
        "makers": MAKERS,
        "bonds": list(bonds(facts)),
        "results": results(matter.findings(["electrical"])),
    }


def bonds(facts: Facts) -> Iterator[tuple[str, str, str]]:
    """Bonds with the largest published resistance and where it is published."""
    wanted = ["equipment frame to structure", "bonding jumper connection", "static bond of an isolated part"]
    if any(isinstance(run.return_path, Fact) and run.return_path.value == "structure" for run in facts.runs):
        wanted.append("ground return path")
    if any(one.kind in RADIOS for one in facts.instruments):
        wanted.append("radio equipment bond")
    for row in map(bonding.row, wanted):
        yield (row.key, published("less than" if row.strictly.text == "yes" else "at most", row.resistance), row.citation)


def _ground(facts: Facts) -> list[tuple[str, str]]:
    """The source on the ground with its mains and extension lead."""
    power = facts.electrical.part("ground_power")
    mains = power.part("mains")
    if not power.there or power.declined is not None:
        return []
    return [
        ("Rated current", said(power.quantity("rating"))),
        ("Rating of its connector", said(power.quantity("connector_rating"))),
        ("Voltage without load, at most", said(power.quantity("highest"))),
        ("Voltage at the aircraft, fully loaded", said(power.quantity("lowest"))),
        ("Mains at the socket", said(mains.quantity("voltage"))),
        ("Lowest input voltage of the source", said(mains.quantity("lowest"))),
        ("Input current of the source", said(mains.quantity("current"))),
        (
            "Extension lead",
            worded("{}, {} for one conductor, rated {} unwound", *(mains.quantity(f"lead_{of}") for of in ("length", "resistance", "rating"))),
        ),
        ("Earth and residual-current device", said(mains.word("earth"))),
    ]


def _sources(facts: Facts) -> Iterator[tuple[str, ...]]:
    """Each source; one that a change made at the same time alters, before it and with it."""
    for before, source in zip(facts.before_changes.sources, facts.sources, strict=True):
        change = altering(source.name, facts.changes)
        if change is None:
            yield _source(source, source.name)
        else:
            yield _source(before, f"{source.name}, before the change {change.name}")
            yield _source(source, f"{source.name}, with the change {change.name}")


def _source(source: Source, name: str) -> tuple[str, ...]:
    less = listed((f"{said(current)}, {phase}" for phase, current in source.at_phase.items()), "nothing said")
    return (name, said(source.rating), less, said(source.monitoring))


def _demand(item: Item) -> tuple[str, ...]:
    demand = item.demand
    if demand.declined is not None:
        return (item.name, "none", "none", "none", f"not applicable, because {demand.declined.value}", "none", "none")
    voltage = worded("{} to {}", demand.lowest_voltage, demand.highest_voltage)
    return (item.name, said(demand.steady), said(demand.peak), said(demand.inrush), said(demand.duty), voltage, said(demand.phases))


def _circuit(run: Run) -> tuple[str, ...]:
    fed = run.load.name
    bundle = worded("{}, {} of their capacity in use", run.bundle, run.bundle_load) if known(run.bundle_load) else said(run.bundle)
    return (run.name, run.source, said(run.bus.name), fed, said(run.gauge), said(run.return_path), said(run.terminations), bundle, said(run.ambient))


def _wires(run: Run, facts: Facts) -> Iterator[tuple[str, ...]]:
    """Each wire of a circuit: its mark, its ends, what it is, and how long it is cut."""
    fed = run.load.name
    label = said(run.protection.word("label")) if run.protection.there else "its protection"
    conductor = run.place.part("conductor")
    kind = worded("gauge {}, {}, plated with {}, {}", run.gauge, run.material, conductor.word("plating"), run.insulation_rating)
    specification = conductor.said_at("specification") or NOT_SAID
    length = worked_value(cut_length(run, facts), "L_cut")
    yield (f"{run.name} out", f"{said(run.bus.name)}, {label}", fed, kind, specification, length)
    if isinstance(run.return_path, Fact) and run.return_path.value == "wire":
        yield (f"{run.name} back", fed, f"return of the {said(run.bus.name)}", kind, specification, length)


def _label(run: Run) -> tuple[str, ...]:
    """What stands at a breaker or fuse."""
    place, fed = run.protection, run.load.name
    return (worded("{} {}", place.word("label"), place.quantity("rating")), said(run.device.kind), said(run.bus.name), run.name, fed)


def _sizes(run: Run, facts: Facts) -> Iterator[tuple[str, ...]]:
    """The sizes that the shop stocks, beside the one fitted."""
    for size in stocked_sizes(run, facts):
        mark = "fitted" if isinstance(run.gauge, Fact) and size.gauge == run.gauge.value else NOTHING
        yield (run.name, size.gauge, mark, *(value or "not assessed" for value in (size.drop, size.carries, size.copper)))


def _limits(run: Run, matter: Matter) -> list[tuple[str, ...]]:
    """What was found for a circuit against what it is held to, a row each."""
    return [(run.name, what, *_against(_worst(matter, f"electrical.{name}", run))) for name, what in HELD.items()]


def _worst(matter: Matter, criterion: str, run: Run) -> Finding | None:
    """The finding for a circuit; of one that is assessed piece by piece the one with the least left."""
    pieces = [matter.finding(criterion, f"{run.name}, {piece.name}") for piece in run.segments]
    told = [finding for finding in pieces if finding is not None and finding.margin is not None]
    if told:
        return min(told, key=lambda finding: finding.margin.quantity.si if finding.margin else 0)
    return matter.finding(criterion, run.name)


def _against(finding: Finding | None) -> tuple[str, str, str]:
    """Value, limit and verdict."""
    if finding is None:
        return NOT_SAID, NOTHING, NOTHING
    if not finding.value_text:
        return NOTHING, NOTHING, str(finding.verdict)
    return finding.value_text, f"{finding.relation} {finding.limit_text}", str(finding.verdict)


def _steps(run: Run, facts: Facts) -> Values:
    """What the steps of one circuit name, and what they cannot name because the job does not say it."""
    protection = run.place.part("protection")
    fitted = {field: protection.word(field) for field in ("device", "rating", "label", "from_source")}
    connector = run.place.word("connector")
    needed: list[Fact[str] | Missing] = [run.bus.name, run.gauge, run.length, run.return_path, *fitted.values(), connector]  # type: ignore[list-item]
    studs = [(name, stud.quantity("torque")) for name, stud in run.place.part("studs").each("named").items()]
    pair = isinstance(run.return_path, Fact) and run.return_path.value == "wire"
    lengths, drawing = cut_length(run, facts), wiring_diagram(run, facts)
    return {
        "name": run.name,
        "accepted": f"Acceptance of circuit {run.name}; the chapter Functional tests says when and how",
        "drawing": drawing,
        "shown": mention(drawing),
        "hold": hold(f"circuit {run.name} along its route", "distance from movable controls over full travel, clamps, terminals and their torque"),
        "bus": said(run.bus.name) if known(run.bus.name) else "",
        "feed": said(run.bus.name) if known(run.bus.name) else run.source,
        "dead": known(run.bus.dead) and not run.stays_live,
        "live": run.stays_live,
        "cut": known(run.gauge, run.length, run.return_path),
        "wires": "two wires" if pair else "one wire",
        "gauge": said(run.gauge),
        "length": said(run.length),
        "cut_to": worked_value(lengths, "L_cut") if lengths.sheet is not None else "",
        "pair": pair,
        "protected": run.protection.there and run.protection_declined is None and known(*fitted.values()),
        **{field: said(fact) for field, fact in fitted.items()},
        "torques": [(name, said(torque)) for name, torque in studs if isinstance(torque, Fact)],
        "connector": said(connector) if isinstance(connector, Fact) else "",
        "gaps": [f"{need.what} ({need.where})" for need in needed if isinstance(need, Missing)],
    }
