"""Site and paper say the same: numbers and cautions of a real docket as a person sees them, chapter by chapter.

On the site they are read from the text that is visible, on paper from the words that lie whole within their page. Both are
counted: what stands twice must stand twice. The tests below the first one show that each way of losing something is seen.
"""

from __future__ import annotations

import html
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.browser.docket_pages import documents_of
from tests.browser.planner_pages import browser, visit

from liftout.documents import Chapter, Document, columns, paper, site
from liftout.documents.blocks import Alert, Paragraph, Table, Text
from liftout.resources import folder

pytestmark = pytest.mark.browser

HALDEN = "halden_4_cooler"
NUMBER = re.compile(r"\d+(?:\.\d+)?")
DIGEST = re.compile(r"\b[0-9a-f]{64}\b")
TOP_PT, FOOT_PT = 88.0, 60.0
"""What stands above and below these on every page is the head and the foot of the page, which the site has elsewhere."""
VISIBLE = """
() => {
  const seen = (part) => part.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && part.getBoundingClientRect().height > 4;
  const inside = document.querySelector('.md-content__inner');
  // What a screen has besides: whose page it is, links to what a line uses, and pages that are filled in.
  inside.querySelectorAll('.eyebrow, .uses, #planner, #check').forEach(part => part.remove());
  inside.querySelectorAll('.worksheet').forEach(sheet => { sheet.style.contentVisibility = 'visible' });
  // Numbers of steps are seen, but are no text; letters of drawings are text, but none that a browser gives in its place.
  const steps = [...inside.querySelectorAll('ol.steps')].flatMap(list => [...list.children].map((_, place) => list.start + place));
  const drawn = [...inside.querySelectorAll('svg text')].filter(seen).map(part => part.textContent);
  inside.querySelectorAll('svg').forEach(part => part.remove());
  const words = [inside.innerText, ...steps, ...drawn].join(' '), alerts = [...inside.querySelectorAll('.alert')].filter(seen).map(part => part.innerText);
  inside.querySelectorAll('.alert').forEach(part => part.remove());
  return { words, alerts, outside: inside.innerText };
}
"""
PART = "-".join(str(1000 + place) for place in range(40))
"""A part number that is wider than any column."""
MANY = " ".join(f"word {place}" for place in range(2000))
"""Four thousand words."""

SIGNAL = re.compile(r"\b(?:WARNING|CAUTION|NOTE)\b")
SIGNALS = "signal words"
Seen = dict[str, tuple[Counter[str], Counter[str]]]
"""For each chapter its numbers, and its warnings, cautions and notes without spaces, each with how often it is seen; and all signal words."""


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u00a0\u200b\u00ad]+", "", text)


def on_the_site(opened: Any, place: Path, document: Document) -> tuple[Seen, set[str]]:
    """What is seen, and the digests, which paper breaks over lines: they are looked for apart."""
    page = opened.new_context(offline=True, viewport={"width": 1280, "height": 900}).new_page()
    seen, digests = Seen(), set()
    for one in document.chapters:
        visit(page, place / "site" / document.key / f"{one.key}.html")
        found = page.evaluate(VISIBLE)
        digests |= {*DIGEST.findall(found["words"])}
        signals = sum(len(SIGNAL.findall(text)) for text in (*found["alerts"], found["outside"]))
        seen[one.title] = (
            Counter(NUMBER.findall(DIGEST.sub("", found["words"]))),
            Counter({**Counter(map(squeezed, found["alerts"])), SIGNALS: signals}),
        )
    page.context.close()
    return seen, digests


def words_of(file: Path) -> str:
    """Words that lie whole within their page, between its head and its foot."""
    told = subprocess.run(["pdftotext", "-bbox", str(file), "-"], check=True, capture_output=True, text=True).stdout
    kept: list[str] = []
    for width, height, inner in re.findall(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', told, re.DOTALL):
        for x0, y0, x1, y1, word in re.findall(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', inner):
            if float(x0) >= 0 and float(x1) <= float(width) and float(y0) >= TOP_PT and float(y1) <= float(height) - FOOT_PT:
                kept.append(html.unescape(word))
    return " ".join(kept)


def on_paper(file: Path, document: Document, alerts: Seen, digests: set[str]) -> Seen:
    """What stands on paper; of alerts those that the site shows, as often as they stand there."""
    text, seen = words_of(file), Seen()
    for digest in digests:
        text, times = re.subn(r"[\s\u200b]*".join(digest), "", text)
        assert times, f"the digest {digest} is not on paper"
    heads = [text.rindex(f"{position} {one.title}") for position, one in enumerate(document.chapters, 1)]
    for one, begin, end in zip(document.chapters, heads, [*heads[1:], len(text)], strict=True):
        part = text[begin:end]
        stands = {alert: squeezed(part).count(alert) for alert in alerts[one.title][1] if alert != SIGNALS}
        seen[one.title] = Counter(NUMBER.findall(part)), Counter({**stands, SIGNALS: len(SIGNAL.findall(part))})
    return seen


def differences(opened: Any, place: Path, document: Document) -> list[str]:
    """Chapters in which site and paper say something else, and what."""
    file = place / f"{document.key}.pdf"
    if not file.exists():
        file.write_bytes(paper.write(document))
    ours, digests = on_the_site(opened, place, document)
    theirs = on_paper(file, document, ours, digests)
    return [
        f"{title}: {kind}"
        for title in ours
        for kind, here, there in zip(("numbers", "alerts"), ours[title], theirs[title], strict=True)
        if +here != +there
    ]


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext is not on this machine")
    with browser() as found:
        yield found


def real(key: str) -> Document:
    """A document of the demonstration job, without signatures, which the site has on another page."""
    return replace(next(document for document in documents_of(HALDEN) if document.key == key), signatures=())


@pytest.mark.long
@pytest.mark.parametrize("key", ["manual", "amendment"])
def test_site_and_paper_of_a_real_docket_say_the_same(key: str, opened: Any, tmp_path: Path) -> None:
    document = real(key)
    site.build((document,), tmp_path / "site", title="Docket")
    assert differences(opened, tmp_path, document) == []
    seen, _ = on_the_site(opened, tmp_path, document)
    assert sum(numbers.total() for numbers, _ in seen.values()) > 2_000
    assert sum(alerts.total() for _, alerts in seen.values()) > 10


# --- and each way of losing something is seen, on chapters of that manual -----------------------------------------


@pytest.fixture(scope="module")
def short() -> Document:
    """Two chapters of the manual, the first with a warning of 4,000 words, the second with a part number wider than its column."""
    manual = real("manual")
    before, parts = (next(one for one in manual.chapters if one.key == key) for key in ("before", "parts"))
    table = Table(((Text("Item"),), (Text("Part number"),)), (((Text("tray"),), (Text(PART),)),), ("left", "left"))
    first = Chapter(before.key, before.title, (Alert("WARNING", (Paragraph((Text(MANY),)),)), *before.blocks))
    return replace(manual, chapters=(first, Chapter(parts.key, parts.title, (*parts.blocks, table))), front=(), conclusion=0)


@pytest.fixture(scope="module")
def built(short: Document, tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("docket")
    site.build((short,), place / "site", title="Docket")
    (place / "manual.pdf").write_bytes(paper.write(short))
    return place


@pytest.fixture
def place(tmp_path: Path, built: Path) -> Path:
    return shutil.copytree(built, tmp_path / "docket")


def changed(place: Path, name: str, old: str, new: str) -> None:
    path = place / "site" / "manual" / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_two_chapters_with_a_long_warning_and_a_long_number_say_the_same(short: Document, opened: Any, place: Path) -> None:
    assert len(MANY.split()) == 4000
    assert differences(opened, place, short) == []


def test_a_warning_that_runs_off_its_page_is_seen(short: Document, opened: Any, place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(folder("templates"), place / "templates")
    program = place / "templates" / "print" / "docket.typ"
    text = program.read_text(encoding="utf-8")
    unbroken = text.replace("sticky: sticky, breakable: not whole, {", "sticky: sticky, breakable: false, {")
    assert unbroken != text
    program.write_text(unbroken, encoding="utf-8")
    monkeypatch.setattr(paper, "folder", lambda name: place / "templates" if name == "templates" else folder(name))
    (place / "manual.pdf").unlink()
    assert {"Before you start: numbers", "Before you start: alerts"} <= {*differences(opened, place, short)}


@pytest.mark.parametrize("hidden", ["opacity: 0", "visibility: hidden", "display: none", "height: 0; overflow: hidden; padding: 0; border: 0"])
def test_a_caution_that_is_hidden_is_seen(hidden: str, short: Document, opened: Any, place: Path) -> None:
    changed(place, "before.html", '<section class="alert', f'<section style="{hidden}" class="alert')
    assert "Before you start: alerts" in differences(opened, place, short)


def test_a_part_number_that_runs_out_of_its_column_is_seen(short: Document, opened: Any, place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(columns, "_HIGHEST_WORDS", (8.0,))
    monkeypatch.setattr(columns, "_broken", lambda word, _room, _size: word.replace("-", "\u2011"))
    (place / "manual.pdf").unlink()
    assert "Parts and consumables: numbers" in differences(opened, place, short)


@pytest.mark.long
def test_one_digit_that_is_altered_is_seen(short: Document, opened: Any, place: Path) -> None:
    changed(place, "parts.html", "gauge 4,", "gauge 2,")
    assert differences(opened, place, short) == ["Parts and consumables: numbers"]
