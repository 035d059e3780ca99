"""Functional tests: what is measured and operated with the equipment in, each with its acceptance value."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from liftout.documents.chapters.electrical import bonds
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.passthroughs import leak_line
from liftout.documents.chapters.said import BLANK, MAKERS, known, limit_text, published, said, sentence, worded, worked_value
from liftout.documents.off_control import off_control
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.equipment import Item
from liftout.facts.lines import loop_cases
from liftout.facts.neighbours import MAGNETIC, MagneticSensor
from liftout.findings import Verdict
from liftout.tables import table
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worked.electrical.cold_loop import cold_loop
from liftout.worked.electrical.ground_hold import ground_hold
from liftout.worked.electrical.least_engine_speed import least_engine_speed
from liftout.worked.fluids.condensate_rate import condensate_rate

compass, air, warnings = table("compass_limits"), table("cabin_air_limits"), table("low_voltage_warnings")

COMPASS_STATES = (
    "equipment removed, its circuits off",
    "equipment removed, its circuits on",
    "equipment fitted and off",
    "equipment fitted and at full power",
)
"""States in which a compass is swung; where the readings differ there is a card for each."""


@dataclass(frozen=True, slots=True)
class Test:
    """One functional test."""

    item: str
    where: str
    method: str
    acceptance: str
    source: str
    second_person: bool = False


def tests(matter: Matter) -> Values:
    """What the chapter prints."""
    labels = [run.place.part("protection").word("label") for run in matter.facts.runs]
    return {
        "checklist_number": f"{matter.papers.number}-3",
        "coolant": [loop for loop in matter.facts.loops if loop.declined is None],
        "labels": [label.value for label in labels if isinstance(label, Fact)],
        "on": control.value if isinstance(control := matter.facts.wiring.part("off_switch").word("label"), Fact) else "",
        "tests": [(test.item, test.where, test.method, test.acceptance, test.source) for test in functional_tests(matter)],
    }


def functional_tests(matter: Matter) -> Iterator[Test]:
    """Every functional test of the job, in the order in which they are done."""
    for bond, acceptance, source in bonds(matter.facts):
        yield Test(f"Bond: {bond}", "each one made or disturbed", "measure with a bonding tester", acceptance, source)
    for item in matter.facts.items:
        if item.removable:  # beside occupants as well, where stick, pedals and what runs below the floor move
            yield Test(
                f"Flight controls with the {item.name} in",
                said(item.location),
                "operate over full travel, by one person, and look, by another",
                "full and free; nothing touches",
                "common practice, no source",
                second_person=True,
            )
    for run in matter.facts.runs:
        yield from _of_circuit(run, matter)
    if matter.facts.runs:
        yield _all_off(matter.facts)
    for item in matter.facts.powered_items:
        yield _terminals(item)
    yield from _on_the_ground(matter)
    for phase in matter.facts.sources_in_phases:
        finding = matter.finding("electrical.generator_load", phase.name)
        yield Test(
            f"Load on the {phase.source.name}, {phase.phase}",
            "ammeter",
            "read with all loads of the phase on",
            limit_text(finding),
            "finding: generator load",
        )
    for closed in ("equipment in", "equipment out, each blank fitted"):
        if line := leak_line(matter.facts):
            yield Test(
                f"Leak check of the cabin, {closed}",
                "cabin",
                "as the aircraft's own manual says",
                line,
                "the aircraft's own manual",
                second_person=True,
            )
    yield from _of_loops(matter)
    yield from _of_supply(matter)
    yield from _of_compasses(matter)
    yield Test(
        "Radios and navigation aids",
        "instrument panel",
        "watch each in each mode of the equipment, as the interference sheet of the checklist asks",
        "no harmful effect",
        "14 CFR 91.21; common practice",
    )
    yield from _of_cabin_air(matter)


def _of_cabin_air(matter: Matter) -> Iterator[Test]:
    """Carbon monoxide in each state of the vents, with the equipment on, off and out."""
    monoxide, cabin = air.row("carbon monoxide"), matter.facts.place.part("cabin")
    named = cabin.list_of("vent_states") if matter.facts.openings else None
    states = named.value if isinstance(named, Fact) else ("each vent and heater open and closed, each window as it is flown",)
    openings = "; openings: " + ", ".join(one.name for one in matter.facts.openings) if matter.facts.openings else ""
    for equipment in ("equipment on", "equipment in and off", "equipment out, its blanks fitted"):
        for state in states:
            yield Test(
                f"Carbon monoxide in the cabin, {equipment}: {state}",
                f"at the head of each seat{openings}",
                "measure with a meter on the ground into wind and downwind, and in flight",
                published("at most", monoxide.share),
                monoxide.citation,
            )


def _on_the_ground(matter: Matter) -> Iterator[Test]:
    """The source on the ground, where the equipment is run from one."""
    power = matter.facts.electrical.part("ground_power")
    if not power.there or power.declined is not None:
        return
    yield Test(
        "Mains at the source on the ground",
        "end of the extension lead, unwound",
        "measure with everything on, by whom the local electrical code allows",
        worded("at least {}", power.part("mains").quantity("lowest")),
        "finding: ground lead",
    )
    for run in matter.facts.runs:
        finding = matter.finding("electrical.ground_voltage", run.name)
        fed = run.load.name
        yield Test(
            f"Voltage at the {fed} on the source on the ground, circuit {run.name}",
            "at its terminals",
            "measure with everything on",
            limit_text(finding),
            "finding: ground voltage",
        )


def _of_supply(matter: Matter) -> Iterator[Test]:
    """The battery on the ground, the low-voltage warning, and shedding."""
    facts = matter.facts
    for case in facts.ground_holds:
        hold, speed = ground_hold(case, facts), least_engine_speed(case, facts)
        yield Test(
            f"Net battery current, {case.name}",
            f"ammeter in the battery lead, engine at {said(case.engine_speed)}",
            "read with all loads of the phase and the equipment on",
            f"at least {worked_value(hold, 'I_net', 'up')}, into the battery positive" if hold.sheet is not None else worked_value(hold, "I_net"),
            "worked: ground hold",
        )
        yield Test(
            f"Least engine speed for no discharge, {case.name}",
            "ammeter in the battery lead and tachometer",
            "raise the engine speed until the battery does not discharge",
            f"at most {worked_value(speed, 'n_placard')}" if speed.sheet is not None else worked_value(speed, "n_placard"),
            "worked: least engine speed",
        )
    if not facts.runs:
        return
    nominal = facts.electrical.word("nominal")
    row = warnings.row(nominal.value) if isinstance(nominal, Fact) else None
    yield Test(
        "Low-voltage warning",
        "instrument panel",
        "lower the bus voltage and read at which the warning lights",
        published("at least", row.warning) if row is not None else said(nominal),
        row.citation if row is not None else "AC 43.13-1B par. 11-35b",
    )
    yield Test(
        "Shedding of the equipment",
        "OFF control of the equipment, pilot's seat",
        "with all items on, set the OFF control to OFF once",
        "every item stops, and nothing else",
        "common practice, no source",
    )


def _of_compasses(matter: Matter) -> Iterator[Test]:
    """Every magnetic sensor with the equipment out and in, off and on: two correction cards where the readings differ."""
    swing = compass.row("swing")
    deviation = published("at most", swing.deviation)
    for name, allowed in [(one.name, _allowed(one, deviation)) for one in matter.facts.neighbours.sensors] or [(MAGNETIC, deviation)]:
        for state in COMPASS_STATES:
            yield Test(
                f"{sentence(name)}, {state}",
                "compass rose, engine running",
                "swing in steps of 30 degrees and write the correction card",
                allowed,
                swing.citation,
            )


def _allowed(sensor: MagneticSensor, deviation: str) -> str:
    if sensor.kind == MAGNETIC:
        return deviation
    return f"at most {said(sensor.limit)}" if known(sensor.limit) else said(sensor.limit)


def _of_circuit(run: Run, matter: Matter) -> Iterator[Test]:
    fed = run.load.name
    label = run.place.part("protection").word("label")
    drop, hot, cold = matter.finding("electrical.voltage_drop", run.name), circuit_drop(run, matter.facts), cold_loop(run, matter.facts)
    shared = any(other.load is run.load for other in matter.facts.runs if other is not run)
    resistance = (
        f"at most {worked_value(cold, 'R_cold', 'down')} with the wire at {worked_value(cold, 'T_20')}, {worked_value(hot, 'R_loop', 'down')} with it at "
        f"{worked_value(hot, 'T')}; as many millivolts for each ampere"
    )
    # What a circuit that drops too much has by its length and gauge is no value to accept: it would pass here and fail on the line above.
    if drop is not None and drop.verdict is Verdict.DOES_NOT_CONFORM:
        resistance = "none: as the job describes the circuit, it drops more than the limit of the drop"
    yield Test(
        f"Breaker or fuse of circuit {run.name}",
        f"panel, {said(label)}",
        f"open it with the {fed} at work",
        f"what circuit {run.name} feeds of the {fed} stops" if shared else f"the {fed} stops",
        "common practice, no source",
    )
    yield Test(
        f"Voltage drop of circuit {run.name}",
        f"between the bus and the {fed}, out and back",
        "measure at full power",
        limit_text(drop),
        "finding: voltage drop",
    )
    yield Test(
        f"Resistance of circuit {run.name} by its drop",
        f"between the bus and the {fed}, out and back",
        "divide the drop by the current measured beside it; read the temperature of the wire",
        resistance,
        "worked: cold loop",
    )
    yield from _of_control(run, fed)


def _of_control(run: Run, fed: str) -> Iterator[Test]:
    """OFF control, cranking and connector of a circuit."""
    yield Test(
        f"OFF control of circuit {run.name}",
        "pilot's seat, belt and harness fastened",
        f"operate it with the {fed} at work",
        f"the {fed} stops",
        "common practice, no source",
    )
    yield Test(
        f"Circuit {run.name} while the engine is cranked",
        "behind its switch or contactor",
        "select the unit, crank, and measure with a voltmeter",
        "dead as long as the starter turns",
        "common practice, no source",
    )
    dead_by = run.place.part("contact").word("parted_dead_by")
    if isinstance(dead_by, Fact):
        yield Test(
            f"Contacts of circuit {run.name} before they part",
            said(run.place.word("connector")),
            f"try it with the {fed} at work: {dead_by.value}",
            "dead before the contacts part",
            "common practice, no source",
        )


def _all_off(facts: Facts) -> Test:
    """How long the one OFF takes from the seat; how long it may take, a licensed person sets."""
    within = facts.wiring.part("off_switch").quantity("stops_within")
    return Test(
        f"Time until all of the equipment stands still: {off_control(facts)}",
        "pilot's seat, belt and harness fastened, hands on the controls",
        "stopwatch, all items at work: from the call of a second person until the last one stands still",
        f"at most {said(within)}" if known(within) else f"at most {BLANK}, set by the licensed person",
        within.evidence if isinstance(within, Fact) else "the licensed person",
        second_person=True,
    )


def _terminals(item: Item) -> Test:
    least, most = item.demand.lowest_voltage, item.demand.highest_voltage
    source = least.evidence if isinstance(least, Fact) else said(least)
    acceptance = f"{said(least)} to {said(most)}" if known(least, most) else MAKERS
    return Test(f"Voltage at the {item.name}", "at its terminals", "measure at full power", acceptance, source)


def _of_loops(matter: Matter) -> Iterator[Test]:
    for loop in matter.facts.loops:
        if loop.declined is not None:
            continue
        test = loop.leak_test
        declared = test.there and test.declined is None
        yield Test(
            f"Leak test of the {loop.name}",
            "whole loop",
            "gauge and clock, at a steady temperature",
            worded("{} for {}, drop at most {}", *(test.quantity(field) for field in ("pressure", "time", "most_drop")))
            if declared
            else f"pressure and time, {MAKERS}; no drop",
            "finding: leak test" if declared else "common practice, no source",
        )
        yield Test(f"Leaks of the {loop.name}", "each joint", "look, pump running", "no seepage", "AC 43.13-1B par. 9-30e")
        for liquid in loop_cases((loop,)):
            yield Test(
                f"Flow of the {loop.name}, {liquid.case}",
                "where a flow meter can stand",
                f"measure with a flow meter, liquid at {said(liquid.temperature)}, or as near to it as the day allows",
                limit_text(matter.finding("fluids.coolant_flow", liquid.name)),
                "finding: coolant flow",
            )
        yield Test(
            f"Hottest liquid of the {loop.name}",
            "where it is hottest, before it reaches the exchanger",
            "thermometer, at full power until steady, fan alone; add what the hottest declared outside air is warmer than the air of the test",
            f"at most {said(loop.hottest)}" if known(loop.hottest) else said(loop.hottest),
            "finding: heat that the tail exchanger passes to the air",
        )
        yield Test(
            f"Silver-plated wires and contacts below joints of the {loop.name}",
            "under and beside each joint",
            "look, and read the wire and connector records",
            f"none, or as the licensed person decided: {MAKERS.partition(': ')[2]}",
            "NASA TN D-8177 (1976)",
        )
    for case in matter.facts.bay_cases:
        heat = matter.finding("fluids.bay_temperature", case.name)
        yield Test(
            f"Temperature of the {case.name}",
            "where the bay is hottest",
            "thermometer; add what the hottest declared outside air is warmer than the air of the test",
            limit_text(heat),
            "finding: bay temperature",
        )
    for water in matter.facts.condensates:
        if water.tube.there and water.declined is None:
            yield Test(
                f"Pour test of the condensate tube of the {water.name}",
                "tray and outlet",
                f"pour in water as fast as the most that is made: {worked_value(condensate_rate(water, matter.facts), 'V_w')}",
                "all of it leaves at the outlet, none stands in the tray",
                "worked: condensate rate; common practice, no source",
            )
    for item in matter.facts.items:
        contents = item.place.part("contents")
        if contents.there and contents.declined is None:
            yield Test(
                f"Relief and vent of the {item.name}",
                said(contents.word("relief")),
                "look, valves shut; follow the path to its end",
                "open, leads where the job says, clear of oil, grease and sparks",
                "finding: relief path",
            )
    for removal in matter.facts.removals:
        for part in removal.disconnections:
            if part.kind == "drain":
                yield Test(
                    f"Drain {part.name} of the {removal.name}",
                    "inlet and outlet",
                    f"pour in water; quantity, {MAKERS}",
                    "all of it leaves overboard",
                    "common practice, no source",
                )
