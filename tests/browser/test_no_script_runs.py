"""A docket of a job whose names hold scripts, in a browser: every page is opened and searched, and none of them runs."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.planner_pages import browser
from tests.cli.test_check import run
from tests.documents.test_hostile_names import hostile_job

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    assert run("issue", hostile_job(folder), "--out", folder / "docket")[0] == 1
    return folder / "docket"


def ran(page: Any) -> bool:
    return bool(page.evaluate("'broken' in window"))


def test_no_page_of_a_docket_runs_what_a_name_says(opened: Any, issued: Path) -> None:
    """All pages where every test is run, else those of each kind that hold a script's words: first, live, worksheets, lines of the job."""
    every = [*sorted((issued / "site").rglob("*.html")), *sorted(issued.glob("*.html"))]
    holding = [path for path in every if "window.broken" in path.read_text(encoding="utf-8")]
    assert len(holding) >= 10
    some = [
        issued / "site" / name
        for name in ("index.html", "checklist/filled_in.html", "calculations/job_lines.html", "calculations/findings-electrical.html")
    ]
    chosen = every if os.environ.get("EVERY_TEST") else [*some, *issued.glob("*.html")]
    context = opened.new_context(offline=True)
    asked: list[str] = []
    page = context.new_page()
    page.on("dialog", lambda dialog: (asked.append(dialog.message), dialog.dismiss()))
    for path in chosen:
        page.goto(path.as_uri())
        assert not ran(page), path
        for link in page.locator('a[href^="javascript:" i]').all():
            asked.append(link.get_attribute("href"))
    assert asked == []
    context.close()


def test_the_search_shows_a_script_as_words(opened: Any, issued: Path) -> None:
    context = opened.new_context(offline=True)
    page = context.new_page()
    page.goto((issued / "site" / "index.html").as_uri())
    for words in ("Moss", "window.broken", "<img src=x onerror=window.broken=1>", "Moss"):
        page.locator("input.md-search__input").fill(words)
        if words == "Moss":
            page.locator(".md-search-result__link").first.wait_for(timeout=150_000)  # a busy machine is long at the index of 70 pages
        else:
            page.wait_for_timeout(400)
        assert not ran(page)
    assert page.locator(".md-search-result img, .md-search-result b, .md-search-result script").count() == 0
    assert not ran(page)
    context.close()


def test_a_script_that_does_run_is_seen(opened: Any, tmp_path: Path) -> None:
    file = tmp_path / "bad.html"
    file.write_text('<p><img src=x onerror="window.broken=1"></p>', encoding="utf-8")
    page = opened.new_page()
    page.goto(file.as_uri())
    page.wait_for_function("'broken' in window")
    assert ran(page)
