"""Functional tests: what is measured and operated with the equipment in, each with its acceptance value."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from liftout.documents.chapters.electrical import bonds
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import MAKERS, known, limit_text, published, said, worked_value
from liftout.facts import Fact, Missing
from liftout.facts.electrical import Run
from liftout.facts.equipment import Item
from liftout.tables import table
from liftout.worked.electrical.circuit_drop import circuit_drop

compass, air = table("compass_limits"), table("cabin_air_limits")

OUTSIDE_CABIN = ("baggage compartment", "aft of the cabin", "outside or forward of occupants")
"""Where cables, rods and pulleys of flight controls may pass beside an item; a place that was not said counts as one of these."""


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
        "tests": [(test.item, test.where, test.method, test.acceptance, test.source) for test in functional_tests(matter)],
    }


def functional_tests(matter: Matter) -> Iterator[Test]:
    """Every functional test of the job, in the order in which they are done."""
    for bond, acceptance, source in bonds(matter.facts):
        yield Test(f"Bond: {bond}", "each one made or disturbed", "measure with a bonding tester", acceptance, source)
    for item in matter.facts.items:
        if item.removable and (isinstance(item.location, Missing) or item.location.value in OUTSIDE_CABIN):
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
    for item in matter.facts.powered_items:
        yield _terminals(item)
    for phase in matter.facts.sources_in_phases:
        finding = matter.finding("electrical.generator_load", phase.name)
        yield Test(
            f"Load on the {phase.source.name}, {phase.phase}",
            "ammeter",
            "read with all loads of the phase on",
            limit_text(finding),
            "finding: generator load",
        )
    yield from _of_loops(matter)
    swing, monoxide = compass.row("swing"), air.row("carbon monoxide")
    deviation, share = published("at most", swing.deviation), published("at most", monoxide.share)
    yield Test("Compass, equipment off and at full power", "compass rose", "swing twice, in steps of 30 degrees", deviation, swing.citation)
    yield Test(
        "Radios and navigation aids",
        "instrument panel",
        "operate each with the equipment off and at full power",
        "no harmful effect",
        "14 CFR 91.21; common practice",
    )
    yield Test(
        "Carbon monoxide in the cabin",
        "at head height, vents open and closed",
        "measure with a meter, equipment on and off",
        share,
        monoxide.citation,
    )


def _of_circuit(run: Run, matter: Matter) -> Iterator[Test]:
    fed = run.load.name if run.load else "load"
    label = run.place.part("protection").word("label")
    drop = matter.finding("electrical.voltage_drop", run.name)
    yield Test(
        f"Breaker or fuse of circuit {run.name}",
        f"panel, {said(label)}",
        f"open it with the {fed} at work",
        f"the {fed} stops",
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
        "divide the drop by the current measured beside it",
        f"at most {worked_value(circuit_drop(run, matter.facts), 'R_loop')}, which is as many millivolts for each ampere",
        "worked: circuit drop",
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


def _terminals(item: Item) -> Test:
    least, most = item.demand.lowest_voltage, item.demand.highest_voltage
    source = least.evidence if isinstance(least, Fact) else said(least)
    acceptance = f"{said(least)} to {said(most)}" if known(least, most) else MAKERS
    return Test(f"Voltage at the {item.name}", "at its terminals", "measure at full power", acceptance, source)


def _of_loops(matter: Matter) -> Iterator[Test]:
    for loop in matter.facts.loops:
        if loop.declined is not None:
            continue
        flow = matter.finding("fluids.coolant_flow", f"{loop.name}, at work")
        yield Test(
            f"Pressure test of the {loop.name}",
            "whole loop",
            "gauge and clock",
            f"pressure and time, {MAKERS}; no drop",
            "common practice, no source",
        )
        yield Test(f"Leaks of the {loop.name}", "each joint", "look, pump running", "no seepage", "AC 43.13-1B par. 9-30e")
        yield Test(
            f"Flow of the {loop.name} at work", "where a flow meter can stand", "measure with a flow meter", limit_text(flow), "finding: coolant flow"
        )
        yield Test(
            f"Silver-plated wires and contacts below joints of the {loop.name}",
            "under and beside each joint",
            "look, and read the wire and connector records",
            f"none, or as the licensed person decided: {MAKERS.partition(': ')[2]}",
            "NASA TN D-8177 (1976)",
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
