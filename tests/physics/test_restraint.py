"""What holds an item, against closed forms and against equilibrium itself."""

import math

import numpy as np
import pytest
import scipy.optimize
from hypothesis import assume, given, settings

from liftout.physics.restraint import (
    Item,
    NotRestrained,
    Shared,
    Sharing,
    Strap,
    Support,
    elastic_share,
    held_to,
    held_without_each,
    kindest_share,
    largest_factor,
    leaning,
)
from tests.strategies import GRAVITY_M_S2, directions, items, mirrored, numbers, over

FORWARD = (1.0, 0.0, 0.0)


def box(attachment_height_m: float) -> Item:
    """The unit of the published comparison: 15 kg, four straps, four feet."""
    corners = [(x, y) for x in (0.2, -0.2) for y in (0.15, -0.15)]
    anchors = [(x, y, 0.0) for x in (0.6, -0.6) for y in (0.25, -0.25)]
    straps = tuple(
        Strap(f"strap {place}", (x, y, attachment_height_m), anchor, 5000.0)
        for place, ((x, y), anchor) in enumerate(zip(corners, anchors, strict=True))
    )
    feet = tuple(Support(f"foot {place}", (x, y, 0.0), (0.0, 0.0, 1.0)) for place, (x, y) in enumerate(corners))
    return Item(15 * GRAVITY_M_S2, (0.0, 0.0, 0.15), straps, feet)


def unbalanced(item: Item, direction: tuple[float, float, float], found: Sharing) -> float:
    """Largest of the six sums, worked here a second time with numpy, over the load."""
    unit = np.array(direction) / np.linalg.norm(direction)
    centre = np.array(item.centre_m)
    force, moment = found.factor * item.weight_n * unit, np.zeros(3)
    for strap, tension in zip(item.straps, found.tensions_n, strict=True):
        pull = np.array(strap.anchor_m) - np.array(strap.attachment_m)
        pull = tension * pull / np.linalg.norm(pull)
        force, moment = force + pull, moment + np.cross(np.array(strap.attachment_m) - centre, pull)
    for support, push in zip(item.supports, found.pushes_n, strict=True):
        upward = push * np.array(support.push)
        force, moment = force + upward, moment + np.cross(np.array(support.point_m) - centre, upward)
    return float(max(np.abs(force).max(), np.abs(moment).max()) / (found.factor * item.weight_n))


@settings(deadline=None)
@given(items(), directions())
def test_the_largest_factor_is_an_equilibrium_within_the_ratings(item: Item, direction: tuple[float, float, float]) -> None:
    found = largest_factor(item, direction)
    assume(found.restrained and not math.isinf(found.factor))
    assert unbalanced(item, direction, found) < 1e-9
    assert found.residual_n < 1e-9 * found.factor * item.weight_n
    assert found.residual_nm < 1e-9 * found.factor * item.weight_n
    assert min(found.tensions_n) >= 0
    assert min(found.pushes_n) >= 0
    assert found.utilisation == pytest.approx(1.0, rel=1e-6)


@settings(deadline=None)
@given(items(), directions())
def test_another_solver_finds_the_same_factor(item: Item, direction: tuple[float, float, float]) -> None:
    """The same program, set up anew about another point for another solver (scipy's interior point)."""
    unit = np.array(direction) / np.linalg.norm(direction)
    columns = []
    for strap in item.straps:
        pull = np.array(strap.anchor_m) - np.array(strap.attachment_m)
        pull = pull / np.linalg.norm(pull)
        columns.append(np.concatenate([pull, np.cross(strap.attachment_m, pull)]))
    columns += [np.concatenate([support.push, np.cross(support.point_m, support.push)]) for support in item.supports]
    columns.append(np.concatenate([unit, np.cross(item.centre_m, unit)]))
    bounds = [(0, strap.rating_n / item.weight_n) for strap in item.straps] + [(0, None)] * (len(item.supports) + 1)
    cost = np.zeros(len(columns))
    cost[-1] = -1
    other = scipy.optimize.linprog(cost, A_eq=np.array(columns).T, b_eq=np.zeros(6), bounds=bounds, method="highs-ipm")
    found = largest_factor(item, direction)
    if other.status in (2, 3, 4):  # unbounded, which this solver may call infeasible
        assert math.isinf(found.factor)
    else:
        assert found.factor == pytest.approx(-other.fun, rel=1e-5, abs=1e-5)


@settings(deadline=None)
@given(items(), directions(), numbers(0.2, 5.0))
def test_ratings_scale_the_factor_and_weight_divides_it(item: Item, direction: tuple[float, float, float], by: float) -> None:
    first = largest_factor(item, direction)
    assume(first.restrained and not math.isinf(first.factor))
    stronger = Item(
        item.weight_n, item.centre_m, tuple(Strap(s.name, s.attachment_m, s.anchor_m, by * s.rating_n) for s in item.straps), item.supports
    )
    heavier = Item(by * item.weight_n, item.centre_m, item.straps, item.supports)
    assert largest_factor(stronger, direction).factor == pytest.approx(by * first.factor, rel=1e-6)
    assert largest_factor(heavier, direction).factor == pytest.approx(first.factor / by, rel=1e-6)


@settings(deadline=None)
@given(items(), directions())
def test_a_missing_strap_never_helps(item: Item, direction: tuple[float, float, float]) -> None:
    whole = largest_factor(item, direction).factor
    for strap in item.straps:
        assert largest_factor(item.without(strap.name), direction).factor <= whole * (1 + 1e-7)


@settings(deadline=None)
@given(items(), directions())
def test_a_mirrored_item_is_held_the_same(item: Item, direction: tuple[float, float, float]) -> None:
    here, there = largest_factor(item, direction).factor, largest_factor(mirrored(item), over(direction)).factor
    assert here == there or here == pytest.approx(there, rel=1e-6, abs=1e-6)


@settings(deadline=None)
@given(items(), directions(), numbers(0.5, 20.0))
def test_the_kindest_share_is_the_largest_factor_the_other_way_round(item: Item, direction: tuple[float, float, float], factor: float) -> None:
    largest = largest_factor(item, direction)
    assume(not 0 < largest.factor < 1e-3)  # a lever of micrometres: possible on paper only
    if not largest.restrained:
        with pytest.raises(NotRestrained):
            kindest_share(item, direction, factor)
        return
    found = kindest_share(item, direction, factor)
    assert unbalanced(item, direction, found) < 1e-9
    expected = 0.0 if math.isinf(largest.factor) else factor / largest.factor
    assert found.utilisation == pytest.approx(expected, rel=1e-6, abs=1e-8)


@settings(deadline=None)
@given(items(), directions(), numbers(0.5, 20.0))
def test_the_elastic_share_balances_and_no_other_has_less_energy(item: Item, direction: tuple[float, float, float], factor: float) -> None:
    compliances = [strap.length_m for strap in item.straps]
    stiff = 1e-3 * min(compliances)
    try:
        kind = kindest_share(item, direction, factor)
    except NotRestrained:
        with pytest.raises(NotRestrained):
            elastic_share(item, direction, factor, compliances, stiff)
        return
    try:
        found = elastic_share(item, direction, factor, compliances, stiff)
    except NotRestrained as refused:
        assume("mechanism" not in str(refused))  # a lever of micrometres: possible on paper only
        raise

    def energy(share: Sharing) -> float:
        strap = math.fsum(c * tension**2 for c, tension in zip(compliances, share.tensions_n, strict=True))
        return strap + stiff * math.fsum(push**2 for push in share.pushes_n)

    assert unbalanced(item, direction, found) < 1e-9
    assert min(found.tensions_n) >= 0
    assert energy(found) <= energy(kind) * (1 + 1e-6)
    assert found.utilisation >= kind.utilisation * (1 - 1e-6) - 1e-12


@settings(deadline=None)
@given(items(), directions())
def test_in_the_elastic_share_one_motion_of_the_item_stretches_what_pulls_and_nothing_that_is_slack(
    item: Item, direction: tuple[float, float, float]
) -> None:
    """The proof that no other share has less energy, worked here with numpy: the conditions of Karush, Kuhn and Tucker."""
    compliances = [*(strap.length_m for strap in item.straps), *(1e-3 for _ in item.supports)]
    try:
        found = elastic_share(item, direction, 1.0, compliances[: len(item.straps)], 1e-3)
    except NotRestrained:
        return
    forces = np.array([*found.tensions_n, *found.pushes_n]) / item.weight_n
    pulls = [np.array(strap.pull) for strap in item.straps] + [np.array(support.push) for support in item.supports]
    points = [strap.attachment_m for strap in item.straps] + [support.point_m for support in item.supports]
    columns = np.array([[*pull, *np.cross(np.array(point) - item.centre_m, pull)] for pull, point in zip(pulls, points, strict=True)])
    taut = forces > 1e-9 * forces.max()
    sizes = np.linalg.svd(columns[taut], compute_uv=False)
    assume(len(sizes) == 6 and sizes[-1] > 1e-4 * sizes[0])  # else more motions than one stretch what pulls by the same
    stretches = np.array(compliances) * forces
    motion = np.linalg.lstsq(columns[taut], stretches[taut])[0]
    assert columns[taut] @ motion == pytest.approx(stretches[taut], abs=1e-8 * stretches.max())
    assert (columns[~taut] @ motion).max(initial=0.0) < 1e-8 * stretches.max()


@settings(deadline=None)
@given(numbers(5.0, 60.0), numbers(5.0, 50.0), numbers(1.0, 60.0), numbers(1.0, 20.0))
def test_two_straps_through_the_centre_of_gravity(elevation_deg: float, azimuth_deg: float, mass_kg: float, factor: float) -> None:
    """Closed form, T = n m g / (2 cos elevation cos azimuth): ST-Q01 at 30°, 20°, 15 kg, 9 g is 813.4 N."""
    up, side = math.radians(elevation_deg), math.radians(azimuth_deg)
    anchors = [(-math.cos(up) * math.cos(side), sign * math.cos(up) * math.sin(side), -math.sin(up)) for sign in (1, -1)]
    straps = tuple(Strap(f"strap {place}", (0.0, 0.0, 0.0), anchor, 1e5) for place, anchor in enumerate(anchors))
    feet = tuple(Support(f"foot {x} {y}", (x, y, -0.2), (0.0, 0.0, 1.0)) for x in (-0.2, 0.2) for y in (-0.2, 0.2))
    item = Item(mass_kg * GRAVITY_M_S2, (0.0, 0.0, 0.0), straps, feet)
    expected = factor * mass_kg * GRAVITY_M_S2 / (2 * math.cos(up) * math.cos(side))
    for found in (kindest_share(item, FORWARD, factor), elastic_share(item, FORWARD, factor, [1.0, 1.0], 1e-3)):
        assert found.tensions_n == pytest.approx((expected, expected), rel=1e-7)


def test_attachment_at_the_height_of_the_centre_of_gravity_leaves_the_forward_straps_slack() -> None:
    """ST-Q03: plain sum over the two aft straps."""
    item = box(0.15)
    lengths = [strap.length_m for strap in item.straps]
    for found in (kindest_share(item, FORWARD, 18.0), elastic_share(item, FORWARD, 18.0, lengths, 1e-3 * min(lengths))):
        assert found.tensions_n == pytest.approx((0.0, 0.0, 1452.144451, 1452.144451), abs=1e-3)


def test_with_one_aft_strap_missing_there_is_no_equilibrium() -> None:
    """ST-Q04."""
    item = box(0.3).without("strap 3")
    assert not largest_factor(item, FORWARD).restrained
    with pytest.raises(NotRestrained, match="no equilibrium"):
        kindest_share(item, FORWARD, 9.0)


def test_straps_attached_above_the_centre_of_gravity_carry_more_than_the_plain_sum() -> None:
    plain = kindest_share(box(0.15), FORWARD, 9.0).utilisation
    assert kindest_share(box(0.3), FORWARD, 9.0).utilisation > 1.2 * plain


def test_a_block_in_front_takes_the_forward_load() -> None:
    item = box(0.15)
    block = Support("block", (0.2, 0.0, 0.15), (-1.0, 0.0, 0.0))
    blocked = Item(item.weight_n, item.centre_m, item.straps, (*item.supports, block))
    assert math.isinf(largest_factor(blocked, FORWARD).factor)
    assert max(kindest_share(blocked, FORWARD, 18.0).tensions_n) == pytest.approx(0.0, abs=1e-6)


def test_the_floor_carries_any_downward_load() -> None:
    assert math.isinf(largest_factor(box(0.15), (0.0, 0.0, -1.0)).factor)


def test_nothing_holds_an_item_without_straps() -> None:
    bare = Item(100.0, (0.0, 0.0, 0.1), (), ())
    assert not largest_factor(bare, FORWARD).restrained


@given(numbers(0.01, 1.0))
def test_a_floor_with_friction_leans_on_its_cone_all_round(friction: float) -> None:
    """Every push leans by the coefficient for one upward; together they lean nowhere; eight lie an eighth of a turn apart."""
    pushes = leaning("foot", (0.1, 0.2, 0.0), friction)
    assert [push.name for push in pushes] == [f"foot, leaning {number}" for number in range(1, 9)]
    assert {push.point_m for push in pushes} == {(0.1, 0.2, 0.0)}
    for one, other in zip(pushes, [*pushes[1:], pushes[0]], strict=True):
        assert one.push[2] == 1.0
        assert math.hypot(*one.push[:2]) == pytest.approx(friction)
        turned = one.push[0] * other.push[1] - one.push[1] * other.push[0]
        assert turned == pytest.approx(friction**2 * math.sin(math.pi / 4))


def test_two_straps_along_one_line_reach_their_ratings_together_or_by_their_stiffness() -> None:
    """By hand: 100 N between two straps of 10 kN: 200 g plastically. One three times as soft takes a quarter, so the other is at its rating at 133 g."""
    straps = tuple(Strap(name, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 1e4) for name in ("stiff", "soft"))
    item = Item(100.0, (0.0, 0.0, 0.0), straps, ())
    forward = (-1.0, 0.0, 0.0)
    held = held_to(item, forward, [1e-5, 3e-5], 1e-8)
    assert (held.plastic, held.elastic, held.factor) == (pytest.approx(200.0), pytest.approx(400 / 3), pytest.approx(400 / 3))
    assert held.stretching is not None
    assert held.stretching.tensions_n == pytest.approx((75.0, 25.0))
    for left in held_without_each(item, forward, [1e-5, 3e-5], 1e-8, held):
        assert (left.plastic, left.elastic) == (pytest.approx(100.0), pytest.approx(100.0))


def test_straps_at_one_anchor_pull_no_more_in_sum_than_it_bears() -> None:
    """By hand: 100 N on two straps of 10 kN each, alike: 200 g; an anchor of 15 kN that both lead to is at its rating at 150 g."""
    straps = tuple(Strap(name, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 1e4) for name in ("one", "other"))
    item = Item(100.0, (0.0, 0.0, 0.0), straps, (), (Shared("anchor", ("one", "other"), 1.5e4),))
    forward = (-1.0, 0.0, 0.0)
    held = held_to(item, forward, [1e-5, 1e-5], 1e-8)
    assert held.stretching is not None
    assert (held.factor, held.stretching.governing(item)) == (pytest.approx(150.0), ("anchor",))
    # With one of them missing the other has the anchor for itself.
    assert item.without("one").shared == ()
    assert [left.factor for left in held_without_each(item, forward, [1e-5, 1e-5], 1e-8, held)] == [pytest.approx(100.0)] * 2
    # Both ends of one strap lead there: it pulls twice.
    twice = item._replace(straps=straps[:1], shared=(Shared("anchor", ("one", "one"), 1.5e4),))
    assert held_to(twice, forward, [1e-5], 1e-8).factor == pytest.approx(75.0)


def test_a_strap_that_is_slack_is_not_missed() -> None:
    """One strap ahead and one behind: backward nothing pulls on the one behind."""
    straps = tuple(Strap(name, (0.0, 0.0, 0.0), (x, 0.0, 0.0), 1e4) for name, x in (("behind", 1.0), ("ahead", -1.0)))
    item = Item(100.0, (0.0, 0.0, 0.0), straps, ())
    behind, ahead = held_without_each(item, FORWARD, [1e-5, 1e-5], 1e-8)
    assert (behind.plastic, behind.elastic) == (pytest.approx(100.0), pytest.approx(100.0))
    assert behind.stretching is not None
    assert behind.stretching.tensions_n == pytest.approx((100.0,))
    assert (ahead.plastic, ahead.elastic, ahead.stretching) == (0.0, 0.0, None)


def test_straps_are_spared_before_the_floor() -> None:
    """A floor bears any push, so that the least tensions lean on it.

    All lines meet in the centre of gravity. S0 holds the load and pulls as hard sideways; against that either A pulls alone, which presses
    the item on the floor, or A and B together, which press nothing but pull harder in all: 1.414 against 1.629 times the load.
    """
    half = math.sqrt(0.5)
    straps = (
        Strap("S0", (0.0, 0.0, 0.0), (-half, half, 0.0), 1000.0),
        Strap("A", (0.0, 0.0, 0.0), (0.0, -half, -half), 10000.0),
        Strap("B", (0.0, 0.0, 0.0), (0.0, -0.5, math.sqrt(0.75)), 10000.0),
    )
    item = Item(100.0, (0.0, 0.0, 0.0), straps, (Support("foot", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0)),))
    held = largest_factor(item, FORWARD)
    assert held.factor * 100 == pytest.approx(1000 * half)
    assert held.tensions_n == pytest.approx((1000, 1000, 0), abs=1e-6)
    assert held.pushes_n == pytest.approx((1000 * half,))
