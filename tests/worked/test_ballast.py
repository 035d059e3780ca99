"""Least ballast for a loading that lies outside a limit, and its offer as a remedy."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import applied, assess
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.findings import Finding, Verdict
from liftout.job import Job
from liftout.worked import Worked
from tests.criteria.bench import HERE, CaseFile, case_files

CRITERION = next(one for one in all_criteria() if one.id == "balance.centre_of_gravity")
NOSE = "{arm: 5 in, datum: firewall, most: 60 lb, amount: 0 lb}"
TAIL_HEAVY = {"equipment / box / position / arm": "190 in", "aircraft / ballast places": f"{{nose: {NOSE}}}"}

# WB-B02, FAA mechanic bank: 4954 lb at 30.5 in, forward limit 32.0 in, ballast at 162 in: 57.16 lb. The pilot (170 lb at 36 in), 84 lb of
# fuel at 48 in and the box (100 lb at 90 in) are part of it: 4600 lb and 131945 lb-in are left for the record.
PUBLISHED = {
    "aircraft / engine power": "168 hp",
    "aircraft / weight record / 1 / weight": "4600 lb",
    "aircraft / weight record / 1 / moment": "131945 lb-in",
    "aircraft / limits": "{maximum takeoff: 6000 lb, datum: firewall, forward: [{weight: 6000 lb, arm: 32.0 in}], aft: [{weight: 6000 lb, arm: 60 in}]}",
    "aircraft / ballast places": "{tail: {arm: 162 in, datum: firewall, most: 100 lb, amount: 0 lb}}",
}
# WB-B01, FAA-H-8083-1B chapter 7: 1876 lb at 32.2 in, forward limit 33.0 in, ballast at 228 in: 7.7 lb.
PERMANENT = {
    **PUBLISHED,
    "aircraft / weight record / 1 / weight": "1522 lb",
    "aircraft / weight record / 1 / moment": "41255.2 lb-in",
    "aircraft / limits": "{maximum takeoff: 3000 lb, datum: firewall, forward: [{weight: 3000 lb, arm: 33.0 in}], aft: [{weight: 3000 lb, arm: 60 in}]}",
    "aircraft / ballast places": "{tail: {arm: 228 in, datum: firewall, most: 100 lb, amount: 0 lb}}",
}


def job(given: dict[str, Any]) -> Job:
    """The bench of the criterion with some changes."""
    return CaseFile(HERE / "balance" / "centre_of_gravity.yaml", _file().said).job(given)


def _file() -> CaseFile:
    return next(file for file in case_files() if file.criterion == CRITERION.id)


def finding(given: dict[str, Any], side: str) -> tuple[Finding, Facts]:
    """The finding with everything in, and the facts that keep the worked sheets."""
    facts = gather(job(given))
    found = applied(CRITERION, facts)
    return next(one for one in found if one.subject == f"{side} limit" and one.state == "provisions only"), facts


def sheet(facts: Facts, place: str, side: str) -> dict[str, Decimal]:
    """Values of the ballast sheet in lb and in."""
    (worked,) = [
        one
        for (name, subject), one in facts.worked.items()
        if name == "balance.ballast" and isinstance(one, Worked) and subject == f"{place}, {side} limit, pilot alone, provisions only"
    ]
    return {
        step.symbol: step.quantity.to(
            "lb" if step.symbol.startswith(("w", "W")) else "in" if step.symbol.startswith("x") else step.quantity.unit.symbol
        )
        for step in worked.steps
        if step.quantity is not None
    }


@pytest.mark.parametrize(
    ("given", "printed", "within", "whole"), [(PUBLISHED, "57.16", "0.005", 58), (PERMANENT, "7.7", "0.05", 8)], ids=["WB-B02", "WB-B01"]
)
def test_published_ballast_comes_out_and_is_rounded_up_and_looked_at_again(given: dict[str, str], printed: str, within: str, whole: int) -> None:
    found, facts = finding(given, "forward")
    assert found.verdict is Verdict.DOES_NOT_CONFORM
    values = sheet(facts, "tail", "forward")
    assert values["w_b"] == whole
    assert abs(values["w_x"] - Decimal(printed)) <= Decimal(within)
    assert values["x_cg"] >= values["x_limit"]


def test_the_published_figure_itself_stays_outside_and_the_whole_pound_does_not() -> None:
    for amount, verdict in (("57.16 lb", Verdict.DOES_NOT_CONFORM), ("57 lb", Verdict.DOES_NOT_CONFORM), ("58 lb", Verdict.CONFORMS)):
        assert finding({**PUBLISHED, "aircraft / ballast places / tail / amount": amount}, "forward")[0].verdict is verdict, amount


def test_ballast_in_the_nose_is_offered_against_a_heavy_tail() -> None:
    """1370 lb and 64920 lb-in: 530 lb-in too far aft over 42 in are 12.62 lb."""
    found, _ = finding(TAIL_HEAVY, "aft")
    assert [change.text for change in found.candidates] == ["13 lb"]
    assert found.candidates[0].limits_operation
    assessed = assess(job(TAIL_HEAVY))
    (remedied,) = [one for one in assessed.findings if one.key == found.key]
    assert remedied.remedy is not None
    assert remedied.remedy.startswith("carry 13 lb of fixed ballast at nose")


def test_what_is_there_already_counts() -> None:
    given = {**TAIL_HEAVY, "aircraft / ballast places / nose / amount": "10 lb"}
    assert [change.text for change in finding(given, "aft")[0].candidates] == ["13 lb"]


@pytest.mark.parametrize(
    "place", ["{arm: 5 in, datum: firewall, most: 12 lb, amount: 0 lb}", "{arm: 90 in, datum: firewall, most: 60 lb, amount: 0 lb}"]
)
def test_a_place_that_holds_too_little_or_lies_on_the_wrong_side_is_not_offered(place: str) -> None:
    assert not finding({**TAIL_HEAVY, "aircraft / ballast places": f"{{nose: {place}}}"}, "aft")[0].candidates


def test_nothing_is_offered_or_worked_where_the_loading_lies_inside() -> None:
    found, facts = finding({"aircraft / ballast places": f"{{nose: {NOSE}}}"}, "aft")
    assert found.verdict is Verdict.CONFORMS
    assert not [name for name, _ in facts.worked if name == "balance.ballast"]


def test_lines_of_the_sheet_recompute(tmp_path: Path) -> None:
    _, facts = finding(TAIL_HEAVY, "aft")
    values = sheet(facts, "nose", "aft")
    assert values["W"] == values["W_0"] + values["w_b"] == 1383
    assert abs(values["x_cg"] - Decimal(64985) / 1383) < Decimal("1e-9")
