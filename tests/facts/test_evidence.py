"""What a value rests on, and what a conclusion rests on."""

from __future__ import annotations

import pytest

from liftout.assessment import assess
from liftout.facts import gather
from liftout.facts.fact import CHOSEN, STATED, Fact, Missing
from liftout.findings import Finding, Verdict
from liftout.job import JobError
from tests.job.demonstration import changed, demonstration, demonstration_assessed

LENGTH = "wiring / runs / W1 / length"


def evidence(text: str, more: dict[str, str | None] | None = None) -> str:
    facts = gather(changed({LENGTH: text, **(more or {})}))
    found = next(run for run in facts.runs if run.name == "W1").length
    assert isinstance(found, Fact)
    return found.evidence


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("12 ft", STATED),
        ("{value: 12 ft}", STATED),
        ("{value: 12 ft, tolerance: 1 in}", STATED),
        ("{value: 12 ft, nameplate: the tag}", "nameplate: the tag"),
        ("{value: 12 ft, document: {number: D-1}}", "D-1"),
        ('{value: 12 ft, document: {number: D-1, revision: B, page: "7"}}', "D-1, revision B, page 7"),
        ("{value: 12 ft, measured: {by: X, date: 2026-03-01, instrument: tape}}", "measured by X, 2026-03-01, tape"),
        (
            "{value: 12 ft, measured: {by: X, date: 2026-03-01, instrument: tape, calibration due: 2026-03-01}}",
            "measured by X, 2026-03-01, tape, calibration due 2026-03-01",
        ),
    ],
)
def test_evidence_in_one_line(text: str, said: str) -> None:
    assert evidence(text) == said


@pytest.mark.parametrize(
    "text",
    [
        "{value: 12 ft, measured: {by: X, date: 2026-03-01, instrument: tape, calibration due: 2026-02-28}}",
        "{value: 12 ft, measured: {by: X, instrument: tape}}",
        "{value: 12 ft, measured: {by: X, date: 2026-03-01}}",
        "{value: 12 ft, document: {revision: A}}",
        "{value: 12 ft, document: {number: ''}}",
        "{value: 12 ft, nameplate: ''}",
        "{value: 12 ft, nameplate: plate, document: {number: D}}",
        "{document: {number: D}}",
    ],
)
def test_half_evidence_is_none(text: str) -> None:
    with pytest.raises(JobError):
        evidence(text)


def test_what_is_said_for_a_part_holds_for_the_bare_values_in_it() -> None:
    ground: dict[str, str | None] = {"wiring / document": "{number: W-1}"}
    assert evidence("12 ft", ground) == "W-1"
    assert evidence("{value: 12 ft, nameplate: tag}", ground) == "nameplate: tag"
    nearer: dict[str, str | None] = {**ground, "wiring / runs / W1 / document": "{number: W-2}"}
    assert evidence("12 ft", nearer) == "W-2"


def test_merely_stated_is_said_against_what_holds_for_the_part() -> None:
    assert evidence("{value: 12 ft, stated: merely}", {"wiring / document": "{number: W-1}"}) == STATED


def test_a_value_knows_its_line() -> None:
    facts = gather(demonstration())
    found = next(item for item in facts.items if item.name == "cabin unit").mass_dry
    assert isinstance(found, Fact)
    assert found.origin.startswith("equipment/cabin_cooler.yaml:")
    assert found.path == ("equipment", "cabin unit", "mass dry")


def test_what_is_missing_says_what_to_measure_and_where_to_write_it() -> None:
    facts = gather(changed({"equipment / cabin unit / mass dry": None}))
    found = next(item for item in facts.items if item.name == "cabin unit").mass_dry
    assert isinstance(found, Missing)
    assert found.what == "weigh the item dry on a calibrated scale"
    assert found.where.startswith("equipment / cabin unit / mass dry, below job.yaml:")


def test_a_blank_value_is_missing_and_not_a_fault() -> None:
    """A form half filled in is the usual state of a job."""
    for blank in ("", "~", "null"):
        found = gather(changed({"equipment / cabin unit / mass dry": blank})).items[0].mass_dry
        assert isinstance(found, Missing), blank


# --- what the shop may choose, and what it must show ------------------------------------------------------------------------------

CHOSEN_BY_THE_SHOP = ("duty", "gauge")


def test_what_the_shop_chooses_is_not_asked_for_evidence() -> None:
    run = gather(changed({"wiring / document": None} if "document" in dict(demonstration().said.at(("wiring",)).children()) else {})).runs[0]
    assert [getattr(run, name).evidence for name in CHOSEN_BY_THE_SHOP] == [CHOSEN, CHOSEN]


def _without_evidence(path: str) -> list[Finding]:
    """Findings that no longer conform when the ground of a word is taken away."""
    after = {finding.key: finding for finding in assess(changed({path: None}), remedies=False).findings}
    return [finding for key, finding in after.items() if finding.verdict is Verdict.REFER]


def test_a_claim_about_the_aircraft_is_no_choice_of_the_shop() -> None:
    """Which rules hold, how the crew sees an overload, what a tag says: facts of the world, whatever form they are written in."""
    facts = gather(changed({"aircraft / certification basis / document": None}))
    basis = facts.aircraft.basis
    assert [word.evidence for word in (basis.regulation, basis.amendment, basis.category)] == [STATED] * 3  # type: ignore[union-attr]
    source = gather(demonstration()).sources[0].monitoring
    assert isinstance(source, Fact)
    assert source.evidence != CHOSEN
    strap = gather(demonstration()).restraints[0].straps[0]
    assert isinstance(strap.rating_is, Fact)
    assert strap.rating_is.evidence != CHOSEN
    assert any("strap_restraint" in finding.criterion for finding in _without_evidence("aircraft / certification basis / document"))


# --- from facts to findings ----------------------------------------------------------------------------------------------------------


def test_two_values_of_the_demonstration_are_merely_stated_on_purpose() -> None:
    """Whatever needs one of them is referred; whatever else is referred rests on rows that were not read in their source."""
    bare = {
        finding.key
        for finding in demonstration_assessed().findings
        if finding.verdict is not Verdict.NOT_APPLICABLE and STATED in dict(finding.evidence).values()
    }
    of_w2 = {
        f"electrical.{name} | W2" for name in ("current_at_lowest_voltage", "ground_voltage", "voltage_at_load", "voltage_at_start", "voltage_drop")
    }
    assert bare == of_w2 | {"structure.floor_load | tail unit"}
    # How an item is held with a strap missing waits for a person whatever its values rest on.
    without_a_strap = {f"structure.one_strap_missing | {item}" for item in ("cabin unit", "tail unit")}
    referred = {f.key for f in demonstration_assessed().findings if f.verdict is Verdict.REFER and not f.to_confirm}
    assert referred == bare | without_a_strap


@pytest.mark.parametrize(
    ("path", "value", "criterion"),
    [
        ("wiring / runs / W1 / current", "32 A", "electrical.voltage_drop"),
        ("wiring / runs / W1 / contact resistance", "0.5 mohm", "electrical.voltage_drop"),
        ("equipment / cabin unit / mass dry", "28.5 lb", "balance.useful_load"),
        ("equipment / cabin unit / mass dry", "28.5 lb", "structure.strap_restraint"),
        ("equipment / cabin unit / mass dry", "28.5 lb", "structure.floor_load"),
        ("equipment / cabin unit / position / arm", "{value: 94.0 in, stated: merely}", "balance.adverse_loading"),
        ("aircraft / floors / baggage floor / limit", "40 lb/ft^2", "structure.floor_load"),
        ("aircraft / limits / maximum takeoff", "3100 lb", "balance.useful_load"),
        ("electrical / loads / avionics / current", "{value: 14.5 A, stated: merely}", "electrical.generator_load"),
        ("electrical / battery / recharge", "{value: 3 A, stated: merely}", "electrical.generator_load"),
        ("lines / loops / coolant loop / coolant / fraction", "{value: 50 %, stated: merely}", "fluids.coolant_flow"),
        ("lines / loops / coolant loop / segments / out / inside diameter", "10 mm", "fluids.coolant_flow"),
        ("lines / loops / coolant loop / segments / out / length", "62 in", "balance.useful_load"),
        ("restraint / cabin unit / straps / S1 / rating", "{value: 1500 lbf, stated: merely}", "structure.strap_restraint"),
        ("restraint / cabin unit / straps / S1 / anchored / arm", "{value: 112 in, stated: merely}", "structure.strap_restraint"),
        ("removal / cabin unit / time", "{value: 8 min, stated: merely}", "removability.removal_steps"),
    ],
)
def test_a_value_merely_stated_makes_every_finding_that_rests_on_it_a_question(path: str, value: str, criterion: str) -> None:
    found = [finding for finding in assess(changed({path: value}), remedies=False).findings if finding.criterion == criterion]
    asked = [finding for finding in found if finding.verdict is Verdict.REFER]
    assert asked, [finding.sentence for finding in found]
    assert all(finding.referral is not None and "merely stated" in finding.referral.question for finding in asked)
    assert all(STATED in [said for _, said in finding.evidence] for finding in asked)
