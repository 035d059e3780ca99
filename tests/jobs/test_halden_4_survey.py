"""A camera pallet and an oxygen rack in a Halden 4: the tool is not for coolers only."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from liftout.assessment import Assessment, assess
from liftout.findings import Verdict
from liftout.job import load

JOB = Path(__file__).parents[2] / "jobs" / "halden_4_survey" / "job.yaml"
UNREAD = "rests on a figure that was not read in its source"

OPEN = {
    # The half hour that a battery must last is written from memory.
    "electrical.battery_endurance | battery, everything out": f"The limit for the time that the battery lasts, everything out {UNREAD}",
    "electrical.battery_endurance | battery, everything in": f"The limit for the time that the battery lasts, everything in {UNREAD}",
    # Distances of fasteners by common practice, without a source.
    "structure.edge_distance | rack tray, tray flange": f"The limit for the least edge distance {UNREAD}",
    "structure.edge_distance | feeder and clamps, tie mount": f"The limit for the least edge distance {UNREAD}",
    "structure.fastener_spacing | rack tray, tray flange": f"The limit for the distance of the two nearest fasteners, from middle to middle {UNREAD}",
    # Where the oxygen vents is told in words.
    "fluids.relief_path | oxygen rack": "lead where they harm nobody: burst disc of each valve, by a tube to the outside below the baggage floor?",
    # Four straps hold it, and none of them can be missing.
    "structure.one_strap_missing | camera pallet": "May the camera pallet be flown though it is not held",
}
"""Key of each open finding, with words of its question."""


@cache
def assessed() -> Assessment:
    """The findings of the job."""
    return assess(load(JOB))


def test_nothing_fails_and_nothing_is_left_unassessed() -> None:
    """How many conform is the tool's own count: a regression, which says when a criterion falls silent; what is open is told by hand."""
    assert assessed().counts == {"conforms": 431, "does not conform": 0, "refer": 7, "not assessed": 0, "not applicable": 60}


def test_exactly_these_findings_are_open() -> None:
    assert {finding.key for finding in assessed().open} == set(OPEN)


@pytest.mark.parametrize("key", OPEN)
def test_each_open_finding_asks_its_question_of_somebody(key: str) -> None:
    finding = next(finding for finding in assessed().open if finding.key == key)
    assert finding.verdict is Verdict.REFER
    assert finding.referral is not None
    assert OPEN[key] in finding.referral.question
    assert finding.referral.who
    assert finding.referral.closes


NOT_THERE = {
    "neither camera nor oxygen rack has a liquid line",
    "neither camera nor oxygen rack passes heat to air that a fan moves",
    "nothing in it is cooled by a refrigerant",
    "it holds no battery",
    "nothing in it is used up",
}


def test_no_finding_asks_for_a_liquid() -> None:
    """Neither a loop nor water, nor warm air: what is said of them is that they do not apply."""
    of_fluids = [finding for finding in assessed().findings if finding.criterion.startswith("fluids.")]
    assert {finding.verdict for finding in of_fluids if finding.key not in OPEN} == {Verdict.CONFORMS, Verdict.NOT_APPLICABLE}
    assert {finding.reason for finding in of_fluids if finding.verdict is Verdict.NOT_APPLICABLE} == NOT_THERE
    water = [finding for finding in of_fluids if "condensate" in finding.criterion or finding.criterion == "fluids.cabin_pressure_drain"]
    assert water
    assert all(finding.reason.startswith("it makes no water") for finding in water)


def test_oxygen_that_is_used_up_moves_the_centre_of_gravity() -> None:
    """By hand: 3.1 lb at 98.0 in out of an empty weight of some 2000 lb with its arm near 38 in: −3.1 x (98 − x) / (W − 3.1), about −0.09 in."""
    finding = next(finding for finding in assessed().findings if finding.key == "fluids.relief_path | oxygen rack")
    assert finding.verdict is Verdict.REFER
    told = {step.symbol: step.quantity for step in finding.steps}
    weight, arm, change = told["W"], told["x_cg"], told["dx"]
    assert weight is not None
    assert arm is not None
    assert change is not None
    by_hand = -3.1 * (98.0 - float(arm.to("in"))) / (float(weight.to("lb")) - 3.1)
    assert float(change.to("in")) == pytest.approx(by_hand, rel=1e-6)
    assert -0.12 < by_hand < -0.06


def test_no_state_is_filled() -> None:
    assert [state.name for state in assessed().facts.states] == [
        "before any change",
        "provisions only",
        "only camera pallet in",
        "only oxygen rack in",
        "in",
    ]


def test_the_rack_without_electricity_has_no_circuit_and_the_camera_has_one() -> None:
    runs = {finding.subject: finding.verdict for finding in assessed().findings if finding.criterion == "completeness.runs"}
    assert runs["oxygen rack"] is Verdict.NOT_APPLICABLE
    assert runs["camera pallet"] is Verdict.CONFORMS


def test_straps_and_stops_hold_the_two_items_and_screws_hold_the_tray() -> None:
    paths = {finding.subject: finding.reason for finding in assessed().findings if finding.criterion == "structure.load_path"}
    assert paths["camera pallet, forward"] == "P1, floor fitting; P2, floor fitting"
    assert paths["oxygen rack, forward"] == "a stop at the base"
    screwed = {bracket.name for bracket in assessed().facts.brackets}
    assert screwed == {"rack tray, tray flange", "feeder and clamps, tie mount"}
