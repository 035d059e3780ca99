"""Magnetic field of a current beside a compass (Biot and Savart)."""

from __future__ import annotations

import math


def straight_wire_a_per_m(current_a: float, distance_m: float) -> float:
    """Field of a long straight wire, H = I / (2 pi r).

    Args:
        current_a: current.
        distance_m: distance from the wire.

    Example (physics text, ch. 29: 100 A at 6.1 m is 3.3e-6 T):
        >>> round(straight_wire_a_per_m(100.0, 6.1) * 4e-7 * math.pi, 8)
        3.28e-06
    """
    return current_a / (2 * math.pi * distance_m)


def pair_a_per_m(current_a: float, spacing_m: float, distance_m: float) -> float:
    """Largest field of a straight pair, out and back, H = I s / (2 pi (r² - s²/4)).

    Args:
        current_a: current.
        spacing_m: distance between the axes of the two wires.
        distance_m: distance from the middle of the pair, more than half the spacing.

    Raises:
        ValueError: between the wires.

    Example:
        >>> round(pair_a_per_m(45.0, 0.005, 1.0), 5)
        0.03581
    """
    if distance_m <= spacing_m / 2:
        raise ValueError(f"{distance_m:g} m is between the two wires, {spacing_m:g} m apart")
    return current_a * spacing_m / (2 * math.pi * (distance_m**2 - spacing_m**2 / 4))


def deflection_rad(field_a_per_m: float, earth_horizontal_a_per_m: float) -> float:
    """Largest deflection of a compass, atan(H / H_earth): field horizontal and square to the heading.

    Args:
        field_a_per_m: field of the equipment.
        earth_horizontal_a_per_m: horizontal field of the earth.

    Example:
        >>> round(math.degrees(deflection_rad(7.161972, 14.4)), 2)
        26.44
    """
    return math.atan2(field_a_per_m, earth_horizontal_a_per_m)
