"""The coupling multiplier steps at the best height: a tolerance of the height that reaches below it counts."""

from __future__ import annotations

import pytest

from liftout.assessment import assess
from liftout.findings import Verdict
from tests.criteria.bench import case_files


@pytest.mark.parametrize("end", ["start", "end"])
@pytest.mark.parametrize(
    ("height", "mass", "verdict"),
    [
        ("{value: 30 in, tolerance: 0.1 in}", "24.5 lb", Verdict.REFER),
        ("{value: 30 in, tolerance: 0.1 in}", "24.1 lb", Verdict.CONFORMS),
        ("{value: 30.2 in, tolerance: 0.1 in}", "24.5 lb", Verdict.CONFORMS),
    ],
)
def test_a_grip_that_may_lie_below_the_best_height_counts_as_there(end: str, height: str, mass: str, verdict: Verdict) -> None:
    # With a fair grip at 30 in: 51 x 10/20 x 1 x 1 = 25.5 lb. At 29.9 in the grip gives 0.95 and the height 1 - 0.0075 x 0.1 = 0.99925:
    # 25.5 x 0.95 x 0.99925 = 24.207 lb. At 30.1 in the grip still gives 1: 25.5 x 0.99925 = 25.481 lb.
    file = next(file for file in case_files() if file.criterion == "removability.lifting")
    given = {"removal / unit / lift / grip": "fair", f"removal / unit / lift / {end} / height": height, "equipment / unit / mass dry": mass}
    [finding] = [one for one in assess(file.job(given), remedies=False).findings if one.criterion == "removability.lifting"]
    assert finding.verdict is verdict, finding.sentence
