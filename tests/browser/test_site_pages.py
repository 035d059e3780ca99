"""A docket's site as a person uses it: opened from a folder with networking off, searched, and read by everybody."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
from tests.browser.checklist_pages import papers_of
from tests.browser.planner_pages import browser, visit

from liftout.documents import site
from liftout.documents.docket import PLANS, _written
from liftout.documents.handbook import handbook
from liftout.documents.html import Door
from liftout.resources import folder

pytestmark = pytest.mark.browser

HALDEN = "halden_4_cooler"
KINDS = (
    "index.html",
    "manual/index.html",
    "manual/drawings.html",
    "amendment/working.html",
    "amendment/planner.html",
    "checklist/closing.html",
    "checklist/filled_in.html",
    "calculations/summary.html",
    "calculations/findings-electrical.html",
    "calculations/job_lines.html",
    "calculations/table_rows.html",
    "records/placard_sheet.html",
)
"""A page of each kind: first page, title page, drawings, worksheets, planner, lines to inspect, the same on a screen, results, worksheets
side by side, lines of the job, table rows, placards."""
SEEN = ((1280, "light"), (390, "dark"), (1280, "dark"), (390, "light"))
"""Widths and grounds; the first two are held to every rule, the others to those that width and ground can break."""
OF_WIDTH_AND_GROUND = ["color-contrast", "scrollable-region-focusable", "link-in-text-block"]
EVERY_TIME = ("index.html", "checklist/filled_in.html", "amendment/planner.html")
"""Kinds that are looked at in every run; the others take long."""


THE_REST_IS_THE_SAME = """
() => document.querySelectorAll('tr:nth-child(n+9), .lines > li:nth-child(n+40), .row:nth-of-type(n+6), .worksheet:nth-of-type(n+4), .check-line:nth-of-type(n+9), .check-chapter:not([open])').forEach(one => one.remove())
"""
"""Rows, worksheets and lines of one kind are made by one piece of code: the first few are read, so that the test stays short."""


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory, opened: Any) -> Path:
    place, matter = tmp_path_factory.mktemp("docket"), papers_of(HALDEN)
    documents = tuple(_written(plan, matter) for plan in PLANS)
    files = [(document, file) for document in documents for file in document.companions]
    for _, file in files:
        (place / file.name).write_bytes(file.content)
    beside = [Door(file.description.capitalize(), "", f"../{file.name}", document.number) for document, file in files]
    site.build(documents, place / "site", title=f"Docket {matter.papers.number}", beside=beside)
    return place


@pytest.fixture
def page(opened: Any, built: Path) -> Iterator[Any]:
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 900})
    yield visit(context.new_page(), built / "site" / "index.html")
    context.close()


@pytest.mark.parametrize("each", [5, pytest.param(1, marks=pytest.mark.long)])
def test_no_page_asks_the_network_for_anything(each: int, page: Any, built: Path) -> None:
    every = sorted(built.rglob("*.html"))
    pages = every[::each]
    for path in pages:
        page.goto(path.as_uri(), wait_until="load")
        assert page.text_content("h1"), path.name
    outside = [address for address in page.asked if not address.startswith((built.as_uri(), "data:", "blob:"))]
    assert outside == []
    assert page.faults == []
    assert {address.partition("#")[0] for address in page.asked} >= {path.as_uri() for path in pages}
    assert len(every) > sum(len(plan.chapters) for plan in PLANS) - 2


def test_the_recorder_sees_what_asks_the_network(page: Any) -> None:
    page.evaluate("document.body.append(Object.assign(new Image(), { src: 'http://192.0.2.1/picture.png' }))")
    page.wait_for_function("!!document.querySelector('img[src^=http]').complete")
    assert "http://192.0.2.1/picture.png" in page.asked


def test_the_search_finds_a_word_and_leads_to_it(page: Any) -> None:
    page.fill(".md-search__input", "fuselage station datum"[:8])
    first = page.locator(".md-search-result__link").first
    first.wait_for()
    first.click()
    page.wait_for_load_state()
    assert "fuselage" in page.inner_text("main").lower()
    assert page.faults == []


def test_a_result_of_the_search_is_no_longer_than_a_few_lines(page: Any) -> None:
    """A worksheet has a screen of numbers, beyond which nobody sees that there are more results."""
    page.fill(".md-search__input", "weight")
    page.locator(".md-search-result__item").nth(1).wait_for()
    tallest = page.evaluate("Math.max(...[...document.querySelectorAll('.md-search-result__article')].map((one) => one.clientHeight))")
    assert 0 < tallest < 150


def test_words_are_searched_that_come_without_a_key(page: Any) -> None:
    """Pasted, dragged or spoken, when the index has long been read."""
    found = page.locator(".md-search-result__link")
    page.fill(".md-search__input", "fuselage")
    found.first.wait_for()
    page.fill(".md-search__input", "")
    found.first.wait_for(state="detached")
    page.fill(".md-search__input", "moment")
    found.first.wait_for()


@pytest.mark.long
def test_the_search_of_the_handbook_works_from_a_folder_without_a_network(opened: Any, tmp_path: Path) -> None:
    document = handbook(folder("jobs") / HALDEN / "job.yaml")
    site.build((document,), tmp_path / "site", title="liftout handbook")
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 900})
    page = visit(context.new_page(), tmp_path / "site" / "index.html")
    for words, found in (
        ("voltage drop", "Held to what others printed"),
        ("walk-round sheet", "liftout survey"),
        ("registraton", "From an empty folder to a docket"),
    ):
        page.goto((tmp_path / "site" / "index.html").as_uri())
        page.fill(".md-search__input", words)
        first = page.locator(".md-search-result__link").first
        first.wait_for()
        first.click()
        page.wait_for_function("location.search.includes('h=')")
        page.wait_for_load_state()
        assert found in page.inner_text("main"), words
    outside = [address for address in page.asked if not address.startswith((tmp_path.as_uri(), "data:", "blob:"))]
    assert (outside, page.faults) == ([], [])
    context.close()


def test_the_first_page_leads_to_the_checklist_on_a_screen(page: Any) -> None:
    page.get_by_role("link", name="Checklist on a screen").first.click()
    page.wait_for_selector(".check-bar")
    assert page.locator("[data-line]").count() == papers_of(HALDEN).live_checklist.lines
    assert page.faults == []


def rules() -> str:
    """The script of axe-core, as its wheel carries it."""
    return (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")


def serious(page: Any, only: list[str] | None = None) -> list[str]:
    """What axe-core finds serious or critical: rule, and where."""
    found = page.evaluate(
        "only => axe.run(document, { resultTypes: ['violations'], ...(only ? { runOnly: { type: 'rule', values: only } } : {}) }).then(found => found.violations)",
        only,
    )
    return [f"{one['id']}: {node['target']}" for one in found if one["impact"] in ("serious", "critical") for node in one["nodes"]]


@pytest.mark.parametrize("kind", [kind if kind in EVERY_TIME else pytest.param(kind, marks=pytest.mark.long) for kind in KINDS])
def test_nothing_serious_stands_in_anybodys_way_and_no_page_scrolls_sideways(kind: str, page: Any, built: Path) -> None:
    page.goto((built / "site" / kind).as_uri())
    if kind.endswith("filled_in.html"):
        page.select_option("#check-state", "in and filled")
        page.locator(".check-chapter summary").nth(3).click()
    page.evaluate(THE_REST_IS_THE_SAME)
    page.evaluate(rules())
    page.add_style_tag(content="* { transition: none !important }")
    # What only lies half below the edge of a box that scrolls, or of the bar at the foot, is not too small.
    uncovered = ".wide, .md-sidebar__scrollwrap { overflow: visible !important; height: auto !important } .standing--fixed { display: none }"
    for place, (width, scheme) in enumerate(SEEN):
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme)
        page.wait_for_timeout(60)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert serious(page, None if place < 2 else OF_WIDTH_AND_GROUND) == [], f"{width} wide, {scheme}"
    page.add_style_tag(content=uncovered)
    for width in (1280, 390):
        page.set_viewport_size({"width": width, "height": 900})
        assert serious(page, ["target-size"]) == [], f"{width} wide"


def test_the_rules_see_what_is_wrong(page: Any) -> None:
    page.evaluate(
        "document.querySelector('h1').insertAdjacentHTML('afterend', '<p style=\"color: #ccc; background: #fff\">pale</p><button></button>')"
    )
    page.evaluate(rules())
    found = " ".join(serious(page))
    assert "color-contrast" in found
    assert "button-name" in found
