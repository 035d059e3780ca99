"""The battery at idle: minutes to the least charge and the least engine speed, by hand."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from liftout.worked import Worked
from liftout.worked.electrical.ground_hold import ground_hold
from liftout.worked.electrical.least_engine_speed import least_engine_speed
from liftout.worked.electrical.longest_hold import longest_hold
from tests.worked.bench import HEAD, facts

JOB = (
    HEAD
    + """\
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]
electrical:
  nominal: 14 V
  sources:
    alternator:
      rating: 60 A
      hottest: 40 °C
      output:
        - {engine speed: 700 rpm, temperature: 40 °C, current: 20 A}
        - {engine speed: 1000 rpm, temperature: 40 °C, current: 32 A}
        - {engine speed: 1400 rpm, temperature: 40 °C, current: 48 A}
  loads:
    radios: {current: 11 A, phases: [taxi and hold], source: alternator, duty: continuous}
  phases: {taxi and hold: {engine speed: 700 rpm, longest: 15 min}}
  battery: {capacity: 24 Ah, recharge: 3 A, after start: 90 %, least charge: 75 %}
equipment:
  unit: {description: a unit, stays: removable, electrical: {steady: 22 A, peak: 22 A, phases: [taxi and hold]}}
wiring:
  runs:
    W1: {source: alternator, load: unit}
"""
)


def amounts(sheet: Worked) -> dict[str, Decimal]:
    return {step.symbol: Decimal(step.result.number.replace("\u2212", "-")) for step in sheet.steps if step.quantity is not None}


def test_minutes_to_the_least_charge(tmp_path: Path) -> None:
    """33 A of load, 20 A from the source: 13 A out of the battery; 3.6 Ah last 16.615 min, on the placard 16."""
    of = facts(tmp_path, JOB)
    found = amounts(ground_hold(of.ground_holds[0], of))
    assert found["I_net"] == -13
    assert abs(found["t_l"] - Decimal("16.6154")) < Decimal("0.05")
    assert amounts(longest_hold(of.ground_holds[0], of))["t_placard"] == 16


def test_least_engine_speed(tmp_path: Path) -> None:
    """33 A lie one sixteenth of the way from 32 A at 1000 rpm to 48 A at 1400 rpm: 1025 rpm, on the placard 1050."""
    of = facts(tmp_path, JOB)
    found = amounts(least_engine_speed(of.ground_holds[0], of))
    assert [found[name] for name in ("n_least", "n_placard")] == [Decimal(1025), Decimal(1050)]


def test_where_the_slowest_point_carries_all_nothing_slower_is_supposed(tmp_path: Path) -> None:
    of = facts(tmp_path, JOB.replace("current: 22 A", "current: 1 A").replace("steady: 22 A, peak: 22 A", "steady: 5 A, peak: 5 A"))
    found = amounts(least_engine_speed(of.ground_holds[0], of))
    assert found["n_placard"] == 700
    assert "t_placard" not in amounts(longest_hold(of.ground_holds[0], of))


def test_a_load_that_no_engine_speed_carries_is_a_thing_to_measure(tmp_path: Path) -> None:
    of = facts(tmp_path, JOB.replace("steady: 22 A, peak: 22 A", "steady: 50 A, peak: 50 A"))
    assert [need.what for need in least_engine_speed(of.ground_holds[0], of).missing] == [
        "measure at which engine speed the alternator carries all loads with the equipment on, if at any"
    ]
