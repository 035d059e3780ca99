"""Every criterion on every subject: nothing silent, nothing twice, a broken tool is not a finding."""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from liftout import assessment as room
from liftout.assessment import Broken, assess
from liftout.criteria import Criterion, all_criteria
from liftout.facts import gather
from liftout.findings import Change, Finding, Referral, Verdict
from liftout.job import JobError, load
from liftout.resources import folder
from liftout.worksheet import Worksheet
from tests.criteria.bench import CaseFile, case_files
from tests.job.demonstration import changed, demonstration, demonstration_assessed, of_document
from tests.worksheet.sources import chosen

CRITERIA = {criterion.id: criterion for criterion in all_criteria()}
BENCHES = {file.criterion: file for file in case_files()}


def instead(name: str, function: Callable[[Any, Any], Finding]) -> Criterion:
    """A criterion under the name and with the words of a real one, with another function."""
    real = CRITERIA[name]
    return replace(real, function=functools.wraps(real.function)(function))


@pytest.fixture
def only(monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    """Lets only some criteria be applied."""

    def set_to(*criteria: Criterion) -> None:
        monkeypatch.setattr(room, "all_criteria", lambda: criteria)

    return set_to


# --- the demonstration ----------------------------------------------------------------------------------------------------


def test_every_finding_has_its_own_key_its_title_and_its_requirement() -> None:
    findings = demonstration_assessed().findings
    keys = [finding.key for finding in findings]
    assert len(set(keys)) == len(keys)
    for finding in findings:
        assert finding.title
        assert finding.requires
        assert finding.subject
        assert finding.criterion in CRITERIA


def test_every_criterion_is_applied() -> None:
    """Each of them finds something to say of one of the demonstration jobs, but for what none of these aircraft has."""
    said = {finding.criterion for path in folder("jobs").glob("*/job.yaml") for finding in assess(load(path), remedies=False).findings}
    without = {
        "balance.ballast_load": "no ballast is carried",
        "electrical.one_source_left": "each has a single generator",
        "structure.belted_seat": "nothing is belted on a seat",
    }
    assert said | set(without) == set(CRITERIA)
    assert not said & set(without)


def test_counts_are_of_all_verdicts_and_add_up() -> None:
    assessed = demonstration_assessed()
    assert set(assessed.counts) == {str(verdict) for verdict in Verdict}
    assert sum(assessed.counts.values()) == len(assessed.findings)
    assert list(assessed.open) == [finding for finding in assessed.findings if finding.open]


def test_assessing_twice_finds_the_same() -> None:
    again = assess(demonstration())
    assert [(f.key, f.sentence, f.sources, f.evidence) for f in again.findings] == [
        (f.key, f.sentence, f.sources, f.evidence) for f in demonstration_assessed().findings
    ]
    assert [tuple(f.steps) for f in again.findings] == [tuple(f.steps) for f in demonstration_assessed().findings]


def test_the_order_of_the_job_file_changes_no_verdict() -> None:
    job = demonstration()
    turned = replace(job.said, value=_turned(job.said.value))
    from liftout.job import validated

    found = {finding.key: finding.verdict for finding in assess(validated(turned, job.file), remedies=False).findings}
    assert found == {finding.key: finding.verdict for finding in demonstration_assessed().findings}


def _turned(value: Any) -> Any:
    """Mappings of named parts in the opposite order (datums keep theirs: the first is the maker's)."""
    if not isinstance(value, dict):
        return value
    keys = list(value)
    return {key: value[key] if key == "datums" else replace(value[key], value=_turned(value[key].value)) for key in reversed(keys)}


def test_every_number_of_a_conclusion_says_where_it_comes_from() -> None:
    for finding in demonstration_assessed().findings:
        for step in finding.steps:
            for row in step.rows:
                assert row.origin, f"{finding.key}: {step.symbol}"


# --- silence never passes -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("section", ["electrical", "wiring", "lines", "openings"])
def test_a_section_of_which_the_job_says_nothing_is_not_assessed(section: str) -> None:
    away: dict[str, str | None] = {section: None}
    if section == "electrical":
        away["wiring"] = None
    if section == "wiring":
        away["electrical / shed"] = None  # it names what the circuits feed
    if section == "lines":
        away |= {f"equipment / {name} / holds liquid": None for name in ("cabin unit", "tail unit")}
    declined = {finding.key for finding in demonstration_assessed().findings if finding.subject == "the whole fit"}
    found = [f for f in assess(changed(away), remedies=False).findings if f.subject == "the whole fit" and f.key not in declined]
    assert found
    assert all(finding.verdict is Verdict.NOT_ASSESSED for finding in found)
    assert any(section in need.where for finding in found for need in finding.missing)


def test_a_declined_section_is_not_applicable_with_its_reason() -> None:
    found = [
        finding
        for finding in assess(changed({"openings": "{none: the skin stays whole}"}), remedies=False).findings
        if finding.criterion == "completeness.blanks"
    ]
    assert [(finding.verdict, finding.reason) for finding in found] == [(Verdict.NOT_APPLICABLE, "the skin stays whole")]
    assert "because the skin stays whole" in found[0].sentence


@pytest.mark.parametrize("reason", ['""', '" "', "~"])
def test_declining_takes_a_reason(reason: str) -> None:
    """An empty reason would be printed as a reason for the inspector to initial."""
    try:
        job = changed({"openings": f"{{none: {reason}}}"})
    except JobError as error:
        assert "none" in str(error)  # noqa: PT017 - either outcome is right, and each has its own test
        return
    assert all(
        finding.verdict is not Verdict.NOT_APPLICABLE
        for finding in assess(job, remedies=False).findings
        if finding.criterion == "completeness.blanks"
    )


def test_declining_beside_saying_is_a_contradiction() -> None:
    with pytest.raises(JobError, match="none"):
        changed({"equipment / cabin unit / standing / none": "it stands"})


# --- a broken tool ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("broken", [ZeroDivisionError("nothing"), AssertionError(), KeyError("x"), RuntimeError("boom")])
def test_a_criterion_that_breaks_is_no_finding(broken: Exception, only: Callable[..., None]) -> None:
    def breaks(subject: Any, facts: Any) -> Finding:
        raise broken

    only(CRITERIA["completeness.runs"], instead("completeness.blanks", breaks))
    with pytest.raises(Broken) as caught:
        assess(demonstration())
    assert caught.value.criterion == "completeness.blanks"
    assert caught.value.__cause__ is broken
    assert type(broken).__name__ in str(caught.value)


def test_a_job_that_names_what_is_not_there_is_not_a_broken_tool() -> None:
    with pytest.raises(JobError):
        assess(changed({"wiring / runs / W1 / load": "nobody"}))


# --- remedies -------------------------------------------------------------------------------------------------------------------


def test_a_remedy_is_seen_to_help() -> None:
    file: CaseFile = BENCHES["electrical.voltage_drop"]
    job = file.job({"wiring / runs / W1 / length": "20 ft"})
    failing = next(finding for finding in assess(job).findings if finding.criterion == "electrical.voltage_drop")
    assert failing.remedy == "use gauge 8"
    change = next(change for change in failing.candidates if change.sentence == failing.remedy)
    after = next(finding for finding in assess(job.with_change(change.path, change.text)).findings if finding.key == failing.key)
    assert after.verdict is Verdict.CONFORMS


def test_no_remedy_is_shown_where_none_helps() -> None:
    file: CaseFile = BENCHES["electrical.voltage_drop"]
    failing = next(f for f in assess(file.job({"wiring / runs / W1 / length": "900 ft"})).findings if f.criterion == "electrical.voltage_drop")
    assert failing.candidates
    assert failing.remedy is None


def test_only_stocked_sizes_are_offered() -> None:
    file: CaseFile = BENCHES["electrical.voltage_drop"]
    job = file.job(
        {
            "wiring / runs / W1 / length": "20 ft",
            "wiring / runs / W1 / conductor / stocked / 3": "4",
            "wiring / runs / W1 / conductor / stocked / 4": "1/0",
        }
    )
    failing = next(f for f in assess(job).findings if f.criterion == "electrical.voltage_drop")
    assert failing.remedy == "use gauge 4"
    assert {change.text for change in failing.candidates} == {"4", "1/0"}


GAUGE = ("wiring", "runs", "W1", "conductor", "gauge")
THICKER, THICKEST = Change(GAUGE, "2", "use gauge 2"), Change(GAUGE, "1/0", "use gauge 1/0")


def _wants(name: str, *good: str, candidates: tuple[Change, ...] = (), otherwise: Verdict = Verdict.DOES_NOT_CONFORM) -> Criterion:
    """A criterion that likes some gauges of W1 only."""

    def function(subject: Any, facts: Any) -> Finding:
        sheet = Worksheet()
        gauge = next(run.gauge.value for run in facts.runs if run.name == "W1")
        sheet.given("n", chosen("1", "number"), "anything")
        if gauge in good:
            return sheet.met("as it likes")
        if otherwise is Verdict.REFER:
            return sheet.refer(Referral("Really?", "", "somebody", "a word"))
        return sheet.refused("not as it likes", remedies=candidates)

    return instead(name, function)


def _remedies(job: Any = None) -> set[str | None]:
    return {finding.remedy for finding in assess(job or demonstration()).findings if finding.verdict is Verdict.DOES_NOT_CONFORM}


def test_a_remedy_that_worsens_another_finding_is_not_shown(only: Callable[..., None]) -> None:
    only(_wants("electrical.voltage_drop", "2", "1/0", candidates=(THICKER,)), _wants("completeness.blanks", "4"))
    assert _remedies() == {None}


def test_the_next_remedy_is_shown_where_the_first_worsens_another_finding(only: Callable[..., None]) -> None:
    only(_wants("electrical.voltage_drop", "2", "1/0", candidates=(THICKER, THICKEST)), _wants("completeness.blanks", "4", "1/0"))
    assert _remedies() == {"use gauge 1/0"}


def test_a_remedy_may_not_turn_what_conforms_into_a_question(only: Callable[..., None]) -> None:
    only(_wants("electrical.voltage_drop", "2", candidates=(THICKER,)), _wants("completeness.blanks", "4", otherwise=Verdict.REFER))
    assert _remedies() == {None}


def test_a_remedy_may_leave_another_failing_finding_as_it_was(only: Callable[..., None]) -> None:
    only(_wants("electrical.voltage_drop", "2", candidates=(THICKER,)), _wants("completeness.blanks", "none of them"))
    assert "use gauge 2" in _remedies()


def test_a_remedy_that_makes_the_job_unreadable_is_not_shown(only: Callable[..., None]) -> None:
    nowhere = Change(("wiring", "runs", "W9", "conductor", "gauge"), "2", "use another run")
    unreadable = Change(("wiring", "runs", "W1", "length"), "long", "make it long")
    only(_wants("electrical.voltage_drop", "2", candidates=(nowhere, unreadable)))
    assert _remedies() == {None}


def test_a_remedy_may_not_make_a_failing_finding_vanish_or_appear(only: Callable[..., None]) -> None:
    """A finding that is not there any more has not been made to conform, and a new one that fails is worse."""
    rename = Change(("openings", "holes", "drain two", "through"), "skin", "make another hole")

    def renamed(subject: Any, facts: Any) -> Finding:
        sheet = Worksheet()
        return sheet.met("there are two") if len(facts.openings) > 2 else sheet.refused("one hole too few", remedies=(rename,))

    def fails_on_the_new(subject: Any, facts: Any) -> Finding:
        return Worksheet().refused("a hole without reason") if subject.name == "drain two" else Worksheet().met("an old one")

    only(instead("electrical.voltage_drop", renamed), instead("completeness.blanks", fails_on_the_new))
    job = changed({"openings / holes / drain two": "{through: floor, for: nothing}"})
    assert gather(job).openings
    assert _remedies() <= {None}


def test_findings_are_not_looked_for_remedies_when_nobody_asked() -> None:
    file: CaseFile = BENCHES["electrical.voltage_drop"]
    failing = next(
        f for f in assess(file.job({"wiring / runs / W1 / length": "20 ft"}), remedies=False).findings if f.criterion == "electrical.voltage_drop"
    )
    assert failing.remedy is None


# --- worked values ----------------------------------------------------------------------------------------------------------------


def test_a_value_that_is_missing_for_a_worked_sheet_is_missing_for_all_that_use_it() -> None:
    found = {
        finding.criterion: finding
        for finding in assess(changed({"equipment / tail unit / mass dry": None}), remedies=False).findings
        if finding.verdict is Verdict.NOT_ASSESSED
    }
    assert {
        "balance.useful_load",
        "balance.centre_of_gravity",
        "balance.adverse_loading",
        "structure.floor_load",
        "structure.strap_restraint",
    } <= set(found)
    for finding in found.values():
        assert "weigh the item dry on a calibrated scale" in [need.what for need in finding.missing], finding.key


def test_a_worked_value_that_needs_itself_is_a_broken_tool() -> None:
    from liftout.worked import Circle, worked

    def circle(subject: Any, facts: Any) -> Worksheet:
        return once(subject, facts)  # type: ignore[return-value]

    circle.__module__, circle.__name__ = "liftout.worked.balance.circle", "circle"
    once = worked(circle)
    facts = gather(demonstration())
    with pytest.raises(Circle):
        once(facts.states[0], facts)


def test_a_worked_sheet_runs_once_for_a_subject() -> None:
    from liftout.worked.balance.amended_empty_weight import amended_empty_weight

    facts = gather(demonstration())
    assert amended_empty_weight(facts.states[0], facts) is amended_empty_weight(facts.states[0], facts)
    assert len(demonstration_assessed().worked) == len({(sheet.name, sheet.subject) for sheet in demonstration_assessed().worked})


def test_of_document_is_evidence() -> None:
    """The helper of these tests: a value that rests on a document conforms where a bare one is for a person."""
    bare, told = "W1", {"wiring / runs / W1 / length": of_document("12 ft")}
    assert (
        next(f for f in assess(changed(told), remedies=False).findings if f.criterion == "electrical.voltage_drop" and f.subject == bare).verdict
        is Verdict.CONFORMS
    )
    told = {"wiring / runs / W1 / length": "12 ft"}
    assert (
        next(f for f in assess(changed(told), remedies=False).findings if f.criterion == "electrical.voltage_drop" and f.subject == bare).verdict
        is Verdict.REFER
    )
