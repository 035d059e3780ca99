"""A tolerance told in a job never makes a verdict better, and nothing conforms past one that it does not carry."""

from __future__ import annotations

import os
import random
from decimal import Decimal

import pytest

from liftout.assessment import RANK, assess
from liftout.facts import Fact
from liftout.findings import Finding, Referral, Verdict
from liftout.job import validated
from liftout.quantities import Quantity, of, rounded
from liftout.within_tolerance import within_tolerance
from liftout.worksheet import Worksheet
from tests.assessment.monotonicity import before
from tests.assessment.optimism import SHARES, leaks, places, size, tried, with_tolerance
from tests.assessment.other_units import quantities
from tests.criteria.bench import case_files
from tests.demonstrations import JOBS
from tests.every_nth import every_nth

JOB = "halden_4_cooler"
EVERY_TEST = "EVERY_TEST" in os.environ


def within(path: str, tolerance: str, *criteria: str) -> dict[str, Finding]:
    """The findings of some criteria where one value of the demonstration job is told with a tolerance."""
    job, _ = quantities(JOB)
    said = with_tolerance(job, tuple(path.split(" / ")), tolerance)
    found = assess(validated(said, job.file), remedies=False).findings
    return {finding.key: finding for finding in found if finding.criterion in criteria}


@pytest.mark.parametrize(
    ("path", "tolerance", "criterion"),
    [
        ("restraint / cabin unit / straps / S4 / anchored / arm", "2 in", "structure.strap_restraint"),
        ("wiring / runs / W1 / ambient", "5 Δ°C", "electrical.conductor_temperature"),
        ("equipment / cabin unit / mass dry", "3 lb", "structure.floor_load"),
        ("aircraft / limits / aft / 1 / arm", "0.5 in", "balance.adverse_loading"),
        ("aircraft / stations / baggage / maximum", "1 lb", "balance.named_loading"),
        ("wiring / runs / W2 / length", "2 ft", "electrical.voltage_drop"),
    ],
)
def test_a_tolerance_improves_nothing_and_is_seen(path: str, tolerance: str, criterion: str) -> None:
    old, new = before(JOB), within(path, tolerance, criterion)
    assert new
    assert [key for key, finding in new.items() if RANK[finding.verdict] < RANK[old[key].verdict]] == []
    seen = [key for key, finding in new.items() if finding.tolerance != old[key].tolerance or finding.verdict is not old[key].verdict]
    assert seen


def test_a_loading_on_the_limit_of_its_compartment_is_no_loading_within_it_where_that_limit_is_known_no_closer() -> None:
    """120 lb in a compartment of 120 lb, known within a pound: the nearest limit is not that of the centre of gravity."""
    found = [finding for key, finding in within("aircraft / stations / baggage / maximum", "1 lb", "balance.named_loading").items() if finding.case]
    assert found
    assert all(finding.verdict is Verdict.REFER and finding.without_tolerance for finding in found)


ARM, MASS = ("restraint", "cabin unit", "straps", "S4", "anchored", "arm"), ("equipment", "cabin unit", "mass dry")


def test_what_a_search_reads_takes_what_the_job_loses_at_the_worse_end() -> None:
    """A strap's anchor known within 2 in and the item's mass within 0.1 lb: the job as it would be at each of the four ends, one by one."""
    job, _ = quantities(JOB)
    told = within(" / ".join(ARM), "2 in", "structure.strap_restraint")
    lost: dict[str, Decimal] = {}
    for path, by in ((ARM, "2 in"), (MASS, "0.1 lb")):
        held = job.said.at(path)
        number, unit = str(held.value if isinstance(held.value, str) else held.at(("value",)).value).split()
        worst: dict[str, Decimal] = {}
        for sign in (-1, 1):
            end = f"{Decimal(number) + sign * Decimal(by.split()[0])} {unit}"
            there = validated(job.said.changed(path if isinstance(held.value, str) else (*path, "value"), end), job.file)
            for finding in assess(there, remedies=False).findings:
                if finding.key in told and finding.value is not None and before(JOB)[finding.key].value is not None:
                    less = before(JOB)[finding.key].value.si - finding.value.si  # type: ignore[union-attr]
                    worst[finding.key] = max(worst.get(finding.key, Decimal(0)), less)
        lost = {key: lost.get(key, Decimal(0)) + less for key, less in worst.items()}
    compared = [(finding, lost[key]) for key, finding in told.items() if finding.subject.startswith("cabin unit") and key in lost]
    assert len(compared) >= 4
    assert [Decimal(finding.tolerance) for finding, _ in compared] == [rounded(less, 3) for _, less in compared]


def test_a_search_that_fails_at_an_end_asks() -> None:
    """The anchor of a strap known only within 40 in: at one end the cabin unit is held too little, or not at all."""
    found = [f for f in within(" / ".join(ARM), "40 in", "structure.strap_restraint").values() if f.subject.startswith("cabin unit")]
    asked = [finding for finding in found if finding.without_tolerance]
    assert asked
    assert all(finding.verdict is Verdict.REFER and finding.referral is not None and "within 40 in" in finding.referral.facts for finding in asked)
    assert all(
        finding.referral and "with 116 in at job.yaml:1, restraint / cabin unit / straps / S4" in finding.referral.question for finding in asked
    )


@pytest.mark.parametrize("job", JOBS if EVERY_TEST else JOBS[:1])
def test_no_finding_conforms_with_a_tolerance_and_fails_at_an_end_of_it(job: str) -> None:
    """Of all places where one may be told, some by chance; `python -m tests.benchmarks.optimism` tries every one."""
    chance = random.Random(job)
    every, done = list(places(job)), 0
    while done < (60 if EVERY_TEST else 2):
        found = tried(job, path := chance.choice(every), chance.choice(SHARES))
        if found is not None:
            assert found.too_good == [], path
            done += 1


ONCE_BETTER = [
    # A point of a generator's output that is no longer hot enough, so that less is left at the next one.
    ("halden_4_cooler", "electrical / sources / alternator / output / 1 / temperature", "0.02"),
    # A corner of a limit that the worst loading hardly touches, and another loading wholly.
    ("halden_4_cooler", "aircraft / limits / aft / 1 / arm", "0.15"),
    # A limit that may be exceeded stood before one that was.
    ("tessel_2_cooler", "aircraft / combined limits / behind the seats / maximum", "0.4"),
    # A load straight over a single fastener, and beside it; another criterion had taken the shear before the eccentricity was looked at.
    ("halden_4_survey", "structure / mountings / feeder and clamps / brackets / tie mount / centre / arm", "0.4"),
    # A corner of a route that makes it shorter one way, and much longer the other.
    ("orrin_6p_cooler", "wiring / runs / W2 / route / points / 2 / arm", "0.4"),
]


@pytest.mark.parametrize(("job", "path", "share"), every_nth(ONCE_BETTER, 2))
def test_what_once_came_out_better_with_a_tolerance_does_no_longer(job: str, path: str, share: str) -> None:
    found = tried(job, tuple(path.split(" / ")), Decimal(share))
    assert found is not None
    assert found.too_good == []


@pytest.mark.parametrize(
    ("name", "path"),
    [
        ("halden_4_cooler", "condensate / tubes / cabin unit / wettest air / temperature"),  # a law much steeper than the lines beside it
        ("halden_4_survey", "equipment / feeder and clamps / mass dry"),  # near the main wheels; what it leaves for baggage is not
    ],
)
def test_what_once_took_more_than_was_told_of_it_does_no_longer(name: str, path: str) -> None:
    """Whatever is left: a search that goes farther with a fact than the lines do, by more than they are trusted for."""
    where = tuple(path.split(" / "))
    assert leaks(quantities(name)[0], where, size(name, where) * SHARES[0]) == []


def test_one_value_that_rests_on_others_here_and_there_is_one_value() -> None:
    """The rating of a strap is the weaker of strap and anchor, so it stands in some findings with the evidence of both."""
    found = tried(JOB, ("restraint", "cabin unit", "straps", "S1", "rating"), Decimal("0.02"))
    assert found is not None
    assert found.too_good == []


def test_what_at_an_end_fails_and_is_only_put_to_a_person_does_not_conform_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """As with one strap missing, where what is not held is yet asked about: the value conforms as it is told, and at neither end."""
    weighed = Fact(of("10", "lb"), "job.yaml:1", "measured by A", ("a",), of("1", "lb"))
    question = Referral("May it?", "", "a person", "a decision")

    def compared(weight: Fact[Quantity]) -> Finding:
        sheet = Worksheet()
        sheet.given("w", weight, "weight")
        sheet.rests_on(weighed)
        return sheet.at_most("w", Fact(of("10.5", "lb"), "job.yaml:2", "measured by A", ("b",)), allow=question).named("a", "b", "", "", "")

    heavy = compared(Fact(of("11", "lb"), "job.yaml:1", "measured by A", ("a",)))
    assert (heavy.verdict, heavy.loose) == (Verdict.REFER, None)
    monkeypatch.setattr("liftout.within_tolerance._at_end", lambda *_: {heavy.key: heavy})
    (found,) = within_tolerance(quantities(JOB)[0], [compared(weighed)])
    assert (found.verdict, found.without_tolerance) == (Verdict.REFER, True)
    assert found.referral is not None
    assert "with 9 lb at job.yaml:1, a: 11 lb against at most 10.5 lb" in found.referral.question


def test_where_another_space_is_the_nearest_at_an_end_of_the_mass_the_item_is_moved_there() -> None:
    """The box of the criterion's cases, with a door 0.677 - 0.65 - 0.01 = 0.017 m above it. Of 10 kg it goes 0.02206 m forward, to 0.01794 m from the
    heads: the door is nearer, and nothing of that hangs on the mass. Of 19 kg it goes 0.0419 m, and into them."""
    (case,) = [file for file in case_files() if file.criterion == "structure.swept_space"]
    door = "{front: 1.7 m, rear: 2.3 m, left: -0.5 m, right: 0.5 m, bottom: 0.677 m, top: 1 m, datum: firewall}"
    found = {}
    for tolerance in ("0.1 kg", "9 kg"):
        mass = f"{{value: 10 kg, tolerance: {tolerance}, measured: {{by: A. Skerry, date: 2026-10-20, instrument: scale 4}}}}"
        job = case.job({"equipment / box / mass dry": mass, "aircraft / keep clear / volumes / door / box": door})
        (found[tolerance],) = [
            one for one in assess(job, remedies=False).findings if (one.criterion, one.subject) == ("structure.swept_space", "box, forward")
        ]
    assert all(dict(one.case)["nearest"] == "door, exit opening" for one in found.values())
    assert [one.verdict for one in found.values()] == [Verdict.CONFORMS, Verdict.REFER]
    assert found["9 kg"].referral is not None
    assert "with 19 kg at" in found["9 kg"].referral.question
