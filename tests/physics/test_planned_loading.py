"""A planned loading: published sums, what is nearest along a burn, and loadings to compare with."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.physics.envelope import Limit
from liftout.physics.planned_loading import (
    BURN,
    LANDING,
    TAKEOFF,
    Group,
    Limits,
    Loading,
    Plan,
    State,
    Station,
    Tank,
    burnt,
    limit_m,
    moment_kgm,
    outcome,
)
from liftout.physics.sampled_loadings import BEYOND, MOVED, _anywhere, _rounded, _settings, _zero, sampled

FORWARD = Limit(((2780.0, 80.7), (3400.0, 82.0), (4000.0, 86.4)), in_moment=False)
"""FAA-H-8083-30 p. 4-17, in lb and in; the module knows no units, so it is used as it is printed."""
AFT = Limit(((2780.0, 94.6), (4000.0, 94.6)), in_moment=False)
LIMITS = Limits(
    "normal", (("ramp", None), ("take-off", 3400.0), ("landing", 3400.0)), Limit(((3400.0, 78.0),), False), Limit(((3400.0, 86.0),), False), ()
)
SEATS = (
    Station("front seats", 85.0, 2, True, 0.0, ()),
    Station("rear seats", 121.0, 2, False, 0.0, ()),
    Station("baggage 1", 150.0, 0, False, 0.0, ()),
)
FUEL = Tank("fuel", 75.0, 6.0, ((450.0, 450.0 * 75.0),))
FOUR_SEATS = Plan(
    SEATS,
    (Group("baggage 1", (2,)),),
    (FUEL,),
    (0,),
    (LIMITS,),
    (State("empty", 2100.0, 2100.0 * 78.3, (0,), (2, 2, 0), (100.0,), ()),),
    1e-9,
    150.0,
)
PRINTED = Loading(0, 0, ((170.0, 170.0), (175.0, 175.0), (80.0,)), (75.0,), (0.0,), (0.0,))


def check(plan: Plan, loading: Loading, kind: str, of: str):
    return next(one for one in outcome(plan, loading).checks if (one.kind, one.of) == (kind, of))


def test_the_printed_loading_of_a_four_seat_aeroplane() -> None:
    """FAA-H-8083-25 (PHAK), weight and balance, computational method: 3320 lb, 84.8 in, within 78 to 86 in and 3400 lb.

    Loads and limits read in the source; the empty weight and the arms are from memory.
    """
    found = outcome(FOUR_SEATS, PRINTED)
    takeoff = found.points[1]
    assert takeoff.weight_kg == 3320.0
    assert takeoff.moment_kgm / takeoff.weight_kg == pytest.approx(84.8, abs=0.05)
    assert check(FOUR_SEATS, PRINTED, "weight", TAKEOFF).verdict == "within"
    assert check(FOUR_SEATS, PRINTED, "forward", TAKEOFF).verdict == "within"
    assert check(FOUR_SEATS, PRINTED, "aft", TAKEOFF).verdict == "within"
    assert check(FOUR_SEATS, PRINTED, "weight", "ramp").verdict == "not given"


def test_the_printed_burn_moves_the_centre_of_gravity_aft() -> None:
    """FAA pilot knowledge-test bank: 3037 lb at 68.8 in, 12.7 gal/h for 1 h 45 min of fuel at 68.0 in; the printed choice is 68.83, cut from 68.8367."""
    fuel = Tank("fuel", 60.0, 6.0, ((360.0, 360.0 * 68.0),))
    state = State("empty", 3037.0 - 360.0, 3037.0 * 68.8 - 360.0 * 68.0, (0,), (2, 2, 0), (100.0,), ())
    plan = FOUR_SEATS._replace(tanks=(fuel,), states=(state,))
    loading = Loading(0, 0, ((0.0, 0.0), (0.0, 0.0), (0.0,)), (60.0,), (0.0,), (12.7 * 1.75,))
    landing = outcome(plan, loading).points[2]
    assert landing.moment_kgm / landing.weight_kg == pytest.approx(68.83, abs=0.01)


@pytest.mark.parametrize(("weight", "arm"), [(2000.0, 80.7), (3000.0, 81.161), (3700.0, 84.2), (4000.0, 86.4), (4000.0 * (1 + 5e-10), 86.4)])
def test_limits_between_printed_points(weight: float, arm: float) -> None:
    """FAA-H-8083-30 p. 4-17; on the last point, within what counts as on it, its arm holds."""
    found = limit_m(FORWARD, weight, 1e-9)
    assert found == pytest.approx(arm, abs=5e-4)


def test_above_the_last_point_there_is_no_limit() -> None:
    assert limit_m(FORWARD, 4000.0 * (1 + 2e-9), 1e-9) is None
    heavy = PRINTED._replace(stations=((170.0, 170.0), (175.0, 175.0), (500.0,)))
    assert check(FOUR_SEATS, heavy, "aft", TAKEOFF).verdict == "no limit"
    assert check(FOUR_SEATS, heavy, "weight", TAKEOFF).verdict == "beyond"


def test_on_a_limit_is_within_and_a_little_more_is_not() -> None:
    on = PRINTED._replace(stations=((170.0, 170.0), (175.0, 175.0), (100.0,)))
    over = PRINTED._replace(stations=((170.0, 170.0), (175.0, 175.0), (100.001,)))
    assert check(FOUR_SEATS, on, "group", "baggage 1").verdict == "within"
    assert check(FOUR_SEATS, over, "group", "baggage 1").verdict == "beyond"


def test_the_pilots_seat_is_never_empty_and_displaced_seats_count() -> None:
    empty = PRINTED._replace(stations=((0.0, 170.0), (175.0, 175.0), (80.0,)))
    assert check(FOUR_SEATS, empty, "pilot", "front seats").verdict == "beyond"
    fewer = FOUR_SEATS._replace(states=(FOUR_SEATS.states[0]._replace(seats=(2, 1, 0)),))
    assert check(fewer, PRINTED, "seats", "rear seats").verdict == "beyond"
    assert check(FOUR_SEATS, PRINTED, "seats", "rear seats").verdict == "within"


def test_stations_that_stay_empty_or_stand_in_for_others() -> None:
    closed = FOUR_SEATS._replace(limits=(LIMITS._replace(empty=(1,)),))
    assert check(closed, PRINTED, "empty", "rear seats").verdict == "beyond"
    absent = FOUR_SEATS._replace(states=(FOUR_SEATS.states[0]._replace(absent=(2,)),))
    assert check(absent, PRINTED, "empty", "baggage 1").verdict == "beyond"
    instead = FOUR_SEATS._replace(stations=(*SEATS[:2], SEATS[2]._replace(instead_of=(1,))))
    assert check(instead, PRINTED, "instead", "baggage 1").verdict == "beyond"
    alone = PRINTED._replace(stations=((170.0, 170.0), (0.0, 0.0), (80.0,)))
    assert check(instead, alone, "instead", "baggage 1").verdict == "within"


# --- tanks --------------------------------------------------------------------------------------------------------

CURVE = Tank("tail", 100.0, 1.0, ((40.0, 40.0 * 110.0), (100.0, 100.0 * 120.0)))
TWO = FOUR_SEATS._replace(tanks=(FUEL, CURVE), order=(1, 0))


@given(st.floats(0.0, 100.0))
def test_the_moment_of_a_tank_runs_straight_between_its_points(weight: float) -> None:
    points = [(0.0, 0.0), *CURVE.points]
    (low, at_low), (high, at_high) = next(pair for pair in pairwise(points) if weight <= pair[1][0])
    assert moment_kgm(CURVE, weight) == pytest.approx(at_low + (at_high - at_low) * (weight - low) / (high - low), abs=1e-9)


@given(st.floats(0.0, 75.0), st.floats(0.0, 100.0), st.floats(0.0, 1.0))
def test_tanks_are_emptied_in_their_order(main: float, tail: float, share: float) -> None:
    left = burnt(TWO, (main, tail), ((main + tail) * share,))
    assert sum(left) == pytest.approx((main + tail) * (1 - share), abs=1e-9)
    assert left[0] == pytest.approx(main) or left[1] == pytest.approx(0.0, abs=1e-9)


def test_what_the_tanks_do_not_hold_is_seen() -> None:
    over = Loading(0, 0, PRINTED.stations, (10.0, 5.0), (0.0,), (16.0,))
    assert check(TWO, over, "left", "fuel").value == pytest.approx(-1.0)
    assert check(TWO, over, "left", "fuel").verdict == "beyond"


def test_tanks_filled_against_their_order_are_seen() -> None:
    """The tail is emptied first, so it is filled last: nothing is in it while the main tank is not full."""
    assert check(TWO, PRINTED._replace(fuel_m3=(75.0, 10.0)), "order", "").verdict == "within"
    assert check(TWO, PRINTED._replace(fuel_m3=(70.0, 10.0)), "order", "").verdict == "beyond"


SLOPED = LIMITS._replace(
    forward=Limit(((2200.0, 76.0), (2800.0, 77.5), (3400.0, 84.0)), False), aft=Limit(((2200.0, 99.0 * 2200.0), (3400.0, 86.0 * 3400.0)), True)
)


@given(st.floats(0.0, 170.0), st.floats(0.0, 75.0), st.floats(0.0, 100.0), st.floats(0.0, 1.0), st.booleans())
def test_nothing_along_the_burn_is_nearer_than_what_is_found(load: float, main: float, tail: float, share: float, ordered: bool) -> None:
    """Against the same burn looked at in many small steps; without an order, against tanks emptied together."""
    straight = Tank("tail", 100.0, 1.0, ((100.0, 100.0 * 120.0),))
    plan = TWO._replace(limits=(SLOPED,)) if ordered else TWO._replace(limits=(SLOPED,), order=(), tanks=(FUEL, straight))
    amounts = ((main + tail) * share,) if ordered else (main * share, tail * share)
    loading = Loading(0, 0, ((170.0, 0.0), (load, 0.0), (0.0,)), (main, tail), (0.0,) * len(amounts), amounts)
    for kind in ("forward", "aft"):
        found = check(plan, loading, kind, BURN)
        for step in range(60):
            part = loading._replace(trip_m3=tuple(amount * step / 59 for amount in amounts))
            one = check(plan, part, kind, LANDING)
            assert found.inside is not None
            assert one.inside is not None
            assert found.inside <= one.inside + 1e-9


# --- loadings to compare with ---------------------------------------------------------------------------------------

CHECKED = TWO._replace(
    states=(TWO.states[0], TWO.states[0]._replace(name="other", seats=(2, 1, 0))), limits=(SLOPED, LIMITS), groups=(Group("baggage 1", (2,)),)
)


def test_the_same_start_gives_the_same_loadings() -> None:
    assert list(sampled(CHECKED, 40, 7)) == list(sampled(CHECKED, 40, 7))
    assert list(sampled(CHECKED, 40, 7)) != list(sampled(CHECKED, 40, 8))


def test_every_state_comes_up_and_limits_are_met_and_passed() -> None:
    loadings = list(sampled(CHECKED, 400, 7))
    assert {loading.state for loading in loadings} == {0, 1}
    met = passed = 0
    for loading in loadings:
        for one in outcome(CHECKED, loading).checks:
            if one.kind in MOVED and one.limit and one.inside is not None:
                scale = CHECKED.span_m if one.kind in ("forward", "aft") else one.limit
                met += abs(one.inside) <= 1e-11 * scale
                passed += abs(one.inside + BEYOND * scale) <= 1e-11 * scale
    assert met >= 50
    assert passed >= 50


def test_where_nothing_may_be_a_little_is_too_much() -> None:
    """Half a pound on a closed or absent station, or beside what it stands in for; and half a gallon in a tank that is filled last."""
    little = PRINTED._replace(stations=((170.0, 170.0), (0.5, 0.0), (0.5,)))
    closed = FOUR_SEATS._replace(limits=(LIMITS._replace(empty=(1,)),))
    absent = FOUR_SEATS._replace(states=(FOUR_SEATS.states[0]._replace(absent=(2,)),))
    instead = FOUR_SEATS._replace(stations=(*SEATS[:2], SEATS[2]._replace(instead_of=(1,))))
    for plan, kind, of in ((closed, "empty", "rear seats"), (absent, "empty", "baggage 1"), (instead, "instead", "baggage 1")):
        found = check(plan, little, kind, of)
        assert (found.value, found.limit, found.inside, found.verdict) == (0.5, 0.0, -0.5, "beyond")
    found = check(TWO, PRINTED._replace(fuel_m3=(74.5, 0.5)), "order", "")
    assert (found.value, found.limit, found.verdict) == (0.5, 0.0, "beyond")


def test_a_check_tells_value_limit_and_what_is_left() -> None:
    """3320 lb of 3400, two of two seats, 75 of 75 gal, 80 of 100 lb, by hand."""
    for kind, of, expected in (
        ("weight", TAKEOFF, (3320.0, 3400.0, 80.0)),
        ("seats", "front seats", (2.0, 2.0, 0.0)),
        ("tank", "fuel", (75.0, 75.0, 0.0)),
        ("left", "fuel", (75.0, 0.0, 75.0)),
        ("group", "baggage 1", (80.0, 100.0, 20.0)),
        ("pilot", "front seats", (170.0, 0.0, 170.0)),
    ):
        found = check(FOUR_SEATS, PRINTED, kind, of)
        assert (found.value, found.limit, found.inside, found.verdict) == (*expected, "within")
    unknown = check(FOUR_SEATS, PRINTED, "weight", "ramp")
    assert unknown[2:] == (3320.0, None, None, None, "not given")


def test_more_than_a_tank_holds_is_seen() -> None:
    found = check(FOUR_SEATS, PRINTED._replace(fuel_m3=(76.0,)), "tank", "fuel")
    assert (found.value, found.limit, found.inside, found.verdict) == (76.0, 75.0, -1.0, "beyond")


def test_the_nearest_may_lie_between_two_points_of_the_burn() -> None:
    """Fuel at 10 in: the arm is 10 + 75000 / W, the forward limit 170 - 0.1 W; their distance is least, 2 sqrt(7500) - 160, at sqrt(750000), by hand."""
    plan = FOUR_SEATS._replace(
        tanks=(Tank("fuel", 500.0, 1.0, ((500.0, 5000.0),)),),
        states=(State("empty", 500.0, 80000.0, (0,), (2, 2, 0), (100.0,), ()),),
        limits=(LIMITS._replace(forward=Limit(((400.0, 130.0), (1100.0, 60.0)), in_moment=False)),),
    )
    found = check(plan, Loading(0, 0, ((0.0, 0.0), (0.0, 0.0), (0.0,)), (500.0,), (0.0,), (500.0,)), "forward", BURN)
    assert found.weight_kg == pytest.approx(750000**0.5)
    assert found.inside == pytest.approx(2 * 7500**0.5 - 160)


def test_amounts_have_five_decimals_and_a_limit_is_passed_by_far_more_than_counts_as_on_it() -> None:
    assert [_rounded(amount) for amount in (12.3456749, 12.345675, 0.0)] == [12.34567, 12.34568, 0.0]
    assert CHECKED.at_limit * 100 < BEYOND < 1e-4


def test_what_is_sought_is_found_or_given_up() -> None:
    assert _zero(lambda amount: amount - 3.0, 5.0) == pytest.approx(3.0)
    assert _zero(lambda amount: amount**2 - 0.25, 1.0) == pytest.approx(0.5)
    assert _zero(lambda amount: amount + 3.0, 5.0) is None  # only a negative amount would do
    assert _zero(lambda amount: 1.0, 5.0) is None
    assert _zero(lambda amount: None, 5.0) is None


def test_each_limit_is_met_by_amounts_that_move_it() -> None:
    """One person in front, 100 lb of baggage and both tanks: kind by kind what is there to move, what a unit of it weighs and where it lies."""
    loading = Loading(0, 0, ((170.0, 0.0), (0.0, 0.0), (100.0,)), (50.0, 20.0), (0.0,), (10.0,))
    person, baggage, main, tail = (170.0, 1.0, 85.0), (100.0, 1.0, 150.0), (50.0, 6.0, 75.0), (20.0, 1.0, 120.0)

    def found(kind: str, of: str) -> list[tuple[float, float, float]]:
        return [setting[:3] for setting in _settings(TWO, loading, check(TWO, loading, kind, of))]

    assert found("pilot", "front seats") == [person]
    assert found("group", "baggage 1") == [baggage]
    assert found("tank", "fuel") == [(50.0, 1.0, 75.0)]
    assert found("tank", "tail") == [tail]
    assert found("weight", TAKEOFF) == found("aft", TAKEOFF) == [person, baggage, main, tail]
    assert found("forward", BURN) == [person, baggage]
    moved = _settings(TWO, loading, check(TWO, loading, "aft", TAKEOFF))
    assert moved[1].put(90.0).stations == ((170.0, 0.0), (0.0, 0.0), (90.0,))
    assert moved[2].put(40.0).fuel_m3 == (40.0, 20.0)


def test_a_station_that_stands_in_for_others_leaves_them_alone_while_it_is_empty() -> None:
    instead = FOUR_SEATS._replace(stations=(*SEATS[:2], SEATS[2]._replace(instead_of=(1,))))
    found = check(instead, PRINTED._replace(stations=((170.0, 170.0), (175.0, 175.0), (0.0,))), "instead", "baggage 1")
    assert (found.value, found.limit, found.verdict) == (0.0, 0.0, "within")


def test_limits_of_the_centre_of_gravity_are_passed_too() -> None:
    passed = set()
    for loading in sampled(CHECKED, 300, 7):
        for one in outcome(CHECKED, loading).checks:
            if one.inside is not None and abs(one.inside + BEYOND * CHECKED.span_m) <= 1e-11 * CHECKED.span_m:
                passed.add(one.kind)
    assert {"forward", "aft"} <= passed


def test_loadings_fall_as_they_may_at_the_bench() -> None:
    """Tanks at most a fiftieth over, seats empty or taken, mostly a pilot of the least weight or more, mostly filled in order, and little taxied."""
    plan = TWO._replace(stations=(SEATS[0]._replace(least_kg=120.0), *SEATS[1:]))
    pilots = ordered = empty = 0
    for start in range(200):
        loading = _anywhere(plan, random.Random(start), 0, 0)
        assert all(0 <= fuel <= 1.02 * tank.usable_m3 + 1e-5 for fuel, tank in zip(loading.fuel_m3, plan.tanks, strict=True))
        seated = [person for persons in loading.stations[:2] for person in persons]
        assert len(seated) == 4
        assert 1.0 not in seated  # an empty seat holds nothing at all
        assert 0 <= loading.taxi_m3[0] <= 0.03 * sum(loading.fuel_m3) + 1e-5
        assert 0 <= loading.trip_m3[0] <= 1.03 * sum(loading.fuel_m3) + 1e-5
        empty += 0.0 in seated
        pilots += loading.stations[0][0] >= 120.0
        ordered += check(plan, loading, "order", "").verdict == "within"
    assert empty > 50
    assert pilots > 150
    assert ordered > 120
