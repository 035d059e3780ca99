"""The shortest vector that balances, against numpy."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftout.physics.shortest import Balance, _Directions, _factor, _solved
from tests.strategies import numbers

NEGLIGIBLE = 1e-10


@st.composite
def systems(draw: st.DrawFn) -> tuple[np.ndarray, np.ndarray]:
    """Up to six rows over up to twelve members, some rows sums of others, and a vector that sets what is needed."""
    rows, members = draw(st.integers(1, 6)), draw(st.integers(1, 12))
    given_rows = [draw(st.lists(numbers(-1.0, 1.0), min_size=members, max_size=members)) for _ in range(rows)]
    matrix = np.round(np.array(given_rows), draw(st.sampled_from((1, 3, 12))))
    if rows > 2 and draw(st.booleans()):
        matrix[-1] = matrix[0] - matrix[1]
    return matrix, np.array(draw(st.lists(numbers(-1.0, 1.0), min_size=members, max_size=members)))


def well_posed(matrix: np.ndarray) -> bool:
    """Whether every part is either clearly there or clearly not."""
    sizes = np.linalg.svd(matrix, compute_uv=False)
    return bool(sizes[0] > 1e-3) and not any(1e-13 < size / sizes[0] < 1e-5 for size in sizes)


@settings(deadline=None)
@given(systems())
def test_numpy_finds_the_same_shortest_vector(system: tuple[np.ndarray, np.ndarray]) -> None:
    matrix, some = system
    assume(well_posed(matrix))
    needed = matrix @ some
    found = Balance(matrix.tolist(), NEGLIGIBLE).shortest(needed.tolist())
    assert matrix @ found == pytest.approx(needed, abs=1e-11)
    assert found == pytest.approx(np.linalg.lstsq(matrix, needed, rcond=NEGLIGIBLE)[0], abs=1e-9)


@settings(deadline=None)
@given(systems())
def test_the_motion_stretches_the_members_by_just_that(system: tuple[np.ndarray, np.ndarray]) -> None:
    matrix, some = system
    assume(well_posed(matrix))
    balance = Balance(matrix.tolist(), NEGLIGIBLE)
    stretches = balance.shortest((matrix @ some).tolist())
    assert matrix.T @ balance.motion(stretches) == pytest.approx(stretches, abs=1e-8)


def test_nothing_to_balance_with_and_nothing_to_balance() -> None:
    assert Balance([[], []], NEGLIGIBLE).shortest([0.0, 0.0]) == []
    assert Balance([[], []], NEGLIGIBLE).motion([]) == [0.0, 0.0]


# Each of the two ways takes over where the other cannot be trusted, so that a fault in one would hide behind the other.


@settings(deadline=None)
@given(systems())
def test_perpendicular_directions_alone_find_shortest_and_motion(system: tuple[np.ndarray, np.ndarray]) -> None:
    matrix, some = system
    assume(well_posed(matrix))
    needed = matrix @ some
    alone = _Directions(matrix.tolist(), NEGLIGIBLE)
    found = alone.shortest(needed.tolist())
    assert found == pytest.approx(np.linalg.lstsq(matrix, needed, rcond=NEGLIGIBLE)[0], abs=1e-9)
    assert matrix.T @ alone.motion(found) == pytest.approx(found, abs=1e-8)


@settings(deadline=None)
@given(systems())
def test_normal_equations_alone_find_the_shortest(system: tuple[np.ndarray, np.ndarray]) -> None:
    """Where rows are well apart or plainly sums of others; as many pivots as numpy counts independent rows, the longest row first."""
    matrix, some = system
    sizes = np.linalg.svd(matrix, compute_uv=False)
    assume(sizes[0] > 1e-3)
    assume(not any(1e-15 < size / sizes[0] < 1e-2 for size in sizes))
    factor = _factor(matrix.tolist())
    if factor is None:
        assert np.linalg.matrix_rank(matrix) < len(matrix), "only what rounding left of a sum of others is in doubt"
        return
    assert len(factor) == np.linalg.matrix_rank(matrix)
    lengths = (matrix**2).sum(axis=1)
    assert lengths[factor[0][0]] == pytest.approx(lengths.max())
    needed = matrix @ some
    assert matrix @ (matrix.T @ _solved(factor, needed.tolist())) == pytest.approx(needed, abs=1e-9)
