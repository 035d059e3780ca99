"""The envelope chart: what it shows is read back against its own printed axes."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from liftout.facts import gather
from liftout.facts.limits import Corner, Limits
from liftout.figures.drawing import TALLEST
from liftout.figures.lettering import SHIFT
from liftout.figures.loading_envelope import MOST_POINTS, Loading, batched, envelope, loading_envelope, loading_envelopes
from liftout.job import load
from liftout.quantities import of
from liftout.resources import folder
from tests.figures.invented import NEED, changed, demonstration, limits, loadings, told
from tests.figures.seen import Seen, Shape, faults, seen

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])


def value(text: str) -> float:
    return float(text.split(maxsplit=1)[0].replace("\u2212", "-"))


Ticks = list[tuple[float, float]]


def panels(look: Seen) -> list[Shape]:
    """The frames of the main chart and of its details, from left to right and down."""
    frames = [shape for shape in look.shapes if shape.kind == "rect" and not shape.group and shape.values["fill"] == "none"]
    return sorted(frames, key=lambda frame: frame.points)


def axes(look: Seen, number: int = 0) -> tuple[Ticks, Ticks]:
    """Printed value and place of the ticks of a panel, across and up."""
    (left, top), (right, bottom) = panels(look)[number].points
    lines = [shape.points for shape in look.shapes if shape.kind == "line" and not shape.group]
    across = [x1 for (x1, y1), (x2, y2) in lines if x1 == x2 and left <= x1 <= right and abs(y1 - bottom) < 0.002 and y2 > y1]
    up = [y1 for (x1, y1), (x2, y2) in lines if y1 == y2 and top <= y1 <= bottom and abs(x2 - left) < 0.002 and x1 < x2]
    texts = [text for text in look.texts if not text.group]
    arms = [(value(t.words), x) for x in across for t in texts if t.at[0] == x and abs(t.at[1] - bottom - 4.8) < 0.01]
    weights = [(value(t.words), y) for y in up for t in texts if abs(t.at[0] - left + 2) < 0.01 and abs(t.at[1] - SHIFT - y) < 0.01]
    assert len(arms) == len(across)
    assert len(weights) == len(up)
    return arms, weights


def read_off(ticks: list[tuple[float, float]], place: float) -> float:
    (first, start), (last, end) = ticks[0], ticks[-1]
    return first + (place - start) * (last - first) / (end - start)


def marks(look: Seen) -> list[tuple[str, tuple[float, float]]]:
    """Names and middles of the marks: each has a dot of 0.3 mm in its middle."""
    return [(s.group, (s.number("cx"), s.number("cy"))) for s in look.shapes if s.kind == "circle" and s.values["r"] == "0.3" and s.group]


@slow
@given(limits(), st.lists(loadings(), max_size=24), st.lists(loadings(), max_size=6))
def test_however_crowded_nothing_overlaps_and_nothing_leaves(bounds: Limits, states: list[Loading], extra: list[Loading]) -> None:
    assert faults(envelope(bounds, "firewall", states, extra)) == []


@slow
@given(limits(), st.lists(loadings(), min_size=1, max_size=8))
def test_every_mark_lies_where_its_figures_say(bounds: Limits, states: list[Loading]) -> None:
    states = [changed(state, label=f"state {n}") for n, state in enumerate(states)]
    look = seen(envelope(bounds, "firewall", states))
    arms, weights = axes(look)
    drawn = {name: at for name, at in marks(look) if not name.startswith("detail")}
    assert set(drawn) == {state.label for state in states if state.weight}
    for state in states:
        if state.weight is None or state.arm is None:
            assert any(state.label in words and "not assessed" in words for words in [look.everything])
            continue
        x, y = drawn[state.label]
        assert read_off(arms, x) == pytest.approx(float(state.arm.magnitude), abs=0.02 * abs(arms[-1][0] - arms[0][0]))
        assert read_off(weights, y) == pytest.approx(float(state.weight.magnitude), abs=0.02 * abs(weights[-1][0] - weights[0][0]))
        assert {f"{state.weight.magnitude:f}", f"{state.weight.magnitude.normalize():f}"} & set(look.cells)


@slow
@given(limits())
def test_limit_lines_run_through_their_corners_and_straight_down_below(bounds: Limits) -> None:
    look = seen(envelope(bounds, "firewall", [Loading("x", of("2000.0", "lb"), of("40", "in"))]))
    arms, weights = axes(look)
    for name, corners in (("forward limit", bounds.forward), ("aft limit", bounds.aft)):
        lines = [shape for shape in look.shapes if shape.group == name]
        assert len(lines) == bool(corners)
        for line in lines:
            foot, *through = line.points
            assert foot[0] == through[0][0]
            assert foot[1] == pytest.approx(panels(look)[0].points[1][1])
            assert line.values["stroke-width"] == "0.7"
            for corner, (x, y) in zip(corners, through, strict=True):
                assert read_off(arms, x) == pytest.approx(float(corner.arm.value.magnitude), abs=0.05)  # type: ignore[union-attr]
                assert read_off(weights, y) == pytest.approx(float(corner.weight.value.magnitude), abs=5)  # type: ignore[union-attr]


def test_the_demonstration_shows_each_state_with_the_figures_of_its_worksheet() -> None:
    from liftout.worked.balance.amended_empty_weight import amended_empty_weight

    facts = demonstration()
    made = loading_envelope(facts)
    look = seen(made)
    assert faults(made) == []
    for state in facts.states:
        printed = {step.symbol: step.result for step in amended_empty_weight(state, facts).steps}
        assert f"empty, {state.name}" in look.cells
        assert printed["W"].number in look.cells
        assert printed["x_cg"].number in look.cells
        assert f"empty, {state.name}: {printed['W'].number} lb at {printed['x_cg'].number} in" in made.alternative
    assert "maximum take-off weight 3100 lb" in look.words
    assert "loaded" in look.everything
    assert "empty" in made.caption


def test_only_the_states_asked_for_are_drawn_and_a_missing_weight_is_said() -> None:
    facts = demonstration()
    (only,) = facts.aircraft.undercarriages
    unweighed = changed(only, sheets=(*only.sheets[:-1], changed(only.record, weight=NEED)))
    bare = changed(facts, aircraft=changed(facts.aircraft, undercarriages=(unweighed,)), worked={})
    look = seen(loading_envelope(bare, bare.states[:1]))
    assert marks(look) == []
    assert "not drawn, not assessed: measure it" in look.everything
    assert look.cells.count("?") == 2


@slow
@given(st.lists(loadings(), min_size=2, max_size=14))
def test_a_detail_shows_its_marks_where_their_figures_say_and_each_mark_has_one_letter(states: list[Loading]) -> None:
    states = [changed(state, label=f"state {n}") for n, state in enumerate(states)]
    look = seen(envelope(demonstration().aircraft.limits, "firewall", states))
    for name, (x, y) in marks(look):
        if name.startswith("detail"):
            number, label = name.removeprefix("detail ").split(": ")
            arms, weights = axes(look, int(number))
            state = next(state for state in states if state.label == label)
            assert state.arm is not None
            assert state.weight is not None
            if len(arms) > 1:
                assert read_off(arms, x) == pytest.approx(float(state.arm.magnitude), abs=0.02 * abs(arms[-1][0] - arms[0][0]))
            if len(weights) > 1:
                assert read_off(weights, y) == pytest.approx(float(state.weight.magnitude), abs=0.02 * abs(weights[-1][0] - weights[0][0]))
    letters = [text.words for text in look.texts if text.bold and not text.words.startswith("detail")]
    assert sorted(letters) == sorted(chr(ord("A") + n) for n, state in enumerate(states) if state.weight)


def test_crowded_states_get_a_detail_and_others_do_not() -> None:
    limits_ = demonstration().aircraft.limits
    near = [Loading(f"s{n}", of(2000 + 8 * n, "lb"), of(f"38.{n}", "in")) for n in range(4)]
    look = seen(envelope(limits_, "firewall", near))
    assert len(panels(look)) == 2
    assert look.words.count("detail 1") == 2
    far = [Loading(f"s{n}", of(2000 + 200 * n, "lb"), of(f"{35 + 3 * n}", "in")) for n in range(4)]
    assert len(panels(seen(envelope(limits_, "firewall", far)))) == 1
    assert len(panels(seen(envelope(limits_, "firewall", [near[0], near[0]])))) == 1  # nothing would draw these two apart


@given(st.integers(0, 60))
def test_sheets_hold_all_points_in_order_and_no_more_than_can_be_read(count: int) -> None:
    points = [Loading(str(n), None, None) for n in range(count)]
    parts = batched(points)
    assert [point for part in parts for point in part] == points
    assert all(0 < len(part) <= MOST_POINTS for part in parts)


def test_many_loadings_go_on_sheets_of_their_own_with_names_in_full() -> None:
    facts = demonstration()
    label = "worst loading, only the cabin unit in and drained, forward limit, number {}"
    extra = [Loading(label.format(n), of(2400 + 20 * n, "lb"), of(f"{36 + n / 4}", "in")) for n in range(18)]
    made = loading_envelopes(facts, None, extra)
    assert len({drawing.name for drawing in made}) == len({drawing.caption for drawing in made}) == 3
    looks = [seen(drawing) for drawing in made]
    assert all(look.height <= TALLEST for look in looks)
    assert all(loading.label in f"{looks[1].everything} {looks[2].everything}" for loading in extra)
    assert [faults(drawing) for drawing in made] == [[], [], []]
    assert [drawing.name for drawing in loading_envelopes(facts)] == ["loading-envelope"]


def test_a_figure_that_does_not_break_before_its_unit_is_still_read() -> None:
    point = Loading("x", of("2000.00", "lb"), of("40.00", "in"), ("2000.00\u00a0lb", "40.00\u00a0in"))
    assert {"2000.00", "40.00"} <= set(seen(envelope(demonstration().aircraft.limits, "firewall", [point])).cells)


def test_marks_are_told_apart_by_shape_and_filling() -> None:
    states = [Loading(f"s{n}", of(2000 + 100 * n, "lb"), of(35 + n, "in")) for n in range(15)]
    look = seen(envelope(demonstration().aircraft.limits, "firewall", states))
    kinds = set()
    for name in (state.label for state in states):
        outline = next(s for s in look.shapes if s.group == name and "stroke" in s.values)
        middle = next(at for label, at in marks(look) if label == name)
        dots = {s.values["fill"] for s in look.shapes if s.group == name and s.values.get("r") == "0.3"}
        kinds.add((outline.kind, tuple((round(x - middle[0], 2), round(y - middle[1], 2)) for x, y in outline.points), outline.values["fill"], *dots))
    assert len(kinds) == 10
    assert look.words.count("O") == look.cells.count("O") == 1, "beside its mark, and in the key"


def test_a_job_in_metric_units_gets_metric_axes() -> None:
    metric = changed(
        demonstration().aircraft.limits,
        maximum_takeoff=told(of(1400, "kg")),
        maximum_landing=told(of(1400, "kg")),
        forward=(Corner(told(of(900, "kg")), told(of(860, "mm"))),),
        aft=(Corner(told(of(900, "kg")), told(of(1200, "mm"))),),
    )
    made = envelope(metric, "firewall", [Loading("empty", of("2000.0", "lb"), of("40.0", "in"), ("2000.0 lb", "40.0 in"))])
    look = seen(made)
    arms, weights = axes(look)
    ((_, (x, y)),) = marks(look)
    assert read_off(arms, x) == pytest.approx(1016, abs=2)
    assert read_off(weights, y) == pytest.approx(907.18, abs=2)
    assert {"907.185", "1016"} <= set(look.cells)
    assert {"Weight (kg)", "Arm aft of the datum firewall (mm)"} <= set(look.words)


@pytest.mark.parametrize("job", ["halden_4_survey", "orrin_6p_cooler", "tessel_2_cooler"])
def test_the_states_of_every_demonstration_job_can_be_drawn(job: str) -> None:
    """Where no detail would part marks on the narrower chart, the chart stays wide."""
    assert faults(loading_envelope(gather(load(folder("jobs") / job / "job.yaml")))) == []
