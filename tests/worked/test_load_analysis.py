"""Electrical load analysis: sums by hand, every phase in which something runs, and what is missing."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.documents.formula import arrange, spoken
from liftout.facts import Facts
from liftout.worked import Worked
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worked.electrical.source_capacity import source_capacity
from tests.house.printed import rounds_to, worked_out
from tests.worked.bench import HEAD, facts

JOB = (
    HEAD
    + """\
  datums: {firewall: {where: front face}}
  weight record: [{title: weighing, date: 2020-01-01, datum: firewall, oil: in}]
electrical:
  nominal: 28 V
  sources: {left: {rating: 60 A, at phase: {taxi and hold: 35 A}}, right: {rating: 40 A}}
  loads:
    radios: {current: 10.5 A, phases: [taxi and hold, cruise], source: left, duty: continuous}
    heat: {current: 12 A, phases: [cruise], source: left, duty: continuous}
  battery: {recharge: 3 A}
equipment:
  unit: {description: a unit, stays: removable, electrical: {steady: 8 A, peak: 9.5 A, phases: [cruise, landing]}}
  fan: {description: a fan, stays: removable, electrical: {steady: 4 A, peak: 3 A, phases: [taxi and hold, cruise]}}
wiring:
  runs:
    W1: {source: left, load: unit}
    W2: {source: left, load: unit}
    W3: {source: left, load: fan}
"""
)


def sheets(of: Facts) -> dict[str, Worked]:
    return {case.name: load_analysis(case, of) for case in of.sources_in_all_phases}


def amounts(sheet: Worked) -> dict[str, Decimal]:
    return {step.symbol: Decimal(step.result.number.replace("\u2212", "-")) for step in sheet.steps if step.quantity is not None}


def test_every_source_in_every_phase_in_which_a_load_old_or_new_runs(tmp_path: Path) -> None:
    assert list(sheets(facts(tmp_path, JOB))) == ["left, taxi and hold", "left, cruise", "left, landing"]


def test_sums_by_hand(tmp_path: Path) -> None:
    """Cruise: out 10.5 + 12 + 3 = 25.5 A; unit 9.5 (peak), fan 4 (steady), once each = 13.5 A; in 39 A of 60 A = 65 %."""
    found = sheets(facts(tmp_path, JOB))
    cruise, taxi, landing = (amounts(found[f"left, {phase}"]) for phase in ("cruise", "taxi and hold", "landing"))
    assert [cruise[name] for name in ("I_out", "I_eq", "I_in", "C", "left_out", "left_in", "share_in")] == [
        Decimal(text) for text in ("25.5", "13.5", "39", "60", "34.5", "21", "65")
    ]
    # Taxi: out 10.5 + 3 = 13.5 A; fan 4 A; in 17.5 A of the 35 A that the source gives there.
    assert [taxi[name] for name in ("I_out", "I_in", "C", "left_in", "share_in")] == [Decimal(text) for text in ("13.5", "17.5", "35", "17.5", "50")]
    # Landing: no old load; charging 3 A, unit 9.5 A.
    assert [landing[name] for name in ("I_out", "I_eq", "I_in")] == [Decimal(text) for text in ("3", "9.5", "12.5")]


def test_in_a_phase_without_the_equipment_in_and_out_are_the_same(tmp_path: Path) -> None:
    text = JOB.replace("phases: [taxi and hold, cruise]}}\nwiring", "phases: [cruise]}}\nwiring")
    taxi = amounts(sheets(facts(tmp_path, text))["left, taxi and hold"])
    assert taxi["I_in"] == taxi["I_out"] == Decimal("13.5")
    assert "I_eq" not in taxi


def test_every_printed_line_recomputes(tmp_path: Path) -> None:
    lines = 0
    for name, sheet in sheets(facts(tmp_path, JOB)).items():
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


CURVE = """left: {rating: 60 A, hottest: 48 °C, output: [
    {engine speed: 1000 rpm, temperature: 50 °C, current: 40 A}, {engine speed: 700 rpm, temperature: 50 °C, current: 22 A},
    {engine speed: 700 rpm, temperature: 20 °C, current: 30 A}, {engine speed: 1500 rpm, temperature: 90 °C, current: 1 A}]}"""


def capacity(folder: Path, phase: str, speed: str, source: str = CURVE) -> Worked:
    text = JOB.replace("left: {rating: 60 A, at phase: {taxi and hold: 35 A}}", source)
    assert text != JOB
    text = text.replace("  battery:", f"  phases: {{{phase}: {{engine speed: {speed}}}}}\n  battery:")
    of = facts(folder, text)
    return source_capacity(next(case for case in of.sources_in_all_phases if case.name == f"left, {phase}"), of)


def test_the_output_is_read_at_the_engine_speed_and_for_air_that_is_at_least_as_hot(tmp_path: Path) -> None:
    """At 800 rpm, a third of the way from 700 to 1000 rpm at 50 °C: 22 + 18 / 3 = 28 A; what is told for 20 °C gives more and counts for nothing."""
    assert amounts(capacity(tmp_path, "taxi and hold", "800 rpm"))["C"] == Decimal(28)


def test_above_the_fastest_point_nothing_is_added(tmp_path: Path) -> None:
    assert amounts(capacity(tmp_path, "taxi and hold", "2400 rpm"))["C"] == Decimal(40)


@pytest.mark.parametrize(
    ("speed", "source", "need"),
    [
        ("600 rpm", CURVE, "measure what the left gives at an engine speed of at most 600 rpm"),
        (
            "800 rpm",
            CURVE.replace("hottest: 48", "hottest: 95"),
            "measure what the left gives by engine speed with the air round it at 95 °C or hotter",
        ),
        (
            "800 rpm",
            CURVE.replace("hottest: 48 °C, ", ""),
            "measure the air round the generator with the engine at idle after a hot start",
        ),
    ],
)
def test_beyond_what_is_told_of_the_output_nothing_is_supposed(tmp_path: Path, speed: str, source: str, need: str) -> None:
    assert need in [missing.what for missing in capacity(tmp_path, "taxi and hold", speed, source).missing]


def test_a_short_load_stands_in_a_sum_of_its_own(tmp_path: Path) -> None:
    """Heat for at most two minutes: in 10.5 + 3 + 13.5 = 27 A that last, and 27 + 12 = 39 A while it runs."""
    text = JOB.replace(
        "heat: {current: 12 A, phases: [cruise], source: left, duty: continuous}",
        "heat: {current: 12 A, phases: [cruise], source: left, duty: intermittent}",
    )
    assert text != JOB
    cruise = amounts(sheets(facts(tmp_path, text))["left, cruise"])
    assert [cruise[name] for name in ("I_in", "I_most")] == [Decimal(27), Decimal(39)]
