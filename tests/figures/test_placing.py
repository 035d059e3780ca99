"""Where labels go."""

from __future__ import annotations

import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.figures.placing import Box, Placer, Point, around, rows_of

places = st.floats(-20, 120)
points = st.tuples(places, places)


@settings(deadline=None)
@given(st.lists(points, max_size=40), st.floats(1, 8), st.floats(1, 5))
def test_labels_never_overlap_nor_leave_their_region_however_close_their_targets(targets: list[Point], width: float, height: float) -> None:
    region = Box(0, 0, 100, 80)
    placer = Placer(region)
    for target in targets:
        placer.marks.append(around(target, 2, 2))
    rooms = [placer.near(target, width, height, 1.5) for target in targets]
    # 40 labels of 8 by 5 cover at most 4 places of the grid each: 160 of 192, so there is always one free.
    assert None not in rooms
    for number, room in enumerate(rooms):
        assert room is not None
        assert region.holds(room)
        assert (round(room.width, 9), round(room.height, 9)) == (round(width, 9), round(height, 9))
        assert not any(other is not None and room.overlaps(other) for other in rooms[:number])


@given(st.lists(points, min_size=1, max_size=15))
def test_a_label_beside_its_target_crosses_no_line_and_no_mark(targets: list[Point]) -> None:
    placer = Placer(Box(0, 0, 100, 80))
    placer.follow(targets)
    placer.outline(Box(10, 10, 60, 50))
    for target in targets:
        placer.marks.append(around(target, 2, 2))
    for target in targets:
        room = placer.beside(target, 12, 3, 1.5)
        if room:
            assert not any(room.piece_inside(*line) for line in placer.lines)
            assert not any(room.overlaps(mark) for mark in placer.marks)


def test_where_there_is_room_a_label_stands_right_beside_its_target() -> None:
    room = Placer(Box(0, 0, 100, 80)).near((50, 40), 6, 3, 1.5)
    assert room is not None
    assert abs(room.left - 51.5) < 1e-9
    assert abs(room.centre[1] - 40) < 1e-9


def test_a_full_region_takes_no_more() -> None:
    placer = Placer(Box(0, 0, 10, 10), labels=[Box(0, 0, 10, 10)])
    assert placer.near((5, 5), 6, 3, 1) is None


@given(points, points)
def test_a_line_is_cut_where_the_box_ends(start: Point, end: Point) -> None:
    box = Box(10, 10, 60, 50)
    piece = box.piece_inside(start, end)
    inside = [(start[0] + n / 200 * (end[0] - start[0]), start[1] + n / 200 * (end[1] - start[1])) for n in range(201)]
    inside = [(x, y) for x, y in inside if box.left < x < box.right and box.top < y < box.bottom]
    if piece is None:
        assert not inside
    else:
        assert all(box.left - 1e-6 <= x <= box.right + 1e-6 and box.top - 1e-6 <= y <= box.bottom + 1e-6 for x, y in piece)
        xs, ys = sorted(x for x, _ in piece), sorted(y for _, y in piece)
        assert all(xs[0] - 1e-6 <= x <= xs[1] + 1e-6 and ys[0] - 1e-6 <= y <= ys[1] + 1e-6 for x, y in inside)


@given(st.lists(places, max_size=60), st.floats(3, 20))
def test_labels_in_rows_keep_their_order_and_their_distance(wanted: list[float], width: float) -> None:
    rows = rows_of(wanted, width, 0, 100)
    assert len(rows) == len(wanted)
    for number in {row for row, _ in rows}:
        members = sorted((wish, middle) for wish, (row, middle) in zip(wanted, rows, strict=True) if row == number)
        middles = [middle for _, middle in members]
        assert middles == sorted(middles)
        assert all(b - a >= width - 1e-9 for a, b in itertools.pairwise(middles))
        assert all(width / 2 - 1e-9 <= middle <= 100 - width / 2 + 1e-9 for middle in middles)


def test_labels_with_room_stand_where_they_wish() -> None:
    assert rows_of([50.0, 20.0, 80.0], 6, 0, 100) == [(0, 50.0), (0, 20.0), (0, 80.0)]
