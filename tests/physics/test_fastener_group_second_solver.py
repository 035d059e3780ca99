"""Fastener groups against a second solver: the least sum of squares that balances the load is what alike elastic fasteners do.

Nothing here shares a formula with `liftout.physics`: numpy finds the forces of least norm under the six equations of
equilibrium, and our shears and tensions must be those.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftout.physics.fasteners import Bolt, bolt_group
from liftout.physics.overturning import fastener_tensions_n, in_a_row
from tests.strategies import bolts, numbers

points = st.lists(st.tuples(numbers(-0.2, 0.2), numbers(-0.2, 0.2)), min_size=3, max_size=8, unique=True)


def _spread(group: list[tuple[float, float]]) -> bool:
    """Whether the layout is one that a shop could drill: no two within a millimetre, and not all in one row."""
    apart = min(math.dist(a, b) for n, a in enumerate(group) for b in group[:n])
    return apart > 1e-3 and not in_a_row(group) and _roundness(group) > 1e-3


def _roundness(group: list[tuple[float, float]]) -> float:
    values = np.linalg.svd(np.array(group) - np.mean(group, axis=0), compute_uv=False)
    return float(values[1] / values[0])


@given(bolts(), numbers(-1e4, 1e4), numbers(-1e4, 1e4), numbers(-0.5, 0.5), numbers(-0.5, 0.5), numbers(-1e3, 1e3))
def test_shear_of_a_group_is_that_of_least_squares(group: list[Bolt], fx: float, fy: float, x: float, y: float, moment: float) -> None:
    """Bolts of several areas: stiffness goes with the area, so the forces over the root of the area have the least norm."""
    assume(max(math.dist((a.x_m, a.y_m), (b.x_m, b.y_m)) for a in group for b in group) > 1e-3)
    root = [math.sqrt(bolt.area_m2) for bolt in group]
    equations = np.zeros((3, 2 * len(group)))
    for n, bolt in enumerate(group):
        equations[:, 2 * n] = np.array([1, 0, -bolt.y_m]) * root[n]
        equations[:, 2 * n + 1] = np.array([0, 1, bolt.x_m]) * root[n]
    load = np.array([fx, fy, moment + x * fy - y * fx])
    scale = np.array([1.0, 1.0, 10.0])
    found, *_ = np.linalg.lstsq(equations * scale[:, None], load * scale, rcond=1e-13)
    ours = bolt_group(group, (fx, fy), (x, y), moment)
    size = max(ours.resultants_n) + 1
    for n, shear in enumerate(ours.shears_n):
        assert shear[0] == pytest.approx(found[2 * n] * root[n], abs=1e-6 * size)
        assert shear[1] == pytest.approx(found[2 * n + 1] * root[n], abs=1e-6 * size)


@given(points, st.tuples(*[numbers(-1e3, 1e3)] * 3), st.tuples(*[numbers(-0.3, 0.3)] * 3))
def test_shear_and_tension_together_are_the_elastic_solution_in_space(
    group: list[tuple[float, float]], force: tuple[float, float, float], at: tuple[float, float, float]
) -> None:
    """A force anywhere in space on alike fasteners in the plane z = 0: 3 N unknowns, six equations, least norm."""
    assume(_spread(group))
    equations = np.zeros((6, 3 * len(group)))
    for n, (x, y) in enumerate(group):
        for axis in range(3):
            unit = np.eye(3)[axis]
            equations[:3, 3 * n + axis] = unit
            equations[3:, 3 * n + axis] = np.cross([x, y, 0.0], unit)
    load = np.concatenate([force, np.cross(at, force)])
    found = np.linalg.lstsq(equations, load, rcond=1e-13)[0].reshape(-1, 3)
    shears = bolt_group([Bolt(x, y, 1.0) for x, y in group], (force[0], force[1]), (at[0], at[1]), 0.0).shears_n
    # Moments about the centroid, each by its lever: z (x - x_0) of the pull, and the shear's arm above the plane.
    x_0, y_0 = np.mean(group, axis=0)
    m_x = force[2] * (at[0] - x_0) - force[0] * at[2]
    m_y = force[2] * (at[1] - y_0) - force[1] * at[2]
    tensions = fastener_tensions_n(group, force[2], (m_x, m_y))
    size = float(np.abs(found).max()) + 1
    ours = np.array([[*shear, tension] for shear, tension in zip(shears, tensions, strict=True)])
    assert ours == pytest.approx(found, abs=1e-6 * size)
    residual = equations @ ours.reshape(-1) - load
    assert float(np.abs(residual).max()) < 1e-9 * size * len(group)


@given(points, numbers(-1e3, 1e3), numbers(-100.0, 100.0), numbers(-100.0, 100.0))
def test_a_mirrored_group_has_the_same_tensions(group: list[tuple[float, float]], axial: float, m_x: float, m_y: float) -> None:
    assume(_spread(group))
    here = fastener_tensions_n(group, axial, (m_x, m_y))
    there = fastener_tensions_n([(-x, y) for x, y in group], axial, (-m_x, m_y))
    size = max(map(abs, here)) + 1
    assert there == pytest.approx(here, abs=1e-9 * size)


@given(points, numbers(-1e3, 1e3), numbers(-1e3, 1e3), numbers(-0.3, 0.3))
def test_a_mirrored_group_has_the_same_shears(group: list[tuple[float, float]], fx: float, fy: float, y: float) -> None:
    assume(_spread(group))
    here = bolt_group([Bolt(a, b, 1.0) for a, b in group], (fx, fy), (0.1, y), 0.0)
    there = bolt_group([Bolt(-a, b, 1.0) for a, b in group], (-fx, fy), (-0.1, y), 0.0)
    size = max(here.resultants_n) + 1
    assert there.resultants_n == pytest.approx(here.resultants_n, abs=1e-9 * size)
