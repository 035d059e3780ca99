"""Electrical load analysis: sums by hand, every phase in which something runs, and what is missing."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.documents.formula import arrange, spoken
from liftout.facts import Facts, gather
from liftout.job import load
from liftout.worked import Worked
from liftout.worked.electrical.load_analysis import load_analysis, sources_at_phases
from tests.house.printed import rounds_to, worked_out

JOB = """\
liftout: 1
papers: {number: BENCH-1, revision: A, date: 2026-01-01, shop: the bench}
aircraft:
  kind: aeroplane
  model: bench
  kinds of operation: [day VFR]
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]
electrical:
  nominal: 28 V
  sources: {left: {rating: 60 A, at phase: {taxi: 35 A}}, right: {rating: 40 A}}
  loads:
    radios: {current: 10.5 A, phases: [taxi, cruise], source: left}
    heat: {current: 12 A, phases: [cruise], source: left}
  battery: {recharge: 3 A}
equipment:
  unit: {description: a unit, stays: removable, electrical: {steady: 8 A, peak: 9.5 A, phases: [cruise, landing]}}
  fan: {description: a fan, stays: removable, electrical: {steady: 4 A, peak: 3 A, phases: [taxi, cruise]}}
wiring:
  runs:
    W1: {source: left, load: unit}
    W2: {source: left, load: unit}
    W3: {source: left, load: fan}
"""


def facts(folder: Path, text: str = JOB) -> Facts:
    place = folder / "jobs" / "one"
    place.mkdir(parents=True)
    (place / "job.yaml").write_text(text, encoding="utf-8")
    return gather(load(place / "job.yaml"))


def sheets(of: Facts) -> dict[str, Worked]:
    return {case.name: load_analysis(case, of) for case in sources_at_phases(of)}


def amounts(sheet: Worked) -> dict[str, Decimal]:
    return {step.symbol: Decimal(step.result.number.replace("\u2212", "-")) for step in sheet.steps if step.formula is not None}


def test_every_source_in_every_phase_in_which_a_load_old_or_new_runs(tmp_path: Path) -> None:
    assert list(sheets(facts(tmp_path))) == ["left, taxi", "left, cruise", "left, landing"]


def test_sums_by_hand(tmp_path: Path) -> None:
    """Cruise: out 10.5 + 12 + 3 = 25.5 A; unit 9.5 (peak), fan 4 (steady), once each = 13.5 A; in 39 A of 60 A = 65 %."""
    found = sheets(facts(tmp_path))
    cruise, taxi, landing = (amounts(found[f"left, {phase}"]) for phase in ("cruise", "taxi", "landing"))
    assert [cruise[name] for name in ("I_out", "I_eq", "I_in", "C", "left_out", "left_in", "share_in")] == [
        Decimal(text) for text in ("25.5", "13.5", "39", "60", "34.5", "21", "65")
    ]
    # Taxi: out 10.5 + 3 = 13.5 A; fan 4 A; in 17.5 A of the 35 A that the source gives there.
    assert [taxi[name] for name in ("I_out", "I_in", "C", "left_in", "share_in")] == [Decimal(text) for text in ("13.5", "17.5", "35", "17.5", "50")]
    # Landing: no old load; charging 3 A, unit 9.5 A.
    assert [landing[name] for name in ("I_out", "I_eq", "I_in")] == [Decimal(text) for text in ("3", "9.5", "12.5")]


def test_in_a_phase_without_the_equipment_in_and_out_are_the_same(tmp_path: Path) -> None:
    text = JOB.replace("phases: [taxi, cruise]}}\nwiring", "phases: [cruise]}}\nwiring")
    taxi = amounts(sheets(facts(tmp_path, text))["left, taxi"])
    assert taxi["I_in"] == taxi["I_out"] == Decimal("13.5")
    assert "I_eq" not in taxi


def test_every_printed_line_recomputes(tmp_path: Path) -> None:
    lines = 0
    for name, sheet in sheets(facts(tmp_path)).items():
        for step in sheet.steps:
            if step.with_values is not None:
                assert rounds_to(worked_out(spoken(arrange(step.with_values))), step.result.number, step.result.unit), f"{name}: {step.symbol}"
                lines += 1
    assert lines > 15


@pytest.mark.parametrize(
    ("gone", "need"),
    [
        ("steady: 8 A, ", "clamp-meter the item at work"),
        ("battery: {recharge: 3 A}", "measure the charging current after a start"),
        (", phases: [cruise, landing]", "say in which phases of flight it may run"),
        ("rating: 60 A, ", "read the nameplate of the generator"),
    ],
)
def test_what_is_missing_is_named(tmp_path: Path, gone: str, need: str) -> None:
    assert gone in JOB
    found = sheets(facts(tmp_path, JOB.replace(gone, "")))["left, cruise"]
    assert found.sheet is None
    assert need in [missing.what for missing in found.missing]
