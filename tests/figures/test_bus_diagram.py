"""Bus diagram: nothing overlaps whatever the names, everything that hangs on a bus is shown or counted."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from liftout.facts import Facts, gather
from liftout.figures.bus_diagram import bus_diagram, bus_diagrams
from liftout.figures.drawing import TALLEST
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.invented import demonstration
from tests.figures.seen import faults, seen

slow = settings(deadline=None, max_examples=40, phases=[Phase.generate], suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
HEAD = """\
liftout: 1
papers: {number: BENCH-1, revision: A, date: 2026-01-01, shop: the bench}
aircraft: {kind: aeroplane, model: bench, kinds of operation: [day VFR], datums: {firewall: {where: front face}},
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]}
equipment: {unit: {description: a unit, stays: removable}}
"""
words = (
    st.text(st.sampled_from("abcdefghijklmnop W"), min_size=3, max_size=50)
    .map(lambda text: " ".join(text.split()))
    .filter(lambda name: len(name) > 2)
)


def facts(text: str) -> Facts:
    with tempfile.TemporaryDirectory() as holder:
        place = Path(holder) / "jobs" / "one"
        place.mkdir(parents=True)
        (place / "job.yaml").write_text(text, encoding="utf-8")
        return gather(load(place / "job.yaml"))


class System:
    """Facts that print in a few words."""

    def __init__(self, of: Facts, words: str) -> None:
        self.facts = of
        self.words = words

    def __repr__(self) -> str:
        return self.words


@st.composite
def systems(draw: st.DrawFn) -> System:
    """Up to three sources, up to six buses as a tree, up to sixty loads, some of which say little."""
    names = draw(st.lists(words.filter(lambda name: name != "battery"), min_size=3, max_size=9, unique=True))
    cut = draw(st.integers(1, min(3, len(names) - 1)))
    sources, buses = names[:cut], names[cut:]
    tree: dict[str, dict[str, object]] = {}
    for number, bus in enumerate(buses):
        fed = (
            [draw(st.sampled_from(buses[:number]))]
            if number and draw(st.booleans())
            else draw(st.lists(st.sampled_from([*sources, "battery"]), unique=True))
        )
        if {*fed} & {*sources} and sources[0] not in fed:  # which feeds all that hangs there
            fed.append(sources[0])
        tree[bus] = ({"fed from": fed} if fed else {}) | ({"fed through": {"device": "breaker", "rating": "50 A"}} if draw(st.booleans()) else {})
    loads = {
        f"{draw(words)} {number}": {"current": "3 A", "phases": ["cruise"], "source": sources[0]}
        | ({"bus": draw(st.sampled_from(buses))} if draw(st.booleans()) else {})
        | ({"essential": draw(st.sampled_from(["yes", "no"]))} if draw(st.booleans()) else {})
        for number in range(draw(st.integers(0, 60)))
    }
    told = {"electrical": {"sources": {name: {} for name in sources}, "buses": tree, "loads": loads}}
    run = {"wiring": {"runs": {"W1": {"source": sources[0], "load": "unit", "bus": draw(st.sampled_from(buses))}}}}
    return System(
        facts(f"{HEAD}{''.join(f'{key}: {json.dumps(value)}{chr(10)}' for key, value in (told | run).items())}"),
        f"{len(sources)} sources, {len(buses)} buses, {len(loads)} loads",
    )


@pytest.mark.parametrize("job", JOBS)
def test_the_demonstrations(job: str) -> None:
    of = gather(load(folder("jobs") / job / "job.yaml"))
    made = bus_diagram(of)
    assert faults(made) == []
    shown = seen(made).everything
    for feed in of.feeds:
        assert feed.name in shown
    for source in of.sources:
        assert source.name in shown
        for existing in source.existing:
            assert existing.name in made.alternative
    for run in of.runs:
        assert f"{run.name}, " in shown


@slow
@given(systems())
def test_whatever_the_tree_and_however_long_the_names_nothing_overlaps(system: System) -> None:
    of = system.facts
    made = bus_diagram(of)
    assert faults(made) == []
    assert seen(made).height <= TALLEST
    for source in of.sources:
        for existing in source.existing:
            assert existing.name in made.alternative, "what has no room in the drawing stands in its words"


def test_a_bus_that_nobody_names_and_a_load_of_which_nobody_says_whether_it_stays_on_are_question_marks() -> None:
    of = facts(
        HEAD
        + "electrical: {sources: {alternator: {}}, buses: {main: {fed from: [alternator]}}, loads: {radio: {current: 3 A, phases: [cruise], source: alternator}}}\n"
    )
    look = seen(bus_diagram(of))
    assert "bus ?" in look.words
    assert "radio, 3 A, stays on: ?" in look.words


def test_what_has_no_room_is_counted() -> None:
    loads = ", ".join(f"load {n}: {{current: 1 A, phases: [cruise], source: alternator, bus: main}}" for n in range(60))
    of = facts(f"{HEAD}electrical: {{sources: {{alternator: {{}}}}, buses: {{main: {{fed from: [alternator]}}}}, loads: {{{loads}}}}}\n")
    more = [text for text in seen(bus_diagram(of)).words if text.endswith("more: see the key")]
    shown = [text for text in seen(bus_diagram(of)).words if text.startswith("load ")]
    assert len(more) == 1
    assert len(shown) + int(more[0].split()[1]) == 60


def test_without_a_source_there_is_no_diagram() -> None:
    assert bus_diagrams(facts(HEAD)) == []
    assert len(bus_diagrams(demonstration())) == 1


@pytest.mark.parametrize("job", JOBS)
def test_every_sign_is_explained_and_none_that_is_not_drawn(job: str) -> None:
    look = seen(bus_diagram(gather(load(folder("jobs") / job / "job.yaml"))))
    squares = [s for s in look.shapes if s.kind == "rect" and s.group and s.values["fill"] == "#000"]
    protections = [s for s in look.shapes if s.kind == "rect" and s.group and s.values["fill"] == "#fff"]
    assert look.words.count("circuit of the fit") == bool(squares)
    assert look.words.count("protection of a bus") == bool(protections)
    assert squares
