"""Limits told as shares of the mean aerodynamic chord are the limits that the maker means."""

from __future__ import annotations

from decimal import Decimal

import pytest

from liftout.assessment import assess
from liftout.facts import Fact, gather
from liftout.facts.chord import Chord
from liftout.facts.fact import CHOSEN, Missing
from liftout.findings import Verdict
from liftout.job import JobError
from liftout.quantities import read
from tests.job.demonstration import changed, demonstration, demonstration_assessed

CORNERS = "aircraft / limits / aft"


def told(text: str, dimension: str = "length") -> Fact:  # type: ignore[type-arg]
    return Fact(read(text, dimension), "job.yaml:1", CHOSEN)


def test_the_published_share_gives_the_published_arm() -> None:
    """32.5 % of a chord of 180 in behind 900 in: 958.5 in (FAA-H-8083-30, p. 4-31; from memory)."""
    arm = Chord(told("900 in"), told("180 in")).arm_of(told("32.5 %", "number"))
    assert isinstance(arm, Fact)
    assert arm.value.to("in") == Decimal("958.5")


def _shares() -> str:
    """The demonstration's aft limit, each corner as a share of the chord."""
    plane = gather(demonstration()).aircraft
    edge, length = plane.chord.leading_edge.value, plane.chord.length.value  # type: ignore[union-attr]
    corners = [(corner.weight.value, (corner.arm.value.si - edge.si) / length.si) for corner in plane.limits.aft]  # type: ignore[union-attr]
    return ", ".join(f"{{weight: {weight}, of chord: {share * 100:.9f} %, document: {{number: D-1}}}}" for weight, share in corners)


def test_the_same_limit_told_either_way_gives_the_same_findings() -> None:
    found = assess(changed({CORNERS: f"[{_shares()}]"}))
    before = {one.key: one.verdict for one in demonstration_assessed().findings}
    assert {one.key: one.verdict for one in found.findings} == before


def test_without_the_chord_the_limit_is_not_known() -> None:
    found = assess(changed({CORNERS: f"[{_shares()}]", "aircraft / chord": None}))
    aft = [one for one in found.findings if one.criterion == "balance.centre_of_gravity" and one.subject == "aft limit"]
    assert aft
    assert {one.verdict for one in aft} == {Verdict.NOT_ASSESSED}
    assert isinstance(Chord(Missing("read the data sheet", "aircraft / chord"), told("180 in")).arm_of(told("25 %", "number")), Missing)


@pytest.mark.parametrize("corner", ["{weight: 3300 lb}", "{weight: 3300 lb, arm: 47 in, of chord: 30 %}"])
def test_a_corner_is_told_in_one_way(corner: str) -> None:
    with pytest.raises(JobError) as caught:
        changed({CORNERS: f"[{corner}]"})
    assert "of chord: 25 %" in str(caught.value)
