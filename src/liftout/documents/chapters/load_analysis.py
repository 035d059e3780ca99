"""Electrical load analysis: each source in each phase, everything out and in; the battery, the buses, changes made at the same time."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.changed_weights import changed_weights
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import NOT_SAID, absence, listed, said, sentence, text, worked_value
from liftout.facts import Fact, Facts, Missing
from liftout.facts.changes import altering
from liftout.facts.electrical import PHASES, Source, SourceInPhase
from liftout.facts.electrical_state import ElectricalState
from liftout.facts.power import BatteryCase, Feed, essential
from liftout.figures.bus_diagram import bus_diagram
from liftout.findings import Finding
from liftout.worked import Worked
from liftout.worked.electrical.battery_time import battery_time
from liftout.worked.electrical.ground_hold import ground_hold
from liftout.worked.electrical.least_engine_speed import least_engine_speed
from liftout.worked.electrical.load_analysis import load_analysis as worked_load
from liftout.worked.electrical.running_current import running_current
from liftout.worked.electrical.state_current import state_current

OFF = "\u2013"
"""Stands where a load does not run."""
LIMITS = (
    "electrical.generator_load",
    "electrical.ground_charge",
    "electrical.battery_endurance",
    "electrical.one_source_left",
    "electrical.bus_load",
)


def load_analysis(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    cases = facts.sources_in_all_phases
    return {
        "absent": absence(facts.electrical) or ("" if facts.sources else f"{NOT_SAID.capitalize()}: describe the sources."),
        "buses": bus_diagram(facts) if facts.sources else None,
        "feeds": [_feed(feed) for feed in facts.feeds],
        "sources": [_source(source, [case for case in cases if case.source.name == source.name], facts) for source in facts.sources],
        "record": f"{matter.papers.number}-4",
        "states": [_state(state, facts) for state in facts.electrical_states] if facts.runs else [],
        "holds": [_hold(case, facts) for case in facts.ground_holds],
        "battery": _battery(facts),
        "endurance": [_endurance(case, facts) for case in facts.battery_cases],
        "shed": _shed(facts),
        "scenarios": [_scenario(name, cases, facts) for name, cases in _scenarios(facts)],
        "weights": changed_weights(facts),
        "changes": [(change.name, change.what, said(change.released)) for change in facts.changes],
        "changes_absent": absence(facts.place.part("changes")) if not facts.changes else "",
        "results": [
            (finding.title, finding.subject, _limit(finding), _whole(finding.value_text) or "none computed", str(finding.verdict))
            for finding in matter.findings(LIMITS)
        ],
    }


def _limit(finding: Finding) -> str:
    return f"{finding.relation} {_whole(finding.limit_text)}" if finding.limit_text else "none computed"


def _whole(amount: str) -> str:
    """Number and unit stay on one line."""
    return amount.replace(" ", "\u00a0")


def _source(source: Source, cases: list[SourceInPhase], facts: Facts) -> Values:
    sheets = [(case, worked_load(case, facts)) for case in cases]
    phases = [case.phase for case in cases]
    return {
        "name": sentence(source.name),
        "facts": [
            ("Rating", _rating(source, facts)),
            ("Hottest air round it", said(source.hottest)),
            ("How overload is seen", said(source.monitoring)),
            ("Battery charging", said(facts.battery.quantity("recharge"))),
            ("Phases without any load named", listed((phase for phase in PHASES if phase not in phases), "none")),
        ],
        "output": [(said(point.engine_speed), said(point.temperature), said(point.current)) for point in source.output],
        "columns": ["Load", "Bus", "Source failed", *phases],
        "sides": ["left", "left", "left", *("right" for _ in phases)],
        "loads": [*_loads(source, cases, facts), *_totals(sheets)],
        "sums": [
            (
                case.phase,
                worked_value(sheet, "I_out"),
                worked_value(sheet, "I_eq") if case.equipment else "none",
                *(worked_value(sheet, symbol) for symbol in ("I_in", "C", "left_out", "left_in", "share_in")),
            )
            for case, sheet in sheets
        ],
        "allowed": [
            (case.phase, *(worked_value(sheet, symbol) for symbol in ("I_out", "I_in", "I_most", "I_n", "I_m", "share_out", "share_in")))
            for case, sheet in sheets
        ],
    }


def _rating(source: Source, facts: Facts) -> str:
    """The rating, beside that before a change made at the same time that alters the source."""
    change = altering(source.name, facts.changes)
    if change is None:
        return said(source.rating)
    before = next(one for one in facts.before_changes.sources if one.name == source.name)
    return f"{said(source.rating)} with the change {change.name}; {said(before.rating)} before it"


def _loads(source: Source, cases: list[SourceInPhase], facts: Facts) -> Iterator[tuple[str, ...]]:
    """Each load, old and new, with its current in every phase in which it runs; a blank phase is one in which it is off."""
    order = facts.electrical.list_of("shed")
    for load in source.existing:
        current = _whole(said(load.current)) + (", short" if load.short else "")
        yield (
            load.name,
            f"{said(load.bus)}, {said(load.duty)}",
            _after_failure(load.name, load.essential, order),
            *(current if case.phase in load.phases else OFF for case in cases),
        )
    fed = [run for run in facts.runs if run.source == source.name]
    for item in {run.load.name: run.load for run in fed}.values():
        own = [run for run in fed if run.load is item]  # what several circuits feed draws its demand once
        phases = item.demand.phases
        runs = _whole(worked_value(running_current(item, facts), "I"))
        yield (
            f"{item.name}, {'circuit' if len(own) == 1 else 'circuits'} {', '.join(run.name for run in own)}",
            f"{listed(dict.fromkeys(said(run.bus.name) for run in own), '')}, {said(item.demand.duty)}",
            _after_failure(item.name, essential(item), order),
            *((runs if case.phase in phases.value else OFF) if isinstance(phases, Fact) else NOT_SAID for case in cases),
        )


def _after_failure(name: str, stays: Fact[bool] | Missing, order: Fact[tuple[str, ...]] | Missing) -> str:
    """What becomes of a load when the source fails."""
    if isinstance(stays, Missing):
        return NOT_SAID
    if stays.value:
        return "stays on"
    places = {one: str(number) for number, one in enumerate(order.value, 1)} if isinstance(order, Fact) else {}
    return f"shed, no.\u00a0{places[name]}" if name in places else "shed"


def _totals(sheets: list[tuple[SourceInPhase, Worked]]) -> Iterator[tuple[str, ...]]:
    """The lines below the loads: charging, sums, what the source gives, and the share of it."""
    yield ("battery charging", OFF, "ends", *(_whole(said(case.battery.quantity("recharge"))) for case, _ in sheets))
    for words, symbol in (
        ("everything out", "I_out"),
        ("everything in", "I_in"),
        ("source gives", "C"),
        ("share, out", "share_out"),
        ("share, in", "share_in"),
    ):
        yield (words, OFF, OFF, *(_whole(worked_value(sheet, symbol)) for _, sheet in sheets))


def _state(state: ElectricalState, facts: Facts) -> tuple[str, ...]:
    """What may be on in a state of the aircraft, and what it draws."""
    sheet = state_current(state, facts)
    live = listed((run.name for run in state.live), "none")
    return (sentence(state.name), live, worked_value(sheet, "I") if state.live else "none")


def _feed(feed: Feed) -> tuple[str, ...]:
    through = feed.place.part("fed_through")
    protection = (
        f"none: {through.declined.value}" if through.declined is not None else f"{said(through.word('device'))}, {said(through.quantity('rating'))}"
    )
    hangs = listed([*(load.name for load in feed.own), *(f"{run.name} ({run.load.name})" for run in feed.own_runs)], "nothing")
    return (feed.name, said(feed.fed_from), protection, hangs)


def _hold(case: SourceInPhase, facts: Facts) -> tuple[str, ...]:
    hold, speed = ground_hold(case, facts), least_engine_speed(case, facts)
    lasts = worked_value(hold, "t_l") if hold.sheet is None or hold.sheet.has("t_l") else "not limited: no discharge"
    return (
        case.name,
        said(case.engine_speed),
        *(worked_value(hold, symbol) for symbol in ("I_load", "C", "I_net")),
        lasts,
        said(case.longest),
        worked_value(speed, "n_least"),
    )


def _battery(facts: Facts) -> list[tuple[str, str]]:
    battery = facts.battery
    points = [f"{text(current.value)}: {text(charge.value)}" for current, charge in (facts.battery_cases[0].discharge if facts.battery_cases else ())]
    return [
        ("Rated capacity", said(battery.quantity("capacity"))),
        ("Charge it gives, by discharge current", listed(points, "not said in the job")),
        ("Recharge current", said(battery.quantity("recharge"))),
        ("Share of the capacity left after a start", said(battery.quantity("after_start"))),
        ("Share of the capacity below which it may not fall on the ground", said(battery.quantity("least_charge"))),
        ("Low-voltage warning", said(facts.electrical.quantity("low_voltage_warning"))),
    ]


def _endurance(case: BatteryCase, facts: Facts) -> tuple[str, ...]:
    sheet = battery_time(case, facts)
    lasts = worked_value(sheet, "t") if sheet.sheet is None or sheet.sheet.has("t") else "see the finding"
    return (sentence(case.side), *(worked_value(sheet, symbol) for symbol in ("I_pre", "I_cruise", "I_land", "Q_use", "Q_need")), lasts)


def _shed(facts: Facts) -> list[str]:
    order = facts.electrical.list_of("shed")
    return list(order.value) if isinstance(order, Fact) else []


def _scenarios(facts: Facts) -> list[tuple[str, tuple[SourceInPhase, ...]]]:
    """Phases in which the equipment runs, without the changes made at the same time, with each alone and with all."""
    return [(one.name, tuple(case for case in facts.with_changes(one.changes, one.name) if case.equipment)) for one in facts.scenarios]


def _scenario(name: str, cases: tuple[SourceInPhase, ...], facts: Facts) -> Values:
    sheets = [(case, worked_load(case, facts)) for case in cases]
    return {
        "caption": f"Loads {name}",
        "rows": [
            (f"{case.source.name}, {case.phase}", *(worked_value(sheet, symbol) for symbol in ("I_out", "I_in", "C", "I_n", "I_m", "share_in")))
            for case, sheet in sheets
        ],
    }
