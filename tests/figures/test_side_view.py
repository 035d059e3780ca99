"""The side view, read back against its own printed stations."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from liftout.facts import Fact, Facts, gather
from liftout.figures.arrangement import unit_of
from liftout.figures.plan_view import plan_view
from liftout.figures.side_view import side_view
from liftout.figures.station_view import LEFT
from liftout.job import load
from liftout.quantities import of
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.invented import NEED, Invented, changed, demonstration, fits, told
from tests.figures.seen import Seen, faults, seen

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def stations(look: Seen) -> tuple[float, list[tuple[float, float]]]:
    """Height of the line of stations on the paper, and printed value and place of each tick."""
    line = next(s for s in look.shapes if s.kind == "line" and not s.group and s.points[0][0] == LEFT and s.points[0][1] == s.points[1][1])
    y = line.points[0][1]
    found = []
    for shape in look.shapes:
        if shape.kind == "line" and not shape.group and shape.points[0][1] == y and shape.points[1][1] > y and shape.values["stroke-width"] == "0.35":
            text = next(t for t in look.texts if t.at[0] == shape.points[0][0] and y + 4 < t.at[1] < y + 5)
            found.append((float(text.words.replace("\u2212", "-")), shape.points[0][0]))
    return y, found


def place_of(ticks: list[tuple[float, float]], value: float) -> float:
    (first, start), (last, end) = ticks[0], ticks[-1]
    return start + (value - first) * (end - start) / (last - first)


def magnitude(fact: object, unit: str) -> float | None:
    return float(fact.value.to(unit)) if isinstance(fact, Fact) else None


@slow
@given(fits())
def test_however_crowded_nothing_overlaps_and_nothing_leaves(fit: Invented[Facts]) -> None:
    assert faults(side_view(fit.value)) == []
    assert faults(plan_view(fit.value)) == []


@pytest.mark.parametrize("job", JOBS)
def test_the_scale_across_has_two_figures_at_least(job: str) -> None:
    """One figure alone gives no scale."""
    facts = gather(load(folder("jobs") / job / "job.yaml"))
    for made in (side_view(facts), plan_view(facts)):
        look = seen(made)
        ticks = [s for s in look.shapes if s.kind == "line" and (s.points[0][0], s.points[1][0]) == (LEFT - 5, LEFT - 4)]
        figures = [t for t in look.texts if t.at[0] == LEFT - 5.5]
        assert len(figures) == len(ticks) >= 2, made.name


@slow
@given(fits(most=5))
def test_boxes_are_to_scale_and_where_the_job_says(fit: Invented[Facts]) -> None:
    facts = fit.value
    look = seen(side_view(facts))
    unit = unit_of(facts)
    _, ticks = stations(look)
    mm = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0])
    for item in facts.items:
        arm, height, length, tall = (magnitude(fact, unit) for fact in (item.arm, item.height, item.length, item.tall))
        boxes = [s for s in look.shapes if s.group == item.name and s.kind == "rect"]
        if arm is None or height is None or length is None or tall is None:
            assert not boxes
            continue
        (box,) = boxes
        assert box.number("width") == pytest.approx(length * mm, abs=0.01)
        assert box.number("height") == pytest.approx(tall * mm, abs=0.01)
        front, underside = magnitude(item.front, unit), magnitude(item.underside, unit)
        assert box.number("x") == pytest.approx(place_of(ticks, arm - length / 2 if front is None else front), abs=0.05)
        (sign,) = (s for s in look.shapes if s.group == item.name and s.kind == "circle" and s.values["r"] == "1.4")
        below = tall / 2 if underside is None else height - underside
        assert box.number("y") + box.number("height") - sign.number("cy") == pytest.approx(below * mm, abs=0.02)
        assert ("stroke-dasharray" in box.values) is not item.removable


@slow
@given(fits(most=5))
def test_items_of_one_job_stand_at_their_heights_above_one_another(fit: Invented[Facts]) -> None:
    facts = fit.value
    look = seen(side_view(facts))
    unit = unit_of(facts)
    _, ticks = stations(look)
    mm = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0])
    signs = {}
    for item in facts.items:
        height = magnitude(item.height, unit)
        circles = [s for s in look.shapes if s.group == item.name and s.kind == "circle" and s.values["r"] == "1.4"]
        assert len(circles) == isinstance(item.arm, Fact)
        if circles:
            assert circles[0].number("cx") == pytest.approx(place_of(ticks, magnitude(item.arm, unit) or 0.0), abs=0.05)
            if height is not None:
                signs[height] = circles[0].number("cy")
    for low, below in signs.items():
        for high, above in signs.items():
            assert below - above == pytest.approx((high - low) * mm, abs=0.02)


@slow
@given(fits())
def test_the_table_and_the_words_hold_every_item_with_its_figures(fit: Invented[Facts]) -> None:
    facts = fit.value
    made = plan_view(facts)
    look = seen(made)
    assert look.words, "the key stands below the plan view"
    for item in facts.items:
        assert item.name in made.alternative
        assert item.name in side_view(facts).alternative
        for fact in (item.arm, item.lateral, item.height):
            assert (fact.value.written.replace("-", "\u2212") if isinstance(fact, Fact) else "?") in look.cells
            assert isinstance(fact, Fact) or "not assessed: measure it" in made.alternative
    for station in facts.aircraft.stations:
        assert station.name in made.alternative


def test_the_demonstration() -> None:
    made = side_view(demonstration())
    look = seen(made)
    assert faults(made) == []
    y, ticks = stations(look)
    assert {"datum firewall, station 0", "cabin unit", "tail unit", "L1", "L2", "A", "D"} <= set(look.words)
    assert {"17 in × 14 in × 12 in", "94.0 in", "L1", "L2", "A", "D"} <= set(seen(plan_view(demonstration())).cells)
    datum = next(s for s in look.shapes if s.group == "datum firewall")
    assert datum.points[0][0] == pytest.approx(place_of(ticks, 0), abs=0.01)
    assert datum.points[1][1] == y
    # Numbers of the parts list, not an order of our own.
    assert [item.place.said_at("item_number") for item in demonstration().items] == ["1", "2", "3"]
    for pipe in (s for s in look.shapes if s.group.startswith("coolant loop, out") and s.kind == "line" and s.values["stroke-width"] == "0.18"):
        assert pipe.points[0][0] <= pipe.points[1][0] or pipe.points[0][1] < y
    dots = [s for s in look.shapes if s.group.startswith("coolant loop") and s.kind == "circle" and s.values["r"] == "0.45"]
    assert [dot.number("cx") for dot in dots] == [pytest.approx(place_of(ticks, 121), abs=0.05)] * 2


def test_no_outline_is_invented() -> None:
    facts = demonstration()
    nothing = changed(facts.keep_clear, volumes=())
    look = seen(
        side_view(changed(facts, items=(), loops=(), restraints=(), keep_clear=nothing, aircraft=changed(facts.aircraft, stations=(), tanks=())))
    )
    y, _ = stations(look)
    drawn = [s for s in look.shapes if max(py for _, py in s.points) < y - 0.01]
    assert all(s.kind == "line" or s.values.get("stroke") is None for s in drawn)  # ticks, the datum, and white under its name
    assert "No outline of the aircraft is drawn" in look.everything


def test_an_item_without_a_height_is_drawn_below_with_a_question_mark() -> None:
    facts = demonstration()
    items = (changed(facts.items[0], height=NEED), *facts.items[1:])
    made = side_view(changed(facts, items=items))
    assert faults(made) == []
    assert "height ?" in seen(made).words
    assert "cabin unit, removable (not assessed: measure it)" in made.alternative


def test_an_item_without_an_arm_is_in_the_table_only() -> None:
    facts = demonstration()
    items = (changed(facts.items[0], arm=NEED), *facts.items[1:])
    made = side_view(changed(facts, items=items))
    look = seen(made)
    assert faults(made) == []
    assert not [s for s in look.shapes if s.group == "cabin unit"]
    assert "cabin unit, removable (not assessed: measure it)" in made.alternative


def test_three_letters_are_enough_for_a_balloon_and_numbers_of_our_own_serve_where_the_list_has_none() -> None:
    facts = demonstration()
    twins = tuple(changed(facts.items[0], name=f"unit {n}", arm=told(of(90 + n, "in"))) for n in range(12))
    made = side_view(changed(facts, items=twins, loops=()))
    assert faults(made) == []
    assert {str(n) for n in range(1, 13)} <= set(seen(made).words)


@slow
@given(fits(most=5))
def test_from_above_boxes_are_to_the_scale_of_the_stations_and_right_is_up(fit: Invented[Facts]) -> None:
    facts = fit.value
    look = seen(plan_view(facts))
    unit = unit_of(facts)
    _, ticks = stations(look)
    mm = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0])
    (centre,) = [s for s in look.shapes if s.group == "centre line"]
    middle = centre.points[0][1]
    for item in facts.items:
        arm, lateral, length, width = (magnitude(fact, unit) for fact in (item.arm, item.lateral, item.length, item.width))
        boxes = [s for s in look.shapes if s.group == item.name and s.kind == "rect"]
        if arm is None or lateral is None or length is None or width is None:
            assert not boxes
            continue
        (box,) = boxes
        left = magnitude(item.left, unit)
        edge = lateral - width / 2 if left is None else left
        assert box.number("height") == pytest.approx(width * mm, abs=0.01)
        assert box.number("y") + box.number("height") == pytest.approx(middle - edge * mm, abs=0.02), "its left side is below"


def test_a_line_is_drawn_along_its_route_in_both_views() -> None:
    """The outward line of the demonstration: arms 103, 104, 138, 139; 3 in right, then 8 in left, of the centre line."""
    facts = demonstration()
    for made in (side_view(facts), plan_view(facts)):
        look = seen(made)
        _, ticks = stations(look)
        pieces = [s for s in look.shapes if s.group.startswith("coolant loop, out") and s.kind == "line" and s.values["stroke-width"] == "0.18"]
        assert len(pieces) == 2 * 3 + 1  # two lines along each piece, and the leader of its number
        ends = {round(x, 0) for s in pieces[:-1] for x, _ in s.points}
        for arm in (104, 138):
            assert any(abs(place_of(ticks, arm) - x) <= 1 for x in ends)
    plan = seen(plan_view(facts))
    (centre,) = [s for s in plan.shapes if s.group == "centre line"]
    _, ticks = stations(plan)
    mm = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0])
    lowest = max(y for s in plan.shapes if s.group.startswith("coolant loop, out") for _, y in s.points)
    assert lowest == pytest.approx(centre.points[0][1] + 8 * mm, abs=0.6)
