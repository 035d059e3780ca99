"""Tension of the fasteners under a bracket."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftout.physics.overturning import Point, fastener_tensions_n, in_a_row
from tests.strategies import numbers

GRID = st.integers(-10, 10).map(lambda place: place * 0.02)
GROUPS = st.lists(st.tuples(GRID, GRID), min_size=1, max_size=8, unique=True)


@given(GROUPS, numbers(-1e4, 1e4), numbers(-1e3, 1e3), numbers(-1e3, 1e3))
def test_a_spread_group_carries_pull_and_moments(group: list[Point], axial: float, m_x: float, m_y: float) -> None:
    assume(not in_a_row(group))
    found = fastener_tensions_n(group, axial, (m_x, m_y))
    size = abs(axial) + abs(m_x) + abs(m_y) + 1
    centre = [math.fsum(point[axis] for point in group) / len(group) for axis in (0, 1)]
    assert math.fsum(found) == pytest.approx(axial, abs=1e-9 * size)
    for axis, moment in ((0, m_x), (1, m_y)):
        held = math.fsum(tension * (point[axis] - centre[axis]) for point, tension in zip(group, found, strict=True))
        assert held == pytest.approx(moment, abs=1e-9 * size)


@given(st.integers(2, 6), numbers(0.01, 0.1), numbers(0.0, 3.1), numbers(-1e3, 1e3), numbers(-1e3, 1e3), numbers(0.005, 0.05))
def test_a_row_carries_what_it_can_by_levers_and_the_rest_by_the_edge(
    count: int, pitch: float, angle: float, m_x: float, m_y: float, edge: float
) -> None:
    c, s = math.cos(angle), math.sin(angle)
    row = [(n * pitch * c, n * pitch * s) for n in range(count)]
    found = fastener_tensions_n(row, 0.0, (m_x, m_y), edge)
    middle = (count - 1) * pitch / 2
    along = math.fsum(tension * (n * pitch - middle) for n, tension in enumerate(found))
    assert along == pytest.approx(m_x * c + m_y * s, abs=1e-9 * (abs(m_x) + abs(m_y) + 1))
    assert math.fsum(found) * edge == pytest.approx(abs(m_x * s - m_y * c), abs=1e-9 * (abs(m_x) + abs(m_y) + 1))


@given(numbers(-1e3, 1e3), numbers(-1e3, 1e3), numbers(0.005, 0.05), numbers(0.0, 1e3))
def test_a_single_fastener_takes_the_whole_moment_by_the_edge(m_x: float, m_y: float, edge: float, axial: float) -> None:
    (found,) = fastener_tensions_n([(0.3, -0.2)], axial, (m_x, m_y), edge)
    assert found == pytest.approx(axial + math.hypot(m_x, m_y) / edge)


@given(GROUPS, numbers(-1e3, 1e3), numbers(-1e3, 1e3))
def test_turning_the_picture_changes_nothing(group: list[Point], m_x: float, m_y: float) -> None:
    assume(not in_a_row(group))
    here = fastener_tensions_n(group, 10.0, (m_x, m_y))
    there = fastener_tensions_n([(y, -x) for x, y in group], 10.0, (m_y, -m_x))
    for one, other in zip(here, there, strict=True):
        assert one == pytest.approx(other, rel=1e-6, abs=1e-5)


def test_a_single_row_that_is_tipped_needs_the_edge() -> None:
    with pytest.raises(ValueError, match="edge on which the bracket bears"):
        fastener_tensions_n([(0.0, 0.0), (0.1, 0.0)], 0.0, (0.0, 5.0))
    assert fastener_tensions_n([(0.0, 0.0), (0.1, 0.0)], 20.0, (0.0, 0.0)) == (10.0, 10.0)


def test_rows_are_told_from_groups() -> None:
    assert in_a_row([(0.3, 0.1)])
    assert in_a_row([(0.0, 0.0), (0.1, 0.03), (0.2, 0.06)])
    assert not in_a_row([(0.0, 0.0), (0.1, 0.0), (0.2, 0.001)])
