"""Straps against a second solver: a small finite-element model of bars that only pull, worked with numpy and scipy.

The item is one rigid body with six motions; each strap is a bar of stiffness 1/compliance that goes slack, each foot a stiff spring
that opens. The motion of least potential energy is found by scipy, from the displacements and not from the forces: nothing of it is
shared with `liftout.physics.restraint`, which seeks forces. In equilibrium both must agree.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy.optimize
from hypothesis import assume, given, settings

from liftout.physics.movement import movement
from liftout.physics.restraint import Item, NotRestrained, Strap, Support, elastic_share, held_to, held_without_each
from tests.strategies import GRAVITY_M_S2, directions, items, mirrored, numbers, over

STIFF = 1e-3


def geometry(item: Item) -> np.ndarray:
    """For each member, by how much each of the six motions of the centre of gravity lengthens it (a foot: closes it)."""
    rows = []
    for strap in item.straps:
        row = np.zeros(6)
        for point, anchor in strap.legs:
            pull = (np.array(anchor) - point) / np.linalg.norm(np.array(anchor) - point)
            row -= np.concatenate([pull, np.cross(np.array(point) - item.centre_m, pull)])
        rows.append(row)
    for support in item.supports:
        push = np.array(support.push) / np.linalg.norm(support.push)
        rows.append(-np.concatenate([push, np.cross(np.array(support.point_m) - item.centre_m, push)]))
    return np.array(rows)


def displaced(item: Item, direction: tuple[float, float, float], factor: float, compliances: list[float]) -> np.ndarray:
    """The motion of least potential energy: half the sum of k·max(0, stretch)², less the work of the load.

    Newton's method on members taut at the moment, with a step that never raises the energy; in units in which the load is one.
    """
    rows, stiffness = geometry(item), 1 / np.array(compliances)
    stiffness = stiffness / stiffness[: len(item.straps)].min()
    load = np.concatenate([np.array(direction) / np.linalg.norm(direction), np.zeros(3)])

    def energy(moved: np.ndarray) -> float:
        return float(0.5 * (stiffness * np.maximum(rows @ moved, 0.0) ** 2).sum() - load @ moved)

    moved = np.linalg.lstsq((rows.T * stiffness) @ rows + 1e-9 * np.eye(6), load)[0]
    for _ in range(60):
        stretch = rows @ moved
        taut = stretch > 0
        slope = (rows[taut].T * stiffness[taut]) @ stretch[taut] - load
        if np.abs(slope).max() < 1e-12:
            break
        step = np.linalg.lstsq((rows[taut].T * stiffness[taut]) @ rows[taut] + 1e-12 * np.eye(6), -slope)[0]
        length, found = 1.0, energy(moved)
        while energy(moved + length * step) > found + 1e-4 * length * slope @ step and length > 1e-12:
            length /= 2
        moved = moved + length * step
    real = factor * item.weight_n / (1 / np.array(compliances))[: len(item.straps)].min()
    return moved * real


@settings(deadline=None, max_examples=30)
@given(items(), directions(), numbers(0.5, 20.0))
def test_a_finite_element_model_shares_the_load_alike(item: Item, direction: tuple[float, float, float], factor: float) -> None:
    straps = [strap.length_m / 1e6 for strap in item.straps]
    stiff = STIFF * min(straps)
    try:
        found = elastic_share(item, direction, factor, straps, stiff)
    except NotRestrained:
        return
    compliances = [*straps, *(stiff for _ in item.supports)]
    moved = displaced(item, direction, factor, compliances)
    theirs = np.maximum(geometry(item) @ moved, 0.0) / np.array(compliances)
    rows = geometry(item)
    load = factor * item.weight_n * np.concatenate([np.array(direction) / np.linalg.norm(direction), np.zeros(3)])
    assume(np.abs(rows.T @ theirs - load).max() < 1e-6 * np.abs(load).max())  # the other solver has arrived
    ours = np.array([*found.tensions_n, *found.pushes_n])
    assert ours == pytest.approx(theirs, abs=1e-4 * max(theirs.max(), 1.0))


@settings(deadline=None, max_examples=30)
@given(items(), directions(), numbers(0.5, 20.0))
def test_no_point_moves_farther_than_the_unit_load_says(item: Item, direction: tuple[float, float, float], factor: float) -> None:
    """Of all motions that go with the stretches the other solver finds one; ours bounds it, and is it where there is only one."""
    straps = [strap.length_m / 1e6 for strap in item.straps]
    stiff = STIFF * min(straps)
    try:
        share = elastic_share(item, direction, factor, straps, stiff)
    except NotRestrained:
        return
    compliances = [*straps, *(stiff for _ in item.supports)]
    moved, rows = displaced(item, direction, factor, compliances), geometry(item)
    theirs = np.maximum(rows @ moved, 0.0) / np.array(compliances)
    ours = np.array([*share.tensions_n, *share.pushes_n])
    assume(theirs == pytest.approx(ours, abs=1e-6 * ours.max()))
    towards = tuple(float(part) for part in np.array(direction) / np.linalg.norm(direction))
    point = (item.centre_m[0], item.centre_m[1], item.centre_m[2] + 0.3)
    stretches = [c * t for c, t in zip(compliances, ours, strict=True)]
    far = movement(item, share, straps, stiff, point, towards)  # type: ignore[arg-type]
    at_point = np.concatenate([towards, np.cross(np.array(point) - item.centre_m, towards)]) @ moved
    assert far.distance_m >= at_point - 1e-4 * max(stretches)
    taut = ours > 1e-9 * ours.max()
    sizes = np.linalg.svd(rows[taut], compute_uv=False)
    if len(sizes) == 6 and sizes[-1] > 0.02 * sizes[0]:
        assert far.distance_m == pytest.approx(at_point, rel=1e-3, abs=1e-3 * max(stretches))


def test_the_centre_of_gravity_moves_as_far_as_work_and_energy_say() -> None:
    """Clapeyron: the load times the way of its point is the sum of tension times stretch. Two straps 45° off, by hand: T = F/√2, F·d = 2·T·e."""
    straps = tuple(Strap(name, (0.0, 0.0, 0.0), (1.0, side, 0.0), 1e4) for name, side in (("L", -1.0), ("R", 1.0)))
    feet = tuple(Support(f"{x} {y}", (x, y, -0.2), (0.0, 0.0, 1.0)) for x in (-0.2, 0.2) for y in (-0.2, 0.2))
    item = Item(100.0, (0.0, 0.0, 0.0), straps, feet)
    softness = 0.02 / (1000 / math.sqrt(2))
    share = elastic_share(item, (-1.0, 0.0, 0.0), 10.0, [softness] * 2, STIFF * softness)
    assert share.tensions_n == pytest.approx((1000 / math.sqrt(2),) * 2)
    far = movement(item, share, [softness] * 2, STIFF * softness, (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0))
    assert far.distance_m == pytest.approx(0.02 * math.sqrt(2))


def test_a_point_that_nothing_bounds_moves_without_end() -> None:
    strap = Strap("S", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 1e4)
    item = Item(100.0, (0.0, 0.0, 0.0), (strap,), ())
    share = elastic_share(item, (-1.0, 0.0, 0.0), 10.0, [1e-5], 1e-8)
    assert math.isinf(movement(item, share, [1e-5], 1e-8, (0.0, 0.0, 0.3), (-1.0, 0.0, 0.0)).distance_m)


@settings(deadline=None)
@given(items(), directions())
def test_each_strap_missing_in_turn_is_the_item_without_it(item: Item, direction: tuple[float, float, float]) -> None:
    """The short cut for slack straps, against the whole computation of each smaller item."""
    lengths = [strap.length_m for strap in item.straps]
    stiff = STIFF * min(lengths)
    whole = held_to(item, direction, lengths, stiff)
    for index, found in enumerate(held_without_each(item, direction, lengths, stiff, whole)):
        left = item.without(item.straps[index].name)
        alone = held_to(left, direction, [*lengths[:index], *lengths[index + 1 :]], stiff)
        assert found.plastic == alone.plastic or found.plastic == pytest.approx(alone.plastic, rel=1e-6, abs=1e-6)
        assume(alone.elastic > 0 or not alone.plastic)  # a lever of micrometres: possible on paper only
        assert found.elastic == alone.elastic or found.elastic == pytest.approx(alone.elastic, rel=1e-5, abs=1e-6)


@settings(deadline=None)
@given(items(), directions(), numbers(1.0, 4.0))
def test_a_stronger_strap_never_lowers_the_plastic_limit(item: Item, direction: tuple[float, float, float], by: float) -> None:
    """Only the plastic limit: a stiffer strap can draw load to itself in the elastic share, and to its neighbours' bad."""
    lengths = [strap.length_m for strap in item.straps]
    before = held_to(item, direction, lengths, STIFF * min(lengths)).plastic
    for strap in item.straps:
        stronger = tuple(one._replace(rating_n=by * one.rating_n) if one is strap else one for one in item.straps)
        after = held_to(item._replace(straps=stronger), direction, lengths, STIFF * min(lengths)).plastic
        assert after >= before * (1 - 1e-9)


@settings(deadline=None)
@given(items(), directions())
def test_the_dual_of_the_program_is_its_primal(item: Item, direction: tuple[float, float, float]) -> None:
    """The kinematic theorem of plastic analysis, worked by scipy: of all motions on which the load does a work of one, with feet that do
    not sink in, the least work that the ratings do on the straps that stretch is the largest factor."""
    rows = geometry(item)
    straps = len(item.straps)
    load = np.concatenate([np.array(direction) / np.linalg.norm(direction), np.zeros(3)]) * item.weight_n
    cost = np.concatenate([np.zeros(6), [strap.rating_n for strap in item.straps]])
    opens = np.hstack([rows, np.vstack([-np.eye(straps), np.zeros((len(item.supports), straps))])])
    other = scipy.optimize.linprog(
        cost / cost.max(),
        A_ub=opens,
        b_ub=np.zeros(len(rows)),
        A_eq=[np.concatenate([load / item.weight_n, np.zeros(straps)])],
        b_eq=[1.0],
        bounds=[(None, None)] * 6 + [(0, None)] * straps,
        method="highs-ds",
    )
    lengths = [strap.length_m for strap in item.straps]
    ours = held_to(item, direction, lengths, STIFF * min(lengths)).plastic
    if other.status in (2, 4):  # no such motion: nothing can move it
        assert math.isinf(ours)
    else:
        assert ours == pytest.approx(other.fun * cost.max() / item.weight_n, rel=1e-6, abs=1e-5)


@settings(deadline=None)
@given(items(), directions())
def test_a_mirrored_item_is_shared_the_same(item: Item, direction: tuple[float, float, float]) -> None:
    lengths = [strap.length_m for strap in item.straps]
    here, there = held_to(item, direction, lengths, STIFF * min(lengths)), held_to(mirrored(item), over(direction), lengths, STIFF * min(lengths))
    assert here.elastic == there.elastic or here.elastic == pytest.approx(there.elastic, rel=1e-5, abs=1e-6)


def test_both_ends_of_a_strap_over_the_top_pull_alike() -> None:
    """20 kg under one strap over its top, pulled up with 3 g: each end takes half of it."""
    corners = [(x, y) for x in (-0.2, 0.2) for y in (-0.15, 0.15)]
    feet = tuple(Support(f"foot {x} {y}", (x, y, 0.0), (0.0, 0.0, 1.0)) for x, y in corners)
    strap = Strap("over", (0.0, -0.15, 0.3), (0.0, -0.15, 0.0), 300.0, ((0.0, 0.15, 0.3), (0.0, 0.15, 0.0)))
    item = Item(20 * GRAVITY_M_S2, (0.0, 0.0, 0.15), (strap,), feet)
    assert strap.length_m == pytest.approx(0.9)
    assert held_to(item, (0.0, 0.0, 1.0), [1.0], STIFF).plastic == pytest.approx(600 / (20 * GRAVITY_M_S2))
    # Heavier on one side, by 50 mm of 150: the feet of the light side hold it level with a third of the load, which the strap bears too.
    lopsided = item._replace(centre_m=(0.0, 0.05, 0.15))
    assert held_to(lopsided, (0.0, 0.0, 1.0), [1.0], STIFF).plastic == pytest.approx(600 / (20 * GRAVITY_M_S2) * 3 / 4)


def test_a_floor_with_friction_holds_what_the_straps_press_on_it() -> None:
    """A strap straight down on each side, 500 N each, and friction of 0.4: 0.4 · 1000 N sideways at the floor, where the pull passes."""
    feet = [(x, y, 0.0) for x in (-0.2, 0.2) for y in (-0.15, 0.15)]
    leaning = [(0.4 * math.cos(a), 0.4 * math.sin(a), 1.0) for a in (n * math.pi / 4 for n in range(8))]
    supports = tuple(Support(f"foot {n} {m}", foot, push) for n, foot in enumerate(feet) for m, push in enumerate(leaning))
    straps = tuple(Strap(name, (0.0, y, 0.3), (0.0, y, -0.001), 500.0) for name, y in (("L", -0.2), ("R", 0.2)))
    item = Item(100.0, (0.0, 0.0, 0.0), straps, supports)
    assert held_to(item, (1.0, 0.0, 0.0), [0.3, 0.3], STIFF).plastic == pytest.approx(4.0, rel=1e-6)
    assert (
        held_to(item._replace(supports=tuple(s._replace(push=(0.0, 0.0, 1.0)) for s in supports)), (1.0, 0.0, 0.0), [0.3, 0.3], STIFF).plastic == 0.0
    )
