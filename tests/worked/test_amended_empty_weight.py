"""Empty weight of a state: what the fit takes out or moves is gone, or elsewhere, in every state but the first."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.facts import Facts
from liftout.findings import Step
from liftout.worked import Worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from tests.worked.bench import HEAD, facts

# WB-E01, FAA mechanic knowledge-test bank: 1500 lb at 28.4 in; two seats of 12 lb out at 68.5 in; structure of 28 lb at 73 in,
# a seat of 30 lb at 70.5 in and a radio of 25 lb at 85 in put in. Printed answer: 1559 lb, 47240 lb-in, 30.3 in.
JOB = (
    HEAD
    + """\
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in, weight: 1500 lb, moment: 42600 lb-in}]
equipment:
  structure: {description: modification, stays: provision, mass dry: 28 lb, position: {arm: 73 in, datum: firewall}}
  seat and belt: {description: seat, stays: provision, mass dry: 30 lb, position: {arm: 70.5 in, datum: firewall}}
  radio: {description: radio, stays: removable, mass dry: 25 lb, position: {arm: 85 in, datum: firewall}}
lines: {none: no liquid in it}
displaced:
  parts:
    two seats: {what: seats of 12 lb each, is: taken out, to: store, mass: 24 lb, arm: 68.5 in, datum: firewall}
"""
)
MOVED = "is: moved, to: the tail, mass: 24 lb, arm: 68.5 in, new arm: 108.5 in"


def worked(found: Facts, state: str) -> Worked:
    """The sheet of one state."""
    return amended_empty_weight(next(one for one in found.states if one.name == state), found)


def value(found: Facts, state: str, symbol: str, unit: str) -> Decimal:
    """One value of it."""
    step: Step = next(step for step in worked(found, state).steps if step.symbol == symbol)
    assert step.quantity is not None
    return step.quantity.to(unit)


def test_the_published_change_of_seats(tmp_path: Path) -> None:
    found = facts(tmp_path, JOB)
    assert value(found, "in", "W", "lb") == 1559
    assert value(found, "in", "M", "lb-in") == 47240
    assert abs(value(found, "in", "x_cg", "in") - Decimal("30.3")) <= Decimal("0.05")


@pytest.mark.parametrize(
    ("state", "weight", "moment"),
    [
        ("before any change", 1500, 42600),
        ("provisions only", 1534, 45115),  # 1500 - 24 + 28 + 30; 42600 - 1644 + 2044 + 2115
        ("in", 1559, 47240),
    ],
)
def test_what_is_taken_out_is_out_in_every_state_but_the_first(tmp_path: Path, state: str, weight: int, moment: int) -> None:
    found = facts(tmp_path, JOB)
    assert (value(found, state, "W", "lb"), value(found, state, "M", "lb-in")) == (weight, moment)


def test_what_is_moved_changes_the_moment_only(tmp_path: Path) -> None:
    """24 lb, 40 in further aft: 960 lb-in more than before, and all of the weight: 1583 lb, 47240 + 1644 + 960 lb-in."""
    found = facts(tmp_path, JOB.replace("is: taken out, to: store, mass: 24 lb, arm: 68.5 in", MOVED))
    assert (value(found, "in", "W", "lb"), value(found, "in", "M", "lb-in")) == (1583, 49844)


@pytest.mark.parametrize("key", ["mass: 24 lb, ", ", arm: 68.5 in", ", new arm: 108.5 in", ", datum: firewall"])
def test_what_is_not_said_of_it_is_asked_for_in_every_state_but_the_first(tmp_path: Path, key: str) -> None:
    text = JOB.replace("is: taken out, to: store, mass: 24 lb, arm: 68.5 in", MOVED)
    before, there, after = text.rpartition(key)
    assert there
    found = facts(tmp_path, before + after)
    assert worked(found, "in").missing
    assert worked(found, "provisions only").missing
    assert not worked(found, "before any change").missing
