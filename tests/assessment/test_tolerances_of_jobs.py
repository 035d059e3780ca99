"""A tolerance told in a job never makes a verdict better, and nothing conforms past one that it does not carry."""

from __future__ import annotations

import pytest

from liftout.assessment import RANK, applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.job import validated
from liftout.job.reader import compose
from tests.assessment.monotonicity import before
from tests.assessment.other_units import quantities

CRITERIA = {criterion.id: criterion for criterion in all_criteria()}
JOB = "halden_4_cooler"


def within(path: str, tolerance: str, *criteria: str) -> dict[str, Finding]:
    """The findings of some criteria where one value of the demonstration job is told with a tolerance."""
    job, _ = quantities(JOB)
    place = tuple(path.split(" / "))
    held = job.said.at(place)
    if isinstance(held.value, dict):
        said = job.said.changed((*place, "tolerance"), tolerance)
    else:
        told = compose(f"said: {{value: {held.value}, tolerance: {tolerance}}}", held.file).at(("said",))
        said = job.said.changed(place, told)
    facts = gather(validated(said, job.file))
    return {finding.key: finding for name in criteria for finding in applied(CRITERIA[name], facts)}


@pytest.mark.parametrize(
    ("path", "tolerance", "criterion"),
    [
        ("restraint / cabin unit / straps / S4 / anchored / arm", "2 in", "structure.strap_restraint"),
        ("wiring / runs / W1 / ambient", "5 Δ°C", "electrical.conductor_temperature"),
        ("equipment / cabin unit / mass dry", "3 lb", "structure.floor_load"),
        ("aircraft / limits / aft / 1 / arm", "0.5 in", "balance.adverse_loading"),
        ("aircraft / stations / baggage / maximum", "1 lb", "balance.named_loading"),
        ("wiring / runs / W2 / length", "2 ft", "electrical.voltage_drop"),
    ],
)
def test_a_tolerance_improves_nothing_and_is_seen(path: str, tolerance: str, criterion: str) -> None:
    old, new = before(JOB), within(path, tolerance, criterion)
    assert new
    assert [key for key, finding in new.items() if RANK[finding.verdict] < RANK[old[key].verdict]] == []
    seen = [key for key, finding in new.items() if finding.tolerance != old[key].tolerance or finding.verdict is not old[key].verdict]
    assert seen


def test_a_loading_on_the_limit_of_its_compartment_is_no_loading_within_it_where_that_limit_is_known_no_closer() -> None:
    """120 lb in a compartment of 120 lb, known within a pound: the nearest limit is not that of the centre of gravity."""
    found = [finding for key, finding in within("aircraft / stations / baggage / maximum", "1 lb", "balance.named_loading").items() if finding.case]
    assert found
    assert all(finding.verdict is Verdict.REFER and finding.without_tolerance for finding in found)


def test_a_search_that_carries_no_tolerance_asks() -> None:
    path = "restraint / cabin unit / straps / S4 / anchored / arm"
    found = [f for f in within(path, "2 in", "structure.strap_restraint").values() if f.subject.startswith("cabin unit")]
    asked = [finding for finding in found if finding.referral is not None and "carries no tolerance" in finding.referral.question]
    assert asked
    assert all("within 2 in" in finding.referral.facts for finding in asked if finding.referral is not None)
