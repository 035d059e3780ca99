"""A record that was made with equipment of the job aboard: weighed after paint, the unit in its place and its loop filled."""

from __future__ import annotations

import itertools
from decimal import Decimal
from pathlib import Path

import pytest

from liftout.assessment import applied
from liftout.criteria import all_criteria
from liftout.facts import Facts, gather
from liftout.facts.states import Filled
from liftout.findings import Verdict
from liftout.job import JobError
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.empty_weight_tolerance import empty_weight_tolerance
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Result
from tests.job.demonstration import changed, demonstration
from tests.worked.bench import HEAD, facts

# An invented light aeroplane of 1500 lb and 42600 lb-in; a unit of 25 lb at 85 in and its tray of 6 lb at 80 in. It came back from
# the paint shop 31 lb heavier: 1531 lb, 42600 + 2125 + 480 = 45205 lb-in = 400 x -5.7425 + 1131 x 42 lb-in.
JOB = (
    HEAD
    + """\
  datums: {firewall: {where: front face}}
  weight record:
    - title: weighed after paint
      date: 2020-01-01
      datum: firewall
      oil: in
      document: {number: WR-9}
      weight: 1531.0 lb
      moment: 45205.0 lb-in
      INCLUDES
      weighing:
        scales: {instrument: F-2, accuracy: 1 lb, calibration due: 2020-12-31}
        points: {nose: {scale: 401.0 lb, tare: 1.0 lb, arm: -5.7425 in}, left: {scale: 565.5 lb, tare: 0 lb, arm: 42.0 in}, right: {scale: 565.5 lb, tare: 0 lb, arm: 42.0 in}}
equipment:
  tray: {description: tray, stays: provision, mass dry: {value: 6 lb, tolerance: 0.1 lb}, position: {arm: 80 in, datum: firewall}}
  unit: {description: unit, stays: removable, mass dry: {value: 25 lb, tolerance: 0.2 lb}, position: {arm: 85 in, datum: firewall}}
lines: {none: no liquid in it}
"""
)


def figures(found: Facts, state: str) -> tuple[Decimal, Decimal]:
    """Weight and moment of a state."""
    sheet = amended_empty_weight(next(one for one in found.states if one.name == state), found)
    steps = {step.symbol: step.quantity for step in sheet.steps}
    weight, moment = steps["W"], steps["M"]
    assert weight is not None
    assert moment is not None
    return weight.to("lb"), moment.to("lb-in")


def test_what_the_record_includes_is_taken_out_again_and_not_added_twice(tmp_path: Path) -> None:
    found = facts(tmp_path, JOB.replace("INCLUDES", "includes: [unit, tray]"))
    assert figures(found, "before any change") == (1500, 42600)
    assert figures(found, "provisions only") == (1506, 43080)
    assert figures(found, "in") == (1531, 45205)
    follows = next(one for one in all_criteria() if one.id == "balance.weight_record")
    assert [finding.verdict for finding in applied(follows, found)] == [Verdict.CONFORMS]


def test_a_record_without_the_word_counts_nothing_in(tmp_path: Path) -> None:
    found = facts(tmp_path, JOB.replace("      INCLUDES\n", ""))
    assert figures(found, "before any change") == (1531, 45205)
    assert figures(found, "in") == (1562, 47810)


def test_what_was_taken_out_carries_its_tolerance(tmp_path: Path) -> None:
    """Three scales of 1 lb; before any change both items were taken out, 0.1 and 0.2 lb; with both in nothing was."""
    found = facts(tmp_path, JOB.replace("INCLUDES", "includes: [unit, tray]"))
    off = [empty_weight_tolerance(state, found) for state in found.states]
    told = [next(step.quantity.to("lb") for step in sheet.steps if step.symbol == "t_W" and step.quantity) for sheet in off]
    assert told == [Decimal("3.3"), Decimal("3.2"), Decimal(3)]


def test_a_later_sheet_keeps_what_an_earlier_one_includes_until_it_takes_it_out(tmp_path: Path) -> None:
    """A radio of 4 lb at 20 in comes in, 1535 lb; then the unit is taken out of the record, 1510 lb."""
    radio = "    - {title: radio, date: 2021-01-01, datum: firewall, oil: in, weight: 1535.0 lb, moment: 45285.0 lb-in, changes: [{what: radio, weight: 4 lb, arm: 20 in}]}\n"
    out = "    - {title: unit out, date: 2022-01-01, datum: firewall, oil: in, weight: 1510.0 lb, moment: 43160.0 lb-in, without: [unit], changes: [{what: unit, weight: -25 lb, arm: 85 in}]}\n"
    text = JOB.replace("INCLUDES", "includes: [unit, tray]")
    first = facts(tmp_path, text.replace("equipment:\n", f"{radio}equipment:\n"))
    second = facts(tmp_path, text.replace("equipment:\n", f"{radio}{out}equipment:\n"))
    for found in (first, second):
        assert figures(found, "before any change") == (1504, 42680)
        assert figures(found, "in") == (1535, 45285)
    assert second.aircraft.record.includes == ("tray",)
    again = "    - {title: weighing, date: 2023-01-01, datum: firewall, oil: in, weight: 1500 lb, moment: 42600 lb-in, weighing: {as weighed: {weight: 1500 lb, moment: 42600 lb-in}}}\n"
    third = facts(tmp_path, text.replace("equipment:\n", f"{radio}{again}equipment:\n"))
    assert third.aircraft.record.includes == ()  # a new weighing says itself what stood on the scales
    assert figures(third, "in") == (1531, 45205)


@pytest.mark.parametrize(
    ("told", "word"),
    [("includes: [unt]", 'no "unt"'), ("includes filled: [loop]", 'no "loop"'), ("without: [unit]", "no sheet before it includes")],
)
def test_what_is_not_there_is_refused(tmp_path: Path, told: str, word: str) -> None:
    with pytest.raises(JobError) as caught:
        facts(tmp_path, JOB.replace("INCLUDES", told))
    assert word in str(caught.value)


def test_a_part_that_was_already_out_when_weighed_is_not_taken_out_again(tmp_path: Path) -> None:
    """A locker of 10 lb at 60 in was out on the scales: before any change it is back, 1500 + 10 lb and 42600 + 600 lb-in."""
    text = JOB.replace("INCLUDES", "includes: [unit, tray, locker]")
    text += "displaced: {parts: {locker: {what: locker, is: taken out, to: store, mass: 10 lb, arm: 60 in, datum: firewall}}}\n"
    found = facts(tmp_path, text)
    assert figures(found, "before any change") == (1510, 43200)
    assert figures(found, "in") == (1531, 45205)


def test_a_part_that_was_already_moved_when_weighed_is_moved_back_before_any_change(tmp_path: Path) -> None:
    """10 lb from 60 to 90 in: 300 lb-in less before any change."""
    text = JOB.replace("INCLUDES", "includes: [unit, tray, battery]")
    text += "displaced: {parts: {battery: {what: battery, is: moved, to: aft, mass: 10 lb, arm: 60 in, new arm: 90 in, datum: firewall}}}\n"
    found = facts(tmp_path, text)
    assert figures(found, "before any change") == (1500, 42300)
    assert figures(found, "in") == (1531, 45205)


def test_the_demonstration_weighed_after_paint_with_its_loop_filled_is_the_same_aircraft() -> None:
    """The record in force as it would be with everything in and filled: every state has the figures that it had."""
    plain = gather(demonstration())
    full = next(state for state in plain.states if state.name == "in and filled")
    weight, moment = figures(plain, full.name)
    names = ", ".join(item.name for item in full.items)
    sheet = f"{{title: weighed after paint, date: 2026-09-01, document: {{number: D-1}}, datum: firewall, oil: in, weight: {weight:.12f} lb, moment: {moment:.9f} lb-in, includes: [{names}], includes filled: [coolant loop], weighing: {{as weighed: {{weight: {weight:.12f} lb, moment: {moment:.9f} lb-in}}}}}}"
    weighed = gather(changed({"aircraft / weight record / 3": sheet}))
    for state in plain.states:
        before, after = figures(plain, state.name), figures(weighed, state.name)
        assert all(abs(one - other) < Decimal("1e-6") for one, other in zip(before, after, strict=True)), state.name
    drained = gather(changed({"aircraft / weight record / 3": sheet.replace("includes filled: [coolant loop], ", "")}))
    fill = liquid_fill(Filled(plain.loops[0], full), plain).value("m")
    assert abs(figures(drained, "in and filled")[0] - weight - fill.quantity.to("lb")) < Decimal("1e-6")  # type: ignore[union-attr]


ITEMS = ("cabin unit", "tail unit", "lines and feeders")


@pytest.mark.parametrize("aboard", [some for size in range(4) for some in itertools.combinations(ITEMS, size)], ids=", ".join)
def test_whatever_was_aboard_the_states_are_the_same(aboard: tuple[str, ...]) -> None:
    plain = gather(demonstration())
    items = [item for item in plain.items if item.name in aboard]
    with_them = [(item.mass_dry.value.to("lb"), item.arm.value.to("in")) for item in items]  # type: ignore[union-attr]
    weight = Decimal("2014.6") + sum(mass for mass, _ in with_them)
    moment = Decimal("76489.8") + sum(mass * arm for mass, arm in with_them)
    sheet = f"{{title: weighed, date: 2026-09-01, document: {{number: D-1}}, datum: firewall, oil: in, weight: {weight} lb, moment: {moment} lb-in, includes: [{', '.join(aboard)}], weighing: {{as weighed: {{weight: {weight} lb, moment: {moment} lb-in}}}}}}"
    weighed = gather(changed({"aircraft / weight record / 3": sheet}))
    for state in plain.states:
        assert figures(weighed, state.name) == pytest.approx(figures(plain, state.name), abs=Decimal("1e-20"))


def test_an_item_that_a_row_names_is_asked_about_unless_the_sheet_includes_it(tmp_path: Path) -> None:
    criterion = next(one for one in all_criteria() if one.id == "balance.counted_once")
    row = "    - {title: later, date: 2021-01-01, datum: firewall, oil: in, weight: 1556 lb, moment: 47330 lb-in, WORDchanges: [{what: unit installed, weight: 25 lb, arm: 85 in}]}\nequipment:\n"
    text = JOB.replace("      INCLUDES\n", "").replace("equipment:\n", row)
    verdicts = {found.subject: found.verdict for found in applied(criterion, facts(tmp_path, text.replace("WORD", "")))}
    assert verdicts == {"tray": Verdict.CONFORMS, "unit": Verdict.REFER}
    verdicts = {found.subject: found.verdict for found in applied(criterion, facts(tmp_path, text.replace("WORD", "includes: [unit], ")))}
    assert set(verdicts.values()) == {Verdict.CONFORMS}


def test_what_the_scales_may_be_off_by_is_carried_to_every_margin(tmp_path: Path) -> None:
    """Three scales off by 1 lb each, the tray by 0.1 lb and the unit by 0.2 lb: with both in, after a weighing without them, 3.3 lb.

    The arm goes with each scale by its distance from the centre of gravity: one pound at 42 in more, or at 5.7425 in ahead of the datum.
    """
    limits = "limits: {maximum takeoff: 2500 lb, datum: firewall, forward: [{weight: 2500 lb, arm: 20 in}], aft: [{weight: 2500 lb, arm: 35 in}]}"
    seats = 'stations: {pilot: {holds: pilot, arm: 30 in, datum: firewall, seats: "1", least: 120 lb, maximum: 250 lb}}'
    text = JOB.replace("INCLUDES", "").replace("equipment:", f"  engine power: 100 hp\n  {seats}\n  {limits}\nequipment:")
    found = facts(tmp_path, text)
    (useful,) = (one for one in all_criteria() if one.id == "balance.useful_load")
    tolerances = {finding.state: finding.tolerance for finding in applied(useful, found)}
    assert tolerances["before any change"] == "3.00 lb"
    assert tolerances["in"] == "3.30 lb"
    before = amended_empty_weight(found.states[0], found).value("x_cg")
    assert isinstance(before, Result)
    moved = sorted(float(by) / 0.0254 for _, (by, _) in before.moved)
    assert moved == pytest.approx([(45205 - 5.7425) / 1532 - 45205 / 1531, *[(45205 + 42) / 1532 - 45205 / 1531] * 2], rel=1e-9)
