"""Two boxes: their gaps do not depend on who is named first nor on where the datum lies, and growing brings them closer by what was grown."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.boxes import Box, axis, gaps, grown, separation
from tests.strategies import numbers

NEAR = 1e-9
spans = st.tuples(numbers(-5.0, 5.0), numbers(0.0, 3.0)).map(lambda told: (told[0], told[0] + told[1]))
boxes = st.tuples(spans, spans, spans).map(lambda told: Box(*told[0], *told[1], *told[2]))
growth = st.lists(numbers(0.0, 2.0), min_size=6, max_size=6)


def moved(box: Box, arm: float, lateral: float, height: float) -> Box:
    return Box(box.front_m + arm, box.rear_m + arm, box.left_m + lateral, box.right_m + lateral, box.bottom_m + height, box.top_m + height)


def holds(box: Box, point: tuple[float, float, float]) -> bool:
    x, y, z = point
    return box.front_m <= x <= box.rear_m and box.left_m <= y <= box.right_m and box.bottom_m <= z <= box.top_m


@given(boxes, boxes)
def test_it_does_not_matter_who_is_named_first(a: Box, b: Box) -> None:
    assert gaps(a, b) == gaps(b, a)
    assert axis(a, b) == axis(b, a)


@given(boxes, boxes, numbers(-9.0, 9.0), numbers(-9.0, 9.0), numbers(-9.0, 9.0))
def test_the_datum_does_not_matter(a: Box, b: Box, arm: float, lateral: float, height: float) -> None:
    assert gaps(moved(a, arm, lateral, height), moved(b, arm, lateral, height)) == pytest.approx(gaps(a, b), abs=NEAR)


@given(boxes, boxes, numbers(0.0, 2.0))
def test_growing_on_all_sides_takes_just_that_from_every_gap(a: Box, b: Box, by: float) -> None:
    assert gaps(grown(a, by, by, by, by, by, by), b) == pytest.approx([gap - by for gap in gaps(a, b)], abs=NEAR)


@given(boxes, boxes, growth)
def test_growing_never_brings_more_room(a: Box, b: Box, by: list[float]) -> None:
    assert separation(grown(a, *by), b) <= separation(a, b)


@given(boxes, growth)
def test_a_grown_box_holds_what_it_was_grown_from(box: Box, by: list[float]) -> None:
    larger = grown(box, *by)
    for corner in itertools.product(box[0:2], box[2:4], box[4:6]):
        assert holds(larger, corner)
    for face, (before, after, step) in enumerate(zip(box, larger, by, strict=True)):
        assert after - before == pytest.approx(step if face % 2 else -step, abs=NEAR)


@given(boxes, boxes)
def test_boxes_that_are_apart_share_no_point_and_boxes_that_overlap_do(a: Box, b: Box) -> None:
    """The point of each that is nearest to the middle of the other settles it without any gap."""
    shared = tuple(max(a[n], b[n]) for n in (0, 2, 4))
    assert (separation(a, b) <= 0) == (holds(a, shared) and holds(b, shared))  # type: ignore[arg-type]


@given(boxes, boxes)
def test_moving_by_the_overlap_along_the_named_axis_clears_it(a: Box, b: Box) -> None:
    deep = -separation(a, b)
    if deep <= 0:
        return
    step = deep + NEAR
    along = {"fore and aft": (1, 0, 0), "side to side": (0, 1, 0), "up and down": (0, 0, 1)}[axis(a, b)]
    both = [separation(moved(a, *(sign * step * part for part in along)), b) for sign in (1, -1)]
    assert max(both) >= 0


@pytest.mark.parametrize(
    ("other", "expected", "along"),
    [
        # Worked by hand about the box from 0 to 1 on each axis.
        (Box(3, 4, 0, 1, 0, 1), 2.0, "fore and aft"),
        (Box(-2, -1.5, 0.2, 0.8, 0, 1), 1.5, "fore and aft"),
        (Box(0, 1, 1.25, 2, 0, 1), 0.25, "side to side"),
        (Box(0, 1, 0, 1, -3, -0.5), 0.5, "up and down"),
        (Box(0.9, 3, 0, 1, 0, 1), -0.1, "fore and aft"),
        (Box(1, 2, 0, 1, 0, 1), 0.0, "fore and aft"),
        (Box(-9, 9, -9, 9, 0.7, 9), -0.3, "up and down"),
    ],
)
def test_gaps_worked_by_hand(other: Box, expected: float, along: str) -> None:
    assert separation(Box(0, 1, 0, 1, 0, 1), other) == pytest.approx(expected)
    assert axis(Box(0, 1, 0, 1, 0, 1), other) == along
