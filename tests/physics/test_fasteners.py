"""Bolts and rivets."""

import math

import pytest
from hypothesis import assume, given

from liftout.physics.fasteners import Bolt, bearing_strength_n, bolt_group, interaction, shear_strength_n
from tests.strategies import bolts, numbers


@given(bolts(), numbers(-1e4, 1e4), numbers(-1e4, 1e4), numbers(-0.5, 0.5), numbers(-0.5, 0.5), numbers(-1e3, 1e3))
def test_a_group_carries_its_load(group: list[Bolt], fx: float, fy: float, x: float, y: float, moment: float) -> None:
    found = bolt_group(group, (fx, fy), (x, y), moment)
    size = abs(fx) + abs(fy) + abs(moment) + 1
    assert math.fsum(shear[0] for shear in found.shears_n) == pytest.approx(fx, abs=1e-9 * size)
    assert math.fsum(shear[1] for shear in found.shears_n) == pytest.approx(fy, abs=1e-9 * size)
    turned = math.fsum(bolt.x_m * shear[1] - bolt.y_m * shear[0] for bolt, shear in zip(group, found.shears_n, strict=True))
    assert turned == pytest.approx(moment + x * fy - y * fx, abs=1e-9 * size)


@given(bolts(), numbers(-1e4, 1e4), numbers(-1.0, 1.0), numbers(-1.0, 1.0))
def test_moving_group_and_load_together_changes_nothing(group: list[Bolt], force: float, dx: float, dy: float) -> None:
    here = bolt_group(group, (force, force / 2), (0.1, 0.2), 50.0)
    there = bolt_group([Bolt(b.x_m + dx, b.y_m + dy, b.area_m2) for b in group], (force, force / 2), (0.1 + dx, 0.2 + dy), 50.0)
    for one, other in zip(here.resultants_n, there.resultants_n, strict=True):
        assert one == pytest.approx(other, rel=1e-6, abs=1e-6 * (abs(force) + 50))


def test_fasteners_in_one_place_cannot_take_a_moment() -> None:
    with pytest.raises(ValueError, match="cannot take a moment"):
        bolt_group([Bolt(0.1, 0.1, 1e-5)] * 2, (0.0, 100.0), (0.2, 0.1), 0.0)


@given(numbers(0.0, 2.0), numbers(0.0, 2.0), numbers(1.0, 3.0), numbers(1.0, 3.0))
def test_the_load_scale_brings_the_total_to_one(shear: float, tension: float, a: float, b: float) -> None:
    assume(max(shear, tension) > 1e-3)
    found = interaction(shear, tension, a, b)
    assert (found.load_scale * shear) ** a + (found.load_scale * tension) ** b == pytest.approx(1.0)
    assert found.residual == pytest.approx(0.0, abs=1e-9)
    assert (found.total <= 1 + 1e-12) == (found.load_scale >= 1 - 1e-12)


def test_an_unloaded_fastener_has_no_scale() -> None:
    with pytest.raises(ValueError, match="no load to scale"):
        interaction(0.0, 0.0, 3.0, 2.0)


@given(numbers(1e7, 1e9), numbers(0.001, 0.02), numbers(0.0003, 0.01))
def test_shear_grows_with_the_square_of_the_diameter_and_bearing_with_the_diameter(stress: float, diameter: float, thickness: float) -> None:
    assert shear_strength_n(stress, 2 * diameter) == pytest.approx(4 * shear_strength_n(stress, diameter))
    assert bearing_strength_n(stress, 2 * diameter, thickness) == pytest.approx(2 * bearing_strength_n(stress, diameter, thickness))
    assert bearing_strength_n(stress, diameter, 3 * thickness) == pytest.approx(3 * bearing_strength_n(stress, diameter, thickness))


@given(numbers(0.01, 2.0), numbers(0.01, 2.0), numbers(1.0, 3.0), numbers(1.0, 3.0), numbers(1.0, 5.0), numbers(1.0, 5.0))
def test_a_stronger_fastener_never_lowers_the_factor(shear: float, tension: float, a: float, b: float, sheared: float, pulled: float) -> None:
    assert interaction(shear / sheared, tension / pulled, a, b).load_scale >= interaction(shear, tension, a, b).load_scale * (1 - 1e-12)


def test_fasteners_in_one_place_share_a_force_by_their_areas() -> None:
    found = bolt_group([Bolt(0.1, 0.1, 1e-5), Bolt(0.1, 0.1, 3e-5)], (20.0, 100.0), (0.1, 0.1), 0.0)
    assert found.moment_nm == 0
    assert found.shears_n == (pytest.approx((5.0, 25.0)), pytest.approx((15.0, 75.0)))
