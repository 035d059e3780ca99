"""A loading planner in German: it computes the same, understands a decimal comma, and shows no word of its own in English."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.planner_pages import DEMONSTRATIONS, browser, matter_of, page_of

from liftout.assessment import assess
from liftout.documents.planner import SHARED_WORDS, words_of
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.resources import folder

pytestmark = [pytest.mark.browser, pytest.mark.long]

ENGLISH_WORDS = re.compile(
    r"\b(the|of|from|least|most|below|above|behind|ahead|within|outside|missing|weight|moment|state|loading|limit|seat|fuel|landing|WARNING|CAUTION|NOTE)\b",
    re.IGNORECASE,
)
"""Words of the page in English; what the job says in English is taken out before."""


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


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
        told = page.inner_text("body") + (page.text_content(".planner-sheet") or "")
        own = sorted((word for word in matter.wording.own if re.search(r"[a-z]", word)), key=len, reverse=True)
        for word in own:
            told = re.sub(rf"(?<!\w){re.escape(word)}(?!\w)", " ", told, flags=re.IGNORECASE) if ENGLISH_WORDS.search(word) else told
        assert ENGLISH_WORDS.findall(told) == [], told
    assert re.search(r"\d,\d\u00a0lb", page.inner_text(".planner-results"))
    assert not re.search(r"\d\.\d\u00a0(lb|in|US gal)", page.inner_text("body"))
    assert page.faults == []


def test_words_that_a_page_takes_from_papers_are_all_there() -> None:
    assert set(SHARED_WORDS) <= set(words_of("de"))
    assert words_of("en") == {}
