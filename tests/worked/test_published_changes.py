"""Published examples of weights moved, added and taken out, through the sheet that amends the empty weight.

Weight shift: what the fit moves. Weight added: an item that stays. Numbers and printed answers of WB-S01 to S07 (FAA-H-8083-25, FAA pilot and
EASA question banks), WB-C01, C03 and C05, and WB-X01 (AC 43.13-1B par. 10-20 on the aeroplane of figures 10-10 and 10-11, worked by hand).
"""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from liftout.facts import Facts
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.arm_change import arm_change
from liftout.worked.balance.direction import direction
from tests.worked.bench import facts

JOB = """\
liftout: 1
papers: {{number: BENCH-1, revision: A, date: 2026-01-01, shop: the bench}}
aircraft:
  kind: aeroplane
  model: bench
  kinds of operation: [day VFR]
  datums: {{firewall: {{where: front face}}}}
  weight record: [{{title: weighing, date: 2020-01-01, datum: firewall, oil: in, weight: {weight}, {at}}}]
  chord: {{leading edge: 0 in, length: 60 in, datum: firewall}}
lines: {{none: no liquid in it}}
equipment: {{{items}}}
displaced: {displaced}
"""
ITEM = "load: {{description: what is added, stays: provision, mass dry: {mass}, position: {{arm: {arm}, datum: firewall}}}}"
MOVED = "{{parts: {{load: {{what: a load, is: moved, to: elsewhere, mass: {mass}, arm: {old}, new arm: {new}, datum: firewall}}}}}}"


def value(found: Facts, symbol: str, unit: str) -> Decimal:
    """A value of the amended empty weight, with everything done."""
    step = next(step for step in amended_empty_weight(found.states[-1], found).steps if step.symbol == symbol)
    assert step.quantity is not None
    return step.quantity.to(unit)


@pytest.mark.parametrize(
    ("weight", "at", "mass", "old", "new", "printed", "within"),
    [
        pytest.param("7800 lb", "arm: 81.5 in", "65 lb", "150 in", "30 in", "80.5 in", "0.0001", id="WB-S01"),
        pytest.param("8000 lb", "moment: 616000 lb-in", "100 lb", "30 in", "150 in", "78.5 in", "0.0001", id="WB-S02"),
        pytest.param("4800 lb", "arm: 98 in", "90 lb", "145 in", "45 in", "96.13 in", "0.0051", id="WB-S03"),
        pytest.param("3650 lb", "arm: 94.0 in", "52.14 lb", "180 in", "40 in", "92.0 in", "0.005", id="WB-S04"),
        pytest.param("9000 kg", "arm: 2.0 m", "300 kg", "0.8 m", "3.8 m", "2.1 m", "0.000001", id="WB-S05"),
        pytest.param("57600 kg", "arm: 646 in", "900 kg", "0 in", "517 in", "654.07 in", "0.01", id="WB-S07"),
    ],
)
def test_a_published_weight_shift(tmp_path: Path, weight: str, at: str, mass: str, old: str, new: str, printed: str, within: str) -> None:
    found = facts(tmp_path, JOB.format(weight=weight, at=at, items="", displaced=MOVED.format(mass=mass, old=old, new=new)))
    magnitude, unit = printed.split()
    assert abs(value(found, "x_cg", unit) - Decimal(magnitude)) <= Decimal(within)
    number, told = weight.split()
    assert abs(value(found, "W", told) - Decimal(number)) < Decimal("1e-20")


def test_the_printed_moment_of_a_shift(tmp_path: Path) -> None:
    """WB-S02: 628000 lb-in."""
    displaced = MOVED.format(mass="100 lb", old="30 in", new="150 in")
    assert value(facts(tmp_path, JOB.format(weight="8000 lb", at="moment: 616000 lb-in", items="", displaced=displaced)), "M", "lb-in") == 628000


@pytest.mark.parametrize(
    ("weight", "at", "mass", "arm", "printed", "within", "way"),
    [
        pytest.param("6860 lb", "arm: 80.0 in", "140 lb", "150 in", "81.4 in", "0.0001", "aft", id="WB-C01"),
        pytest.param("2000 kg", "arm: 0 m", "400 kg", "2.0 m", "0.33 m", "0.005", "aft", id="WB-C03"),
        pytest.param("1169 lb", "moment: 12391 lb-in", "33 lb", "-30 in", "9.485 in", "0.0005", "forward", id="WB-X01, ahead of the limits"),
        pytest.param("1169 lb", "moment: 12391 lb-in", "33 lb", "15 in", "10.72 in", "0.0005", "aft", id="WB-X01, between them"),
        pytest.param("1169 lb", "moment: 12391 lb-in", "33 lb", "110 in", "13.329 in", "0.0005", "aft", id="WB-X01, behind them"),
    ],
)
def test_a_published_addition(tmp_path: Path, weight: str, at: str, mass: str, arm: str, printed: str, within: str, way: str) -> None:
    found = facts(tmp_path, JOB.format(weight=weight, at=at, items=ITEM.format(mass=mass, arm=arm), displaced="{none: nothing}"))
    magnitude, unit = printed.split()
    assert abs(value(found, "x_cg", unit) - Decimal(magnitude)) <= Decimal(within)
    state = found.states[-1]
    assert direction(arm_change(state, found), "dx", towards=("aft", "forward")) == way


@pytest.mark.parametrize(("mass", "inside"), [("207 kg", True), ("208 kg", False)])
def test_the_largest_mass_that_may_be_added_is_rounded_down(tmp_path: Path, mass: str, inside: bool) -> None:
    """WB-C05: 2900 kg at 115, limit 116, added at 130: 207.14 kg."""
    found = facts(tmp_path, JOB.format(weight="2900 kg", at="arm: 115 m", items=ITEM.format(mass=mass, arm="130 m"), displaced="{none: nothing}"))
    assert (value(found, "x_cg", "m") <= 116) == inside
