"""The site: opens from a folder without server and network, says everything that the paper says, leaves nothing behind."""

from __future__ import annotations

import hashlib
import html
import json
import logging
import re
import shutil
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest

from liftout.documents import Chapter, Document, DocumentError, shared_theme, site
from liftout.documents.blocks import BlockError, Heading, Paragraph, Table, Text
from liftout.documents.html import Door, block_html, kept_whole
from tests.documents import sample

TITLE = "SFW-24-031, cabin cooler in <Halden> & 4"


def docket() -> tuple[Document, ...]:
    manual = sample.document(shop="Skerry <Fitting> & Works")
    record = replace(manual, key="record", title="Calculation record & <sources>", number="SFW-24-031-C", readers=("inspector", "shop"), standing="")
    amendment = replace(
        manual, key="amendment", title="Weight-and-balance amendment", readers=("owner",), chapters=(Chapter("short", "Short & <sweet>", ()),)
    )
    return manual, amendment, record


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("docket") / "site"
    papers = {"manual": "../SFW-24-031-M.pdf", "record": "../SFW-24-031-C.pdf"}
    site.build(docket(), folder, title=TITLE, papers=papers, beside=(Door("Findings, for machines", "", "../findings.json"),))
    return folder


class Reader(HTMLParser):
    """What a page shows, and what it refers to."""

    def __init__(self) -> None:
        super().__init__()
        self.text: list[str] = []
        self.fetched: list[str] = []
        self.links: list[str] = []
        self.anchors: list[str] = []
        self.tags: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self._silent += tag in ("script", "style")
        for name, value in attrs:
            if name == "id":
                self.anchors.append(value or "")
            if name == "href" and tag == "a":
                self.links.append(value or "")
            elif name in ("src", "href", "srcset", "poster", "data", "action") and not (
                (tag == "link" and ("rel", "next") in attrs) or ("rel", "prev") in attrs
            ):
                self.fetched.append(value or "")

    def handle_endtag(self, tag: str) -> None:
        self._silent -= tag in ("script", "style")

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.text.append(data)


def reader(page: Path) -> Reader:
    found = Reader()
    found.feed(page.read_text(encoding="utf-8"))
    return found


def pages(folder: Path) -> list[Path]:
    return sorted(folder.rglob("*.html"))


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u00a0]+", "", text)


def test_each_document_and_chapter_is_a_page_in_order(built: Path) -> None:
    assert [str(page.relative_to(built)) for page in pages(built)] == [
        "amendment/index.html",
        "amendment/short.html",
        "index.html",
        "manual/everything.html",
        "manual/index.html",
        "manual/short.html",
        "record/everything.html",
        "record/index.html",
        "record/short.html",
    ]
    tabs = re.findall(r'<a href="([^"]+)" class="md-tabs__link">', (built / "index.html").read_text(encoding="utf-8"))
    assert [tab for tab in tabs if tab != "."] == ["index.html", "manual/index.html", "amendment/index.html", "record/index.html"]


def test_the_first_page_leads_each_reader_to_the_papers(built: Path) -> None:
    page = (built / "index.html").read_text(encoding="utf-8")
    parts = re.split(r'<section class="reader">', page)[1:]
    assert [re.search(r"<h2[^>]*>([^<]+)", part).group(1) for part in parts] == ["For the shop", "For the owner", "For the inspector"]  # type: ignore[union-attr]
    assert [re.findall(r'<li><a href="([^"]+)"', part.partition("</section>")[0]) for part in parts] == [
        ["manual/index.html", "record/index.html"],
        ["amendment/index.html"],
        ["record/index.html"],
    ]
    assert {"../SFW-24-031-M.pdf", "../SFW-24-031-C.pdf", "../findings.json"} <= set(reader(built / "index.html").links)
    assert "../../SFW-24-031-M.pdf" in reader(built / "manual" / "index.html").links


def test_the_standing_is_at_the_top_of_every_page_of_a_document_that_has_one(built: Path) -> None:
    for page in pages(built):
        text = page.read_text(encoding="utf-8")
        top = text[: text.index('<header class="md-header')]
        assert (f"<strong>{sample.STANDING}</strong>" in top) == (page.parent.name != "record"), page


def test_each_page_says_which_document_it_is(built: Path) -> None:
    for document in docket():
        for page in (built / document.key).glob("*.html"):
            foot = page.read_text(encoding="utf-8").rpartition('<div class="control">')[2]
            for mark in (document.number, document.revision, document.effectivity, document.shop, document.short_digest):
                assert html.escape(mark) in foot


def test_a_hostile_text_shows_exactly_as_typed(built: Path) -> None:
    page = built / "manual" / "everything.html"
    shown = squeezed("".join(reader(page).text))
    assert shown.count(squeezed(sample.HOSTILE)) == 7
    assert "<script>alert(1)" not in page.read_text(encoding="utf-8")


def test_titles_and_names_are_escaped_once(built: Path) -> None:
    for page in pages(built):
        text = page.read_text(encoding="utf-8").replace(html.escape(sample.HOSTILE), "")
        assert "<Halden>" not in text
        assert "<Fitting>" not in text
        assert "<sources>" not in text
        assert "<sweet>" not in text
        assert "&amp;amp;" not in text
        assert "&amp;lt;" not in text
    assert f"<title>{html.escape(TITLE)}</title>" in (built / "index.html").read_text(encoding="utf-8")


def test_anchors_are_unique_and_links_arrive(built: Path) -> None:
    for page in pages(built):
        found = reader(page)
        assert len(found.anchors) == len(set(found.anchors)), page
        for link in found.links:
            address, _, anchor = link.partition("#")
            target = (page.parent / address).resolve() if address else page
            if target.is_dir():
                target /= "index.html"
            if not target.is_relative_to(built):
                assert target.suffix in (".pdf", ".json"), link
                continue
            assert target.is_file(), (page, link)
            if anchor:
                assert anchor in reader(target).anchors, (page, link)


def test_nothing_is_fetched_from_anywhere_else(built: Path) -> None:
    outside = re.compile(r"^\s*(?:[a-z]+:)?//", re.IGNORECASE)
    for page in pages(built):
        for address in reader(page).fetched:
            assert not outside.match(address), (page, address)
            assert (page.parent / address.partition("?")[0]).resolve().is_relative_to(built), (page, address)
            assert (page.parent / address.partition("?")[0]).resolve().exists(), (page, address)
    for sheet in built.rglob("*.css"):
        text = sheet.read_text(encoding="utf-8")
        for address in re.findall(r"url\(\s*[\"']?([^\"')]+)", text) + re.findall(r"@import\s+[\"']([^\"']+)", text):
            assert not outside.match(address) or address.startswith("data:"), (sheet, address)
    assert not list(built.rglob("*.map"))
    assert (built / "assets" / "iframe-worker.js").is_file()


def test_what_others_made_is_handed_on_with_its_licence(built: Path) -> None:
    for terms in ("fonts/OFL.txt", "iframe-worker.LICENSE.txt", "mkdocs-material.LICENSE.txt"):
        assert (built / "assets" / terms).is_file()


def test_search_knows_every_heading(built: Path) -> None:
    said = (built / "search" / "search_index.js").read_text(encoding="utf-8")
    index = json.loads(said.removeprefix("var __index = "))
    titles = {html.unescape(re.sub("<[^>]+>", "", entry["title"])) for entry in index["docs"]}
    for document in docket():
        for position, chapter in enumerate(document.chapters, 1):
            assert f"{position} {chapter.title}" in titles
            for block in chapter.blocks:
                if isinstance(block, Heading):
                    assert any(title.endswith(block.text) for title in titles), block
    assert any(squeezed("Hot coolant burns skin") in squeezed(entry["text"]) for entry in index["docs"])


def test_every_block_of_the_paper_is_on_the_page(built: Path) -> None:
    shown = squeezed("".join(reader(built / "manual" / "everything.html").text))
    for finding in (sample.voltage_drop(), sample.every_node(), sample.long_sum(), sample.not_assessed(), sample.not_applicable()):
        assert squeezed(finding.sentence) in shown
        assert squeezed(finding.requires) in shown
        for source in (*finding.sources, *finding.to_confirm):
            assert squeezed(source) in shown
        for step in finding.steps:
            assert squeezed(step.meaning) in shown
            for row in step.rows:
                assert squeezed(f"{row.printed.number}{row.printed.unit}") in shown
    for check in sample.CHECKS:
        for words in (check.item, check.where, check.method, check.acceptance, check.reference):
            assert squeezed(words) in shown
    assert shown.count("HOLDPOINT") == 2
    assert shown.count("SECONDPERSON") == 1


def test_measured_values_and_initials_are_blank(built: Path) -> None:
    page = (built / "manual" / "everything.html").read_text(encoding="utf-8")
    assert re.findall(r'<td class="blank" data-label="[^"]+">(.*?)</td>', page) == [""] * 2 * len(sample.CHECKS)


def test_two_builds_give_the_same_bytes(built: Path, tmp_path: Path) -> None:
    papers = {"manual": "../SFW-24-031-M.pdf", "record": "../SFW-24-031-C.pdf"}
    site.build(docket(), tmp_path / "again", title=TITLE, papers=papers, beside=(Door("Findings, for machines", "", "../findings.json"),))

    def sums(folder: Path) -> dict[str, str]:
        return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(folder.rglob("*")) if path.is_file()}

    assert sums(built) == sums(tmp_path / "again")


# --- a theme that several sites share ---------------------------------------------------------------------------


@pytest.fixture(scope="module")
def sharing(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of two dockets and the theme that both use; its name has what an address must spell otherwise."""
    place = tmp_path_factory.mktemp("dockets # 1")
    for name in ("one", "two"):
        site.build(docket(), place / name / "A" / "site", title=f"{TITLE} {name}", shared=place / "common")
    return place


def files(folder: Path) -> dict[str, str]:
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.rglob("*") if path.is_file()}


def test_a_shared_theme_is_there_once_and_no_site_has_it(sharing: Path, built: Path) -> None:
    (theme,) = (sharing / "common").iterdir()
    own = {name: digest for name, digest in files(built).items() if name.startswith("assets/")}
    assert files(theme) == {name.removeprefix("assets/"): digest for name, digest in own.items()}
    for name in ("one", "two"):
        assert {*files(sharing / name / "A" / "site")} == {*files(built)} - {*own}


def test_pages_that_share_a_theme_fetch_only_what_is_there(sharing: Path) -> None:
    fetched = 0
    for name in ("one", "two"):
        for page in pages(sharing / name / "A" / "site"):
            for address in reader(page).fetched:
                assert (page.parent / unquote(address.partition("#")[0])).resolve().is_file(), (page, address)
                fetched += "common/theme-" in unquote(address)
            worker = re.search(r'"search": "([^"]+)"', page.read_text(encoding="utf-8"))
            assert worker is not None
            assert (page.parent / unquote(worker[1])).resolve().is_file(), page
    assert fetched > 50


def test_a_page_says_the_same_with_a_theme_of_its_own(sharing: Path, tmp_path: Path) -> None:
    site.build(docket(), tmp_path / "site", title=f"{TITLE} one")
    for page in pages(tmp_path / "site"):
        shared = reader(sharing / "one" / "A" / "site" / page.relative_to(tmp_path / "site"))
        own = reader(page)
        assert (own.text, own.links, own.anchors, own.tags) == (shared.text, shared.links, shared.anchors, shared.tags)


def test_another_theme_lies_beside_and_what_is_there_is_left_alone(tmp_path: Path) -> None:
    shared_theme.SharedTheme({"style.css": b"a"}, tmp_path / "common", tmp_path / "site")
    (first,) = (tmp_path / "common").iterdir()
    before = (first / "style.css").stat().st_mtime_ns
    shared_theme.SharedTheme({"style.css": b"a"}, tmp_path / "common", tmp_path / "site")
    shared_theme.SharedTheme({"style.css": b"b"}, tmp_path / "common", tmp_path / "site")
    assert (first / "style.css").stat().st_mtime_ns == before
    assert sorted((folder / "style.css").read_bytes() for folder in (tmp_path / "common").iterdir()) == [b"a", b"b"]


def test_of_many_that_share_at_once_each_finds_the_theme_whole(tmp_path: Path) -> None:
    content = {f"{number}.css": bytes(10_000) for number in range(20)}
    with ThreadPoolExecutor(8) as crew:
        list(crew.map(lambda _: shared_theme.SharedTheme(content, tmp_path / "common", tmp_path / "site"), range(24)))
    (theme,) = (tmp_path / "common").iterdir()
    assert {path.name: path.read_bytes() for path in theme.iterdir()} == content


def test_a_theme_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "common").write_text("a file", encoding="utf-8")
    with pytest.raises(shared_theme.NotShared, match="cannot be written"):
        site.build(docket(), tmp_path / "site", title=TITLE, shared=tmp_path / "common")


def test_the_index_of_the_search_is_there_once(built: Path) -> None:
    """The theme's script takes the same form of it from a folder and from a server."""
    assert [path.name for path in (built / "search").iterdir()] == ["search_index.js"]
    (script,) = (built / "assets" / "javascripts").glob("bundle.*.js")
    assert "search_index.json" in script.read_text(encoding="utf-8"), "else this says nothing"
    assert 'location.protocol==="file:"?' not in script.read_text(encoding="utf-8").partition("search_index.js")[0][-80:]


# --- where it writes ----------------------------------------------------------------------------------------


def test_a_folder_that_holds_something_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "precious.txt").write_text("keep", encoding="utf-8")
    with pytest.raises(site.SiteError, match="not empty"):
        site.build(docket(), tmp_path, title=TITLE)
    assert [path.name for path in tmp_path.iterdir()] == ["precious.txt"]


@pytest.mark.parametrize("address", ["http://example.org/a.pdf", "/etc/passwd", "file:///a.pdf"])
def test_links_lead_to_files_beside_the_site_only(address: str, tmp_path: Path) -> None:
    with pytest.raises(site.SiteError, match="beside it only"):
        site.build(docket(), tmp_path / "site", title=TITLE, papers={"manual": address})


@pytest.mark.parametrize("documents", [(), (sample.document(), sample.document()), (sample.document(key="assets"),)])
def test_documents_have_keys_of_their_own(documents: tuple[Document, ...], tmp_path: Path) -> None:
    with pytest.raises(DocumentError, match="a key of its own"):
        site.build(documents, tmp_path / "site", title=TITLE)


def test_a_document_with_a_fault_builds_nothing(tmp_path: Path) -> None:
    with pytest.raises(DocumentError, match="THUMBS UP"):
        site.build((sample.document(shop="👍"),), tmp_path / "site", title=TITLE)
    assert not (tmp_path / "site").exists()


def test_nothing_is_left_behind_and_nothing_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> None:
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(scratch))
    handlers = list(logging.getLogger("mkdocs").handlers)
    site.build(docket(), tmp_path / "site", title=TITLE)
    assert list(scratch.iterdir()) == []
    assert logging.getLogger("mkdocs").handlers == handlers
    assert capfd.readouterr() == ("", "")


def test_a_complaint_of_the_site_builder_is_an_error(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("mkdocs.commands.build.build", lambda _config: logging.getLogger("mkdocs.structure").warning("something is wrong"))
    with pytest.raises(site.SiteError, match="something is wrong"):
        site.build(docket(), tmp_path / "site", title=TITLE)


def test_sites_in_two_languages_are_built_by_one_process(tmp_path: Path) -> None:
    """What is kept of the theme between two sites has no language."""
    for language in ("de", "en", "de"):
        folder = tmp_path / f"{language}{len(list(tmp_path.iterdir()))}"
        site.build((sample.document(language=language),), folder, title="Docket T-1 revision A")
        page = (folder / "manual" / "everything.html").read_text(encoding="utf-8")
        assert f'<html lang="{language}"' in page
        assert ("Suche" in page) == (language == "de")
        assert ("No matching documents" in page) == (language == "en")


def memory() -> int:
    """Resident memory, in kilobytes."""
    for said in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if said.startswith("VmRSS"):
            return int(said.split()[1])
    raise AssertionError("no resident memory")


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="resident memory is read from /proc")
def test_memory_does_not_pile_up_over_builds(tmp_path: Path) -> None:
    documents = docket()

    def builds(count: int) -> None:
        for _ in range(count):
            site.build(documents, tmp_path / "site", title=TITLE)
            shutil.rmtree(tmp_path / "site")

    builds(3)
    before = memory()
    builds(8)
    assert memory() - before < 8_000


def test_a_block_that_html_does_not_know_is_an_error() -> None:
    class Unknown:
        pass

    with pytest.raises(BlockError, match="has no HTML"):
        block_html(Unknown())  # type: ignore[arg-type]
    with pytest.raises(BlockError, match="has no HTML"):
        block_html(Paragraph((Text("a"), Unknown())))  # type: ignore[arg-type]


# --- as a person sees it ------------------------------------------------------------------------------------


def test_a_folder_named_from_where_one_stands_gets_its_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As the README's own command names it."""
    monkeypatch.chdir(tmp_path)
    site.build(docket(), Path("out/site"), title=TITLE)
    assert (tmp_path / "out" / "site" / "index.html").is_file()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    playwright = pytest.importorskip("playwright.sync_api")
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if program is None:
        pytest.skip("no browser on this machine")
    with playwright.sync_playwright() as running:
        opened = running.chromium.launch(executable_path=program, args=["--no-sandbox", "--disable-quic", "--disable-background-networking"])
        yield opened
        opened.close()


@pytest.mark.browser
@pytest.mark.parametrize("theme", ["its own", "shared"])
def test_in_a_browser_search_works_and_nothing_is_asked_of_a_network(built: Path, sharing: Path, browser: Any, theme: str) -> None:
    folder = built if theme == "its own" else sharing / "two" / "A" / "site"
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    asked: list[str] = []
    wrong: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    page.goto((folder / "manual" / "everything.html").as_uri())
    assert page.evaluate("document.fonts.ready.then(() => document.fonts.check('16px \"IBM Plex Sans\"'))")
    page.click("[data-md-component=search-query]")
    page.keyboard.type("coolant")
    page.wait_for_selector(".md-search-result__item")
    assert "Coolant flow: loop A, filled" in page.inner_text("[data-md-component=search-result]")
    page.click(".md-search-result__item a")
    page.wait_for_url(re.compile(r"/site/manual/everything\.html\?h="))
    assert wrong == []
    assert [address for address in asked if not address.startswith(("file:", "data:", "blob:"))] == []
    page.close()


@pytest.mark.browser
def test_on_a_phone_only_wide_tables_scroll(built: Path, browser: Any) -> None:
    page = browser.new_page(viewport={"width": 390, "height": 844})
    for name in ("index.html", "manual/index.html", "manual/everything.html"):
        page.goto((built / name).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, name
    page.close()


CONTRAST = """
() => {
  const lum = ([r, g, b]) => { const f = [r, g, b].map(v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4 }); return 0.2126 * f[0] + 0.7152 * f[1] + 0.0722 * f[2] };
  const rgb = s => { const m = s.match(/[\\d.]+/g).map(Number); return m.length > 3 ? m : [...m, 1] };
  const ground = e => { for (; e; e = e.parentElement) { const c = rgb(getComputedStyle(e).backgroundColor); if (c[3] > 0.99) return c } return rgb(getComputedStyle(document.body).backgroundColor) };
  const bad = [];
  for (const e of document.querySelectorAll('.md-content *, .md-tabs__link, .md-banner *, .control, .control *, .md-nav__link, .standing--fixed')) {
    const own = [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
    const box = e.getBoundingClientRect();
    if (!own || !box.width || getComputedStyle(e).visibility !== 'visible' || e.closest('svg')) continue;
    const a = lum(rgb(getComputedStyle(e).color)), b = lum(ground(e));
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < 4.5) bad.push([e.className, e.textContent.trim().slice(0, 40), ratio]);
  }
  return bad;
}
"""


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_every_text_has_the_contrast_of_wcag_aa(built: Path, browser: Any, scheme: str, width: int) -> None:
    """WCAG 2.1, success criterion 1.4.3: a contrast of at least 4.5 to 1."""
    page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)
    for name in ("index.html", "manual/index.html", "manual/everything.html"):
        page.goto((built / name).as_uri())
        page.wait_for_timeout(300)
        assert page.evaluate("document.body.getAttribute('data-md-color-scheme')") == ("default" if scheme == "light" else "slate")
        assert page.evaluate(CONTRAST) == [], name
    page.close()


@pytest.mark.browser
def test_in_print_the_standing_stays_and_the_frame_goes(built: Path, browser: Any) -> None:
    page = browser.new_page()
    page.goto((built / "manual" / "everything.html").as_uri())
    page.emulate_media(media="print")
    assert page.is_visible(".sheet-head .sheet-standing")
    assert page.inner_text(".sheet-standing") == page.locator(".standing--fixed").text_content()
    assert page.is_visible(".control")
    assert not page.is_visible(".md-banner")
    assert not page.is_visible(".md-header")
    assert not page.is_visible(".md-tabs")
    page.close()


def test_what_browsers_would_break_in_a_table_is_kept_whole_and_nothing_else_is_touched() -> None:
    kept = kept_whole('<p>3-10</p><table id="a-1"><td>3-10, 2026-11-20, a-b</td><td><code>x-1</code> job.yaml:1087</td></table>')
    assert kept == (
        '<p>3-10</p><table id="a-1"><td><span class="whole">3-10</span>, <span class="whole">2026-11-20</span>, a-b</td>'
        '<td><code>x-1</code> <span class="whole">job.yaml:1087</span></td></table>'
    )
    long = "1000-1001-1002-1003-1004-1005"
    assert kept_whole(f"<table><td>{long}</td></table>") == f"<table><td>{long}</td></table>"


def test_a_table_of_many_words_is_shown_as_cards_on_a_telephone_and_a_small_one_is_not() -> None:
    def made(*columns: str) -> str:
        cells = tuple((Text(column),) for column in columns)
        return block_html(Table(cells, (cells,), ("left",) * len(columns)))

    wide = made("Finding", "the subject of it all", "who must act on it", "what came out of it")
    assert 'class="ruled cards"' in wide
    assert '<td data-label="who must act on it">' in wide
    assert "cards" not in made("Item", "Weight", "Arm")


def test_a_page_in_another_language_than_the_site_says_so(tmp_path: Path) -> None:
    first, *others = docket()
    german = replace(first, language="de")
    site.build((german, *others), tmp_path / "site", title=TITLE)
    own = (tmp_path / "site" / german.key / "index.html").read_text(encoding="utf-8")
    other = (tmp_path / "site" / others[0].key / "index.html").read_text(encoding="utf-8")
    assert '<html lang="de"' in own
    assert '<html lang="en"' in other
    assert '<body lang="de" ' in other
    assert f"{german.date:%d.%m.%Y}" in own.rpartition('<div class="control">')[2]


def test_the_ways_into_the_docket_stand_before_the_table_of_what_is_open(tmp_path: Path) -> None:
    first, *others = docket()
    head = ((Text("Finding"),), (Text("Result"),))
    told = (Paragraph((Text("Something is open."),)), Table(head, (((Text("drop"),), (Text("too much"),)),), ("left", "left"), "Open findings"))
    site.build((replace(first, front=told, conclusion=2), *others), tmp_path / "site", title=TITLE)
    start = (tmp_path / "site" / "index.html").read_text(encoding="utf-8")
    assert start.index("Something is open.") < start.index('class="readers"') < start.index("Open findings") < start.index('<h2 id="all-papers"')
