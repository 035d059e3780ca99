"""Bolts and rivets: strength in shear and bearing, both together with tension, and a group loaded in its plane."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from liftout.physics.crossing import crossing


def shear_strength_n(shear_pa: float, diameter_m: float) -> float:
    """Single shear strength of a shank, F_su pi d²/4.

    Args:
        shear_pa: ultimate shear stress.
        diameter_m: diameter that shears: the shank, or the hole of a driven rivet.

    Example (MIL-HDBK-5J: 0.250 in at 75 ksi is tabled at 3680 lbf):
        >>> round(shear_strength_n(75e3 * 6894.757293, 0.00635) / 4.4482216, 1)
        3681.6
    """
    return shear_pa * math.pi * diameter_m**2 / 4


def bearing_strength_n(bearing_pa: float, diameter_m: float, thickness_m: float) -> float:
    """Bearing strength of a sheet at one hole, F_bru d t.

    Args:
        bearing_pa: ultimate bearing stress at the edge distance as built.
        diameter_m: diameter of the fastener.
        thickness_m: thickness of the sheet.

    Example (MMPDS, 5/32 rivet in 0.050 clad 2024-T3: 944 lbf):
        >>> round(bearing_strength_n(121e3 * 6894.757293, 0.156 * 0.0254, 0.05 * 0.0254) / 4.4482216)
        944
    """
    return bearing_pa * diameter_m * thickness_m


class Interaction(NamedTuple):
    """Shear and tension together.

    Attributes:
        total: R_s^a + R_t^b; at most 1 holds.
        load_scale: by what both loads may be multiplied until the total is 1: the real reserve, since exponents are not 1.
        residual: total at that scale less 1.
    """

    total: float
    load_scale: float
    residual: float


def interaction(shear_ratio: float, tension_ratio: float, shear_exponent: float, tension_exponent: float) -> Interaction:
    """Shear and tension together, R_s^a + R_t^b against 1.

    Args:
        shear_ratio: shear over shear strength, not negative.
        tension_ratio: tension over tension strength, not negative.
        shear_exponent: a.
        tension_exponent: b.

    Raises:
        ValueError: when neither is loaded.

    Example (NSTS 08307 without bending, 0.70 and 0.60):
        >>> found = interaction(0.7, 0.6, 3.0, 2.0)
        >>> round(found.total, 3), round(found.load_scale, 6)
        (0.703, 1.151023)
    """

    def total(scale: float) -> float:
        return float((scale * shear_ratio) ** shear_exponent + (scale * tension_ratio) ** tension_exponent)

    if not shear_ratio and not tension_ratio:
        raise ValueError("a fastener without shear and tension has no load to scale")
    scale = crossing(lambda scale: 1 - total(scale), 0.0, 1 / max(shear_ratio, tension_ratio))
    return Interaction(total(1.0), scale, total(scale) - 1)


class Bolt(NamedTuple):
    """A fastener of a group: where it is in the plane, and its area."""

    x_m: float
    y_m: float
    area_m2: float


class GroupLoad(NamedTuple):
    """Shear of each fastener of a group, with the centroid and the moment about it.

    Attributes:
        x_m: centroid of the areas.
        y_m: centroid of the areas.
        moment_nm: moment about the centroid, positive counter-clockwise.
        shears_n: shear of each fastener as a vector, in the order given.
    """

    x_m: float
    y_m: float
    moment_nm: float
    shears_n: tuple[tuple[float, float], ...]

    @property
    def resultants_n(self) -> tuple[float, ...]:
        """Size of the shear of each fastener."""
        return tuple(math.hypot(*shear) for shear in self.shears_n)


def bolt_group(bolts: Sequence[Bolt], force_n: tuple[float, float], at_m: tuple[float, float], moment_nm: float) -> GroupLoad:
    """Shear of fasteners loaded in their plane, f_i = P A_i/sum A + M × r_i A_i/J about the centroid of the areas.

    Args:
        bolts: the fasteners; two or more in different places where there is a moment.
        force_n: force.
        at_m: where it acts.
        moment_nm: moment besides, positive counter-clockwise.

    Raises:
        ValueError: when all fasteners lie in one place and the moment about it is not zero.

    Example (Shigley: 16 kN at 425 mm from four M16 bolts: 21.0 kN on the near ones):
        >>> bolts = [Bolt(x, y, 1.0) for x in (-0.075, 0.075) for y in (-0.060, 0.060)]
        >>> round(max(bolt_group(bolts, (0.0, -16e3), (0.425, 0.0), 0.0).resultants_n) / 1e3, 1)
        21.0
    """
    area = math.fsum(bolt.area_m2 for bolt in bolts)
    x_m = math.fsum(bolt.area_m2 * bolt.x_m for bolt in bolts) / area
    y_m = math.fsum(bolt.area_m2 * bolt.y_m for bolt in bolts) / area
    about_nm = moment_nm + (at_m[0] - x_m) * force_n[1] - (at_m[1] - y_m) * force_n[0]
    polar = math.fsum(bolt.area_m2 * ((bolt.x_m - x_m) ** 2 + (bolt.y_m - y_m) ** 2) for bolt in bolts)
    if polar == 0 and about_nm != 0:
        raise ValueError("fasteners in one place cannot take a moment")
    turn = about_nm / polar if polar else 0.0
    shears_n = tuple(
        (
            bolt.area_m2 * (force_n[0] / area - turn * (bolt.y_m - y_m)),
            bolt.area_m2 * (force_n[1] / area + turn * (bolt.x_m - x_m)),
        )
        for bolt in bolts
    )
    return GroupLoad(x_m=x_m, y_m=y_m, moment_nm=about_nm, shears_n=shears_n)
