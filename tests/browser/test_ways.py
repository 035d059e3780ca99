"""Each printed number leads to where it comes from, and no link of a docket leads nowhere."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from tests.browser.docket_pages import Docket, docket_in
from tests.browser.planner_pages import assessed, browser, visit

from liftout.documents.blocks import slug
from liftout.documents.ways import anchor_of
from liftout.identity.resolved import resolved_yaml
from liftout.tables import table

pytestmark = [pytest.mark.browser, pytest.mark.long]

HALDEN = "halden_4_cooler"
NO_PLACE = {"found by search", "found by search; the lines below prove it", "the requirement itself", ""}
"""What stands as the origin of a value that comes from nowhere else: the sheet itself proves it, or it is what the requirement says."""


@pytest.fixture(scope="module")
def docket(tmp_path_factory: pytest.TempPathFactory) -> Docket:
    return docket_in(HALDEN, tmp_path_factory.mktemp("docket"))


class Anchors(HTMLParser):
    """Every id of a page and every address that it leads to; origins without a link."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.leads: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        found = dict(attributes)
        if found.get("id"):
            self.ids.append(str(found["id"]))
        if tag == "a" and found.get("href"):
            self.leads.append(str(found["href"]))


def faults(folder: Path) -> list[str]:
    """Ids that stand twice on a page, and links that lead nowhere; papers are written beside the site and are not looked for."""
    pages = {path.resolve(): Anchors(path.read_text(encoding="utf-8")) for path in folder.rglob("*.html")}
    wrong = [f"{path.name}: {name} stands {times} times" for path, page in pages.items() for name, times in Counter(page.ids).items() if times > 1]
    for path, page in pages.items():
        for address in page.leads:
            file, _, anchor = address.partition("#")
            target = (path.parent / unquote(file)).resolve() if file else path
            if not target.is_relative_to(folder.resolve()):
                wrong.append(f"{path.name}: {address} leads out of the docket")
            elif target.suffix == ".html" and (target not in pages or (anchor and unquote(anchor) not in pages[target].ids)):
                wrong.append(f"{path.name}: {address} leads nowhere")
    return wrong


def test_every_link_of_a_docket_leads_somewhere_and_every_anchor_is_one(docket: Docket) -> None:
    assert faults(docket.folder) == []
    pages = [Anchors(path.read_text(encoding="utf-8")) for path in docket.folder.rglob("*.html")]
    assert sum(len(page.leads) for page in pages) > 10_000


def test_a_link_that_leads_nowhere_is_seen(docket: Docket, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text('<p id="here"><a href="#here">x</a><a href="#there">y</a><a href="../b.html">z</a><a href="c.html">w</a>')
    assert faults(tmp_path) == [
        "a.html: #there leads nowhere",
        "a.html: ../b.html leads out of the docket",
        "a.html: c.html leads nowhere",
    ]


def test_every_origin_on_a_worksheet_leads_to_where_it_is(docket: Docket) -> None:
    bare: Counter[str] = Counter()
    seen = 0
    for path in (docket.folder / "site" / "calculations").glob("*.html"):
        for found in re.findall(r'<tr[^>]*><td><math.*?<td class="origin">(.*?)</td>', path.read_text(encoding="utf-8")):
            seen += 1
            if "<a href" not in found:
                bare[found] += 1
    assert {*bare} <= NO_PLACE
    assert seen > 300


def test_a_line_of_the_job_is_shown_as_the_docket_carries_it(docket: Docket) -> None:
    text = (docket.folder / "site" / "calculations" / "job_lines.html").read_text(encoding="utf-8")
    shown = re.findall(r'<li id="line-(\d+)"><code>(.*?)</code>', text)
    lines = resolved_yaml(assessed(HALDEN).job).splitlines()
    assert [int(number) for number, _ in shown] == list(range(1, len(lines) + 1))
    unescaped = [
        re.sub(r"&#x27;", "'", line.replace("&quot;", '"').replace("&lt;", "<").replace("&gt;", ">")).replace("&amp;", "&") for _, line in shown
    ]
    assert unescaped == lines


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


@pytest.fixture
def page(opened: Any, docket: Docket) -> Iterator[Any]:
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 800})
    yield visit(context.new_page(), docket.start)
    context.close()


def target(page: Any) -> str:
    """What the address leads to, as a person sees it."""
    page.wait_for_selector(":target")
    words: str = page.locator(":target").inner_text()
    return " ".join(words.split())


@pytest.fixture
def electrical(page: Any, docket: Docket) -> Any:
    page.goto((docket.folder / "site" / "calculations" / "findings-electrical.html").as_uri())
    return page


def line_named(address: str) -> str:
    """The line of the job that an address leads to."""
    return resolved_yaml(assessed(HALDEN).job).splitlines()[int(address.rpartition("-")[2]) - 1].strip()


@pytest.mark.parametrize("where", ["section.worksheet td.origin a", ".tabled td.value a"])
def test_a_given_leads_to_its_line_of_the_job(where: str, electrical: Any) -> None:
    """On a worksheet of its own by the words of its origin, side by side with others by its number."""
    lead = electrical.locator(f"{where}[href*='#line-']").first
    address = lead.get_attribute("href")
    lead.click()
    assert target(electrical) == line_named(address)
    assert electrical.faults == []


def test_a_figure_of_a_table_leads_to_its_row_with_its_source(electrical: Any) -> None:
    lead = electrical.locator("td.origin a[href*='table_rows.html']").first
    name, _, key = lead.inner_text().partition(": ")
    row = table(name).row(key)
    lead.click()
    words = target(electrical)
    cells = [cell.text for cell in row.cells.values() if cell.text]
    assert cells
    for part in (row.identity, *cells, row.source.place, row.read):
        assert part in words, part


def test_a_worked_line_leads_to_the_lines_that_it_uses(electrical: Any) -> None:
    used = electrical.locator(".uses a").first
    name = used.get_attribute("aria-label").partition(",")[0]
    used.click()
    assert electrical.evaluate("location.hash").endswith(f".{name}")
    assert electrical.locator(":target").count() == 1


def test_a_worked_value_leads_to_its_own_line(electrical: Any) -> None:
    of = next(found for found in assessed(HALDEN).findings if slug(found.key).startswith("electrical-voltage-drop-w2"))
    given = electrical.locator(f"[id={anchor_of(of)}] td.origin a", has_text="worked: electrical.circuit_drop, W2").first
    value = given.locator("xpath=ancestor::tr").locator("td.value").text_content()
    given.click()
    assert electrical.evaluate("location.hash").endswith(".V_drop")
    assert target(electrical) in value, "the very figure stands where the given leads to"


def test_a_result_in_the_manual_leads_to_its_working(page: Any, docket: Docket) -> None:
    page.goto((docket.folder / "site" / "manual" / "electrical.html").as_uri())
    page.get_by_role("link", name="Voltage drop of a circuit, out and back").first.click()
    assert "Voltage drop of a circuit" in target(page)
    assert "/calculations/" in page.url
