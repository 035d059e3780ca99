"""How far points of a strapped item move, by hand with levers and springs."""

from __future__ import annotations

import math

import pytest

from liftout.physics.movement import Movement, movement
from liftout.physics.restraint import Item, Strap, Support, Vector, elastic_share

AFT, FORWARD, DOWN, UP = (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, 0.0, 1.0)
MIDDLE = (0.0, 0.0, 0.0)
STRAP_M_N, FLOOR_M_N = 1e-5, 1e-6


def moved(item: Item, load: Vector, point: Vector, towards: Vector) -> Movement:
    """How a point moves under ten times the weight, with straps and floor of one stiffness each."""
    straps = [STRAP_M_N] * len(item.straps)
    share = elastic_share(item, load, 10.0, straps, FLOOR_M_N)
    return movement(item, share, straps, FLOOR_M_N, point, towards)


def test_two_straps_side_by_side_stretch_by_half_the_load_each() -> None:
    """1000 N forward: 500 N in each strap, which stretch by 5 mm; a unit load takes half in each. The floor has nothing to do."""
    straps = tuple(Strap(name, (0.0, y, 0.0), (1.0, y, 0.0), 1e4) for name, y in (("left", -0.2), ("right", 0.2)))
    item = Item(100.0, MIDDLE, straps, (Support("stop", (0.5, 0.0, 0.0), FORWARD),))
    found = moved(item, FORWARD, MIDDLE, FORWARD)
    assert found.distance_m == pytest.approx(0.005)
    assert found.unit_pulls == pytest.approx((0.5, 0.5))
    assert found.unit_pushes == pytest.approx((0.0,))


def test_what_is_pushed_against_goes_back_where_it_is_let_go() -> None:
    """Two supports 1 m from the middle bear 500 N each and give 0.5 mm. Levers: 2 m out, one bears 1.5 of a unit load and the other lets go of half."""
    item = Item(100.0, MIDDLE, (), tuple(Support(name, (x, 0.0, 0.0), UP) for name, x in (("front", -1.0), ("rear", 1.0))))
    for point, towards, distance, pushes in (
        ((1.0, 0.0, 0.0), DOWN, 0.0005, (0.0, 1.0)),
        ((0.0, 0.0, 0.0), DOWN, 0.0005, (0.5, 0.5)),
        ((2.0, 0.0, 0.0), DOWN, 0.0005, (-0.5, 1.5)),
        ((1.0, 0.0, 0.0), UP, -0.0005, (0.0, -1.0)),
    ):
        found = moved(item, DOWN, point, towards)
        assert found.distance_m == pytest.approx(distance)
        assert found.unit_pulls == ()
        assert found.unit_pushes == pytest.approx(pushes, abs=1e-9)


def test_a_corner_moves_by_what_each_support_gives() -> None:
    """The middle of the weight 0.5 m aft: by levers 250 and 750 N. The rear end goes down by 0.75 mm, 1 m behind it by 1.5 x 0.75 - 0.5 x 0.25 mm."""
    item = Item(100.0, (0.5, 0.0, 0.0), (), tuple(Support(name, (x, 0.0, 0.0), UP) for name, x in (("front", -1.0), ("rear", 1.0))))
    assert moved(item, DOWN, (1.0, 0.0, 0.0), DOWN).distance_m == pytest.approx(0.00075)
    assert moved(item, DOWN, (2.0, 0.0, 0.0), DOWN).distance_m == pytest.approx(0.001)
    assert moved(item, DOWN, (-1.0, 0.0, 0.0), UP).distance_m == pytest.approx(-0.00025)


def test_where_nothing_holds_a_point_it_moves_without_end_and_no_force_proves_it() -> None:
    straps = tuple(Strap(name, (0.0, y, 0.0), (1.0, y, 0.0), 1e4) for name, y in (("left", -0.2), ("right", 0.2)))
    item = Item(100.0, MIDDLE, straps, (Support("floor", (0.0, 0.0, -0.5), UP),))
    assert moved(item, FORWARD, MIDDLE, (0.0, 1.0, 0.0)) == Movement(math.inf, (0.0, 0.0), (0.0,))
