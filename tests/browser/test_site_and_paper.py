"""Site and paper say the same: numbers and cautions as a person sees them, chapter by chapter, and not as they were written down."""

from __future__ import annotations

import html
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.planner_pages import browser, visit
from tests.documents import sample

from liftout.documents import Chapter, Document, paper, site
from liftout.documents.blocks import Alert, Block, Checklist, ChecklistRow, Paragraph, Steps, Table, Text
from liftout.resources import folder

pytestmark = pytest.mark.browser

NUMBER = re.compile(r"\d+(?:\.\d+)?")
TOP_PT, FOOT_PT = 88.0, 60.0
"""What stands above and below these on every page is the head and the foot of the page, which the site has elsewhere."""
VISIBLE = """
() => {
  const seen = (part) => part.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && part.getBoundingClientRect().height > 4;
  const inside = document.querySelector('.md-content__inner');
  inside.querySelector('.eyebrow').remove();
  // Numbers of steps are seen, but are no text.
  const steps = [...inside.querySelectorAll('ol.steps')].flatMap(list => [...list.children].map((_, place) => list.start + place));
  return { words: `${inside.innerText} ${steps.join(' ')}`, alerts: [...inside.querySelectorAll('.alert')].filter(seen).map(part => part.innerText) };
}
"""
PART = "-".join(str(1000 + place) for place in range(40))
"""A part number that is wider than any column."""
MANY = " ".join(f"word {place}" for place in range(2000))
"""Four thousand words."""


def words(text: str) -> tuple[Text, ...]:
    return (Text(text),)


def chapter(key: str, title: str, *blocks: Block) -> Chapter:
    return Chapter(key, title, blocks)


def docket() -> Document:
    return sample.document(
        chapters=(
            chapter(
                "fitting",
                "Fitting the tray",
                Alert("WARNING", (Paragraph(words(MANY)),)),
                Alert("CAUTION", (Paragraph(words("Do not exceed 2.5 mm.")),)),
                Steps(1, ((Paragraph(words("Torque to 25 in-lb, or 2.8 N m.")),),)),
            ),
            chapter(
                "parts",
                "Parts of the tray",
                Alert("CAUTION", (Paragraph(words("Use 4 screws of 12.7 mm.")),)),
                Table((words("Item"), words("Part number")), ((words("tray"), words(PART)),), ("left", "left")),
                Checklist((ChecklistRow("Edge distance", "tray", "ruler", "at least 9.5 mm", "AC 43.13-1B par. 4-57", hold=True),)),
            ),
        ),
        signatures=(),
    )


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext is not on this machine")
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder_ = tmp_path_factory.mktemp("docket") / "site"
    site.build((docket(),), folder_, title="Docket")
    return folder_


@pytest.fixture
def place(tmp_path: Path, built: Path) -> Path:
    shutil.copytree(built, tmp_path / "site")
    return tmp_path


Seen = dict[str, tuple[Counter[str], Counter[str]]]
"""For each chapter its numbers, and its warnings and cautions without spaces, each with how often it is seen."""


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u00a0\u200b\u00ad]+", "", text)


def on_the_site(opened: Any, place: Path, document: Document) -> Seen:
    page = opened.new_context(offline=True, viewport={"width": 1280, "height": 900}).new_page()
    seen: Seen = {}
    for one in document.chapters:
        visit(page, place / "site" / document.key / f"{one.key}.html")
        found = page.evaluate(VISIBLE)
        seen[one.title] = Counter(NUMBER.findall(found["words"])), Counter(map(squeezed, found["alerts"]))
    page.context.close()
    return seen


def on_paper(place: Path, document: Document, alerts: Seen) -> Seen:
    """Words that lie whole within their page, between its head and its foot; of alerts those that the site shows, as often as they stand there."""
    file = place / "paper.pdf"
    file.write_bytes(paper.write(document))
    told = subprocess.run(["pdftotext", "-bbox", str(file), "-"], check=True, capture_output=True, text=True).stdout
    kept: list[str] = []
    for size, inner in re.findall(r'<page width="[\d.]+" height="([\d.]+)">(.*?)</page>', told, re.DOTALL):
        width = float(re.findall(r'<page width="([\d.]+)"', told)[0])
        for x0, y0, x1, y1, word in re.findall(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', inner):
            if float(x0) >= 0 and float(x1) <= width and float(y0) >= TOP_PT and float(y1) <= float(size) - FOOT_PT:
                kept.append(html.unescape(word))
    text, seen = " ".join(kept), Seen()
    heads = [text.rindex(f"{position} {one.title}") for position, one in enumerate(document.chapters, 1)]
    for one, begin, end in zip(document.chapters, heads, [*heads[1:], len(text)], strict=True):
        part = text[begin:end]
        stands = {alert: squeezed(part).count(alert) for alert in alerts[one.title][1]}
        signals = len(re.findall(r"\b(?:WARNING|CAUTION)\b", part))
        unknown = signals - sum(stands.values())
        seen[one.title] = Counter(NUMBER.findall(part)), Counter({**stands, **({"not on the site": unknown} if unknown else {})})
    return seen


def differences(opened: Any, place: Path) -> list[str]:
    """Chapters in which site and paper say something else, and what."""
    ours = on_the_site(opened, place, docket())
    theirs = on_paper(place, docket(), ours)
    return [
        f"{title}: {kind}"
        for title in ours
        for kind, here, there in zip(("numbers", "alerts"), ours[title], theirs[title], strict=True)
        if +here != +there
    ]


def changed(place: Path, name: str, old: str, new: str) -> None:
    path = place / "site" / "manual" / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_site_and_paper_say_the_same(opened: Any, place: Path) -> None:
    seen = on_the_site(opened, place, docket())
    assert len(MANY.split()) == 4000
    assert seen["Fitting the tray"][0]["1999"] == 1
    assert sum(seen["Parts of the tray"][1].values()) == 1
    assert differences(opened, place) == []


def test_a_warning_that_runs_off_its_page_is_seen(opened: Any, place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(folder("templates"), place / "templates")
    program = place / "templates" / "print" / "docket.typ"
    text = program.read_text(encoding="utf-8")
    unbroken = text.replace("  block(width: 100%, stroke: stroke, inset:", "  block(width: 100%, breakable: false, stroke: stroke, inset:")
    assert unbroken != text
    program.write_text(unbroken, encoding="utf-8")
    monkeypatch.setattr(paper, "folder", lambda name: place / "templates" if name == "templates" else folder(name))
    assert differences(opened, place) == ["Fitting the tray: numbers", "Fitting the tray: alerts"]


def test_a_caution_that_is_hidden_is_seen(opened: Any, place: Path) -> None:
    changed(place, "fitting.html", '<section class="alert caution"', '<section style="opacity: 0" class="alert caution"')
    assert differences(opened, place) == ["Fitting the tray: alerts"]


def test_a_part_number_that_runs_out_of_its_column_is_seen(opened: Any, place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper, "_divided", lambda run, _widest: run.replace("-", "\u2011"))
    assert "Parts of the tray: numbers" in differences(opened, place)


def test_one_digit_that_is_altered_is_seen(opened: Any, place: Path) -> None:
    changed(place, "fitting.html", "25 in-lb", "26 in-lb")
    assert differences(opened, place) == ["Fitting the tray: numbers"]
