"""Points of a pump's or a fan's curve are read by a search: a tolerance of one is tried at both ends."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from liftout.assessment import assess
from liftout.findings import Finding, Verdict
from tests.criteria.bench import CaseFile

BENCHES = Path(__file__).parents[1] / "criteria" / "fluids"


def found(criterion: str, subject: str, given: dict[str, str | None]) -> Finding:
    """The finding of a bench, with what tolerances take of it."""
    bench = BENCHES / f"{criterion}.yaml"
    said: dict[str, Any] = yaml.load(bench.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    findings = assess(CaseFile(bench, said).job(given), remedies=False).findings
    return next(finding for finding in findings if (finding.criterion, finding.subject) == (f"fluids.{criterion}", subject))


def test_a_point_of_the_pump_curve_is_tried_at_both_ends() -> None:
    """The line takes 5 / 1.92636 = 2.59557 kPa for each L/min, and the pump gives 5 kPa less 5 / 9 kPa for each, on the way to nothing at 9 L/min.

    5 / (2.59557 + 5 / 9) = 1.587 L/min. Where the curve ends at 6 L/min: 5 / (2.59557 + 5 / 6) = 1.458 L/min, less than the 1.5 L/min asked for.
    """
    curve = "lines / loops / loop / pump / curve / 2"
    given: dict[str, str | None] = {f"{curve} / pressure": "0 kPa", f"{curve} / flow": "0.15 L/s"}
    assert found("coolant_flow", "loop, at work", given).value_text == "1.587 L/min"
    assert found("coolant_flow", "loop, at work", given).verdict is Verdict.CONFORMS
    loose = found("coolant_flow", "loop, at work", {**given, f"{curve} / flow": '{value: 0.15 L/s, tolerance: "0.05 L/s"}'})
    assert (loose.verdict, loose.without_tolerance) == (Verdict.REFER, True)
    assert loose.referral is not None
    assert "1.458 L/min against at least 1.500 L/min" in loose.referral.question


def test_a_point_of_the_fan_curve_is_tried_at_both_ends() -> None:
    """With x for the flow over 100 L/s: 1000 (1 - x) = 100 x² gives x = √35 - 5 = 0.91608.

    0.5 x 0.091608 x 1.145493 kg/s x 1005 x 25 K = 1318 W against 780 W. Where the curve ends at 50 L/s: x = √110 - 10 = 0.48809, 702.4 W.
    """
    curve = "air / paths / tail air / fan / curve"
    given: dict[str, str | None] = {f"{curve} / 1 / flow": "0 L/s"}
    assert found("heat_rejection", "tail air, on the ground", given).value_text == "1318 W"
    assert found("heat_rejection", "tail air, on the ground", given).verdict is Verdict.CONFORMS
    loose = found("heat_rejection", "tail air, on the ground", {**given, f"{curve} / 2 / flow": '{value: 100 L/s, tolerance: "50 L/s"}'})
    assert (loose.verdict, loose.without_tolerance) == (Verdict.REFER, True)
    assert loose.referral is not None
    assert "702.4 W against at least 780.0 W" in loose.referral.question
