"""One-line diagrams of circuits."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings

from liftout.facts import Fact
from liftout.facts.electrical import Run
from liftout.figures.drawing import Drawing
from liftout.figures.wiring_diagram import wiring_diagram, wiring_diagrams
from liftout.job.part import Part
from tests.figures.invented import NEED, Invented, answer, changed, demonstration, runs, told_otherwise, word
from tests.figures.seen import Shape, faults, seen

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def of_group(run: Run, group: str) -> list[Shape]:
    return [shape for shape in seen(wiring_diagram(run, demonstration())).shapes if shape.group == group]


def of_bus(made: Drawing) -> list[str]:
    return [text.words for text in seen(made).texts if text.group.startswith("bus ")]


@slow
@given(runs())
def test_whatever_is_missing_and_however_long_the_names_nothing_overlaps(invented: Invented[Run]) -> None:
    assert faults(wiring_diagram(invented.value, demonstration())) == []


@slow
@given(runs())
def test_each_value_is_shown_or_said_to_be_missing(invented: Invented[Run]) -> None:
    run = invented.value
    made = wiring_diagram(run, demonstration())
    look = seen(made)
    for fact in (run.supply, run.gauge, run.length, run.current, run.duty, run.return_path):
        if isinstance(fact, Fact):
            assert (fact.value if isinstance(fact.value, str) else fact.value.written) in look.cells
        else:
            assert "?" in look.cells
            assert "not assessed: measure it" in look.everything
    assert run.source in made.alternative
    assert run.name in made.caption
    assert run.load.name in made.alternative


def test_the_demonstration() -> None:
    first, second = wiring_diagrams(demonstration())
    look = seen(first)
    assert faults(first) == faults(second) == []
    assert {
        "COOLER",
        "breaker 50 A",
        "6 in from the",
        "bus",
        "W1: size 4",
        "copper, 12.5 ft one",
        "way",
        "back through a wire",
        "parts here",
        "32 A",
    } <= set(look.words)
    assert " ".join(of_bus(first)) == "main bus dead, master off"
    assert "Bus: main bus (" in first.alternative
    assert first.name == "wiring-w1"
    assert "COOLER FAN" in seen(second).words


def test_the_bus_is_named_and_says_whether_the_master_switch_kills_it() -> None:
    run = demonstration().runs[0]
    live = wiring_diagram(changed(run, bus=changed(run.bus, name=word("hot bus"), dead=answer(yes=False))), demonstration())
    assert " ".join(of_bus(live)) == "hot bus LIVE, master off"
    assert "Bus with the master switch off: stays live" in live.alternative
    unknown = wiring_diagram(changed(run, bus=changed(run.bus, dead=NEED)), demonstration())
    assert " ".join(of_bus(unknown)).endswith("master off: ?")
    assert "Bus with the master switch off: ? (not assessed: measure it)" in unknown.alternative


def test_breaker_fuse_and_unknown_protection_look_different() -> None:
    run = demonstration().runs[0]
    said = run.place.said
    assert said is not None

    def protected_by(device: str | None) -> tuple[str, ...]:
        old = said.protection  # type: ignore[union-attr]
        kind = type(old.device)
        value = None if device is None else told_otherwise(old.device, value=device) if isinstance(old.device, Part) else kind(device)
        told_so = told_otherwise(said, protection=told_otherwise(old, device=value))
        shapes = of_group(changed(run, place=changed(run.place, said=told_so)), "protection COOLER")
        return tuple(shape.kind + ("-dashed" if "stroke-dasharray" in shape.values else "") for shape in shapes)

    assert protected_by("breaker") == ("line", "line", "line")
    assert protected_by("fuse") == ("rect", "line")
    assert protected_by(None) == ("rect-dashed",)


def test_a_circuit_without_protection_says_why() -> None:
    run = changed(demonstration().runs[0], protection_declined=word("fed through the pilot's own fuse"))
    made = wiring_diagram(run, demonstration())
    assert "no protection" in seen(made).words
    assert "none: fed through the pilot's own fuse" in made.alternative
    assert not [shape for shape in seen(made).shapes if shape.group.startswith("protection")]


def test_the_way_back_is_a_wire_the_structure_or_unknown() -> None:
    run = demonstration().runs[0]
    wire = of_group(run, "way back")
    structure = of_group(changed(run, return_path=word("structure")), "way back")
    unknown = of_group(changed(run, return_path=NEED), "way back")
    assert len(wire) == 2
    assert not any("stroke-dasharray" in shape.values for shape in wire)
    assert len(structure) == 2 * 6  # at each end a stub and the sign of the structure: stem, bar, three strokes
    assert [("stroke-dasharray" in shape.values) for shape in unknown] == [True]


def test_both_poles_part_only_where_the_current_returns_through_the_connector() -> None:
    run = demonstration().runs[0]
    name = run.place.said_at("connector")
    sockets = [shape for shape in of_group(run, name) if shape.kind == "path"]
    assert len(sockets) == 2
    (one,) = [shape for shape in of_group(changed(run, return_path=word("structure")), name) if shape.kind == "path"]
    bus = next(shape for shape in of_group(run, "bus main bus") if shape.values["stroke-width"] == "0.7")
    out = sum(y for _, y in bus.points) / 2
    assert min(y for _, y in one.points) < out < max(y for _, y in one.points)


def test_the_diagram_says_what_the_off_control_and_the_starter_do_to_the_circuit() -> None:
    made = wiring_diagram(demonstration().runs[0], demonstration())
    assert "cut by the OFF control" in seen(made).words
    assert "dead while cranking" in seen(made).words
    assert "While the starter turns: dead while cranking (measured by" in made.alternative
    run = demonstration().runs[0]
    live = changed(run, place=replace(run.place, said=told_otherwise(run.place.said, inhibited_while_cranking=None)))
    assert "While the starter turns: while cranking: ?" in wiring_diagram(live, demonstration()).alternative
