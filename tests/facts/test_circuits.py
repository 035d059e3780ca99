"""Circuits: segments of a route, the OFF control, and what a job cannot say of them."""

from __future__ import annotations

import pytest

from liftout.assessment import assess
from liftout.facts import Fact, gather
from liftout.facts.stretches import stretches
from liftout.findings import Finding, Verdict
from liftout.job import JobError
from tests.every_nth import every_nth
from tests.job.demonstration import changed
from tests.job.demonstration import of_document as doc

W1 = "wiring / runs / W1"
PIECE = "{{length: {}, ambient: {}, bundle: {}, bundle load: {}{}}}"


def in_pieces(more: dict[str, str | None] | None = None) -> dict[str, str | None]:
    """W1 of the demonstration, 12.5 ft, in two pieces."""
    cabin = PIECE.format(doc("7.5 ft"), doc("40 °C"), doc("6"), doc("10 %"), f", altitude: {doc('8000 ft')}")
    floor = PIECE.format(doc("5 ft"), doc("50 °C"), doc("4"), doc("15 %"), "")
    bare: dict[str, str | None] = {f"{W1} / {key}": None for key in ("length", "ambient", "bundle", "bundle load")}
    return {**bare, f"{W1} / segments": f"{{cabin: {cabin}, floor: {floor}}}", **(more or {})}


def of_w1(changes: dict[str, str | None]) -> dict[str, Finding]:
    """Findings of W1 and its pieces."""
    return {
        f.key: f
        for f in assess(changed(changes), remedies=False).findings
        if f.subject.split(",")[0] == "W1" and f.criterion.startswith("electrical.")
    }


def test_two_pieces_drop_as_the_whole_and_are_assessed_one_by_one() -> None:
    whole, cut = of_w1({}), of_w1(in_pieces())
    assert cut["electrical.voltage_drop | W1"].value == whole["electrical.voltage_drop | W1"].value
    assert {key for key in cut if "conductor_current" in key} == {
        "electrical.conductor_current | W1, cabin",
        "electrical.conductor_current | W1, floor",
    }
    assert {found.verdict for found in cut.values()} <= {Verdict.CONFORMS, Verdict.NOT_APPLICABLE}


def test_what_serves_the_whole_run_is_the_hardest_of_its_pieces() -> None:
    run = gather(changed(in_pieces())).runs[0]
    told = [fact.value.written if isinstance(fact, Fact) else None for fact in (run.ambient, run.bundle, run.bundle_load, run.altitude)]
    assert told == ["50 °C", "6", "15 %", None], "a piece that names no altitude lies as high as the aircraft flies"
    assert [stretch.name for stretch in stretches(run)] == ["W1, cabin", "W1, floor"]


def test_a_piece_too_hot_for_its_insulation_fails_by_itself() -> None:
    cut = of_w1(in_pieces({f"{W1} / segments / floor / ambient": doc("150 °C")}))
    assert cut["electrical.conductor_current | W1, floor"].verdict is Verdict.DOES_NOT_CONFORM
    assert cut["electrical.conductor_current | W1, cabin"].verdict is Verdict.CONFORMS


def test_a_piece_without_its_length_is_not_assessed() -> None:
    cut = of_w1(in_pieces({f"{W1} / segments / floor / length": None}))
    assert cut["electrical.voltage_drop | W1"].verdict is Verdict.NOT_ASSESSED
    assert [need.what for need in cut["electrical.voltage_drop | W1"].missing] == ["measure along the route"]


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        (in_pieces({f"{W1} / length": doc("12.5 ft")}), "length"),
        (in_pieces({f"{W1} / ambient": doc("20 °C")}), "ambient"),
        ({"wiring / off switch / cuts": "[W1, W9]"}, "cuts"),
        ({f"{W1} / conductor / material": "silver"}, "material"),
        ({f"{W1} / segments": f"{{cabin: {{length: {doc('-1 ft')}}}}}", f"{W1} / length": None}, "length"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(changes: dict[str, str | None], word: str) -> None:
    with pytest.raises(JobError) as caught:
        gather(changed(changes))
    assert any(word in " / ".join(fault.path) for fault in caught.value.faults), str(caught.value)


HIDDEN = [
    # what is hidden, changes, criterion
    ("the plating of a wire that coolant reaches", {f"{W1} / coolant joints / drip zone": doc("yes"), f"{W1} / conductor / plating": None}, "silver_near_glycol"),
    ("silver contacts that coolant reaches", {f"{W1} / coolant joints": f"{{drip zone: {doc('yes')}, contact plating: silver}}"}, "silver_near_glycol"),
    ("that nobody tried the OFF control", {"wiring / off switch / measured": None}, "off_switch"),
    ("a breaker that is the OFF control", {"wiring / off switch / kind": "breaker"}, "off_switch"),
    ("a circuit that the OFF control leaves on", {"wiring / off switch / cuts": "[W2]"}, "off_switch"),
    ("a circuit that lives while the starter turns", {f"{W1} / inhibited while cranking": doc("no")}, "cranking_inhibit"),
    ("what kind of current the contactor is for", {f"{W1} / switched / rated for": None}, "switch_rating"),
    ("the rating of a contact, known only by its size", {f"{W1} / contact / rating": None}, "contact_current"),
    ("that the motor's held rotor never opens the breaker", {f"{W1} / protection / opens / current": "400 A"}, "locked_rotor_current"),
    ("a feeder that opens first", {"electrical / buses / main bus / fed through / rating": "30 A"}, "selectivity"),
    ("what the breaker itself loses", {f"{W1} / device resistance": None}, "voltage_drop"),
    ("a cool conductor in hot air", {f"{W1} / conductor temperature": doc("60 °C")}, "conductor_temperature"),
    ("wire of aluminium", {f"{W1} / conductor / material": "aluminium"}, "conductor_material"),
    ("wire of aluminium, by its reason", {f"{W1} / conductor / material": "aluminium", f"{W1} / conductor / aluminium for": "it is light"}, "conductor_material"),
    ("a weak battery", {"electrical / battery / resistance": doc("120 mohm")}, "bus_dip"),
    ("what the item needs to start", {"equipment / cabin unit / electrical / lowest at start": None}, "voltage_at_start"),
    ("whether the item draws more at a low voltage", {"equipment / cabin unit / electrical / keeps": None}, "current_at_lowest_voltage"),
    ("a torque that is only how tight the nut was", {f"{W1} / studs / named / bus stud / torque": "{value: 35 lbf-in, measured: {by: R. Voe, date: 2026-11-05, instrument: T}}"}, "stud_torque"),
]  # fmt: skip


@pytest.mark.parametrize(("what", "changes", "criterion"), every_nth(HIDDEN, 3), ids=[what for what, _, _ in HIDDEN])
def test_what_is_hidden_does_not_pass(what: str, changes: dict[str, str | None], criterion: str) -> None:
    assert of_w1(changes)[f"electrical.{criterion} | W1"].verdict not in (Verdict.CONFORMS, Verdict.NOT_APPLICABLE), what
