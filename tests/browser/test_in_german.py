"""Planner and checklist on a screen in German: they do what the English ones do, and show no word of their own in English."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.checklist_pages import STATE, written_of
from tests.browser.planner_pages import DEMONSTRATIONS, browser, matter_of, page_of

from liftout.assessment import assess
from liftout.documents import checklist, planner
from liftout.documents.chapters.matter import Matter
from liftout.documents.checklist import LiveChecklist, lines_digest, lines_of, live_checklist
from liftout.documents.docket import checklist_chapters
from liftout.documents.one_file import words_of
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.resources import folder

pytestmark = [pytest.mark.browser, pytest.mark.long]

ENGLISH_WORDS = re.compile(
    r"\b(the|of|from|least|most|below|above|behind|ahead|within|outside|missing|weight|moment|state|loading|limit|seat|fuel|landing|WARNING|CAUTION|NOTE"
    r"|this|file|line|lines|done|entry|entries|initials|reason|record|choose|save|SECOND)\b",
    re.IGNORECASE,
)
"""Words of the page in English; what the job says in English is taken out before."""


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


def english_words(told: str, own: frozenset[str]) -> list[str]:
    """English words of a page that the job did not bring."""
    longest_first = sorted((word for word in own if ENGLISH_WORDS.search(word)), key=len, reverse=True)
    told = re.sub(
        rf"(?<!\w)(?:{'|'.join(map(re.escape, longest_first))})(?!\w)", " ", "\n".join(dict.fromkeys(told.split("\n"))), flags=re.IGNORECASE
    )
    return [found.group(0) + ": " + told[max(0, found.start() - 60) : found.end() + 60] for found in ENGLISH_WORDS.finditer(told)]


@pytest.mark.parametrize("name", DEMONSTRATIONS)
def test_a_german_planner_plans_and_says_nothing_of_its_own_in_english(opened: Any, tmp_path: Path, name: str) -> None:
    job = load(folder("jobs") / name / "job.yaml").with_change(("shop", "language"), "de")
    matter = matter_of(assess(as_carried(job), remedies=False))
    file = matter.planner.file
    assert file is not None
    (tmp_path / file.name).write_bytes(file.content)
    page = page_of(opened, tmp_path / file.name)
    assert page.get_attribute("html", "lang") == "de"
    last = len(matter.facts.states)
    page.select_option("#planner-state", index=last)
    for typed, pounds in (("170,5", 170.5), ("170.5", 170.5), ("9", 9.0)):
        page.fill("#planner-load-0-0", typed)
        loads = page.evaluate("window.liftoutPlanner.now().loading.stations[0][0]")
        assert loads == pytest.approx(pounds * 0.45359237, rel=1e-12)
        assert english_words(page.inner_text("body") + (page.text_content(".planner-sheet") or ""), matter.wording.own) == []
    assert re.search(r"\d,\d\u00a0lb", page.inner_text(".planner-results"))
    assert not re.search(r"\d\.\d\u00a0(lb|in|US gal)", page.inner_text("body"))
    assert page.faults == []


def test_words_that_a_page_takes_from_papers_are_all_there() -> None:
    for page, shared in (("planner", planner.SHARED_WORDS), ("checklist", checklist.SHARED_WORDS)):
        assert set(shared) <= set(words_of("de", page, shared))
        assert words_of("en", page, shared) == {}


def data_of(made: LiveChecklist) -> str:
    found = re.search(r'id="check-data"[^>]*>(.*?)</script>', made.file.content.decode())
    assert found is not None
    return found[1]


def german(name: str) -> Matter:
    job = load(folder("jobs") / name / "job.yaml").with_change(("shop", "language"), "de")
    return matter_of(assess(as_carried(job), remedies=False))


@pytest.mark.parametrize("name", ["halden_4_cooler", "orrin_6p_cooler"])
def test_a_german_checklist_is_filled_in_and_says_nothing_of_its_own_in_english(opened: Any, tmp_path: Path, name: str) -> None:
    matter = german(name)
    page = page_of(opened, written_of(matter, tmp_path))
    said: list[str] = []

    def read() -> None:
        page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
        said.append(page.inner_text("body"))
        said.extend(page.evaluate("[...document.querySelectorAll('[aria-label]')].map(one => one.getAttribute('aria-label'))"))

    def press(words: str, where: str = ".check") -> None:
        page.locator(f"{where} button:text-is('{words}')").first.click()

    assert page.get_attribute("html", "lang") == "de"
    read()
    press("Das Protokoll des Einbaus schreiben")
    read()
    page.select_option("#check-state", STATE)
    assert page.evaluate("document.querySelector('#check-state').selectedOptions[0].textContent") != STATE
    press("Das Protokoll des Einbaus schreiben")
    read()
    press("Eine Person hinzufügen")
    person = page.locator(".check-row[aria-label='Person 1']")
    person.get_by_label("Namenszeichen").fill("KM")
    person.get_by_label("Name, Lizenz").fill("open, result")
    press("Ein Messgerät hinzufügen")
    instrument = page.locator(".check-row[aria-label='Messgerät 1']")
    instrument.get_by_label("Messgerät und").fill("none")
    instrument.get_by_label("Kalibrierung").fill("2027-01-31")
    lines = page.locator("[data-line]:not([data-second])")
    for place, (result, reason) in enumerate([("erfüllt", ""), ("nicht erfüllt", "open"), ("nicht anwendbar", "")]):
        line = lines.nth(place)
        line.get_by_label("Gefundener Wert").fill("31.5 lb")
        line.locator(".check-instrument select").select_option(index=1)
        line.get_by_role("button", name=result, exact=True).click()
        line.get_by_label("Bemerkung").fill(reason)
        line.get_by_label("Namenszeichen", exact=True).fill("KM")
        read()
    line = page.locator("[data-second]").first
    for second in ("", "XY", "KM"):
        line.get_by_role("button", name="erfüllt", exact=True).click()
        line.get_by_label("Namenszeichen", exact=True).fill("KM")
        line.get_by_label("Namenszeichen der zweiten Person").fill(second)
        read()
    press("Diese Zeile leeren", "[data-second]")
    read()
    press("Zur nächsten Zeile, die nicht erledigt ist")
    read()
    with page.expect_download() as waiting:
        press("Das Protokoll des Einbaus schreiben")
    record = json.loads(Path(waiting.value.path()).read_text(encoding="utf-8"))
    assert record["state"] == STATE, "the record says what liftout close reads, whatever the language of the page"
    assert {entry["result"] for entry in record["entries"].values()} == {"conforms", "does not conform"}
    assert all(entry["by"] == "KM, open, result" and entry["instrument"] == "none" for entry in record["entries"].values())
    read()
    foreign = tmp_path / "foreign.json"
    foreign.write_text("{}", encoding="utf-8")
    page.set_input_files("#check-open", foreign)
    page.wait_for_function("document.querySelector('.check-refusal p')?.textContent.includes('foreign.json')")
    read()
    with page.expect_download() as waiting:
        press("In einer Datei sichern")
    kept = tmp_path / "kept.json"
    waiting.value.save_as(kept)
    read()
    for content in (
        "{",
        "{}",
        json.dumps(record),
        json.dumps({"kind": "liftout checklist", "digest": "0" * 64, "form": 1, "job": "X", "revision": "A"}),
    ):
        foreign.write_text(content, encoding="utf-8")
        before = page.inner_text(".check-refusal >> nth=0")
        page.set_input_files("#check-open", foreign)
        page.wait_for_function(
            "before => document.querySelector('.check-refusal p') && document.querySelector('.check-refusal').innerText !== before", arg=before
        )
        read()
    page.set_input_files("#check-open", kept)
    page.wait_for_function("document.querySelector('.check-status').textContent.includes('kept.json')")
    read()
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    sheet = page.text_content(".check-sheet")
    said.extend(page.evaluate("[...document.querySelectorAll('.check-sheet :is(td, th, p, h2, h3, h4, li, dt, dd)')].map(one => one.textContent)"))
    for typed in ("KM: open, result", "31.5 lb, none", "nicht erfüllt; open", "Kalibrierung gilt bis 31.01.2027"):
        assert typed in sheet, "what somebody wrote stays as it was written"
    asked: list[str] = []
    page.on("dialog", lambda dialog: (asked.append(dialog.message), dialog.accept()))
    press("Alles aus diesem Browser löschen")
    read()
    assert asked
    typed_by_hand = {"open, result", "none", "open", "31.5 lb"}
    found = english_words("\n".join((*said, *asked)), matter.wording.own | typed_by_hand)
    assert found[:20] == []
    assert page.faults == []


def test_lines_of_a_german_checklist_are_told_from_others_by_their_english_words() -> None:
    matter = german("halden_4_cooler")
    chapters = checklist_chapters(matter)
    told = json.loads(data_of(live_checklist(matter, chapters)))
    english = [line for position, chapter in enumerate(chapters, 1) for line in lines_of(position, chapter)]
    assert told["lines"] == lines_digest(english)
    assert told["count"] == len(english)
