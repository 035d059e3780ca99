"""Facts worked from others keep how far they go with each of these that is told with a tolerance: by how much the worked value moves."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

import pytest

from liftout.facts import gather
from liftout.facts.aircraft import Tank
from liftout.facts.chord import Chord
from liftout.facts.fact import Fact, Missing, off, shifted
from liftout.facts.loads import full_tank
from liftout.facts.restraint import _from
from liftout.facts.structure import _moved
from liftout.quantities import Quantity, of
from tests.facts.test_lines import LINE, ROUTE, TUBE, _facts
from tests.job.demonstration import changed

Told = Fact[Quantity]


def fact(text: str, within: str, line: int) -> Told:
    number, _, unit = text.partition(" ")
    return Fact(of(number, unit), f"a.yaml:{line}", "measured by A", ("a", str(line)), of(within.split(" ", maxsplit=1)[0], unit))


WORKED: dict[str, tuple[Callable[[Sequence[Told]], object], tuple[tuple[str, str], ...]]] = {
    "arm from another datum": (lambda told: shifted(told[0], told[1], "firewall"), (("12.5 in", "0.1 in"), ("40 in", "0.25 in"))),
    "share of the chord": (lambda told: Chord(told[1], told[2]).arm_of(told[0]), (("0.25", "0.01"), ("80 in", "0.5 in"), ("60 in", "0.25 in"))),
    "point beside the centre of gravity": (lambda told: _from(told[0], told[1]), (("90 in", "0.5 in"), ("-4 in", "0.1 in"))),
    "fastener of a pattern": (lambda told: _moved(told[0], told[1], Decimal("1.5")), (("90 in", "0.5 in"), ("0.75 in", "0.02 in"))),
}
"""What is worked from facts, and these with their tolerances; all of it is linear, so the move is the same either way."""


@pytest.mark.parametrize("name", sorted(WORKED))
def test_the_worked_value_goes_as_far_as_it_moves(name: str) -> None:
    work, texts = WORKED[name]
    told = [fact(*text, line) for line, text in enumerate(texts, 1)]
    worked = work(told)
    assert isinstance(worked, Fact)
    assert worked.tolerance is None
    assert [one.where for one, _ in worked.loose] == [one.where for one in told]
    for number, (one, goes) in enumerate(worked.loose):
        assert one.tolerance is not None
        for way, by in zip((1, -1), goes, strict=True):
            there = [*told]
            there[number] = replace(one, value=Quantity(one.value.magnitude + way * one.tolerance.magnitude, one.value.unit))
            moved = work(there)
            assert isinstance(moved, Fact)
            assert moved.value.si - worked.value.si == pytest.approx(by, rel=Decimal("1e-9"))


def test_a_bore_goes_with_its_outside_once_and_with_its_wall_twice() -> None:
    lines = {key: f"{{value: {text}, tolerance: 0.004 in}}" for key, text in TUBE.items() if text is not None and "in" in text.split()[-1:]}
    bore = _facts({**TUBE, **lines}).lines[0].segment.inside_diameter
    assert isinstance(bore, Fact)
    inch = Decimal("0.0254")
    assert [larger / inch for _, (larger, _) in bore.loose] == [Decimal("0.004"), Decimal("-0.008")]


def test_a_datum_told_loosely_moves_two_arms_alike_and_no_distance_between_them() -> None:
    datum = fact("40 in", "0.25 in", 9)
    near, far = (shifted(replace(fact(text, "0.1 in", line), tolerance=None), datum, "firewall") for line, text in ((1, "10 in"), (2, "30 in")))
    assert isinstance(near, Fact)
    assert isinstance(far, Fact)
    assert [goes for _, goes in off((far, 1), (near, -1))] == [(0, 0)]


def test_a_full_tank_goes_with_its_volume_and_its_density() -> None:
    """20 gal at 6 lb/gal: half a gallon is 3 lb, and 0.05 lb/gal is 1 lb."""
    unsaid = Missing("not needed here", "nowhere")
    weight = full_tank(Tank("main", unsaid, fact("20 US gal", "0.5 US gal", 1), fact("6 lb/US gal", "0.05 lb/US gal", 2), unsaid, ()))
    assert isinstance(weight, Fact)
    pound = Decimal("0.45359237")
    assert [larger / pound for _, (larger, _) in weight.loose] == pytest.approx([Decimal(3), Decimal(1)], rel=Decimal("1e-9"))


def test_the_middle_of_a_route_goes_with_its_points_and_its_datum() -> None:
    """Of a straight line of 4 m the middle goes half as far as an end that is moved along it, and as far as the datum."""
    points = "[{arm: 1 m, lateral: 0 m, height: 0 m}, {arm: {value: 5 m, tolerance: 0.02 m}, lateral: 0 m, height: 0 m}]"
    middle = _facts({**ROUTE, f"{LINE} / route": f"{{datum: firewall, points: {points}}}"}).lines[0].segment.route.middle
    assert isinstance(middle, Fact)
    ((_, goes),) = middle.loose
    assert goes == pytest.approx((Decimal("0.01"), Decimal("-0.01")), rel=Decimal("1e-9"))


def test_the_middle_of_a_bent_route_goes_farther_one_way_than_the_other() -> None:
    """From 0 m by a corner 3 m aside at 2 m to 8 m, the corner within 2 m: its middle lies at 3.60 m, and at 4.00 m or 2.96 m at the ends."""
    points = "[{arm: 0 m, lateral: 0 m, height: 0 m}, {arm: {value: 2 m, tolerance: 2 m}, lateral: 3 m, height: 0 m}, {arm: 8 m, lateral: 0 m, height: 0 m}]"
    middle = _facts({**ROUTE, f"{LINE} / route": f"{{datum: firewall, points: {points}}}"}).lines[0].segment.route.middle
    assert isinstance(middle, Fact)
    ((_, goes),) = middle.loose
    first, second, far = math.sqrt(13), math.sqrt(45), math.sqrt(73)
    held = (first * 1 + second * 5) / (first + second)
    assert tuple(map(float, goes)) == pytest.approx((4 - held, far * 4 / (3 + far) - held), rel=1e-9)


def test_a_moment_told_by_its_index_is_off_by_the_factor() -> None:
    """1/1000 of the moment, known within 0.5: the moment is known within 500 lb·in."""
    record = "aircraft / weight record / 2"
    sheet = changed(
        {
            f"{record} / moment": None,
            f"{record} / index": "{value: 76.49 lb-in, tolerance: 0.5 lb-in}",
            f"{record} / reduction factor": "1000",
        }
    )
    moment = gather(sheet).aircraft.undercarriages[0].record.moment
    assert isinstance(moment, Fact)
    assert [larger / of("1", "lb-in").si for _, (larger, _) in moment.loose] == [Decimal(500)]
