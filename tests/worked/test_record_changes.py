"""Changes since the last weighing: weight and arm apart, added up, with the words for their way."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.facts import Facts, gather
from liftout.job import load
from liftout.worked import Worked
from liftout.worked.balance.arm_change import arm_change
from liftout.worked.balance.cumulative_change import cumulative_change
from liftout.worked.balance.direction import direction
from liftout.worked.balance.lateral_arm import lateral_arm
from liftout.worked.balance.percent_mac import percent_mac
from liftout.worked.balance.weight_change import weight_change

JOB = """\
liftout: 1
papers: {{number: BENCH-1, revision: A, date: 2026-01-01, shop: the bench}}
aircraft:
  kind: aeroplane
  model: bench
  kinds of operation: [day VFR]
  datums: {{firewall: {{where: front face}}}}
  chord: {{leading edge: {leading}, length: {chord}, datum: firewall}}
  limits: {{maximum takeoff: {landing}, maximum landing: {landing}, datum: firewall, forward: [{{weight: {landing}, arm: 0 in}}], aft: [{{weight: {landing}, arm: 900 in}}]}}
  weight record:
    - {{title: weighing, date: 2020-01-01, datum: firewall, oil: in, weight: {weight}, arm: {arm}, lateral: 0.5 in}}
{sheets}
equipment: {{{equipment}}}
lines: {{none: no liquid in it}}
{displaced}
"""


def bench(folder: Path, **told: str) -> Facts:
    """The facts of a bench job."""
    words = {"leading": "0 in", "chord": "60 in", "landing": "60000 lb", "weight": "2000 lb", "arm": "40 in", "sheets": "", "equipment": ""}
    file = folder / "job.yaml"
    file.write_text(JOB.format(**words | {"displaced": "displaced: {none: nothing}"} | told), encoding="utf-8")
    return gather(load(file))


def item(mass: str, arm: str, lateral: str = "0 in") -> str:
    """A provision of some mass."""
    return f"tray: {{description: tray, stays: provision, mass dry: {mass}, position: {{arm: {arm}, lateral: {lateral}, datum: firewall}}}}"


def value(of: Worked, symbol: str, unit: str) -> Decimal:
    """One value of a sheet."""
    quantity = next(step.quantity for step in of.steps if step.symbol == symbol)
    assert quantity is not None
    return quantity.to(unit)


def over(of: Worked, symbol: str, limit: str) -> bool:
    """Whether a value is over its limit."""
    assert of.sheet is not None
    return of.sheet.exceeds(symbol, limit)


@pytest.mark.parametrize(
    ("weight", "change", "negligible"),
    [  # AC 43.13-1B par. 10-2c: 1 lb below 5000 lb, 2 lb to 50000 lb, 5 lb above; 5000 lb is in no class, so in the stricter one
        ("2000 lb", "1.0 lb", True),
        ("2000 lb", "1.01 lb", False),
        ("4999 lb", "2.0 lb", False),
        ("5000 lb", "1.5 lb", False),
        ("5001 lb", "2.0 lb", True),
        ("5001 lb", "2.01 lb", False),
        ("50000 lb", "2.5 lb", False),
        ("50001 lb", "5.0 lb", True),
    ],
)
def test_how_much_weight_is_negligible(tmp_path: Path, weight: str, change: str, negligible: bool) -> None:
    found = bench(tmp_path, weight=weight, equipment=item(change, "40 in"))
    assert over(weight_change(found.states[1], found), "a", "a_n") is not negligible


def test_less_weight_counts_as_more_does(tmp_path: Path) -> None:
    parts = "displaced: {parts: {seat: {what: seat, is: taken out, to: store, mass: 1.0 lb, arm: 40 in, datum: firewall}}}"
    found = bench(tmp_path, displaced=parts)
    change = weight_change(found.states[1], found)
    assert value(change, "dW", "lb") == -1
    assert not over(change, "a", "a_n")
    assert direction(change, "dW", towards=("heavier", "lighter")) == "lighter"


@pytest.mark.parametrize(
    ("by", "negligible"),
    [("58 in", True), ("60 in", False)],  # 1 lb moved by so much on 2000 lb: 0.029 in, and 0.030 in, which is 0.05 % of 60 in and not less
)
def test_how_far_the_arm_may_move(tmp_path: Path, by: str, negligible: bool) -> None:
    new = f"{40 + int(by.split(maxsplit=1)[0])} in"
    parts = f"displaced: {{parts: {{seat: {{what: seat, is: moved, to: the tail, mass: 1.0 lb, arm: 40 in, new arm: {new}, datum: firewall}}}}}}"
    found = bench(tmp_path, displaced=parts)
    assert over(arm_change(found.states[1], found), "p_n", "p") is negligible


def test_a_light_part_far_aft_is_negligible_by_weight_and_not_by_arm(tmp_path: Path) -> None:
    """1 lb, 160 in behind the centre of gravity of 2000 lb: 160 / 2001 = 0.07996 in, where 0.03 in is the limit."""
    found = bench(tmp_path, equipment=item("1.0 lb", "200 in"))
    arm = arm_change(found.states[1], found)
    assert abs(value(arm, "dx", "in") - Decimal("0.07996")) <= Decimal("0.000005")
    assert not over(weight_change(found.states[1], found), "a", "a_n")
    assert not over(arm, "p_n", "p")


def test_changes_that_cancel_in_weight_do_not_cancel_in_moment(tmp_path: Path) -> None:
    """-20 lb at 40 in and +20 lb at 180 in: no weight, 2800 lb-in."""
    parts = "displaced: {parts: {seat: {what: seat, is: taken out, to: store, mass: 20 lb, arm: 40 in, datum: firewall}}}"
    found = bench(tmp_path, equipment=item("20 lb", "180 in"), displaced=parts)
    assert value(weight_change(found.states[1], found), "dW", "lb") == 0
    arm = arm_change(found.states[1], found)
    assert value(arm, "dx", "in") * 2000 == 2800
    assert not over(arm, "p_n", "p")


@pytest.mark.parametrize(("change", "revise"), [("5.75 lb", False), ("5.76 lb", True)])
def test_half_a_percent_of_the_landing_weight_must_be_exceeded(tmp_path: Path, change: str, revise: bool) -> None:
    """EASA GM1 NCO.POL.105, 0.5 % of 1150 is 5.75."""
    found = bench(tmp_path, weight="800 lb", landing="1150 lb", equipment=item(change, "40 in"))
    assert over(cumulative_change(found.states[1], found), "a", "a_c") is revise


def test_changes_add_up_over_the_sheets_since_the_weighing(tmp_path: Path) -> None:
    """0.8 lb by an amendment and 0.8 lb now: each alone negligible, 1.6 lb together not."""
    sheet = "    - {title: amendment, date: 2021-01-01, datum: firewall, oil: in, weight: 2000.8 lb, arm: 40 in, lateral: 0.5 in}"
    found = bench(tmp_path, sheets=sheet, equipment=item("0.8 lb", "40 in"))
    change = weight_change(found.states[1], found)
    assert value(change, "dW", "lb") == Decimal("1.6")
    assert over(change, "a", "a_n")
    again = sheet + "\n    - {title: second weighing, date: 2022-01-01, datum: firewall, oil: in, weight: 2000.8 lb, arm: 40 in, weighing: {}}"
    found = bench(tmp_path, sheets=again, equipment=item("0.8 lb", "40 in"))
    assert value(weight_change(found.states[1], found), "dW", "lb") == Decimal("0.8")


@pytest.mark.parametrize(
    ("mass", "arm", "way"),
    [  # on a base of 1169 lb at 10.6 in: ahead of the old arm moves it forward, behind it aft, wherever datum and limits lie
        ("33 lb", "-30 in", "forward"),
        ("33 lb", "15 in", "aft"),
        ("33 lb", "110 in", "aft"),
        ("33 lb", "10.6 in", ""),
    ],
)
def test_the_word_for_the_way_follows_the_sign(tmp_path: Path, mass: str, arm: str, way: str) -> None:
    found = bench(tmp_path, weight="1169 lb", arm="10.6 in", equipment=item(mass, arm))
    assert direction(arm_change(found.states[1], found), "dx", towards=("aft", "forward")) == way


def test_a_published_explanation_that_names_the_wrong_way(tmp_path: Path) -> None:
    """WB-E01, FAA mechanic bank: 28.4 to 30.30 in, which the stored explanation calls forward, is aft."""
    rows = "{what: two seats, weight: -24 lb, arm: 68.5 in}, {what: structure, weight: 28 lb, arm: 73 in}, {what: seat, weight: 30 lb, arm: 70.5 in}, {what: radio, weight: 25 lb, arm: 85 in}"
    sheet = f"    - {{title: amendment, date: 2021-01-01, datum: firewall, oil: in, weight: 1559 lb, moment: 47240 lb-in, changes: [{rows}]}}"
    found = bench(tmp_path, weight="1500 lb", arm="28.4 in", sheets=sheet)
    change = arm_change(found.states[0], found)
    assert direction(change, "dx", towards=("aft", "forward")) == "aft"
    assert abs(value(change, "x_cg", "in") - Decimal("30.30")) <= Decimal("0.005")


@pytest.mark.parametrize(
    ("arm", "leading", "chord", "share", "within"),
    [
        ("20 in", "0 in", "100 in", "20.0", "0.0001"),  # WB-M01, FAA-H-8083-30 p. 4-31
        ("663 in", "625.6 in", "134.5 in", "27.8", "0.05"),  # WB-M02, EASA bank: 760.1 - 625.6 = 134.5 in
        ("724 in", "517 in", "1189 in", "17.4", "0.05"),  # WB-M04, EASA bank: from memory
        ("12.53 m", "9.63 m", "8.0 m", "36.3", "0.05"),  # WB-M05, EASA bank: exactly 36.25, printed half-up
        ("945 in", "900 in", "180 in", "25.0", "0.0001"),  # WB-M06, FAA-H-8083-30 p. 4-31: from memory
    ],
)
def test_published_shares_of_the_chord(tmp_path: Path, arm: str, leading: str, chord: str, share: str, within: str) -> None:
    found = bench(tmp_path, arm=arm, leading=leading, chord=chord)
    sheet = percent_mac(found.states[0], found)
    assert abs(value(sheet, "p", "%") - Decimal(share)) <= Decimal(within)
    assert next(step.result.number for step in sheet.steps if step.symbol == "p") == share


def test_the_lateral_arm_of_a_state(tmp_path: Path) -> None:
    """2000 lb 0.5 in right and 50 lb 20.5 in left: 1000 - 1025 = -25 lb-in on 2050 lb."""
    found = bench(tmp_path, equipment=item("50 lb", "40 in", "-20.5 in"))
    assert value(lateral_arm(found.states[0], found), "y", "in") == Decimal("0.5")
    sheet = lateral_arm(found.states[1], found)
    assert value(sheet, "L", "lb-in") == -25
    assert direction(sheet, "y", towards=("right", "left")) == "left"
