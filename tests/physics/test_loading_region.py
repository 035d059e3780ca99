"""The region of weight and moment: never left, reached to its edge, and what placards follow from it."""

import itertools
import math
import random

import numpy
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftout.physics.adverse_loading import Load, NoLoading, Part, Shared, any_amount, in_or_out, tank, worst
from liftout.physics.envelope import Limit
from liftout.physics.filling_order import in_order
from liftout.physics.loading_region import AMOUNT_KG, Check, Loading, Region, _joined, least_within, most_within
from liftout.physics.reachable import Either, Loads, Together, under
from tests.strategies import limits, loads, numbers, shares

EMPTY_KG, EMPTY_KGM = 600.0, 1500.0
INCH, POUND = 0.0254, 0.45359237
SIDES = st.sampled_from(("forward", "aft"))


def pounds(name: str, least_lb: float, most_lb: float, arm_in: float) -> Load:
    return any_amount(name, least_lb * POUND, most_lb * POUND, arm_in * INCH)


def constant(arm_m: float, last_kg: float = 5000.0) -> Limit:
    return Limit(((last_kg, arm_m),), in_moment=False)


def proved(loading: Loading) -> None:
    """The proof a sheet prints: the sums are the sums."""
    assert loading.weight_kg == pytest.approx(EMPTY_KG + math.fsum(amount.weight_kg for amount in loading.amounts))
    assert loading.moment_kgm == pytest.approx(EMPTY_KGM + math.fsum(amount.moment_kgm for amount in loading.amounts))


def region_of(choices: list[Load], groups: list[Shared], cap_kg: float) -> Region | None:
    try:
        return Region(EMPTY_KG, EMPTY_KGM, under(choices, groups, cap_kg - EMPTY_KG))
    except NoLoading:
        return None


# -- against other ways of finding it --------------------------------------------------------------------------------


@settings(max_examples=300)
@given(limits(), loads(), SIDES, numbers(620.0, 1200.0), st.data())
def test_the_worst_of_all_combinations_is_the_worst_of_the_region(limit: Limit, choices: list[Load], side: str, cap_kg: float, data) -> None:
    """Two methods without a line in common: filling each combination by its arms, and summing functions of weight."""
    groups = data.draw(shares(tuple(load.name for load in choices)))
    region = region_of(choices, groups, cap_kg)
    try:
        expected = worst(EMPTY_KG, EMPTY_KGM, choices, groups, cap_kg, side, limit)
    except NoLoading:
        if region is not None:
            with pytest.raises(NoLoading):
                region.excursion(side, limit)
        return
    assert region is not None
    found = region.excursion(side, limit)
    assert found.inside_m == pytest.approx(expected.inside_m, abs=1e-9)
    loading = region.loading(side, found.weight_kg)
    proved(loading)
    assert loading.arm_m == pytest.approx(found.moment_kgm / found.weight_kg)
    assert bool(found.outside_kg) == (found.inside_m < -1e-12)
    if found.outside_kg:
        assert any(low - 1e-9 <= found.weight_kg <= high + 1e-9 for low, high in found.outside_kg)


def cabin(seed: int) -> tuple[list[Load], list[Shared]]:
    """Six stations and two tanks of five points, with a compartment pair, a bench, and a limit for all that is not fuel."""
    chance = random.Random(seed)
    stations = [any_amount(f"station {n}", chance.choice((0.0, 10.0)), chance.uniform(40, 110), chance.uniform(1.0, 5.0)) for n in range(6)]
    fuel = []
    for n in range(2):
        points = [(0.0, 0.0)]
        for _ in range(4):
            step = chance.uniform(15, 30)
            points.append((points[-1][0] + step, points[-1][1] + step * chance.uniform(1.5, 4.0)))
        fuel.append(tank(f"tank {n}", 5.0, points[-1][0], points))
    names = [station.name for station in stations]
    return [*stations, *fuel], [Shared(frozenset(names[:2]), 90.0), Shared(frozenset(names[2:4]), 120.0), Shared(frozenset(names), 330.0)]


def drawn(choices: list[Load], groups: list[Shared], cap_kg: float, count: int, seed: int) -> tuple[numpy.ndarray, numpy.ndarray]:
    """Weights and moments of loadings drawn blindly, those beyond a most left out; half of the amounts lie at an end or corner."""
    chance = numpy.random.default_rng(seed)
    amounts, moments = {}, numpy.full(count, EMPTY_KGM)
    for load in choices:
        corners = numpy.array([*(part.weight_kg for part in load.parts), load.most_kg])
        at = numpy.array([*(part.moment_kgm for part in load.parts), load.parts[-1].moment_kgm + load.parts[-1].span_kg * load.parts[-1].arm_m])
        free = chance.uniform(load.least_kg, load.most_kg, count)
        amounts[load.name] = numpy.where(chance.random(count) < 0.5, free, chance.choice(corners, count))
        moments += numpy.interp(amounts[load.name], corners, at)
    kept = EMPTY_KG + sum(amounts.values()) <= cap_kg
    for group in groups:
        kept &= sum(amounts[name] for name in group.names) <= group.most_kg
    return (EMPTY_KG + sum(amounts.values()))[kept], moments[kept]


@pytest.mark.parametrize("seed", range(3))
def test_of_millions_of_loadings_none_leaves_the_region_and_some_come_near_its_worst(seed: int) -> None:
    choices, groups = cabin(seed)
    region = region_of(choices, groups, 1000.0)
    assert region is not None
    weights, moments = drawn(choices, groups, 1000.0, 1_500_000, seed)
    assert len(weights) > 10_000
    for side, sign in (("forward", -1), ("aft", 1)):
        corners = numpy.array(region.breakpoints(side))
        boundary = numpy.interp(weights, corners[:, 0], corners[:, 1])
        assert (sign * (boundary - moments)).min() >= -1e-8
        limit = Limit(((700.0, 2.4), (1000.0, 2.6)), in_moment=False)
        limiting = numpy.interp(weights, (700.0, 1000.0), (2.4, 2.6))
        sampled, exact = (sign * (limiting - moments / weights)).min(), region.excursion(side, limit).inside_m
        assert exact <= sampled + 1e-12
        assert sampled - exact < 0.035  # blind draws in eight dimensions come this near
    middle = len(weights) // 2
    assert all(region.inside(float(weight), float(moment)) for weight, moment in zip(weights[middle : middle + 500], moments[middle:], strict=False))


# -- what must not change anything, and what may only change it one way --------------------------------------------------


def same(one: Region, other: Region, shift_m: float = 0.0) -> None:
    for side in ("forward", "aft"):
        for weight, moment in one.breakpoints(side):
            found = other.moment_kgm(side, weight)
            assert found is not None
            outer = one.moment_kgm(side, weight)
            assert outer is not None
            assert found == pytest.approx(outer + weight * shift_m, abs=1e-6)
            assert (moment <= outer + 1e-6) if side == "aft" else (moment >= outer - 1e-6)


@given(loads(), st.data())
def test_a_load_of_nothing_and_the_order_of_loads_change_nothing(choices: list[Load], data: st.DataObject) -> None:
    groups = data.draw(shares(tuple(load.name for load in choices)))
    region = region_of(choices, groups, 1000.0)
    assume(region)
    nothing = data.draw(st.sampled_from((any_amount("nothing", 0.0, 0.0, 4.0), in_or_out("nothing", 0.0, 4.0))))
    other = region_of(data.draw(st.permutations([*choices, nothing])), groups, 1000.0)
    assert other is not None
    same(region, other)
    same(other, region)


def moved(load: Load, shift_m: float) -> Load:
    parts = (Part(part.weight_kg, part.moment_kgm + part.weight_kg * shift_m, part.span_kg, part.arm_m + shift_m) for part in load.parts)
    return Load(load.name, tuple(parts))


@given(limits(), loads(), SIDES, numbers(-5.0, 5.0))
def test_the_datum_shifts_moments_and_changes_no_distance(limit: Limit, choices: list[Load], side: str, shift_m: float) -> None:
    region = Region(EMPTY_KG, EMPTY_KGM, under(choices, [], 900.0))
    other = Region(EMPTY_KG, EMPTY_KGM + EMPTY_KG * shift_m, under([moved(load, shift_m) for load in choices], [], 900.0))
    same(region, other, shift_m)
    assume(not limit.in_moment and limit.weights_kg[-1] > region.weights_kg[0])
    there = Limit(tuple((weight, arm + shift_m) for weight, arm in limit.points), in_moment=False)
    here, shifted = region.excursion(side, limit), other.excursion(side, there)
    assert shifted.inside_m == pytest.approx(here.inside_m, abs=1e-9)
    assume(abs(here.inside_m) > 1e-9)
    assert bool(shifted.outside_kg) == bool(here.outside_kg)


@given(loads(kinds=("any amount",)), numbers(0.0, 60.0), numbers(0.0, 1.0), st.data())
def test_a_wider_range_never_makes_the_region_smaller(choices: list[Load], more_kg: float, share: float, data: st.DataObject) -> None:
    groups = data.draw(shares(tuple(load.name for load in choices)))
    region = region_of(choices, groups, 900.0)
    assume(region)
    place = data.draw(st.integers(0, len(choices) - 1))
    load = choices[place]
    wider = any_amount(load.name, load.least_kg * share, load.most_kg + more_kg, load.parts[0].arm_m)
    other = region_of([*choices[:place], wider, *choices[place + 1 :]], groups, 900.0)
    assert other is not None
    for weight, moment in itertools.chain(region.breakpoints("forward"), region.breakpoints("aft")):
        assert other.inside(weight, moment)


@given(numbers(-1.0, 5.0), numbers(-1.0, 5.0), numbers(-1.0, 5.0), numbers(0.0, 1.0))
def test_fuel_in_order_lies_within_free_tanks(arm: float, upper: float, other: float, share: float) -> None:
    tanks = (
        tank("main", 0.0, 80.0, ((0.0, 0.0), (30.0, 30.0 * arm), (80.0, 30.0 * arm + 50.0 * upper))),
        tank("tail", 0.0, 40.0, ((0.0, 0.0), (40.0, 40.0 * other))),
    )
    stages = ((0.0, 0.0), (80.0 * share, 0.0), (80.0, 40.0))
    ordered = Region(EMPTY_KG, EMPTY_KGM, in_order("fuel", tanks, stages, 0.0, 120.0))
    free = Region(EMPTY_KG, EMPTY_KGM, Together("fuel", tanks))
    for weight, moment in ordered.breakpoints("aft"):
        assert free.inside(weight, moment)
        assert ordered.moment_kgm("forward", weight) == pytest.approx(moment, abs=1e-6)


# -- the answers --------------------------------------------------------------------------------------------------


@given(limits(), loads(), SIDES, numbers(0.0, 1.0))
def test_weights_outside_are_those_at_which_the_boundary_is_outside(limit: Limit, choices: list[Load], side: str, share: float) -> None:
    region = Region(EMPTY_KG, EMPTY_KGM, under(choices, [], 900.0))
    low, high = region.weights_kg
    assume(low < limit.weights_kg[-1])
    weight = low + share * (min(high, limit.weights_kg[-1]) - low)
    moment = region.moment_kgm(side, weight)
    assume(moment is not None)
    inside_m = (moment / weight - limit.arm_m(weight)) * (1 if side == "forward" else -1)
    found = region.excursion(side, limit)
    assert inside_m >= found.inside_m - 1e-9
    assume(abs(inside_m) > 1e-7)
    assert any(start - 1e-9 <= weight <= end + 1e-9 for start, end in found.outside_kg) == (inside_m < 0)


def test_the_extreme_may_lie_inside_a_sloping_piece() -> None:
    forward = Limit(((500.0, 2.5), (1500.0, 2.0)), in_moment=False)
    found = Region(600.0, 1500.0, any_amount("fuel", 0.0, 900.0, 1.0)).excursion("forward", forward)
    assert found.weight_kg == pytest.approx(math.sqrt((1500.0 - 600.0 * 1.0) / 0.0005))
    # Zeros of 900/W + 1 = 2.75 - W/2000, worked by hand: W² - 3500 W + 1 800 000 = 0.
    assert found.outside_kg == (pytest.approx((1750.0 - math.sqrt(1750.0**2 - 1.8e6), 1500.0)),)


def test_weights_above_the_limit_are_told_and_not_held_against_it() -> None:
    region = Region(600.0, 1500.0, any_amount("baggage", 0.0, 100.0, 4.0))
    found = region.excursion("aft", constant(2.8, 650.0))
    assert (found.weight_kg, found.beyond_kg) == (650.0, (650.0, 700.0))
    assert region.excursion("aft", constant(2.8)).beyond_kg is None
    with pytest.raises(NoLoading, match="heavier than the last point"):
        region.excursion("aft", constant(2.8, 599.0))


def test_a_person_leaves_a_gap_and_a_jump() -> None:
    region = Region(600.0, 1500.0, Together("all", (in_or_out("person", 80.0, 3.0), any_amount("baggage", 0.0, 30.0, 4.0))))
    assert [(piece.from_kg, piece.to_kg) for piece in region.pieces("aft")] == [(600.0, 630.0), (680.0, 710.0)]
    assert region.moment_kgm("aft", 650.0) is None
    assert not region.inside(650.0, 1650.0)
    with pytest.raises(NoLoading, match="no loading weighs 650 kg"):
        region.loading("aft", 650.0)


def test_a_tank_counts_with_its_line_and_not_with_the_hull_of_it() -> None:
    """The arm falls and rises again: the hull would lie 40 kg·m too far aft at half contents."""
    sagging = tank("wing", 0.0, 100.0, ((0.0, 0.0), (50.0, 60.0), (100.0, 200.0)))
    region = Region(600.0, 1500.0, sagging)
    assert region.moment_kgm("aft", 650.0) == pytest.approx(1560.0)
    assert not region.inside(650.0, 1600.0)


def test_nothing_weighs_nothing() -> None:
    with pytest.raises(ValueError, match="something must always be aboard"):
        Region(0.0, 0.0, any_amount("baggage", 0.0, 10.0, 2.0)).excursion("aft", constant(2.0))


def test_no_loading_keeps_a_least_above_the_most() -> None:
    with pytest.raises(NoLoading, match="every least"):
        Region(600.0, 1500.0, Together("all", (any_amount("pilot", 60.0, 110.0, 2.0),), most_kg=50.0))


# -- placards -----------------------------------------------------------------------------------------------------


def reaches(load: Load, above_kg: float, up_to_kg: float) -> bool:
    """Whether some amount of the load lies above one weight and not above another."""
    return any(part.weight_kg <= up_to_kg and part.weight_kg + part.span_kg > above_kg for part in load.parts)


@settings(max_examples=150, deadline=None)
@given(limits(), loads(), SIDES, numbers(0.0, 1.0), st.data())
def test_every_most_up_to_the_threshold_is_within_and_none_above(limit: Limit, choices: list[Load], side: str, share: float, data) -> None:
    """Halving finds the threshold because there is but one: within stays within where loadings are only taken away."""
    groups, load = data.draw(shares(tuple(load.name for load in choices))), choices[0]
    region = region_of(choices, groups, 900.0)
    assume(region is not None and region.weights_kg[0] < limit.weights_kg[-1])
    found = most_within(EMPTY_KG, EMPTY_KGM, under(choices, groups, 300.0), load.name, [Check(side, limit)])

    def inside_m(most_kg: float) -> float:
        capped = [*groups, Shared(frozenset({load.name}), most_kg)]
        return Region(EMPTY_KG, EMPTY_KGM, under(choices, capped, 300.0)).excursion(side, limit).inside_m

    tried = load.least_kg + share * (load.most_kg - load.least_kg)
    assert inside_m(tried) >= inside_m(load.most_kg) - 1e-12
    if found is None:
        assert inside_m(load.least_kg) < 0
    else:
        assert any(part.weight_kg <= found <= part.weight_kg + part.span_kg for part in load.parts)
        assert inside_m(found) >= -1e-11
        if tried <= found:
            assert inside_m(tried) >= -1e-11
        elif reaches(load, found + 2 * AMOUNT_KG, tried):
            assert inside_m(tried) < 0


@settings(max_examples=150, deadline=None)
@given(limits(), loads(), SIDES, numbers(0.0, 1.0))
def test_every_least_from_the_threshold_on_is_within_and_none_below(limit: Limit, choices: list[Load], side: str, share: float) -> None:
    load, cap_kg = choices[0], limit.weights_kg[-1] - EMPTY_KG
    tree = under(choices, [], cap_kg)
    assume(sum(load.least_kg for load in choices) < cap_kg)

    def inside_m(least_kg: float) -> float:
        raised = Together("all", (Together("", (load,), least_kg=least_kg), *choices[1:]), cap_kg)
        try:
            return Region(EMPTY_KG, EMPTY_KGM, raised).excursion(side, limit).inside_m
        except NoLoading:
            return math.inf

    found = least_within(EMPTY_KG, EMPTY_KGM, tree, load.name, [Check(side, limit)])
    tried = load.least_kg + share * (load.most_kg - load.least_kg)
    assert inside_m(tried) >= inside_m(load.least_kg) - 1e-12
    if found is None:
        # Whatever is left of the loadings is outside; above what the cap leaves room for nothing is left.
        assert inside_m(tried) < 0 or inside_m(tried) == math.inf
    else:
        assert any(part.weight_kg <= found <= part.weight_kg + part.span_kg for part in load.parts)
        assert -1e-11 <= inside_m(found) < math.inf
        if tried >= found:
            assert inside_m(tried) >= -1e-11
        elif any(part.weight_kg < found - 2 * AMOUNT_KG and part.weight_kg + part.span_kg >= tried for part in load.parts):
            assert inside_m(tried) < 0


def test_a_cap_on_a_row_and_a_least_of_all_fuel() -> None:
    """By hand: 700 kg at 2.2 m, limit 2.5 m; the row 1 m behind it takes 210 kg·m / 1 m, less what fuel ahead of it gives back."""
    row = Together("rear row", (any_amount("left", 0.0, 150.0, 3.5), any_amount("right", 0.0, 150.0, 3.5)))
    fuel = Together("fuel", (any_amount("main", 0.0, 60.0, 2.0), any_amount("tip", 0.0, 40.0, 2.0)))
    aft = [Check("aft", constant(2.5))]
    loads_ = Together("all", (row, fuel))
    assert most_within(700.0, 1540.0, loads_, "rear row", aft) == pytest.approx(210.0, abs=2e-9)
    # 250 kg in the row are 40 kg·m too much: 80 kg of fuel half a metre ahead of the limit give them back.
    full = Together("all", (row._replace(most_kg=250.0), fuel))
    assert least_within(700.0, 1540.0, full, "fuel", aft) == pytest.approx(80.0, abs=2e-9)
    assert least_within(700.0, 1540.0, loads_, "fuel", aft) is None
    assert most_within(700.0, 1790.0, loads_, "left", aft) is None
    assert most_within(700.0, 1000.0, loads_, "rear row", aft) == 300.0
    with pytest.raises(ValueError, match="nothing aboard is called bunk"):
        most_within(700.0, 1540.0, loads_, "bunk", aft)


def test_a_person_who_may_not_come_is_nought_and_not_a_part() -> None:
    """By hand: 700 kg at 2.45 m leave 35 kg·m to the limit; freight half a metre behind it may weigh 70 kg, the person nothing."""
    person, freight = in_or_out("person", 80.0, 4.0), any_amount("freight", 0.0, 100.0, 3.0)
    aft = [Check("aft", constant(2.5))]
    assert most_within(700.0, 1715.0, Either("seat", (person, any_amount("freight", 0.0, 60.0, 3.0))), "person", aft) == 0.0
    assert most_within(700.0, 1715.0, Either("seat", (person, freight)), "freight", aft) is None
    assert most_within(700.0, 1715.0, Either("seat", (person, freight)), "seat", aft) == pytest.approx(70.0, abs=2e-9)


def test_a_most_below_which_nothing_can_be_loaded_is_no_answer() -> None:
    """By hand: 50 kg of fuel at least and 20 kg in the neutral tank leave 30 kg or more in the aft tank, 1 m behind the limit."""
    fuel = Together("fuel", (any_amount("aft tank", 0.0, 160.0, 3.5), any_amount("main", 0.0, 20.0, 2.5)), least_kg=50.0)
    aft = [Check("aft", constant(2.5))]
    assert most_within(700.0, 1715.0, fuel, "aft tank", aft) == pytest.approx(35.0, abs=2e-9)
    assert most_within(700.0, 1730.0, fuel, "aft tank", aft) is None


def test_both_sides_hold_at_once() -> None:
    """Baggage aft of one limit, fuel ahead of the other: each threshold is the stricter of the two sides."""
    loads_: Loads = any_amount("ballast", 0.0, 100.0, 4.5)
    checks = [Check("forward", constant(2.0)), Check("aft", constant(2.5))]
    assert most_within(700.0, 1680.0, loads_, "ballast", checks) == pytest.approx(35.0, abs=2e-9)
    assert least_within(700.0, 1350.0, any_amount("ballast", 0.0, 40.0, 4.5), "ballast", checks) == pytest.approx(20.0, abs=2e-9)


# -- published ----------------------------------------------------------------------------------------------------


def test_most_forward_extreme_of_the_circular() -> None:
    """AC 43.13-1B CHG 1 fig. 10-10 (stored copy): 1,439 lb at 11.2 in; the rear seat stays empty."""
    may = (pounds("fuel", 83, 240, 22), in_or_out("rear seat", 340 * POUND, 48 * INCH))
    region = Region(1356 * POUND, 14278.4 * POUND * INCH, Together("all", may, (2100 - 1356) * POUND))
    found = region.excursion("forward", constant(8.5 * INCH, 2100 * POUND))
    assert found.weight_kg / POUND == pytest.approx(1439, abs=0.5)
    assert found.moment_kgm / (POUND * INCH) == pytest.approx(16104, abs=1)
    assert (found.limit_m + found.inside_m) / INCH == pytest.approx(11.2, abs=0.05)
    assert found.outside_kg == ()
    assert [amount.weight_kg / POUND for amount in region.loading("forward", found.weight_kg).amounts] == pytest.approx([83, 0])


def test_fuel_left_with_the_most_passengers() -> None:
    """AC 43.13-1B CHG 1 fig. 10-13, par. 10-18b (stored copy): 39 gal, 2,100 lb, 38,466 lb-in (its printed arm is a misprint for 18.3)."""
    moment = 1169 * 10.6 - 17 * 49 + 340 * 16 + 340 * 48
    region = Region(1866 * POUND, moment * POUND * INCH, Together("all", (pounds("fuel", 0, 240, 22),), (2100 - 1866) * POUND))
    heaviest = region.loading("aft", region.weights_kg[1])
    assert heaviest.weight_kg / POUND == pytest.approx(2100, abs=1e-6)
    assert heaviest.amounts[0].weight_kg / POUND / 6 == pytest.approx(39, abs=1e-6)
    assert heaviest.moment_kgm / (POUND * INCH) == pytest.approx(38466, abs=1)
    assert heaviest.arm_m / INCH == pytest.approx(18.3, abs=0.05)


def test_largest_mass_before_the_aft_limit() -> None:
    """EASA question bank 031 (inputs stored copy, answer 207 kg from memory): 2,900 kg at 115.0, limit 116.0, added at 130.0."""
    found = most_within(2900.0, 2900.0 * 115.0, any_amount("hold", 0.0, 500.0, 130.0), "hold", [Check("aft", constant(116.0))])
    assert found is not None
    assert math.floor(found) == 207


def test_minimum_ballast_for_a_loaded_airplane() -> None:
    """FAA mechanic general test bank (stored copy): 4,954 lb at 30.5 in, limit 32.0 in, ballast at 162 in: 57.16 lb."""
    forward = Check("forward", constant(32.0 * INCH))
    found = least_within(4954 * POUND, 4954 * 30.5 * POUND * INCH, pounds("ballast", 0, 200, 162), "ballast", [forward])
    assert found is not None
    assert found / POUND == pytest.approx(57.16, abs=0.005)


def test_permanent_ballast_in_the_tail() -> None:
    """FAA-H-8083-1B ch. 7 (weight and arm stored copy, limit, station and answer from memory): 1,876 lb at 32.2 in, +33.0, 228 in: 7.7 lb."""
    forward = Check("forward", constant(33.0 * INCH))
    found = least_within(1876 * POUND, 1876 * 32.2 * POUND * INCH, pounds("ballast", 0, 200, 228), "ballast", [forward])
    assert found is not None
    assert found / POUND == pytest.approx(7.7, abs=0.05)


def test_winch_load_of_a_helicopter() -> None:
    """EASA question bank 031 (inputs stored copy, answer from memory): 1,800 kg at 5 cm left, 200 kg at 60 cm right: 1.5 cm right."""
    region = Region(1800.0, 1800.0 * -0.05, in_or_out("winch load", 200.0, 0.6))
    right = region.excursion("right", constant(0.02))
    assert (right.limit_m - right.inside_m, right.weight_kg) == (pytest.approx(0.015), 2000.0)
    left = region.excursion("left", constant(-0.04))
    assert (left.limit_m + left.inside_m, left.outside_kg) == (pytest.approx(-0.05), ((1800.0, 1800.0),))


def test_what_fills_a_largest_weight_exactly_is_allowed_by_both_methods() -> None:
    """0.1 + 0.2 is more than 0.3 in floats, and not at the bench; it is here the worst loading of all."""
    crew, bags = in_or_out("crew", 0.1, 9.0), in_or_out("bags", 0.2, 9.0)
    expected = worst(600.0, 1500.0, [crew, bags], [Shared(frozenset({"crew", "bags"}), 0.3)], 700.0, "aft", constant(2.5))
    region = Region(600.0, 1500.0, Together("all", (crew, bags), 0.3))
    assert [load.weight_kg for load in expected.aboard] == [0.1, 0.2]
    assert region.excursion("aft", constant(2.5)).inside_m == pytest.approx(expected.inside_m, abs=1e-12)


def test_the_lightest_and_the_heaviest_loading_are_those_of_all_pieces() -> None:
    """600 kg with a pilot of 60 to 110 kg and up to 50 kg of baggage, 140 kg together."""
    loads = Together("all", (any_amount("pilot", 60.0, 110.0, 2.0), any_amount("baggage", 0.0, 50.0, 4.0)), 140.0)
    region = Region(EMPTY_KG, EMPTY_KGM, loads)
    assert region.weights_kg == (660.0, 740.0)
    assert region.inside(700.0, 1750.0) is True
    assert region.inside(659.0, 1650.0) is False
    # Both pieces of the aft side lie outside 2.3 m from the lightest to the heaviest: one stretch, not two.
    assert region.excursion("aft", constant(2.3)).outside_kg == ((660.0, 740.0),)


def test_stretches_that_touch_are_one_and_others_are_not() -> None:
    assert list(_joined([(3.0, 4.0), (0.0, 1.0), (1.0, 2.0), (0.2, 0.4)])) == [(0.0, 2.0), (3.0, 4.0)]
