"""Fuel in a published order."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, tank
from liftout.physics.filling_order import contents_kg, in_order
from tests.strategies import numbers


def moment_kgm(load: Load, weight_kg: float) -> float:
    """Moment of a load at a weight, by its pieces."""
    part = next(part for part in reversed(load.parts) if part.weight_kg <= weight_kg + 1e-9)
    return part.moment_kgm + (weight_kg - part.weight_kg) * part.arm_m


@st.composite
def tanks_in_order(draw: st.DrawFn) -> tuple[list[Load], list[tuple[float, ...]]]:
    """Two or three tanks of up to five points, and two to five stages from empty to full."""
    tanks, most = [], []
    for place in range(draw(st.integers(2, 3))):
        steps = draw(st.lists(st.tuples(numbers(5.0, 40.0), numbers(-1.0, 5.0)), min_size=1, max_size=4))
        points = [(0.0, 0.0)]
        for step, arm in steps:
            points.append((points[-1][0] + step, points[-1][1] + step * arm))
        most.append(points[-1][0])
        tanks.append(tank(f"tank {place}", 0.0, most[-1], points))
    rows = draw(st.integers(0, 3))
    shares = [sorted(draw(st.lists(numbers(0.0, 1.0), min_size=rows, max_size=rows))) for _ in tanks]
    stages = [tuple(share[row] * full for share, full in zip(shares, most, strict=True)) for row in range(rows)]
    return tanks, [tuple(0.0 for _ in tanks), *stages, tuple(most)]


@given(tanks_in_order(), numbers(0.0, 1.0))
def test_the_moment_of_the_total_is_that_of_the_tanks(given_: tuple[list[Load], list[tuple[float, ...]]], share: float) -> None:
    tanks, stages = given_
    most = math.fsum(stages[-1])
    fuel, total = in_order("fuel", tanks, stages, 0.0, most), share * most
    contents = contents_kg(stages, total)
    assert math.fsum(contents) == pytest.approx(total)
    assert moment_kgm(fuel, total) == pytest.approx(math.fsum(map(moment_kgm, tanks, contents)), abs=1e-6)


def test_contents_that_fall_are_refused() -> None:
    tanks = [tank(name, 0.0, 50.0, ((0.0, 0.0), (50.0, 100.0))) for name in ("left", "right")]
    with pytest.raises(ValueError, match="contents fall"):
        in_order("fuel", tanks, [(0.0, 0.0), (50.0, 0.0), (40.0, 50.0)], 0.0, 90.0)


def test_stages_beyond_a_tank_are_refused() -> None:
    tanks = [tank(name, 0.0, 50.0, ((0.0, 0.0), (50.0, 100.0))) for name in ("left", "right")]
    with pytest.raises(ValueError, match="outside what the tank holds"):
        in_order("fuel", tanks, [(0.0, 0.0), (60.0, 50.0)], 0.0, 110.0)


def test_a_total_beyond_the_stages_is_refused() -> None:
    with pytest.raises(ValueError, match="the stages run"):
        contents_kg([(0.0, 0.0), (50.0, 50.0)], 101.0)
