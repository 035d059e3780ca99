"""A line straight in moment, drawn as the curve that it is."""

import itertools
import math

from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.envelope import Limit
from liftout.physics.moment_line import CHORD_M, curve, curved
from tests.strategies import numbers

WEIGHTS, MOMENTS = numbers(300.0, 3000.0), numbers(-3000.0, 9000.0)


def moment_between(start: tuple[float, float], end: tuple[float, float], weight_kg: float) -> float:
    return start[1] + (end[1] - start[1]) * (weight_kg - start[0]) / (end[0] - start[0])


@given(WEIGHTS, MOMENTS, WEIGHTS, MOMENTS)
def test_every_point_lies_on_the_line_in_moment_and_both_ends_are_there(from_kg: float, from_kgm: float, to_kg: float, to_kgm: float) -> None:
    points = curve(from_kg, from_kgm, to_kg, to_kgm)
    assert points[0] == (from_kg, from_kgm / from_kg)
    assert points[-1] == (to_kg, to_kgm / to_kg)
    for weight_kg, arm_m in points[1:-1]:
        expected = moment_between((from_kg, from_kgm), (to_kg, to_kgm), weight_kg)
        assert math.isclose(weight_kg * arm_m, expected, rel_tol=1e-9, abs_tol=1e-7)


@given(WEIGHTS, MOMENTS, WEIGHTS, MOMENTS, st.integers(1, 9))
def test_no_chord_leaves_the_curve_by_more_than_was_asked(from_kg: float, from_kgm: float, to_kg: float, to_kgm: float, tenth: int) -> None:
    for (low_kg, low_m), (high_kg, high_m) in itertools.pairwise(curve(from_kg, from_kgm, to_kg, to_kgm)):
        if low_kg == high_kg:
            continue
        weight_kg = low_kg + (high_kg - low_kg) * tenth / 10
        chord_m = low_m + (high_m - low_m) * tenth / 10
        assert abs(moment_between((from_kg, from_kgm), (to_kg, to_kgm), weight_kg) / weight_kg - chord_m) <= CHORD_M * (1 + 1e-6) + 1e-12


@given(st.lists(st.tuples(WEIGHTS, MOMENTS), min_size=1, max_size=5, unique_by=lambda point: point[0]))
def test_a_limit_in_moment_has_the_arms_of_its_curve(points: list[tuple[float, float]]) -> None:
    corners = tuple(sorted(points))
    limit = Limit(corners, in_moment=True)
    found = curved(corners)
    assert {weight for weight, _ in corners} <= {weight for weight, _ in found}
    assert [weight for weight, _ in found] == sorted({weight for weight, _ in found})
    for weight_kg, arm_m in found:
        assert math.isclose(arm_m, limit.arm_m(min(weight_kg, corners[-1][0])), rel_tol=1e-9, abs_tol=1e-9)


def test_a_chord_leaves_the_curve_by_less_than_a_chart_shows() -> None:
    """A tenth of a millimetre, in as many pieces as the formula at the head of the module asks for: by hand 1.5 m from 400 to 900 kg."""
    points = curve(400.0, 400.0, 900.0, 1650.0)  # arm 2.5 - 600 / W
    pieces = math.ceil(math.sqrt(600.0 / 1e-4) * (1 / 20 - 1 / 30))
    assert len(points) == pieces + 1 == 42
    assert curve(400.0, 400.0, 400.0, 500.0) == ((400.0, 1.0), (400.0, 1.25))
    assert curve(400.0, 400.0, 400.0, 400.0) == ((400.0, 1.0),)
