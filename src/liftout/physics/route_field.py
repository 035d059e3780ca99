"""Magnetic field of a current along a route of straight pieces, one wire or a pair out and back (Biot and Savart)."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

Vector = tuple[float, float, float]


class OnTheWire(ValueError):
    """The field is asked on the wire itself, where it has no value."""


def piece_a_per_m(current_a: float, start_m: Vector, end_m: Vector, at_m: Vector) -> Vector:
    """Field of one straight piece of wire, H = I / (4 pi d) times the difference of the cosines to its two ends.

    Written with the vectors from both ends to the point, so that it holds in line with the wire too.

    Args:
        current_a: current, from start to end.
        start_m: start of the piece.
        end_m: its end.
        at_m: the point.

    Raises:
        OnTheWire: on the piece itself.
    """
    a, b = _less(at_m, start_m), _less(at_m, end_m)
    across, product, beside = _cross(_less(end_m, start_m), a), math.hypot(*a) * math.hypot(*b), _dot(a, b)
    square = _dot(across, across)
    # Between the ends the sum of both nearly cancels; there it is their product over their difference.
    facing = product + beside if beside > 0 else square / (product - beside) if product > beside else 0.0
    if not facing:
        raise OnTheWire("the point lies on the wire")
    factor = current_a / (4 * math.pi) * (math.hypot(*a) + math.hypot(*b)) / (product * facing)
    return across[0] * factor, across[1] * factor, across[2] * factor


def route_a_per_m(current_a: float, points_m: Sequence[Vector], at_m: Vector) -> Vector:
    """Field of one wire along a route.

    Args:
        current_a: current, in the order of the points.
        points_m: corners of the route.
        at_m: the point.

    Raises:
        OnTheWire: on the wire itself.

    Example (square of 0.76 m, 13 A, at its centre: printed 19.3524e-6 T):
        >>> square = [(0, 0, 0), (0.76, 0, 0), (0.76, 0.76, 0), (0, 0.76, 0), (0, 0, 0)]
        >>> round(math.hypot(*route_a_per_m(13.0, square, (0.38, 0.38, 0))) * 4e-7 * math.pi, 10)
        1.93524e-05
    """
    parts = [piece_a_per_m(current_a, start, end, at_m) for start, end in itertools.pairwise(points_m) if start != end]
    return math.fsum(p[0] for p in parts), math.fsum(p[1] for p in parts), math.fsum(p[2] for p in parts)


def single_a_per_m(current_a: float, points_m: Sequence[Vector], at_m: Vector) -> float:
    """Field of one wire of which the way back is not known: of the route, or of a long straight wire at its nearest point, the larger.

    Args:
        current_a: current.
        points_m: corners of the route.
        at_m: the point.

    Raises:
        OnTheWire: on the wire itself.
    """
    nearest = nearest_m(points_m, at_m)
    if not nearest:
        raise OnTheWire("the point lies on the wire")
    return max(math.hypot(*route_a_per_m(current_a, points_m, at_m)), current_a / (2 * math.pi * nearest))


def pair_on_route_a_per_m(current_a: float, points_m: Sequence[Vector], spacing_m: float, at_m: Vector) -> float:
    """Largest field of a pair along a route, whichever way its two wires lie beside each other, the joints at its ends counted.

    The two wires are the route moved by half the spacing to either side. How the field differs between them is found along
    three axes; the largest over all directions follows from these.

    Args:
        current_a: current.
        points_m: corners of the route, midway between the wires.
        spacing_m: distance between the middles of the two wires, less than twice the distance to the point.
        at_m: the point.

    Raises:
        OnTheWire: where the point is not farther from the route than half the spacing.

    Example (straight pair, 45 A, 5 mm apart, 1 m away: 0.03581 A/m by H = I s / (2 pi r^2)):
        >>> round(pair_on_route_a_per_m(45.0, [(-1e4, 0, 0), (1e4, 0, 0)], 0.005, (0, 1, 0)), 5)
        0.03581
    """
    if nearest_m(points_m, at_m) <= spacing_m / 2:
        raise OnTheWire(f"the point lies between the two wires, {spacing_m:g} m apart")
    columns: list[Vector] = []
    for axis in range(3):
        moved = [tuple(at_m[n] + sign * spacing_m / 2 * (n == axis) for n in range(3)) for sign in (1, -1)]
        towards, away = (route_a_per_m(current_a, points_m, (point[0], point[1], point[2])) for point in moved)
        columns.append(_less(towards, away))
    ends = math.fsum(current_a * spacing_m / (4 * math.pi * math.dist(end, at_m) ** 2) for end in (points_m[0], points_m[-1]))
    return _largest_stretch(columns) + ends


def nearest_m(points_m: Sequence[Vector], at_m: Vector) -> float:
    """Distance of a point from a route."""
    return min(_from_piece(start, end, at_m) for start, end in itertools.pairwise(points_m))


def _from_piece(start: Vector, end: Vector, at: Vector) -> float:
    along, to = _less(end, start), _less(at, start)
    long = _dot(along, along)
    share = min(1.0, max(0.0, _dot(to, along) / long)) if long else 0.0
    return math.dist(at, (start[0] + share * along[0], start[1] + share * along[1], start[2] + share * along[2]))


def _largest_stretch(columns: Sequence[Vector]) -> float:
    """Largest length of a sum of three vectors, each times a coordinate of a direction: the largest singular value of a 3 by 3 matrix."""
    m = [[_dot(one, other) for other in columns] for one in columns]
    mean = (m[0][0] + m[1][1] + m[2][2]) / 3
    off = m[0][1] ** 2 + m[0][2] ** 2 + m[1][2] ** 2
    spread = math.sqrt(((m[0][0] - mean) ** 2 + (m[1][1] - mean) ** 2 + (m[2][2] - mean) ** 2 + 2 * off) / 6)
    if not spread:
        return math.sqrt(max(mean, 0.0))
    b = [[(m[i][j] - mean * (i == j)) / spread for j in range(3)] for i in range(3)]
    determinant = _dot((b[0][0], b[0][1], b[0][2]), _cross((b[1][0], b[1][1], b[1][2]), (b[2][0], b[2][1], b[2][2])))
    angle = math.acos(min(1.0, max(-1.0, determinant / 2))) / 3
    return math.sqrt(max(mean + 2 * spread * math.cos(angle), 0.0))


def _less(a: Vector, b: Vector) -> Vector:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
