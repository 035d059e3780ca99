"""The minimum fuel lies in the tank in which it does most; which one that is may hang on the tolerance of any tank's arm."""

from __future__ import annotations

import pytest

from liftout.assessment import assess
from liftout.findings import Verdict
from tests.criteria.bench import case_files


@pytest.mark.parametrize(
    ("arm", "verdict"), [("{value: 47.95 in, tolerance: 0.3 in}", Verdict.REFER), ("{value: 47.95 in, tolerance: 0.1 in}", Verdict.CONFORMS)]
)
def test_a_tank_that_may_lie_rearmost_within_its_tolerance_counts(arm: str, verdict: Verdict) -> None:
    # The box at 184.6 in and 100 lb of fuel at 48 in: (54920 + 100 x 94.6) / 1370 = 64380 / 1370 = 46.9927 in, 10 lb-in inside the limit of 47 in.
    # In the tip tank at 47.95 + 0.3 = 48.25 in the fuel has 25 lb-in more, outside; at 47.95 + 0.1 = 48.05 in 5 lb-in, still inside.
    file = next(file for file in case_files() if file.criterion == "balance.centre_of_gravity")
    tip = f"{{arm: {arm}, datum: firewall, usable: 50 US gal, density: 6 lb/US gal}}"
    found = assess(file.job({"equipment / box / position / arm": "184.6 in", "aircraft / tanks / tip": tip}), remedies=False).findings
    finding = next(one for one in found if (one.criterion, one.subject, one.state) == ("balance.centre_of_gravity", "aft limit", "provisions only"))
    assert finding.verdict is verdict, finding.sentence
