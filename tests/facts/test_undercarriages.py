"""Wheels and floats by turns: each with its own weight record and limits, and every state on each."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.facts.loads import possible_loads
from liftout.findings import Finding
from liftout.job import JobError, load

# Invented: 1600 lb on wheels and 1850 lb on floats, of which 2300 and 2500 lb may take off; a box of 30 lb at 90 in lifts out.
JOB = """\
liftout: 1
papers: {number: BENCH-1, revision: A, date: 2026-01-01, shop: the bench}
aircraft:
  document: {number: D-1}
  kind: aeroplane
  model: bench
  kinds of operation: [day VFR]
  engine power: 160 hp
  datums: {firewall: {where: front face}}
  undercarriages:
    wheels:
      weight record: [{title: weighing 1, date: 2020-01-01, datum: firewall, oil: in, weight: 1600.0 lb, moment: 60000.0 lb-in}]
      limits: {maximum takeoff: 2300 lb, maximum landing: 2300 lb, datum: firewall, forward: [{weight: 2300 lb, arm: 33 in}], aft: [{weight: 2300 lb, arm: 45 in}]}
    floats:
      weight record:
        - {title: weighing 2, date: 2020-05-01, datum: firewall, oil: drained, weight: 1830.0 lb, moment: 70000.0 lb-in}
        - {title: amendment, date: 2021-05-01, datum: firewall, oil: drained, weight: 1850.0 lb, moment: 70800.0 lb-in, changes: [{what: water rudders, weight: 20.0 lb, arm: 40.0 in}]}
      limits: {maximum takeoff: 2500 lb, maximum landing: 2500 lb, datum: firewall, forward: [{weight: 2500 lb, arm: 35 in}], aft: [{weight: 2500 lb, arm: 47 in}]}
  oil: {weight: 15 lb, arm: -20 in, datum: firewall}
  stations:
    pilot: {holds: pilot, arm: 37 in, datum: firewall, seats: "1"}
    left locker: {holds: baggage, arm: 60 in, datum: firewall, maximum: 60 lb, undercarriages: [floats]}
    water in the floats: {holds: water, arm: 55 in, datum: firewall, maximum: 80 lb, undercarriages: [floats]}
  tanks: {wing: {arm: 46 in, datum: firewall, usable: 40 US gal, density: 6.0 lb/US gal}}
equipment:
  box: {document: {number: D-2}, description: a box, stays: removable, mass dry: 30 lb, position: {arm: 90 in, datum: firewall}}
lines: {none: no liquid in it}
displaced: {none: nothing}
loadings:
  named:
    fishing:
      stations: {pilot: 180 lb, left locker: 40 lb}
      fuel at takeoff: {wing: 20 US gal}
    local:
      stations: {pilot: 180 lb}
      fuel at takeoff: {wing: 20 US gal}
"""


def facts(folder: Path, text: str = JOB) -> Facts:
    """The facts of a job."""
    file = folder / "job.yaml"
    file.write_text(text, encoding="utf-8")
    return gather(load(file))


def findings(found: Facts, identifier: str) -> list[Finding]:
    """The findings of one criterion."""
    return applied(next(one for one in all_criteria() if one.id == identifier), found)


def test_every_state_exists_on_each_undercarriage(tmp_path: Path) -> None:
    names = [state.name for state in facts(tmp_path).states]
    equipped = ["before any change", "provisions only", "in"]
    assert names == [f"{on}: {name}" for on in ("wheels", "floats") for name in equipped]
    assert [state.equipped for state in facts(tmp_path).fitted_states] == ["provisions only", "in"] * 2


def test_each_state_has_the_record_and_the_limits_that_it_is_flown_with(tmp_path: Path) -> None:
    """2300 - 1600 - 30 lb on wheels; 2500 - 1850 - 30 lb on floats, where 15 lb of oil are needed besides: 80 + 170 + 15 lb."""
    found = {finding.state: finding for finding in findings(facts(tmp_path), "balance.useful_load")}
    useful = {state: finding.value.to("lb") for state, finding in found.items() if finding.value}
    needed = {state: finding.limit.to("lb") for state, finding in found.items() if finding.limit}
    assert useful == {
        "wheels: before any change": 700,
        "wheels: provisions only": 700,
        "wheels: in": 670,
        "floats: before any change": 650,
        "floats: provisions only": 650,
        "floats: in": 620,
    }
    assert needed["wheels: in"] == 250
    assert needed["floats: in"] == 265


def test_the_centre_of_gravity_is_held_against_the_limits_of_its_undercarriage(tmp_path: Path) -> None:
    found = {(finding.state, finding.subject): finding.limit for finding in findings(facts(tmp_path), "balance.centre_of_gravity")}
    assert {state: limit.to("in") for (state, side), limit in found.items() if side == "aft limit" and limit} == {
        **{f"wheels: {name}": Decimal(45) for name in ("before any change", "provisions only", "in")},
        **{f"floats: {name}": Decimal(47) for name in ("before any change", "provisions only", "in")},
    }


def test_every_sheet_of_every_record_is_a_subject(tmp_path: Path) -> None:
    assert [finding.subject for finding in findings(facts(tmp_path), "balance.weight_record")] == [
        "wheels: weighing 1, 2020-01-01",
        "floats: weighing 2, 2020-05-01",
        "floats: amendment, 2021-05-01",
    ]


def test_lockers_and_water_of_floats_are_loads_on_floats_only(tmp_path: Path) -> None:
    found = facts(tmp_path)
    loads = {state.name: [load.name for load in possible_loads(found.aircraft, state)] for state in found.states}
    assert loads["wheels: in"] == ["fuel, wing"]
    assert loads["floats: in"] == ["left locker", "water in the floats", "fuel, wing"]
    flown = {(one.loading.name, one.state.undercarriage) for one in found.loaded}
    assert flown == {("fishing", "floats"), ("local", "wheels"), ("local", "floats")}


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        (
            "  oil: {weight",
            "  limits: {maximum takeoff: 1 lb, datum: firewall, forward: [], aft: []}\n  oil: {weight",
            "stands beside undercarriages",
        ),
        ("undercarriages: [floats]", "undercarriages: [flotas]", 'no undercarriage "flotas"'),
        ("weight record: [{title: weighing 1", "weight record: []\n      x: [{title: weighing 1", "no such key"),
    ],
)
def test_what_contradicts_is_refused(tmp_path: Path, old: str, new: str, word: str) -> None:
    assert old in JOB
    with pytest.raises(JobError) as caught:
        facts(tmp_path, JOB.replace(old, new))
    assert word in str(caught.value)


def test_a_job_without_any_record_is_refused(tmp_path: Path) -> None:
    start, end = JOB.index("  undercarriages:"), JOB.index("  oil:")
    with pytest.raises(JobError) as caught:
        facts(tmp_path, (JOB[:start] + JOB[end:]).replace(", undercarriages: [floats]", ""))
    assert "is empty" in str(caught.value)
