"""Tension of fasteners under a bracket that is pulled, pressed or tipped."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

Point = tuple[float, float]


def fastener_tensions_n(points_m: Sequence[Point], axial_n: float, moments_nm: Point, edge_m: float | None = None) -> tuple[float, ...]:
    """Tension of alike fasteners, A/N and the share of the moments linear in the distance from the centroid.

    Where all fasteners lie in one row, the moment about the row is taken by the edge on which the bracket bears, alike by all
    of them. Compression comes out negative; between sheets it is no load of the fastener.

    Args:
        points_m: the fasteners in their plane, each in a place of its own.
        axial_n: pull off the sheet, negative where it presses.
        moments_nm: moments whose levers are the first and the second coordinate: positive where they pull on fasteners of
            larger coordinate.
        edge_m: from the fasteners to the nearest edge on which the bracket bears; needed for a single row that is tipped.

    Raises:
        ValueError: when a single row is tipped about itself and no edge is given.

    Example (four fasteners, 40 N straight off the sheet, tipped by 8 N·m with levers of 0.1 m: 10 N and 20 N each):
        >>> corners = [(x, y) for x in (-0.1, 0.1) for y in (-0.1, 0.1)]
        >>> [round(tension, 6) for tension in fastener_tensions_n(corners, 40.0, (8.0, 0.0))]
        [-10.0, -10.0, 30.0, 30.0]
    """
    count = len(points_m)
    x_m, y_m = (math.fsum(point[axis] for point in points_m) / count for axis in (0, 1))
    places = [(x - x_m, y - y_m) for x, y in points_m]
    i_x, i_y = (math.fsum(place[axis] ** 2 for place in places) for axis in (0, 1))
    i_xy = math.fsum(x * y for x, y in places)
    m_x, m_y = moments_nm
    if not in_a_row(points_m):
        whole = i_x * i_y - i_xy**2
        a, b = (m_x * i_y - m_y * i_xy) / whole, (m_y * i_x - m_x * i_xy) / whole
        return tuple(axial_n / count + a * x + b * y for x, y in places)
    polar = i_x + i_y
    # Direction of the row; any will do for a single fastener, where nothing has a lever.
    c, s = max(places, key=lambda place: math.hypot(*place))
    length = math.hypot(c, s)
    c, s = (c / length, s / length) if length else (1.0, 0.0)
    along, about = m_x * c + m_y * s, math.hypot(m_x, m_y) if not polar else abs(m_x * s - m_y * c)
    if about and not edge_m:
        raise ValueError("a single row of fasteners takes a moment about itself only by the edge on which the bracket bears")
    tipped = about / (count * edge_m) if about and edge_m else 0.0
    return tuple(axial_n / count + (along * (c * x + s * y) / polar if polar else 0.0) + tipped for x, y in places)


ROW: Final = 1e-9
"""Share of the largest product of second moments below which fasteners lie in one row: rounding, not a layout."""


def in_a_row(points_m: Sequence[Point]) -> bool:
    """Whether the fasteners lie in one straight row, or are one.

    Args:
        points_m: the fasteners in their plane.
    """
    count = len(points_m)
    x_m, y_m = (math.fsum(point[axis] for point in points_m) / count for axis in (0, 1))
    i_x, i_y = (math.fsum((point[axis] - (x_m, y_m)[axis]) ** 2 for point in points_m) for axis in (0, 1))
    i_xy = math.fsum((x - x_m) * (y - y_m) for x, y in points_m)
    return i_x * i_y - i_xy**2 <= ROW * (i_x + i_y) ** 2
