"""Field of a route: closed forms of textbooks, and what must hold whatever the route."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftout.physics.magnetic_field import pair_a_per_m, straight_wire_a_per_m
from liftout.physics.route_field import (
    OnTheWire,
    Vector,
    _largest_stretch,
    nearest_m,
    pair_on_route_a_per_m,
    piece_a_per_m,
    route_a_per_m,
    single_a_per_m,
)
from tests.strategies import numbers

coordinates = numbers(-5.0, 5.0)
vectors = st.tuples(coordinates, coordinates, coordinates)
routes = st.lists(vectors, min_size=2, max_size=6, unique=True)


def size(field: Vector) -> float:
    return math.hypot(*field)


@given(numbers(0.1, 100.0), numbers(0.1, 20.0), numbers(0.05, 10.0))
def test_a_finite_wire_beside_its_middle(current: float, long: float, distance: float) -> None:
    """H = I L / (4 pi d sqrt(d^2 + L^2 / 4)), the textbook's closed form."""
    expected = current * long / (4 * math.pi * distance * math.sqrt(distance**2 + long**2 / 4))
    assert size(piece_a_per_m(current, (-long / 2, 0, 0), (long / 2, 0, 0), (0, distance, 0))) == pytest.approx(expected)


@given(numbers(0.1, 100.0), numbers(0.05, 5.0), numbers(0.0, 5.0))
def test_many_pieces_make_a_ring(current: float, radius: float, height: float) -> None:
    """On the axis of a circular loop H = I R^2 / (2 (R^2 + z^2)^1.5)."""
    ring = [(radius * math.cos(2 * math.pi * n / 720), radius * math.sin(2 * math.pi * n / 720), 0.0) for n in range(721)]
    expected = current * radius**2 / (2 * (radius**2 + height**2) ** 1.5)
    assert size(route_a_per_m(current, ring, (0, 0, height))) == pytest.approx(expected, rel=1e-4)


@given(numbers(0.1, 100.0), numbers(0.05, 10.0))
def test_a_very_long_wire_is_the_straight_wire(current: float, distance: float) -> None:
    long = [(-1e5, 0.0, 0.0), (1e5, 0.0, 0.0)]
    expected = straight_wire_a_per_m(current, distance)
    assert size(route_a_per_m(current, long, (3.0, 0.0, distance))) == pytest.approx(expected, rel=1e-6)
    assert single_a_per_m(current, long, (3.0, 0.0, distance)) == pytest.approx(expected, rel=1e-6)


@given(numbers(0.1, 100.0), numbers(0.1, 10.0), numbers(0.001, 0.05))
def test_a_very_long_pair_is_the_straight_pair(current: float, distance: float, spacing: float) -> None:
    long = [(-1e6, 0.0, 0.0), (1e6, 0.0, 0.0)]
    assert pair_on_route_a_per_m(current, long, spacing, (0.0, 0.0, distance)) == pytest.approx(pair_a_per_m(current, spacing, distance), rel=1e-6)


@given(numbers(0.1, 100.0), routes, vectors)
def test_a_corner_put_into_a_straight_piece_changes_nothing(current: float, route: list[Vector], at: Vector) -> None:
    assume(nearest_m(route, at) > 0.01)
    (a, b, *rest) = route
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)
    assume(math.dist(a, b) > 0.01)
    whole, parted = route_a_per_m(current, route, at), route_a_per_m(current, [a, middle, b, *rest], at)
    assert parted == pytest.approx(whole, rel=1e-6, abs=1e-9)


@given(numbers(0.1, 100.0), routes, vectors, numbers(0.001, 0.02), vectors)
def test_no_way_of_laying_the_pair_gives_more_than_is_told(current: float, route: list[Vector], at: Vector, spacing: float, side: Vector) -> None:
    """Out and back as two wires with cross-joints at both ends, whichever side of each other they lie; to first order in the spacing."""
    assume(nearest_m(route, at) > 20 * spacing)
    assume(math.hypot(*side) > 0.1)
    half = [component * spacing / 2 / math.hypot(*side) for component in side]
    out = [(x + half[0], y + half[1], z + half[2]) for x, y, z in route]
    back = [(x - half[0], y - half[1], z - half[2]) for x, y, z in reversed(route)]
    loop = [*out, *back, out[0]]
    told = pair_on_route_a_per_m(current, route, spacing, at)
    assert size(route_a_per_m(current, loop, at)) <= told * 1.02 + 1e-12


@given(numbers(0.1, 100.0), routes, vectors, numbers(0.0005, 0.01))
def test_a_pair_disturbs_less_than_one_wire_and_more_when_it_is_wider(current: float, route: list[Vector], at: Vector, spacing: float) -> None:
    assume(nearest_m(route, at) > 20 * spacing)
    narrow, wide = (pair_on_route_a_per_m(current, route, width, at) for width in (spacing / 2, spacing))
    assert narrow <= wide * (1 + 1e-6)
    assert wide < single_a_per_m(current, route, at)


@given(routes, vectors, numbers(1.1, 5.0))
def test_the_field_grows_with_the_current(route: list[Vector], at: Vector, times: float) -> None:
    assume(nearest_m(route, at) > 0.01)
    assert single_a_per_m(10.0 * times, route, at) == pytest.approx(times * single_a_per_m(10.0, route, at))


def test_on_the_wire_and_between_the_wires_nothing_is_told() -> None:
    route: list[Vector] = [(0.0, 0.0, 0.0), (2.0, 0.0, 0.0)]
    with pytest.raises(OnTheWire):
        route_a_per_m(1.0, route, (1.0, 0.0, 0.0))
    with pytest.raises(OnTheWire):
        single_a_per_m(1.0, route, (2.0, 0.0, 0.0))
    with pytest.raises(OnTheWire, match="between the two wires"):
        pair_on_route_a_per_m(1.0, route, 0.02, (1.0, 0.01, 0.0))
    assert route_a_per_m(1.0, route, (3.0, 0.0, 0.0)) == (0.0, 0.0, 0.0), "in line with a wire there is no field"


@given(st.tuples(vectors, vectors, vectors))
def test_the_largest_stretch_is_the_largest_singular_value(columns: tuple[Vector, Vector, Vector]) -> None:
    assert _largest_stretch(columns) == pytest.approx(np.linalg.norm(np.array(columns), 2), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize(
    ("columns", "largest"),
    [
        (((3.0, 0.0, 0.0), (0.0, 2.0, 0.0), (0.0, 0.0, 1.0)), 3.0),
        (((1.0, 0.0, 0.0), (0.0, 2.0, 0.0), (0.0, 0.0, -5.0)), 5.0),
        (((2.0, 0.0, 0.0), (0.0, 2.0, 0.0), (0.0, 0.0, 2.0)), 2.0),
        (((1.0, 1.0, 1.0), (1.0, 1.0, 1.0), (1.0, 1.0, 1.0)), 3.0),
        (((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)), 0.0),
    ],
)
def test_stretches_worked_by_hand(columns: tuple[Vector, Vector, Vector], largest: float) -> None:
    assert _largest_stretch(columns) == pytest.approx(largest)


def test_the_nearest_of_a_route_may_be_a_corner_an_end_or_between() -> None:
    """By hand: legs of 2 m along the first and the second axis."""
    route: list[Vector] = [(0.0, 0.0, 0.0), (2.0, 0.0, 0.0), (2.0, 2.0, 0.0)]
    for at, distance in (((1.0, -3.0, 0.0), 3.0), ((-3.0, -4.0, 0.0), 5.0), ((5.0, -4.0, 0.0), 5.0), ((2.0, 1.0, 2.0), 2.0), ((2.0, 5.0, 4.0), 5.0)):
        assert nearest_m(route, at) == pytest.approx(distance)


def test_the_joints_at_the_ends_of_a_pair_count_by_the_square_of_their_distance() -> None:
    """A route of a millimetre 2 m away is little but its two joints of 5 mm: twice I s / (4 pi d^2), by hand."""
    found = pair_on_route_a_per_m(10.0, [(0.0, 0.0, 0.0), (0.001, 0.0, 0.0)], 0.005, (0.0, 2.0, 0.0))
    assert found == pytest.approx(2 * 10.0 * 0.005 / (4 * math.pi * 2.0**2), rel=2e-3)
