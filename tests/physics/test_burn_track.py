"""Fuel burnt in an order."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, tank
from liftout.physics.burn_track import burn_track
from liftout.physics.filling_order import in_order
from tests.strategies import numbers

DRY_KG, DRY_KGM = 700.0, 1700.0


@st.composite
def tanks(draw: st.DrawFn) -> list[Load]:
    """One to three tanks of up to four points."""
    found = []
    for place in range(draw(st.integers(1, 3))):
        points = [(0.0, 0.0)]
        for step, arm in draw(st.lists(st.tuples(numbers(5.0, 40.0), numbers(-1.0, 5.0)), min_size=1, max_size=4)):
            points.append((points[-1][0] + step, points[-1][1] + step * arm))
        found.append(tank(f"tank {place}", 0.0, points[-1][0], points))
    return found


@given(tanks())
def test_full_tanks_burn_down_the_way_they_are_filled_in_the_published_order(found: list[Load]) -> None:
    order = range(len(found))
    stages = [tuple(one.most_kg if place >= emptied else 0.0 for place, one in enumerate(found)) for emptied in range(len(found), -1, -1)]
    filled = in_order("fuel", found, stages, 0.0, math.fsum(stages[-1]))
    track = burn_track(DRY_KG, DRY_KGM, found, [one.most_kg for one in found], order)
    ends = [(part.weight_kg + part.span_kg, part.moment_kgm + part.span_kg * part.arm_m) for part in reversed(filled.parts)]
    for point, (weight_kg, moment_kgm) in zip(track, [*ends, (0.0, 0.0)], strict=True):
        assert point == pytest.approx((DRY_KG + weight_kg, DRY_KGM + moment_kgm), rel=1e-9, abs=1e-7)


@given(tanks(), st.data())
def test_weight_only_falls_and_ends_without_fuel(found: list[Load], data: st.DataObject) -> None:
    contents = [data.draw(numbers(0.0, one.most_kg)) for one in found]
    order = data.draw(st.permutations(range(len(found))))
    track = burn_track(DRY_KG, DRY_KGM, found, contents, order)
    weights = [weight for weight, _ in track]
    assert math.isclose(weights[0], DRY_KG + sum(contents))
    assert weights == sorted(weights, reverse=True)
    assert track[-1] == pytest.approx((DRY_KG, DRY_KGM), abs=1e-9)


def test_a_tank_is_followed_along_its_corners_and_an_empty_one_adds_nothing() -> None:
    """By hand: 0.5 kg at 2 m in the bottom, 9.5 kg at 4 m above; the other tank is empty; filled to the corner there is no other."""
    bent = tank("bent", 0.0, 10.0, [(0.0, 0.0), (0.5, 1.0), (10.0, 39.0)])
    other = tank("other", 0.0, 20.0, [(0.0, 0.0), (20.0, 60.0)])
    assert burn_track(100.0, 200.0, [bent, other], (10.0, 0.0), (1, 0)) == ((110.0, 239.0), (100.5, 201.0), (100.0, 200.0))
    assert burn_track(100.0, 200.0, [bent, other], (0.5, 0.0), (1, 0)) == ((100.5, 201.0), (100.0, 200.0))
