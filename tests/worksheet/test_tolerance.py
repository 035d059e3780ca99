"""Tolerances of what was measured, carried through every sheet to the margin."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.facts import Fact
from liftout.findings import Finding, Verdict
from liftout.job.errors import JobError
from liftout.quantities import Quantity, of
from liftout.worksheet import Worksheet
from tests.job.demonstration import changed

MASS = Fact(of("10", "lb"), "job.yaml:1", "measured by A", ("a",), of("0.1", "lb"))
ARM = Fact(of("100", "in"), "job.yaml:2", "measured by A", ("b",), of("0.5", "in"))
BASE = Fact(of("1000", "lb"), "job.yaml:3", "measured by A", ("c",))
LIMIT = Fact(of("0.99", "in"), "job.yaml:4", "measured by A", ("d",))


def arm_of(mass: Fact[Quantity], arm: Fact[Quantity], limit: Fact[Quantity]) -> Finding:
    """The arm that a mass at an arm gives an aircraft of 1000 lb at nothing, through a sheet of its own."""
    first = Worksheet()
    first.column("w", [("item", mass)], "weight")
    first.column("x", [("item", arm)], "arm")
    first.work("M", "sum(w * x)", "moment", "lb-in")
    first.work("W", "sum(w)", "weight", "lb")
    sheet = Worksheet()
    sheet.given("M", first.result("M", "worked"), "moment")
    sheet.given("w", first.result("W", "worked"), "weight")
    sheet.given("W_0", BASE, "weight without it")
    sheet.work("x_cg", "M / (W_0 + w)", "arm", "in")
    return sheet.at_most("x_cg", limit, distance=True)


def test_what_conforms_only_without_its_tolerance_is_referred() -> None:
    """1000 lb-in over 1010 lb is 0.9901 in. 0.1 lb more gives 1010 / 1010.1, 0.0098 in; 0.5 in more 1005 / 1010, 0.0050 in."""
    found = arm_of(MASS, ARM, replace(LIMIT, value=of("1", "in")))
    assert (found.verdict, found.without_tolerance, found.tolerance) == (Verdict.REFER, True, "0.0148 in")
    assert found.referral is not None
    assert "0.0148 in" in found.referral.question
    assert "within 0.1 lb" in found.referral.facts


def test_a_margin_that_holds_the_tolerance_conforms_and_says_how_much_it_may_take() -> None:
    found = arm_of(MASS, ARM, replace(LIMIT, value=of("1.01", "in")))
    assert (found.verdict, found.without_tolerance, found.tolerance) == (Verdict.CONFORMS, False, "0.0148 in")


def test_what_does_not_conform_is_not_saved_by_a_tolerance() -> None:
    assert arm_of(MASS, ARM, replace(LIMIT, value=of("0.985", "in"))).verdict is Verdict.DOES_NOT_CONFORM


def test_a_value_used_twice_counts_once() -> None:
    """The same mass on both sides moves both: x - x stays nothing."""
    sheet = Worksheet()
    sheet.given("a", MASS, "weight")
    sheet.given("b", MASS, "the same weight")
    found = sheet.at_most("a", "b")
    assert (found.verdict, found.tolerance) == (Verdict.CONFORMS, "")


@given(st.integers(1, 40), st.integers(1, 40), st.integers(-40, 40), st.integers(-40, 40))
def test_moving_the_facts_within_their_tolerances_never_turns_what_conforms(mass: int, arm: int, by_mass: int, by_arm: int) -> None:
    """Optimism: where it conforms with its tolerances, it conforms wherever the true values lie within them."""
    told = replace(MASS, tolerance=of(Decimal(mass) / 100, "lb")), replace(ARM, tolerance=of(Decimal(arm) / 100, "in"))
    limit = replace(LIMIT, value=of("1", "in"))
    if arm_of(*told, limit).verdict is Verdict.CONFORMS:
        true_mass = of(10 + Decimal(mass * by_mass) / 4000, "lb")
        true_arm = of(100 + Decimal(arm * by_arm) / 4000, "in")
        moved = arm_of(replace(MASS, value=true_mass, tolerance=None), replace(ARM, value=true_arm, tolerance=None), limit)
        # The product of two small moves is left out of the sum of tolerances: it is smaller than what a scale or a tape can show.
        assert moved.verdict is Verdict.CONFORMS or (moved.margin is not None and moved.margin.quantity.magnitude > Decimal("-1e-4"))


@pytest.mark.parametrize(
    ("written", "says"), [("0.1 V", "measures voltage"), ("-0.1 lb", "leaves no room"), ("0 lb", "leaves no room"), ("little", "is not one number")]
)
def test_a_tolerance_is_written_as_its_value_is(written: str, says: str) -> None:
    with pytest.raises(JobError, match=f'tolerance "{written}" {says}'):
        changed({"equipment / lines and feeders / mass dry / tolerance": written})


@pytest.mark.parametrize("within", ["1 °C", "12 °C"])
def test_a_value_that_becomes_the_least_at_one_end_of_its_tolerance_counts_with_that_end(within: str) -> None:
    """Limits of 60 °C and of 71 °C within 12 °C: at the lower end the second is the least, 59 °C, and takes 1 °C of what is left."""
    number, unit = within.split()
    second = Fact(of("71", unit), "job.yaml:1", "measured by A", ("a",), of(number, "Δ°C"))
    first, sheet = Worksheet(), Worksheet()
    first.given("T_1", Fact(of("60", "°C"), "job.yaml:2", "measured by A", ("b",)), "limit of one thing")
    first.given("T_2", second, "limit of another")
    first.work("T_low", "min(T_1, T_2)", "least of both", "°C")
    sheet.given("T_low", first.result("T_low", "worked"), "least of both")
    sheet.given("T", Fact(of("59.5", "°C"), "job.yaml:3", "measured by A", ("c",)), "temperature")
    finding = sheet.at_most("T", "T_low", distance=True)
    conforms = within == "1 °C"
    assert finding.verdict is (Verdict.CONFORMS if conforms else Verdict.REFER)
    assert finding.tolerance == ("" if conforms else "1.00 Δ°C")


def way_round(corner: Fact[Quantity]) -> Worksheet:
    """A wire from 0 m by a corner 3 m aside to 8 m: its length s, straight from point to point, from a sheet of its own."""
    first, sheet = Worksheet(), Worksheet()
    first.given("x", corner, "corner, fore and aft")
    first.given("y", Fact(of("3", "m"), "job.yaml:2", "measured by A", ("b",)), "corner, left or right")
    first.given("e", Fact(of("8", "m"), "job.yaml:3", "measured by A", ("c",)), "end")
    first.work("s", "sqrt(x**2 + y**2) + sqrt((e - x)**2 + y**2)", "way round", "m")
    sheet.given("s", first.result("s", "worked"), "way round")
    return sheet


def against(corner: Fact[Quantity], measured: Decimal) -> Finding:
    return way_round(corner).at_most("s", Fact(of(f"{measured:.3f}", "m"), "job.yaml:4", "measured by A", ("d",)))


@pytest.mark.parametrize(("at", "within"), [("7", "3"), ("1", "3"), ("4", "4")])
def test_a_length_counts_with_the_end_at_which_it_is_longer(at: str, within: str) -> None:
    """At 4 m it is the shortest, 10 m. From 7 m it grows by 3.27 m to one end of 3 m, and falls by 0.78 m to the other."""
    told = Fact(of(at, "m"), "job.yaml:1", "measured by A", ("a",), of(within, "m"))
    ends = [replace(told, value=of(str(int(at) + by * int(within)), "m"), tolerance=None) for by in (-1, 0, 1)]
    longest = max(found.value.si for end in ends if (found := against(end, Decimal(20))).value is not None)
    assert against(told, longest + Decimal("0.001")).verdict is Verdict.CONFORMS
    refused = against(told, longest - Decimal("0.001"))
    assert (refused.verdict, refused.without_tolerance) == (Verdict.REFER, True)


def test_what_grows_at_both_ends_is_not_set_off_against_what_goes_one_way() -> None:
    """The way round grows from 10 m to 11.54 m at either end of 4 m. A wire that is longer by the same corner's place is not long enough at the lower."""
    corner = Fact(of("4", "m"), "job.yaml:1", "measured by A", ("a",), of("4", "m"))
    sheet = way_round(corner)
    sheet.given("x", corner, "corner, fore and aft")
    sheet.given("b", Fact(of("7", "m"), "job.yaml:4", "measured by A", ("d",)), "of the wire without it")
    sheet.work("L", "b + x", "wire", "m")
    finding = sheet.at_least("L", "s")
    assert (finding.verdict, finding.without_tolerance) == (Verdict.REFER, True)
    assert finding.tolerance == "5.54 m"
