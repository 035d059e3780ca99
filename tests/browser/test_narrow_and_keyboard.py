"""The site on a telephone and by the keyboard: tables as cards, numbers in one piece, contents and search that a key opens."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.browser.docket_pages import documents_of
from tests.browser.planner_pages import browser, visit

from liftout.documents import site

pytestmark = pytest.mark.browser

HALDEN = "halden_4_cooler"
CHAPTERS = {
    "manual": ("electrical", "structure"),
    "amendment": ("may_be_loaded",),
    "checklist": ("closing", "values"),
    "calculations": ("summary", "findings-electrical"),
}
BROKEN = """
() => {
  const found = [], range = document.createRange(), walk = document.createTreeWalker(document.querySelector('article'), NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const text = walk.currentNode;
    if (!text.parentElement.closest('table.ruled, dl') || text.parentElement.closest('svg, math')) continue;
    for (const word of text.data.matchAll(/\\S*\\d\\S*/g)) {
      range.setStart(text, word.index);
      range.setEnd(text, word.index + word[0].length);
      if (new Set([...range.getClientRects()].map(one => Math.round(one.top))).size > 1) found.push(word[0]);
    }
  }
  return found;
}
"""
FOCUSED = "(() => { const at = document.activeElement; return [at.tagName, at.innerText, at.getBoundingClientRect().left] })()"


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("docket") / "site"
    documents = tuple(
        replace(document, chapters=tuple(one for one in document.chapters if one.key in CHAPTERS[document.key]))
        for document in documents_of(HALDEN)
        if document.key in CHAPTERS
    )
    site.build(documents, folder, title="Docket")
    return folder


@pytest.fixture
def telephone(opened: Any, place: Path) -> Iterator[Any]:
    context = opened.new_context(offline=True, viewport={"width": 390, "height": 844})
    yield visit(context.new_page(), place / "manual" / "electrical.html")
    context.close()


def pages(place: Path) -> list[Path]:
    return [place / document / f"{chapter}.html" for document, chapters in CHAPTERS.items() for chapter in chapters]


def test_no_table_of_findings_lies_beside_the_screen_of_a_telephone(telephone: Any, place: Path) -> None:
    for path in pages(place):
        visit(telephone, path)
        wide = telephone.evaluate(
            "[...document.querySelectorAll('.wide')].filter(one => !one.closest('.worksheet') && one.scrollWidth > one.clientWidth).length"
        )
        assert wide == 0, path.name
        assert telephone.evaluate("document.documentElement.scrollWidth") <= 390


def test_a_card_names_what_each_of_its_values_is(telephone: Any, place: Path) -> None:
    visit(telephone, place / "calculations" / "summary.html")
    row = telephone.locator("table.cards tbody tr").first
    head = row.evaluate("row => [...row.closest('table').tHead.rows[0].cells].map(cell => cell.textContent)")
    told = row.evaluate("row => [...row.cells].map(cell => getComputedStyle(cell, '::before').content)")
    assert len(head) > 2
    assert told[1:] == [f'"{name}"' for name in head[1:]]


def test_no_word_of_a_card_stands_under_the_name_of_its_value(telephone: Any, place: Path) -> None:
    """A number that is kept whole is a part of its sentence, and no part of the card's own."""
    for path in pages(place):
        visit(telephone, path)
        rooms = "[...document.querySelectorAll(':is(.cards, .checklist) td:not(:first-child) .whole')]"
        left = telephone.evaluate(f"{rooms}.map(one => one.getBoundingClientRect().left - one.closest('td').getBoundingClientRect().left)")
        assert all(at > 80 for at in left), path.name


def test_a_worksheet_that_is_wider_says_so_and_keeps_its_first_column(telephone: Any, place: Path) -> None:
    visit(telephone, place / "calculations" / "findings-electrical.html")
    table = telephone.locator(".worksheet .wide").filter(has=telephone.locator("table.ruled:not(.cards, .givens)"))
    wide = next(one for one in table.all() if one.evaluate("box => box.scrollWidth > box.clientWidth + 40"))
    wide.scroll_into_view_if_needed()
    telephone.wait_for_function("box => box.classList.contains('moves')", arg=wide.element_handle())
    assert "Wider than this screen" in wide.evaluate("box => getComputedStyle(box, '::before').content")
    cell = wide.locator("tbody tr").first.locator("th, td").first
    before = cell.bounding_box()["x"]
    wide.evaluate("box => { box.scrollLeft = 40 }")
    assert cell.bounding_box()["x"] == pytest.approx(before, abs=1)


@pytest.mark.parametrize("width", [1280, 390])
def test_no_number_date_or_place_in_a_file_is_broken(width: int, opened: Any, place: Path) -> None:
    page = opened.new_context(offline=True, viewport={"width": width, "height": 900}).new_page()
    for path in pages(place):
        visit(page, path)
        page.add_style_tag(content=".worksheet { content-visibility: visible !important; }")
        assert [word for word in page.evaluate(BROKEN) if len(word) <= 22 and "/" not in word] == [], path.name
    page.context.close()


def test_contents_and_search_are_opened_by_a_key_and_closed_ones_are_passed_by(telephone: Any) -> None:
    reached: list[Any] = []
    while len(reached) < 12 and "Search" not in [words for _, words, _ in reached]:
        telephone.keyboard.press("Tab")
        reached.append(telephone.evaluate(FOCUSED))
    assert [words for tag, words, _ in reached if tag == "BUTTON"] == ["Contents", "Search"]
    assert all(left >= 0 for _, _, left in reached)
    for name, tag in (("Contents", "A"), ("Search", "INPUT")):
        button = telephone.get_by_role("button", name=name, exact=True)
        button.press("Enter")
        telephone.wait_for_function(f"document.activeElement.tagName === {tag!r}")
        assert button.get_attribute("aria-expanded") == "true"
        assert telephone.evaluate(FOCUSED)[2] >= 0
        telephone.keyboard.press("Escape")
        assert telephone.evaluate(FOCUSED)[1] == name
        assert button.get_attribute("aria-expanded") == "false"


@pytest.mark.long
def test_what_lies_before_and_after_a_page_is_named_whole_and_the_search_tells_its_count(telephone: Any) -> None:
    for kind in ("prev", "next"):
        title = telephone.locator(f".md-footer__link--{kind} .md-ellipsis")
        assert title.is_visible()
        assert title.evaluate("one => one.scrollWidth <= one.clientWidth + 1 && getComputedStyle(one).whiteSpace === 'normal'")
    telephone.get_by_role("button", name="Search", exact=True).click()
    telephone.wait_for_function("document.activeElement.matches('.md-search__input')")
    telephone.keyboard.type("voltage")
    telephone.locator(".md-search-result__link").first.wait_for()
    count = telephone.locator(".md-search-result__meta").bounding_box()
    for other in (".search-close", ".md-search__input"):
        box = telephone.locator(other).bounding_box()
        assert box["y"] + box["height"] <= count["y"] + 1
