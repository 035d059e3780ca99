"""What was measured against what is accepted: nothing missing goes unseen, nothing measured is replaced, every state runs again."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.documents.document import check
from liftout.findings import Verdict
from liftout.identity.digests import digests
from liftout.job import JobError
from liftout.quantities import read
from liftout.records.acceptance import Standing, compare
from liftout.records.as_fitted_docket import photographs
from liftout.records.as_fitted_paper import as_data, papers
from tests.records import on_disk
from tests.records.on_disk import Docket

MASS = ("equipment", "cabin unit", "mass dry")
ARM = ("equipment", "tail unit", "position", "arm")


@pytest.fixture(scope="module")
def halden(tmp_path_factory: pytest.TempPathFactory) -> Docket:
    return on_disk.docket(on_disk.put(tmp_path_factory.mktemp("shop") / "jobs"), "halden_4_cooler")


# --- one value ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("acceptance", "measured", "standing"),
    [
        ("at most 0.5 V", "0.5 V", Standing.WITHIN),
        ("at most 0.5 V", "500 mV", Standing.WITHIN),
        ("at most 0.5 V", "0.501 V", Standing.OUTSIDE),
        ("at least 3 in", "76.2 mm", Standing.WITHIN),
        ("at least 3 in", "76.1 mm", Standing.OUTSIDE),
        ("at least 3 in (to confirm: from memory)", "2 in", Standing.OUTSIDE),
        ("24 V to 28.6 V", "24 V", Standing.WITHIN),
        ("24 V to 28.6 V", "28.7 V", Standing.OUTSIDE),
        ("expected 31.5 lb", "31.5 lb", Standing.WITHIN),
        ("expected 31.5 lb, within ________", "31.6 lb", Standing.DIFFERS),
        ("expected −7 in, within ________", "−7 in", Standing.WITHIN),
        ("expected 3 mΩ", "0.003 ohm", Standing.WITHIN),
        ("expected 30 lb/ft²", "30 lb/ft^2", Standing.WITHIN),
        ("expected 31.5 lb", "about right", Standing.OUTSIDE),
        ("expected H4-1187", "h4-1187", Standing.WITHIN),
        ("expected H4-1187", "H4-1178", Standing.OUTSIDE),
        ("no movement", "none", Standing.SEEN),
        ("at least 3 in from cables, at least 1 in from rigid parts", "2 in", Standing.SEEN),
        ("at most 0.5 V", "5 A", Standing.SEEN),
    ],
)
def test_a_measured_value_against_what_the_paper_prints(acceptance: str, measured: str, standing: Standing) -> None:
    assert compare(acceptance, measured)[0] is standing


@given(st.decimals(1, 500, places=2), st.decimals(0, 5, places=2), st.decimals(-6, 6, places=2))
def test_within_its_tolerance_is_within_and_beyond_is_outside(expected: object, tolerance: object, off: object) -> None:
    measured = f"{expected + off} lb"  # type: ignore[operator]
    standing, _ = compare(f"expected {expected} lb", measured, read(f"{tolerance} lb", "mass"))
    assert (standing is Standing.WITHIN) == (abs(off) <= tolerance)  # type: ignore[arg-type,operator]


# --- a whole record ----------------------------------------------------------------------------------------------------------


def test_a_record_in_which_all_is_as_expected_changes_no_conclusion(halden: Docket) -> None:
    made = halden.closed(halden.record())
    assert made.missing == ()
    assert made.open_lines == ()
    assert made.reissue == ()
    assert {one.key: one.verdict for one in made.after.findings} == {one.key: one.verdict for one in halden.assessment.findings}
    assert not made.failing


def test_what_is_missing_is_marked_line_by_line(halden: Docket) -> None:
    record = halden.record()
    gone = [halden.line(*MASS), halden.lines[-1].number]
    for number in gone:
        del record["entries"][number]
    made = halden.closed(record)
    assert [line.number for line in made.missing] == gone
    assert made.open >= 2


def test_a_mass_beyond_its_tolerance_runs_every_state_again_and_reissues_the_amendment(halden: Docket) -> None:
    record = halden.record()
    record["entries"][halden.line(*MASS)]["measured"] = "36.4 lb"
    made = halden.closed(record)
    assert [one.path for one in made.reissue] == [MASS]
    compared = next(one for one in made.lines if one.line.path == MASS)
    assert compared.standing is Standing.OUTSIDE
    first = repr(papers(made, digests(made.after))[0].chapters[0])
    assert "36.4 lb" in first, "a conclusion that rests on a fitted value shows it on page one"
    assert "the record says conforms" in compared.why
    states = {one.after.state for one in made.changed if one.after is not None and one.after.criterion == "balance.useful_load"}
    carried = {state.name for state in halden.assessment.facts.states if any(item.name == "cabin unit" for item in state.items)}
    assert carried <= states | {"cabin unit travelling in baggage, filled", "cabin unit travelling in baggage, drained"}
    assert made.revision == "A-AF1"
    written = papers(made, digests(made.after))
    assert [(paper.key, paper.revision) for paper in written] == [("as_fitted", "A-AF1"), ("amendment", "A-AF1")]
    assert "AS-FITTED RECORD NOT CLOSED" in written[0].standing
    for paper in written:
        check(paper)


def test_within_its_tolerance_nothing_is_reissued_and_what_was_measured_stays(halden: Docket) -> None:
    record = halden.record()
    record["entries"][halden.line(*MASS)]["measured"] = "33.9 lb"
    made = halden.closed(record)
    assert made.reissue == ()
    assert [(one.expected, one.fitted, one.beyond) for one in made.replaced] == [("33.8 lb", "33.9 lb", False)]
    assert made.after.job.said.at((*MASS, "value")).value == "33.9 lb"
    entry = next(one for one in made.lines if one.line.path == MASS).entry
    assert entry is not None
    assert entry.measured == "33.9 lb"


def test_an_arm_without_a_tolerance_that_is_another_reissues(halden: Docket) -> None:
    record = halden.record()
    record["entries"][halden.line(*ARM)]["measured"] = "148.1 in"
    made = halden.closed(record)
    assert [one.path for one in made.reissue] == [ARM]
    assert next(one for one in made.lines if one.line.path == ARM).standing is Standing.DIFFERS


def test_a_measured_value_without_an_instrument_is_merely_stated(halden: Docket) -> None:
    record = halden.record()
    entry = record["entries"][halden.line(*MASS)]
    entry["measured"] = "33.9 lb"
    del entry["instrument"]
    made = halden.closed(record)
    assert any(finding.verdict is Verdict.REFER and finding.criterion.startswith("balance.") for finding in made.after.open)


def test_a_calibration_that_had_run_out_carries_nothing(halden: Docket) -> None:
    record = halden.record()
    record["entries"][halden.line(*MASS)] |= {"measured": "33.9 lb", "calibration due": "2026-11-24"}
    made = halden.closed(record)
    compared = next(one for one in made.lines if one.line.path == MASS)
    assert compared.open
    assert "had run out" in compared.why
    assert made.after.job.said.at((*MASS, "stated")).value == "merely"


def test_two_states_measure_one_value_alike_or_not_at_all(halden: Docket) -> None:
    first, second = halden.record(), halden.record() | {"state": "in and drained"}
    made = halden.closed(first, second)
    assert {one.state for one in made.lines} == {"in and filled", "in and drained"}
    second["entries"][halden.line(*MASS)]["measured"] = "34.0 lb"
    with pytest.raises(JobError, match=r"The aircraft has one value"):
        halden.closed(first, second)


def test_what_the_inspector_refuses_is_open_until_somebody_decides(halden: Docket) -> None:
    number = halden.line_called("Tools, swarf")
    record = halden.record()
    record["entries"][number] |= {"result": "does not conform", "reason": "a rivet behind the panel"}
    assert [one.line.number for one in halden.closed(record).open_lines] == [number]
    record["entries"][number]["disposition"] = "taken out, I. Orre"
    assert halden.closed(record).open_lines == ()


def test_not_applicable_needs_a_reason(halden: Docket) -> None:
    number = halden.line_called("Tools, swarf")
    record = halden.record()
    record["entries"][number]["result"] = "not applicable"
    assert [one.line.number for one in halden.closed(record).open_lines] == [number]


@pytest.mark.long
def test_the_unit_that_was_fitted_is_another_than_planned(halden: Docket) -> None:
    record = halden.record()
    record["parts"] = {"cabin unit": {"part number": "SK-210", "serial": "SK210-044", "batch": "B7"}}
    made = halden.closed(record)
    unit = next(unit for unit in made.units if unit.item == "cabin unit")
    assert (unit.serial, unit.batch, unit.differs, unit.open) == ("SK210-044", "B7", True, True)
    record["deviations"] = [
        {
            "kind": "part",
            "found": "the other unit of the shop",
            "place": "equipment / cabin unit / serial",
            "value": "SK210-044",
            "by": "R. Voe",
            "date": "2026-11-25",
            "disposition": {"decision": "accepted", "reason": "same type", "by": "I. Orre, licence 7", "date": "2026-11-26"},
        }
    ]
    made = halden.closed(record)
    assert not next(unit for unit in made.units if unit.item == "cabin unit").open
    assert made.after.job.document.papers.date.isoformat() == "2026-11-26"


def test_a_deviation_carries_its_photograph_and_its_disposition(halden: Docket, tmp_path: Path) -> None:
    photo = halden.file.with_name("arm.jpg")
    photo.write_bytes(b"a photograph")
    digest = hashlib.sha256(b"a photograph").hexdigest()
    one = {"kind": "position", "found": "further aft", "by": "R. Voe", "date": "2026-11-25", "place": " / ".join(ARM), "value": "149.5 in"}
    record = halden.record() | {"deviations": [one | {"photos": [{"file": "arm.jpg", "digest": digest[:16]}]}]}
    # The line of the checklist measured what was expected, and the deviation says otherwise: two values of one thing.
    with pytest.raises(JobError, match="one value"):
        halden.closed(record)
    record["entries"][halden.line(*ARM)]["measured"] = "149.5 in"
    made = halden.closed(record)
    assert made.deviations[0].photos == (("arm.jpg", digest, "beside the record"),)
    assert made.deviations[0].open
    record["deviations"][0]["disposition"] = {"decision": "accepted", "reason": "on the shelf", "by": "I. Orre", "date": "2026-11-26"}
    assert not halden.closed(record).deviations[0].open
    record["deviations"][0]["disposition"]["decision"] = "to be reworked"
    assert halden.closed(record).deviations[0].open
    photo.write_bytes(b"another photograph")
    with pytest.raises(JobError, match="not the photograph that was recorded"):
        halden.closed(record)
    photo.unlink()
    assert halden.closed(record).deviations[0].photos == (("arm.jpg", digest[:16], "not beside the record"),)


def test_a_photograph_is_read_once_and_is_an_ordinary_file(halden: Docket, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is kept is what was looked at, whatever happens to the file; and nobody else's file comes in by a link."""
    photo = halden.file.with_name("scratch.jpg")
    photo.write_bytes(b"a photograph")
    one = {"kind": "other", "found": "a scratch", "by": "R. Voe", "date": "2026-11-25", "photos": [{"file": "scratch.jpg"}]}
    record = halden.record() | {"deviations": [one]}
    made = halden.closed(record)
    photo.write_bytes(b"another photograph")
    (kept,) = photographs(made)
    assert kept.content == b"a photograph"
    assert kept.name == f"photo-{hashlib.sha256(b'a photograph').hexdigest()[:12]}.jpg"
    monkeypatch.setattr("liftout.records.as_fitted.PICTURE_MAX", 4)
    with pytest.raises(JobError, match="longer than 4 bytes"):
        halden.closed(record)
    monkeypatch.undo()
    photo.unlink()
    photo.symlink_to(halden.file)
    with pytest.raises(JobError, match="this is a link"):
        halden.closed(record)
    photo.unlink()


def test_the_same_for_machines(halden: Docket) -> None:
    record = halden.record()
    record["entries"][halden.line(*MASS)]["measured"] = "36.4 lb"
    data = as_data(halden.closed(record))
    line = next(one for one in data["lines"] if one["line"] == halden.line(*MASS))
    assert (line["measured"], line["result"], line["stands"], line["open"]) == ("36.4 lb", "conforms", "outside", True)
    assert data["reissued"] == [" / ".join(MASS)]


# --- a record that belongs elsewhere -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"job": "SFW-9999"}, 'this record is for job "SFW-9999"'),
        ({"revision": "B"}, 'this record is for revision "B" of SFW-0412'),
        ({"digest": "0123456789ab"}, "it was changed since"),
        ({"digest": "short"}, "is no digest"),
        ({"state": "upside down"}, "Write one of: before any change"),
        ({"entries": {"99-1": {"result": "conforms", "by": "x", "date": "2026-11-25"}}}, "the checklist has no line 99-1"),
        ({"entries": {"first": {"result": "conforms", "by": "x", "date": "2026-11-25"}}}, "is no number of a line"),
        ({"entries": {"3-1": {"result": "fine", "by": "x", "date": "2026-11-25"}}}, '"fine" is not known here'),
        ({"parts": {"tail hook": {"serial": "1"}}}, 'there is no item "tail hook"'),
        (
            {"deviations": [{"kind": "route", "found": "x", "by": "x", "date": "2026-11-25", "place": "a / b", "value": "1 in"}]},
            "the job says nothing at",
        ),
        ({"deviations": [{"kind": "route", "found": "x", "by": "x", "date": "2026-11-25", "value": "1 in"}]}, "says only one of place and value"),
        (
            {"deviations": [{"kind": "route", "found": "x", "by": "x", "date": "2026-11-25", "photos": [{"file": "../x.jpg"}]}]},
            "is no name of a file",
        ),
        ({"kind": "liftout checklist"}, "working file of a checklist page"),
    ],
)
def test_a_record_that_does_not_belong_here_is_refused_in_words(halden: Docket, change: dict[str, object], words: str) -> None:
    with pytest.raises(JobError) as refused:
        halden.closed(halden.record() | change)
    assert words in str(refused.value)
    assert str(refused.value).startswith("record-1.json:")


def test_every_line_of_the_checklist_has_one_number(halden: Docket) -> None:
    numbers = [line.number for line in halden.lines]
    assert len({*numbers}) == len(numbers)
    assert sum(bool(line.path) for line in halden.lines) > 50
