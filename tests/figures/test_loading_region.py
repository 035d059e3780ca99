"""The chart of every loading and of the fuel burn, read back against its own printed axes."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from liftout.facts.limits import Limits
from liftout.facts.states import everything_in
from liftout.figures.drawing import TALLEST
from liftout.figures.loading_envelope import Curve, Loading, envelope
from liftout.figures.loading_region import fuel_burns, loading_region
from liftout.figures.svg import DOTTED, FIRM, SECOND
from liftout.quantities import of
from liftout.worked.balance.region_outline import region_outline
from tests.figures.invented import NEED, changed, demonstration, limits, loadings, names
from tests.figures.seen import Seen, Shape, faults, seen
from tests.figures.test_loading_envelope import axes, panels, read_off

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])


def outlines() -> st.SearchStrategy[Curve]:
    points = st.lists(st.tuples(st.floats(500, 2000), st.floats(0.5, 1.5)), min_size=2, max_size=12)
    return st.builds(lambda name, pen, line: Curve(name, pen, tuple(sorted(line))), names, st.sampled_from([FIRM, SECOND, DOTTED]), points)


def line_of(look: Seen, name: str) -> list[Shape]:
    return [shape for shape in look.shapes if shape.group == name and shape.kind in ("polyline", "line")]


@slow
@given(limits(), st.lists(loadings(), max_size=8), st.lists(outlines(), max_size=5))
def test_however_crowded_nothing_overlaps_and_nothing_leaves(bounds: Limits, marks: list[Loading], curves: list[Curve]) -> None:
    made = envelope(bounds, "firewall", (), marks, curves)
    assert faults(made) == []
    assert seen(made).height <= TALLEST + 40


def test_two_outlines_are_told_apart_without_colour_and_named() -> None:
    facts = demonstration()
    before, full = facts.states[0], everything_in(facts.states)
    look = seen(loading_region(facts, facts.aircraft.limits, (before, full), ()))
    solid, dashed = (line_of(look, f"every loading, {state.name}") for state in (before, full))
    assert len(solid) == len(dashed) == 1
    assert "stroke-dasharray" not in solid[0].values
    assert "stroke-dasharray" in dashed[0].values
    assert solid[0].values["stroke-width"] != dashed[0].values["stroke-width"]
    # Each in the key, with a sign of its own kind.
    for state in (before, full):
        assert f"every loading, {state.name}" in look.words


def test_an_outline_lies_where_the_axes_say() -> None:
    facts = demonstration()
    state = facts.states[0]
    look = seen(loading_region(facts, facts.aircraft.limits, (state,), ()))
    arms, weights = axes(look)
    (line,) = line_of(look, f"every loading, {state.name}")
    expected = region_outline(state, facts.aircraft.limits, facts).points
    assert len(line.points) == len(expected) + 1
    assert line.points[0] == line.points[-1]
    for (x, y), (weight_kg, arm_m) in zip(line.points, expected, strict=False):
        assert read_off(arms, x) == pytest.approx(arm_m / 0.0254, abs=0.01)
        assert read_off(weights, y) == pytest.approx(weight_kg / 0.45359237, abs=1)


def test_the_worst_loadings_are_marked_with_their_figures() -> None:
    facts = demonstration()
    marks = [Loading(f"worst {n}", of(f"{2600 + n * 300}.0", "lb"), of(f"{39 + n}.25", "in")) for n in range(2)]
    made = loading_region(facts, facts.aircraft.limits, facts.states[:1], marks)
    assert faults(made) == []
    look = seen(made)
    for mark in marks:
        assert mark.label in look.cells
        assert mark.label in made.alternative
    assert made.alternative.endswith(f"Solid outline: every loading, {facts.states[0].name}.")


def test_a_limit_straight_in_moment_is_drawn_as_a_curve_through_its_corners() -> None:
    facts = demonstration()
    bounds = changed(facts.aircraft.limits, in_moment=True)
    made = envelope(bounds, "firewall", (), ())
    look = seen(made)
    arms, weights = axes(look)
    (line,) = line_of(look, "forward limit")
    assert len(line.points) > len(bounds.forward) + 1
    drawn = [(read_off(weights, y), read_off(arms, x)) for x, y in line.points]
    for corner in bounds.forward:
        weight, arm = float(corner.weight.value.magnitude), float(corner.arm.value.magnitude)  # type: ignore[union-attr]
        assert any(abs(w - weight) < 1 and abs(a - arm) < 0.02 for w, a in drawn)
    # Half way in moment between the last two corners: (2700 x 35.5 + 3100 x 39.5) / 2 at 2900 lb.
    half = (2700 * 35.5 + 3100 * 39.5) / 2 / 2900
    below, above = max(p for p in drawn if p[0] <= 2900), min(p for p in drawn if p[0] > 2900)
    share = (2900 - below[0]) / (above[0] - below[0])
    assert below[1] + share * (above[1] - below[1]) == pytest.approx(half, abs=0.02)
    assert "straight in moment from corner to corner, so curved here" in look.everything


def test_a_burn_runs_from_take_off_to_no_fuel_inside_the_outline() -> None:
    facts = demonstration()
    state = everything_in(facts.states)
    name = "pilot alone with full tanks"
    made = fuel_burns(facts, facts.aircraft.limits, state, (), [name])
    assert faults(made) == []
    look = seen(made)
    (track,) = line_of(look, name)
    assert track.values["stroke-dasharray"] == "0.6 0.8"
    arms, weights = axes(look)
    top, foot = min(track.points, key=lambda p: p[1]), max(track.points, key=lambda p: p[1])
    # 74 US gal at 6 lb are 444 lb.
    assert read_off(weights, top[1]) - read_off(weights, foot[1]) == pytest.approx(444, abs=2)
    assert read_off(arms, top[0]) > read_off(arms, foot[0])  # the tanks lie behind: burning moves it forward
    (left, head), (right, bottom) = panels(look)[0].points
    assert all(left <= x <= right and head <= y <= bottom for x, y in track.points)


def test_without_figures_there_is_no_outline_and_the_chart_still_stands() -> None:
    facts = demonstration()
    tanks = tuple(changed(tank, usable=NEED) for tank in facts.aircraft.tanks)
    bare = changed(facts, aircraft=changed(facts.aircraft, tanks=tanks), worked={})
    made = loading_region(bare, bare.aircraft.limits, bare.states[:1], ())
    assert faults(made) == []
    assert not line_of(seen(made), f"every loading, {bare.states[0].name}")
