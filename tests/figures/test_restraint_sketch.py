"""Restraint sketches, read back with their own scale bar."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from liftout.facts import Fact, gather
from liftout.facts.restraint import Restraint, Spot, Strap
from liftout.figures.restraint_sketch import Loads, restraint_loads, restraint_sketch, restraint_sketches
from liftout.job import load
from liftout.quantities import of
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.invented import NEED, Invented, changed, demonstration, restraints, told, word
from tests.figures.seen import Area, Seen, Shape, Text, faults, seen

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
VIEWS = ("from the left", "from the front", "from above")
AXES = ((0, 2), (1, 2), (0, 1))
"""What runs across and up in each view: arm, right, up."""


def scale(look: Seen) -> float:
    """Millimetres of paper for an inch, from the bar and its figures."""
    text = next(t for t in reversed(look.texts) if t.words.endswith(" in") and any(_bar_at(s, t.at) for s in look.shapes))
    bar = next(s for s in look.shapes if _bar_at(s, text.at))
    (x1, _), (x2, _) = bar.points
    return (x2 - x1) / float(text.words.split()[0])


def _bar_at(shape: Shape, at: tuple[float, float]) -> bool:
    (x1, y1), (x2, y2) = shape.points[0], shape.points[-1]
    return shape.kind == "line" and not shape.group and y1 == y2 and x2 == at[0] and abs(y1 - at[1] - 2) < 1e-6 and x2 > x1


def spot(arm: float, right: float, up: float) -> Spot:
    return Spot(told(of(f"{arm}", "in")), told(of(f"{right}", "in")), told(of(f"{up}", "in")))


def coordinates(place: Spot) -> tuple[float, ...]:
    return tuple(float(fact.value.magnitude) for fact in (place.arm, place.lateral, place.height) if isinstance(fact, Fact))


def simple() -> Restraint:
    """One strap from the right aft upper edge of a box to an anchor aft of it, and a stop ahead."""
    mould = demonstration().restraints[0]
    item = changed(
        mould.item,
        **{
            key: told(of(value, "in"))
            for key, value in {
                "arm": "90.0",
                "lateral": "2",
                "height": "20",
                "length": "16",
                "width": "10",
                "tall": "12",
                "front": "84",
                "left": "-3",
                "underside": "13",
            }.items()
        },
    )
    strap = Strap("S1", spot(98, 7, 26), spot(110, 12, 14), told(of(1500, "lbf")), word("ultimate"), word("floor fitting"))
    return changed(
        mould, item=item, straps=(strap,), contacts=(spot(84, 0, 14), spot(96, 0, 14)), blocked=("forward",), block_rating=told(of(900, "lbf"))
    )


@slow
@given(restraints())
def test_however_crowded_nothing_overlaps_and_nothing_leaves(invented: Invented[Restraint]) -> None:
    assert faults(restraint_sketch(invented.value, demonstration())) == []


@slow
@given(restraints(missing=False))
def test_boxes_and_straps_are_to_the_scale_of_the_bar_in_each_view(invented: Invented[Restraint]) -> None:
    straps = tuple(changed(strap, name=f"S{n}") for n, strap in enumerate(invented.value.straps))
    restraint = changed(invented.value, straps=straps)
    look = seen(restraint_sketch(restraint, demonstration()))
    mm = scale(look)
    item = restraint.item
    size = coordinates(Spot(item.length, item.width, item.tall))
    for view, (across, up) in zip(VIEWS, AXES, strict=True):
        box = next(s for s in look.shapes if s.group == f"{item.name}, {view}" and s.kind == "rect" and s.values["fill"] == "none")
        assert (box.number("width"), box.number("height")) == pytest.approx((size[across] * mm, size[up] * mm), abs=0.01)
    for strap in straps:
        lines = [s for s in look.shapes if s.group == strap.name and s.kind == "line"]
        start, end = coordinates(strap.attached), coordinates(strap.anchored)
        for line, (across, up) in zip(lines, AXES, strict=True):
            assert math.dist(*line.points) == pytest.approx(mm * math.hypot(end[across] - start[across], end[up] - start[up]), abs=0.01)


def test_forward_is_left_up_is_up_and_the_right_side_is_up_from_above_and_left_from_the_front() -> None:
    restraint = simple()
    look = seen(restraint_sketch(restraint, demonstration()))
    assert faults(restraint_sketch(restraint, demonstration())) == []
    left, front, above = [s for s in look.shapes if s.group == "S1" and s.kind == "line"]
    (x1, y1), (x2, y2) = left.points
    assert x2 > x1
    assert y2 > y1
    (x1, y1), (x2, y2) = front.points
    assert x2 < x1
    assert y2 > y1
    (x1, y1), (x2, y2) = above.points
    assert x2 > x1
    assert y2 < y1
    words = [text.words for text in look.texts]
    assert words.count("forward") == 2
    assert words.count("up") == 2
    assert words.count("right") == 2
    heads = [s for s in look.shapes if s.kind == "polygon" and not s.group and len(s.points) == 3 and s.values["fill"] == "#000"]
    pointing_left = [s for s in heads if s.points[0][0] < s.points[1][0] and s.points[0][1] == pytest.approx((s.points[1][1] + s.points[2][1]) / 2)]
    assert len(pointing_left) >= 3


def test_views_are_in_line() -> None:
    look = seen(restraint_sketch(simple(), demonstration()))
    left, front, above = [next(s for s in look.shapes if s.group == f"{simple().item.name}, {view}" and s.kind == "rect") for view in VIEWS]
    assert left.number("y") == pytest.approx(front.number("y"))
    assert left.number("x") == pytest.approx(above.number("x"))


def test_a_stop_stands_on_the_side_that_it_blocks() -> None:
    look = seen(restraint_sketch(simple(), demonstration()))
    group = [s for s in look.shapes if s.group == f"{simple().item.name}, from the left" and s.kind == "rect"]
    box, stop = group
    assert stop.number("x") + stop.number("width") == pytest.approx(box.number("x"), abs=0.002)
    assert ("forward", "each 900 lbf") in zip(look.cells, look.cells[2:], strict=False)


def test_figures_are_those_of_the_job() -> None:
    made = restraint_sketch(simple(), demonstration())
    assert {
        "90.0 in, 2 in, 20 in",
        "98 in, 7 in, 26 in",
        "110 in, 12 in, 14 in",
        "1500 lbf ultimate, floor fitting",
        "16 in long, 10 in wide, 12 in high",
    } <= set(seen(made).cells)
    assert {"16 in", "10 in", "12 in"} <= set(seen(made).words)
    assert "Strap S1: 98 in, 7 in, 26 in, 110 in, 12 in, 14 in, 1500 lbf ultimate, floor fitting" in made.alternative


def test_the_box_stands_where_its_faces_are_and_holds_the_centre_of_gravity_where_it_is() -> None:
    one = simple()
    made = restraint_sketch(one, demonstration())
    look = seen(made)
    mm = scale(look)
    box = next(s for s in look.shapes if s.group == f"{one.item.name}, from the left" and s.kind == "rect" and s.values["fill"] == "none")
    strap = next(s for s in look.shapes if s.group == "S1" and s.kind == "line")
    (x, y), _ = strap.points  # attached at arm 98, height 26
    assert box.number("x") == pytest.approx(x - (98 - 84) * mm, abs=0.01)
    assert box.number("y") + box.number("height") == pytest.approx(y + (26 - 13) * mm, abs=0.01)
    mark = next(s for s in look.shapes if s.group == f"{one.item.name}, from the left" and s.kind == "circle")
    assert (mark.number("cx"), mark.number("cy")) == pytest.approx((x - (98 - 90) * mm, y + (26 - 20) * mm), abs=0.01)
    assert "84 in, \u22123 in, 13 in" in look.cells
    assert "about the centre of gravity" not in look.everything


def test_a_box_whose_faces_are_not_told_stands_about_the_centre_of_gravity_and_says_so() -> None:
    one = simple()
    made = restraint_sketch(changed(one, item=changed(one.item, front=NEED, underside=NEED)), demonstration())
    assert "does not say where its front or underside lies" in made.alternative
    assert "left side" not in made.alternative


def test_where_no_two_points_are_known_nothing_is_drawn_and_that_is_said() -> None:
    one = simple()
    nothing = changed(one.item, **dict.fromkeys(("arm", "lateral", "height", "length", "width", "tall", "front", "left", "underside"), NEED))
    for item in (nothing, changed(one.item, length=NEED)):
        made = restraint_sketch(changed(one, item=item, straps=(), contacts=(), blocked=()), demonstration())
        assert faults(made) == []
        assert "Nothing is drawn" in seen(made).everything
        assert made.caption.endswith("not drawn.")
        assert not [s for s in seen(made).shapes if s.group]


def test_straps_on_one_anchor_share_a_label() -> None:
    one = simple()
    twin = changed(one.straps[0], name="S2", attached=spot(98, 3, 26))
    look = seen(restraint_sketch(changed(one, straps=(one.straps[0], twin)), demonstration()))
    assert look.words.count("S1, S2") == 3


def test_what_is_missing_is_a_question_mark_and_named() -> None:
    one = simple()
    made = restraint_sketch(
        changed(one, item=changed(one.item, arm=NEED, front=NEED), straps=(changed(one.straps[0], rating=NEED),)), demonstration()
    )
    look = seen(made)
    assert faults(made) == []
    assert "?, 2 in, 20 in" in look.cells
    assert "? ultimate, floor fitting" in look.cells
    assert ("not assessed", "measure it") in zip(look.cells, look.cells[1:], strict=False)
    assert not [s for s in look.shapes if s.group.startswith(one.item.name) and s.kind == "rect" and s.values["fill"] == "none"]


def test_the_demonstration_sketches_what_is_held_and_nothing_else() -> None:
    made = restraint_sketches(demonstration())
    assert [drawing.name for drawing in made] == ["restraint-cabin-unit", "restraint-tail-unit"]
    assert [faults(drawing) for drawing in made] == [[], []]


LOADS = Loads({"forward": "157 lbf", "up": "115 lbf", "left": "73 lbf"}, {"S1": "93 lbf forward"})
ALL_LOADS = Loads({**LOADS.inertia, "aft": "78 lbf", "right": "74 lbf", "down": "240 lbf"}, LOADS.most)


@slow
@given(restraints())
def test_however_crowded_loads_hide_nothing(invented: Invented[Restraint]) -> None:
    assert faults(restraint_sketch(invented.value, demonstration(), LOADS)) == []


def figures_of_loads(look: Seen) -> list[str]:
    """What is wrong with the figures at the arrows of loads: each stands nearest to the head of its own arrow, or a leader leads there."""
    wrong = []
    arrows = [s for s in look.shapes if s.kind == "line" and s.values["stroke-width"] == "0.35" and _told_of(s.group)]
    heads = [s for s in look.shapes if s.kind == "polygon" and s.values["fill"] == "#000" and _told_of(s.group)]
    assert len(arrows) == len(heads)
    for arrow, head in zip(arrows, heads, strict=True):
        _, words = _told_of(arrow.group) or ("", "")
        tip = head.points[0]
        # What is drawn after an arrow up to the next belongs to it.
        text = next((one for one in look.order[head.order :] if isinstance(one, Text)), None)
        if text is None or text.words != words or text.group != arrow.group:
            wrong.append(f"{arrow.group} has no figure")
            continue
        led = [s for s in look.shapes if s.kind == "line" and s.values["stroke-width"] == "0.18" and s.group == arrow.group and s.points[0] == tip]
        near = _distance(text, tip)
        others = [_distance(text, other.points[0]) for other in heads if other is not head]
        if not led and (near > 3 or any(near >= other for other in others)):
            wrong.append(f"{arrow.group} has its figure {near:.1f} mm off, another's head is {min(others):.1f} mm off")
    return wrong


def _told_of(group: str) -> tuple[str, str] | None:
    way, _, load = group.partition(" ")
    return (way, load) if way in ("forward", "aft", "left", "right", "up", "down") and load.endswith(" lbf") else None


def _distance(text: Text, point: tuple[float, float]) -> float:
    area = text.area
    return math.hypot(max(area.left - point[0], 0, point[0] - area.right), max(area.top - point[1], 0, point[1] - area.bottom))


@pytest.mark.parametrize("job", JOBS)
def test_every_load_of_the_demonstrations_is_drawn_in_the_two_views_that_it_lies_in_with_its_figure_at_it(job: str) -> None:
    facts = gather(load(folder("jobs") / job / "job.yaml"))
    made = {drawing.name: drawing for drawing in restraint_sketches(facts)}
    held = {f"restraint-{restraint.item.name}".replace(" ", "-"): restraint for restraint in facts.restraints}
    assert len(made) == 2
    for name, drawing in made.items():
        look, restraint = seen(drawing), held[name]
        loads = restraint_loads(restraint, facts)
        assert len(loads.inertia) == 6
        for way, words in loads.inertia.items():
            assert len([s for s in look.shapes if s.group == f"{way} {words}" and s.kind == "polygon"]) == 2
            assert f"{words} {way}" in " ".join(look.cells)
        assert figures_of_loads(look) == []


@slow
@given(restraints())
def test_however_crowded_no_load_is_drawn_without_its_figure(invented: Invented[Restraint]) -> None:
    assert figures_of_loads(seen(restraint_sketch(invented.value, demonstration(), ALL_LOADS))) == []


def test_an_arrow_whose_figure_is_taken_away_or_put_at_another_is_found() -> None:
    look = seen(restraint_sketch(simple(), demonstration(), ALL_LOADS))
    assert figures_of_loads(look) == []
    lost = next(text for text in look.texts if text.words == "240 lbf")
    other = next(s for s in look.shapes if s.group == "up 115 lbf" and s.kind == "polygon").points[0]
    for stands in ([], [replace(lost, area=Area(other[0], other[1], other[0] + 8, other[1] + 3))]):
        order = [one for old in look.order for one in (stands if old is lost else [old])]
        order = [replace(one, order=n) if isinstance(one, Shape) else one for n, one in enumerate(order)]
        shapes = [one for one in order if isinstance(one, Shape) and not (one.values.get("stroke-width") == "0.18" and one.group == lost.group)]
        assert len(figures_of_loads(replace(look, order=order, shapes=shapes))) == 1


def test_loads_point_where_they_pull_and_carry_their_figures() -> None:
    made = restraint_sketch(simple(), demonstration(), LOADS)
    look = seen(made)
    assert faults(made) == []
    assert "93 lbf forward" in look.cells
    assert "157 lbf forward, 115 lbf up, 73 lbf left" in made.alternative
    heads = {title: [s for s in look.shapes if s.group == title and s.kind == "line"] for title in ("forward 157 lbf", "up 115 lbf", "left 73 lbf")}
    assert [len(lines) for lines in heads.values()] == [2, 2, 2]  # each in the two views that it lies in
    (x1, y1), (x2, y2) = heads["forward 157 lbf"][0].points
    assert x2 < x1
    assert y2 == y1
    (x1, y1), (x2, y2) = heads["up 115 lbf"][0].points
    assert x2 == x1
    assert y2 < y1
    front, above = heads["left 73 lbf"]
    assert front.points[1][0] > front.points[0][0]  # seen from the front the left side is on the right
    assert above.points[1][1] > above.points[0][1]
    assert look.words.count("157 lbf") == 2


def test_a_belt_over_the_item_is_drawn_along_its_whole_path() -> None:
    one = simple()
    belt = changed(one.straps[0], name="belt", anchored=spot(92, -8, 14), attached=spot(92, -3, 25), beyond=(spot(92, 7, 25), spot(92, 12, 14)))
    made = restraint_sketch(changed(one, straps=(belt,)), demonstration())
    look = seen(made)
    assert faults(made) == []
    mm = scale(look)
    path = next(s for s in look.shapes if s.group == "belt" and s.kind == "polyline" and len({x for x, _ in s.points}) == 4)
    assert [round((path.points[0][0] - x) / mm, 3) for x, _ in path.points] == [0, 5, 15, 20]  # from the front: right is left
    assert len([s for s in look.shapes if s.group == "belt" and s.kind == "rect"]) == 6  # both anchors in each view
    assert "92 in, \u22123 in, 25 in; 92 in, 7 in, 25 in" in made.alternative


def test_the_largest_pulls_of_the_demonstration_are_those_of_its_strap_loads() -> None:
    """By hand, forward: 34.83 lb x 4.5 = 156.7 lbf, half a strap, each 10.5 in aft of 12.47 in: 78.4 / 0.842 = 93.1 lbf."""
    facts = demonstration()
    loads = restraint_loads(facts.restraints[0], facts)
    assert loads.inertia["forward"] == "157 lbf"
    assert set(loads.most) == {"S1", "S2", "S3", "S4"}
    assert loads.most["S1"].endswith(" right")  # more than the 93 lbf forward: at the top of the box the straps stand steep
