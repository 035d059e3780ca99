"""The checklist on a screen, filled in as an inspector does: nothing is there before, nothing is lost, nothing is mixed up."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from tests.browser.checklist_pages import INSPECTOR, OTHER_STATE, SECOND, STATE, TODAY, Hand, papers_of, rows_of, shortened, written
from tests.browser.planner_pages import assessed, browser, page_of, visit

from liftout.documents.blocks import ChecklistRow
from liftout.job.schema import schemas
from liftout.records.acceptance import Standing
from liftout.records.as_fitted import closed, handed_in

pytestmark = pytest.mark.browser

HALDEN, TESSEL = "halden_4_cooler", "tessel_2_cooler"
ASK_AFTER = 10
KM, JT = INSPECTOR[0], SECOND[0]


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def halden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(HALDEN, tmp_path_factory.mktemp("halden"))


@pytest.fixture(scope="module")
def tessel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(TESSEL, tmp_path_factory.mktemp("tessel"))


def at(page: Any) -> Hand:
    hand = Hand(page)
    hand.begin()
    return hand


def numbers(wanted: Any, name: str = HALDEN) -> list[str]:
    return [number for number, row in rows_of(name).items() if wanted(row)]


def plain(row: ChecklistRow) -> bool:
    return not (row.path or row.hold or row.second_person)


def expected(row: ChecklistRow) -> str:
    """The value of the job that a line measures again."""
    found = re.fullmatch(r"expected (.+?)(?:, within .+)?", row.acceptance)
    assert found is not None, row
    return found[1].replace("\u00a0", " ")


# --- before anybody wrote ------------------------------------------------------------------------------------------


def test_nothing_is_filled_in_or_ticked_before_somebody_does(opened: Any, halden: Path) -> None:
    page, rows = page_of(opened, halden), rows_of(HALDEN)
    assert page.locator("[data-line]").count() == len(rows)
    before = page.evaluate(
        "[...document.querySelectorAll('.check :is(input, select)')].filter(one => one.value && one.value !== 'all').map(one => one.outerHTML)"
    )
    assert before == []
    assert page.locator(".check [aria-pressed=true], .check :checked:not(option)").count() == 0
    assert page.locator("[data-line]:not(:disabled)").count() == 0, "no line can be filled in before the state is chosen"
    page.select_option("#check-state", STATE)
    assert page.locator("[data-line]:disabled").count() == 0
    assert page.evaluate("[...document.querySelectorAll('[data-line] :is(input, select)')].every(one => one.value === '')")
    assert page.get_attribute(".check-bar progress", "value") == "0"
    assert page.locator("[data-stage=done], [data-stage=begun]").count() == 0


def test_each_line_says_what_the_paper_says_and_a_value_of_the_job_stands_as_expected(opened: Any, halden: Path) -> None:
    page, rows = page_of(opened, halden), rows_of(HALDEN)
    shown = page.evaluate(
        "Object.fromEntries([...document.querySelectorAll('[data-line]')].map(line => [line.dataset.line, { marks: [...line.querySelectorAll('.tag')].map(t => t.textContent), "
        "item: line.querySelector('legend').textContent, said: Object.fromEntries([...line.querySelectorAll('.check-said > div')].map(d => [d.querySelector('dt').textContent, d.querySelector('dd').textContent])) }]))"
    )
    assert list(shown) == list(rows)
    for number, row in rows.items():
        marks = [word for word, holds in (("HOLD POINT", row.hold), ("SECOND PERSON", row.second_person)) if holds]
        assert shown[number]["marks"] == marks, number
        assert shown[number]["item"].endswith(row.item)
        assert shown[number]["said"]["Acceptance value"] == row.acceptance
        if row.path:
            assert row.acceptance.startswith("expected "), number
    assert any(row.hold for row in rows.values())
    assert any(row.second_person for row in rows.values())


# --- as an inspector does ------------------------------------------------------------------------------------------


def test_a_line_is_done_when_all_of_it_is_given(opened: Any, halden: Path) -> None:
    hand, rows = at(page_of(opened, halden)), rows_of(HALDEN)
    measured = numbers(lambda row: row.path and not row.second_person)[0]
    line = hand.put(measured, "conforms")
    assert "value found, initials" in line.inner_text()
    hand.put(measured, found=expected(rows[measured]), initials=KM)
    assert line.get_attribute("data-stage") == "done"
    assert line.get_by_label("Date").input_value() == hand.page.evaluate(TODAY)
    line = hand.put(numbers(plain)[0], "not applicable", initials=KM)
    assert line.get_attribute("data-stage") == "begun"
    assert "reason" in line.inner_text()
    line.get_by_label("Remark, or the reason").fill("not fitted on this serial number")
    assert line.get_attribute("data-stage") == "begun", "what is written after the initials is not under them"
    line.get_by_label("Initials", exact=True).fill(KM)
    assert line.get_attribute("data-stage") == "done"
    line = hand.put(numbers(plain)[1], "conforms", initials="XY")
    assert "the name of XY among the persons" in line.inner_text()
    assert hand.bar().startswith(f"2 of {len(rows)} lines done, 1 begun")
    assert hand.page.faults == []


def test_initials_leave_a_line_that_is_changed_and_a_result_can_be_taken_back(opened: Any, halden: Path) -> None:
    hand, number = at(page_of(opened, halden)), numbers(plain)[0]
    line = hand.put(number, "conforms", initials=KM)
    line.get_by_label("Value found").press_sequentially("2")
    assert line.get_by_label("Initials", exact=True).input_value() == ""
    assert line.get_by_label("Date").input_value() == ""
    assert "Initial it again" in hand.page.inner_text(".check-status")
    hand.put(number, initials=KM)
    line.get_by_role("button", name="conforms", exact=True).click()
    assert line.locator("[aria-pressed=true]").count() == 0
    line.get_by_role("button", name="Clear this line").click()
    assert line.get_attribute("data-stage") == "open"
    assert line.get_by_label("Value found").input_value() == ""


def test_a_second_person_is_another_person(opened: Any, halden: Path) -> None:
    hand = at(page_of(opened, halden))
    line = hand.put(numbers(lambda row: row.second_person and not row.path)[0], "conforms", initials=KM)
    assert "initials of the second person" in line.inner_text()
    hand.put(line.get_attribute("data-line"), second=KM.lower())
    assert "another person" in line.inner_text()
    assert line.get_attribute("data-stage") == "begun"
    hand.put(line.get_attribute("data-line"), second=JT)
    assert line.get_attribute("data-stage") == "done"


def test_lines_can_be_shown_by_what_is_left(opened: Any, halden: Path) -> None:
    hand = at(page_of(opened, halden))
    holds = numbers(lambda row: row.hold)
    hand.put(holds[0], "does not conform", reason="too wide")
    hand.page.locator(".check-find select").select_option("hold")
    assert hand.page.locator("[data-line]:visible").count() == len(holds)
    hand.page.locator(".check-find select").select_option("fails")
    assert hand.page.locator("[data-line]:visible").count() == 1
    assert "1 does not conform" in hand.bar()
    hand.page.locator(".check-find select").select_option("all")
    hand.page.locator(".check-find button").click()
    assert (
        hand.page.evaluate("document.activeElement.closest('[data-line]').dataset.line")
        == list(rows_of(HALDEN))[list(rows_of(HALDEN)).index(holds[0]) + 1]
    )


# --- what is kept, and where ---------------------------------------------------------------------------------------


def test_every_ten_entries_go_to_a_file_which_brings_all_of_it_back(opened: Any, halden: Path, tmp_path: Path) -> None:
    hand, some = at(page_of(opened, halden)), numbers(plain)
    _, first = hand.saved("Save to a file", tmp_path)
    assert first["people"] == [{"initials": initials, "name": name} for initials, name in (INSPECTOR, SECOND)]
    for count, number in enumerate(some[: ASK_AFTER - 1], 1):
        hand.put(number, "conforms", initials=KM)
        assert f"{count} entr{'y is' if count == 1 else 'ies are'} in no file." in hand.bar()
        assert "SAVE NOW" not in hand.bar()
    tenth = hand.put(some[ASK_AFTER - 1], found="clean")
    assert f"{ASK_AFTER} entries are in no file. SAVE NOW." in hand.bar()
    assert f"{ASK_AFTER} entries are in no file" in hand.page.inner_text(".check-status")
    with hand.page.expect_download() as unasked:
        tenth.get_by_label("Value found").press("Tab")
    unasked.value.save_as(tmp_path / "unasked.json")
    assert sum(1 for _ in json.loads((tmp_path / "unasked.json").read_text(encoding="utf-8"))["sheets"][STATE]) == ASK_AFTER
    assert "All entries are in a file" in hand.bar()
    assert unasked.value.suggested_filename in hand.page.inner_text(".check-status")
    hand.put(some[ASK_AFTER - 1], "conforms", initials=KM)
    hand.put(some[ASK_AFTER], found="seen and not judged")
    assert "2 entries are in no file." in hand.bar()
    path, told = hand.saved("Save to a file", tmp_path)
    assert "All entries are in a file" in hand.bar()
    assert "SAVE NOW" not in hand.bar()
    assert told["digest"] == papers_of(HALDEN).digests.job
    assert sum(1 for one in told["sheets"][STATE].values() if one["result"]) == ASK_AFTER

    other = Hand(page_of(opened, halden))
    assert other.bar().startswith("0 of")
    other.open(path)
    other.page.wait_for_function("document.querySelector('.check-bar progress').value > 0")
    assert other.bar().startswith(f"{ASK_AFTER} of {len(rows_of(HALDEN))} lines done, 1 begun")
    assert other.line(some[ASK_AFTER]).get_by_label("Value found").input_value() == "seen and not judged"
    assert other.page.input_value("#check-state") == STATE
    assert "All entries are in a file" in other.bar()
    _, again = other.saved("Save to a file", tmp_path)
    assert {**again, "saved": ""} == {**told, "saved": ""}
    assert hand.page.faults + other.page.faults == []


def test_two_dockets_in_one_browser_never_see_each_others_values(opened: Any, halden: Path, tessel: Path, tmp_path: Path) -> None:
    hand = at(page_of(opened, halden))
    for number in numbers(plain)[:3]:
        hand.put(number, "conforms", found="of the Halden", initials=KM)
    path, _ = hand.saved("Save to a file", tmp_path)

    other = Hand(visit(hand.page.context.new_page(), tessel))
    assert other.page.input_value("#check-state") == ""
    assert other.page.locator(".check-row").count() == 0
    other.begin()
    assert other.page.evaluate("[...document.querySelectorAll('[data-line] input')].every(one => one.value === '')")
    other.put(numbers(plain, TESSEL)[0], "conforms", found="of the Tessel", initials=KM)
    other.saved("Save to a file", tmp_path)
    before = other.page.evaluate("JSON.stringify(Object.entries(localStorage).sort())")
    other.open(path)
    words = other.refusal()
    for name in (HALDEN, TESSEL):
        papers, digest = papers_of(name).papers, papers_of(name).digests.job
        assert f"docket {papers.number} revision {papers.revision}, job digest {digest[:12]}" in words
    assert "Nothing on this page was changed" in words
    assert other.page.evaluate("JSON.stringify(Object.entries(localStorage).sort())") == before
    assert other.line(numbers(plain, TESSEL)[0]).get_by_label("Value found").input_value() == "of the Tessel"

    hand.page.reload()
    assert hand.line(numbers(plain)[0]).get_by_label("Value found").input_value() == "of the Halden"
    keys = hand.page.evaluate("Object.keys(localStorage).sort()")
    assert len(keys) == 2
    assert all(re.fullmatch(r"liftout checklist [0-9a-f]{64} [0-9a-f]{64}", key) for key in keys)
    assert hand.page.faults + other.page.faults == []


def test_what_was_seen_in_one_state_is_not_shown_for_another(opened: Any, halden: Path) -> None:
    hand, number = at(page_of(opened, halden)), numbers(plain)[0]
    line = hand.put(number, "conforms", found="in this state", initials=KM)
    hand.page.select_option("#check-state", OTHER_STATE)
    assert line.get_by_label("Value found").input_value() == ""
    assert line.get_attribute("data-stage") == "open"
    assert hand.bar().startswith("0 of")
    hand.page.select_option("#check-state", STATE)
    assert line.get_by_label("Value found").input_value() == "in this state"


def test_a_second_window_shows_what_the_first_one_wrote(opened: Any, halden: Path) -> None:
    hand, number = at(page_of(opened, halden)), numbers(plain)[0]
    other = Hand(visit(hand.page.context.new_page(), halden))
    hand.put(number, "conforms", found="first", initials=KM)
    other.page.wait_for_function("document.querySelector('.check-bar progress').value === 1")
    other.put(number, found="second", initials=KM)
    hand.page.wait_for_function(f"document.querySelector('#check-{number} input').value === 'second'")


UNFIT = {
    "{": "damaged",
    "null": "not saved by a checklist page",
    '{"liftout": "1", "entries": {"2-1": {}}}': "as-fitted record",
    '{"kind": "liftout checklist", "form": 2, "digest": "x"}': "another release of this page",
    "lines": "another release",
    "number": "99-1",
}


@pytest.mark.parametrize("unfit", UNFIT)
def test_a_file_that_does_not_fit_is_refused_whole(unfit: str, opened: Any, halden: Path, tmp_path: Path) -> None:
    hand = at(page_of(opened, halden))
    path, told = hand.saved("Save to a file", tmp_path)
    if unfit == "lines":
        path.write_text(json.dumps({**told, "lines": "0" * 64}), encoding="utf-8")
    elif unfit == "number":
        path.write_text(json.dumps({**told, "sheets": {STATE: {"99-1": {"result": "conforms"}}}}), encoding="utf-8")
    else:
        path.write_text(unfit, encoding="utf-8")
    hand.open(path)
    assert UNFIT[unfit] in hand.refusal()
    assert hand.page.input_value("#check-state") == STATE
    assert hand.page.faults == []


def test_a_file_is_not_opened_over_entries_that_are_in_no_file(opened: Any, halden: Path, tmp_path: Path) -> None:
    hand, number = at(page_of(opened, halden)), numbers(plain)[0]
    path, _ = hand.saved("Save to a file", tmp_path)
    hand.put(number, found="not saved yet")
    hand.open(path)
    assert "in no file yet, and would be lost. Save first." in hand.refusal()
    assert hand.line(number).get_by_label("Value found").input_value() == "not saved yet"


def test_a_browser_that_keeps_nothing_says_so(opened: Any, halden: Path) -> None:
    page = page_of(opened, halden)
    page.evaluate("Storage.prototype.setItem = () => { throw new Error('full') }; undefined")
    hand = at(page)
    hand.put(numbers(plain)[0], "conforms", initials=KM)
    assert page.locator("p.check-refusal").is_visible()
    assert hand.bar().startswith("1 of")


@pytest.mark.parametrize("harm", ["a line is gone", "a datum is changed"])
def test_a_page_that_is_not_whole_stays_shut(harm: str, opened: Any, halden: Path, tmp_path: Path) -> None:
    text = halden.read_text(encoding="utf-8")
    changed = (
        re.sub(r'<fieldset class="check-line" id="check-.*?</fieldset>', "", text, count=1)
        if harm == "a line is gone"
        else text.replace('"count":', '"count":1')
    )
    assert changed != text
    path = tmp_path / "harmed.html"
    path.write_text(changed, encoding="utf-8")
    page = page_of(opened, path)
    assert "LOCKED" in page.inner_text(".check")
    assert page.locator(".check input").count() == 0


# --- the record ----------------------------------------------------------------------------------------------------


def test_the_record_is_one_that_the_engine_reads_and_closes(opened: Any, halden: Path, tmp_path: Path) -> None:
    hand, rows = at(page_of(opened, halden)), rows_of(HALDEN)
    hand.page.locator(".check-files").get_by_role("button", name="Write the as-fitted record").click()
    assert "no line is done" in hand.refusal()
    head = hand.page.locator(".check-head")
    head.get_by_role("button", name="Add an instrument").click()
    head.get_by_label("Instrument and its number").fill("spring scale 14")
    head.get_by_label("Calibration holds until").fill("2027-05-31")
    measured = next(number for number, row in rows.items() if row.path and re.fullmatch(r"expected [\d.]+\slb, within [\d.]+\slb", row.acceptance))
    second, off, declined, half = numbers(lambda row: row.second_person and not row.path)[0], *numbers(plain)[:3]
    line = hand.put(measured, "conforms", found=expected(rows[measured]))
    line.get_by_label("Instrument").select_option(label="spring scale 14")
    hand.put(measured, initials=KM, second=JT if rows[measured].second_person else "")
    hand.put(second, "conforms", initials=KM, second=JT)
    line = hand.put(off, "does not conform", found="unreadable", reason='scratched; <b>"see photo"</b>', initials=KM)
    line.get_by_label("Decision on it").fill("plate renewed, K. Moss")
    hand.put(declined, "not applicable", reason="not on this aircraft", initials=KM)
    hand.put(half, found="begun only")
    unit = next(iter(assessed(HALDEN).job.document.equipment))
    hand.page.evaluate("document.querySelector('.check-units').open = true")
    hand.page.locator(f"[data-unit='{unit}']").get_by_label("Batch or lot").fill("B-77")

    path, told = hand.saved("Write the as-fitted record", tmp_path)
    assert f"begun and not done: {half}" in hand.refusal()
    jsonschema.validate(told, schemas()["as-fitted"])
    assert list(told["entries"]) == sorted((measured, second, off, declined), key=list(rows).index)
    assert told["parts"] == {unit: {"batch": "B-77"}}
    today = hand.page.evaluate(TODAY)
    by = f"{KM}, {INSPECTOR[1]}"
    assert told["entries"][measured] == {
        "measured": expected(rows[measured]), "result": "conforms", "instrument": "spring scale 14", "calibration due": "2027-05-31", "by": by, "date": today,
    }  # fmt: skip
    assert told["entries"][second]["by"] == f"{by}; second person {JT}, {SECOND[1]}"
    assert told["entries"][off]["disposition"] == "plate renewed, K. Moss"

    matter = papers_of(HALDEN)
    result = closed(matter.assessment.job, matter.assessment, matter.digests, (handed_in(path),), 1)
    standing = {one.line.number: (one.standing, one.open) for one in result.lines}
    assert standing[measured] == (Standing.WITHIN, False)
    assert standing[second] == (Standing.SEEN, False)
    assert standing[declined] == (Standing.DECLINED, False)
    assert standing[off][1] is False
    assert standing[half] == (Standing.MISSING, True)
    assert hand.page.faults == []


# --- for everybody -------------------------------------------------------------------------------------------------


def test_the_sheet_for_print_has_every_line_and_room_for_signatures(opened: Any, halden: Path) -> None:
    hand, rows = at(page_of(opened, halden)), rows_of(HALDEN)
    number = numbers(plain)[0]
    hand.put(number, "does not conform", found="7 mm", reason="too near", initials=KM)
    hand.page.emulate_media(media="print")
    sheet = hand.page.locator(".check-sheet")
    sheet.locator("tbody tr").last.wait_for()
    assert sheet.locator("> section > table > tbody > tr").count() == len(rows)
    titles = hand.page.locator(".check-chapters h2").all_text_contents()
    assert sheet.locator("> section > h2").all_text_contents() == titles
    assert len(titles) == len(shortened(HALDEN)), "a chapter without lines is printed too"
    assert "A turning propeller kills" in sheet.inner_text()
    words = sheet.inner_text()
    for part in (STATE, f"{KM}: {INSPECTOR[1]}", "7 mm", "does not conform; too near"):
        assert part in words, part
    assert not hand.page.is_visible(".check-bar")
    assert hand.page.locator(".check-signatures .signature:visible").count() == 3
    assert "NOT FOR INSTALLATION" in hand.page.inner_text("body")


def test_it_works_by_keyboard_and_a_screen_reader_is_told(opened: Any, halden: Path) -> None:
    hand, number = at(page_of(opened, halden)), next(iter(rows_of(HALDEN)))
    page = hand.page
    page.focus(".check-chapter summary")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.type("seen")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    for _ in range(3):
        page.keyboard.press("Tab")
    page.keyboard.type("clean")
    page.keyboard.press("Tab")
    page.keyboard.type(KM)
    line = page.locator(f"#check-{number}")
    assert line.get_attribute("data-stage") == "done"
    assert line.locator("[aria-pressed=true]").inner_text() == "conforms"
    assert page.evaluate("document.activeElement.labels[0].textContent") == "Initials"
    assert page.get_attribute(".check-status", "role") == "status"
    assert page.get_attribute(".check-refusal >> nth=0", "role") == "alert"


@pytest.mark.long
def test_on_a_telephone_the_page_does_not_scroll_sideways_and_asks_for_nothing(opened: Any, halden: Path) -> None:
    page = page_of(opened, halden, viewport={"width": 390, "height": 844})
    at(page)
    page.evaluate("for (const part of document.querySelectorAll('details')) part.open = true")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.is_visible(".check-bar")
    assert page.asked == [halden.as_uri()]
    assert page.faults == []
