"""Empty weight with changes made at the same time, from the record and with everything in: sums by hand."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.worked import Worked
from liftout.worked.balance.changed_weight import changed_weight
from liftout.worked.balance.changed_weight_fitted import changed_weight_fitted
from tests.worked.bench import HEAD, facts

JOB = (
    HEAD
    + """\
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in, weight: 1000 lb, moment: 40000 lb-in}]
lines: {none: no liquid in it}
electrical: {nominal: 28 V, sources: {alternator: {rating: 60 A}}, loads: {radio: {current: 5 A, phases: [cruise], source: alternator}}}
changes:
  named:
    alternator: {what: a larger one, source: alternator, gives: {rating: 95 A}, mass in: 14 lb, arm in: -20 in, mass out: 10 lb, arm out: -20 in, datum: firewall}
    radio: {what: an old one taken out, takes out: [radio], mass in: 0 lb, arm in: 0 in, mass out: 6 lb, arm out: 15 in, datum: firewall}
equipment: {unit: {description: what is added, stays: removable, mass dry: 30 lb, position: {arm: 90 in, datum: firewall}}}
"""
)
BY_HAND = {
    "before these changes": ((1000, 40000), (1030, 42700)),
    "with the alternator alone": ((1004, 39920), (1034, 42620)),
    "with the radio alone": ((994, 39910), (1024, 42610)),
    "with all of them": ((998, 39830), (1028, 42530)),
}
"""4 lb more at -20 in; 6 lb less at 15 in; 30 lb at 90 in for the fit."""


def amounts(sheet: Worked) -> tuple[Decimal, Decimal]:
    """Weight in lb and moment in lb-in, as printed."""
    printed = {step.symbol: Decimal(step.result.number.replace("\u2212", "-")) for step in sheet.steps if step.quantity is not None}
    return printed["W"], printed["M"]


def test_before_with_each_alone_and_with_all(tmp_path: Path) -> None:
    of = facts(tmp_path, JOB)
    found = {one.name: (amounts(changed_weight(one, of)), amounts(changed_weight_fitted(one, of))) for one in of.scenarios}
    assert found == BY_HAND


@pytest.mark.parametrize(
    ("gone", "need"), [(" mass in: 14 lb,", "weigh what the change puts in"), (" arm out: 15 in,", "measure the arm of what the change takes out")]
)
def test_what_is_missing_is_named(tmp_path: Path, gone: str, need: str) -> None:
    assert gone in JOB
    of = facts(tmp_path, JOB.replace(gone, ""))
    for sheet in (changed_weight, changed_weight_fitted):
        worked = sheet(of.scenarios[-1], of)
        assert worked.sheet is None
        assert need in [missing.what for missing in worked.missing]
