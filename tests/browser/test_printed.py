"""The site on paper, as a browser prints it: drawings at their own size, and on every sheet what it belongs to and whether it may be used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest
from tests.browser.docket_pages import documents_of
from tests.browser.planner_pages import browser, visit
from tests.every_nth import every_nth

from liftout.documents import Document, site
from liftout.documents.blocks import Figure

pytestmark = pytest.mark.browser

HALDEN = "halden_4_cooler"
STANDING = "INCOMPLETE - NOT FOR INSTALLATION, 2 open items"
OFF_MM = 0.3
"""What a rule laid on the print cannot tell."""
SHEETS = ("A4", "Letter")
PRINTED_MM = {"A4": 210 - 2 * 12, "Letter": 215.9 - 2 * 12}
PX_PER_MM = 96 / 25.4


@pytest.fixture(scope="module")
def opened() -> Iterator[Any]:
    with browser() as found:
        yield found


def part(key: str, *chapters: str) -> Document:
    """Chapters of a document of the demonstration job, while findings are open."""
    document = next(document for document in documents_of(HALDEN) if document.key == key)
    return replace(document, chapters=tuple(one for one in document.chapters if one.key in chapters), standing=STANDING)


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("docket") / "site"
    documents = part("manual", "structure", "electrical"), part("records", "placard_sheet", "load_analysis"), part("checklist", "values")
    site.build(documents, folder, title="Docket")
    return folder


def printed(opened: Any, page: Path, to: Path, sheet: str, style: str = "") -> pypdf.PdfReader:
    """A page on sheets of paper, printed while its reader has the dark ground."""
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 900}, color_scheme="dark")
    shown = visit(context.new_page(), page)
    if style:
        shown.add_style_tag(content=style)
    shown.evaluate("document.fonts.ready")
    shown.pdf(path=str(to), format=sheet)
    context.close()
    return pypdf.PdfReader(to)


def lines_mm(page: pypdf.PageObject) -> list[tuple[float, float]]:
    """How long the straight lines of a printed page are, across and upwards."""
    found: list[tuple[float, float]] = []
    at = [0.0, 0.0]

    def seen(operator: bytes, operands: Any, matrix: Any, _text: Any) -> None:
        if operator in (b"m", b"l"):
            x, y = map(float, operands)
            to = [matrix[0] * x + matrix[2] * y + matrix[4], matrix[1] * x + matrix[3] * y + matrix[5]]
            if operator == b"l":
                found.append((abs(to[0] - at[0]) * 25.4 / 72, abs(to[1] - at[1]) * 25.4 / 72))
            at[:] = to

    page.extract_text(visitor_operand_before=seen)
    return found


def holds(lines: list[tuple[float, float]], across: float, upwards: float) -> bool:
    return any(abs(x - across) <= OFF_MM and abs(y - upwards) <= OFF_MM for x, y in lines)


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize(("address", "templates"), every_nth([("manual/structure.html", 2), ("records/placard_sheet.html", 3)], 2))
@pytest.mark.long
def test_the_bars_of_a_template_measure_what_they_say(address: str, templates: int, sheet: str, opened: Any, place: Path, tmp_path: Path) -> None:
    paper = printed(opened, place / address, tmp_path / "printed.pdf", sheet)
    with_bars = [page for page in paper.pages if "measure this bar on the print" in page.extract_text()]
    assert len(with_bars) == templates
    for page in with_bars:
        lines = lines_mm(page)
        assert holds(lines, 100, 0), "the bar of 100 mm across"
        assert holds(lines, 0, 100), "the bar of 100 mm upwards"
        assert holds(lines, 101.6, 0), "the bar of 4 in"


def test_a_template_that_is_printed_smaller_is_seen(opened: Any, place: Path, tmp_path: Path) -> None:
    smaller = "@media print { .md-typeset .drawing svg { width: 167mm !important; min-width: 0 !important; } }"
    paper = printed(opened, place / "manual/structure.html", tmp_path / "printed.pdf", "A4", smaller)
    assert not any(holds(lines_mm(page), 100, 0) for page in paper.pages)


@pytest.mark.parametrize("sheet", SHEETS)
def test_nothing_beside_a_drawing_makes_its_page_smaller(sheet: str, opened: Any, place: Path) -> None:
    """A browser prints a page smaller when anything on it is wider than the sheet."""
    page = opened.new_context(offline=True, viewport={"width": int(PRINTED_MM[sheet] * PX_PER_MM), "height": 900}).new_page()
    page.emulate_media(media="print")
    drawn = [
        (document.key, chapter.key)
        for document in (part("manual", "structure", "electrical"), part("records", "placard_sheet", "load_analysis"))
        for chapter in document.chapters
        if any(isinstance(block, Figure) for block in chapter.blocks)
    ]
    assert len(drawn) == 4
    for key, chapter in drawn:
        visit(page, place / key / f"{chapter}.html")
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), chapter
    page.context.close()


@pytest.mark.parametrize(
    "address", ["manual/structure.html", "records/placard_sheet.html", "checklist/values.html", "manual/index.html", "index.html"]
)
def test_every_sheet_says_what_it_belongs_to_and_whether_it_may_be_used(address: str, opened: Any, place: Path, tmp_path: Path) -> None:
    paper = printed(opened, place / address, tmp_path / "printed.pdf", "A4")
    key = address.partition("/")[0]
    if address != "index.html":
        document = next(document for document in documents_of(HALDEN) if document.key == key)
        belongs = f"{document.number} revision {document.revision}"
    else:
        belongs = "registration ZZ-HAL"
    if "index" not in address:
        assert len(paper.pages) > 2
    for number, page in enumerate(paper.pages, 1):
        words = " ".join(page.extract_text().split())
        assert STANDING in words, f"sheet {number}"
        assert belongs in words, f"sheet {number}"
        assert f"{number} / {len(paper.pages)}" in words


def test_the_standing_is_printed_dark_in_a_frame(opened: Any, place: Path, tmp_path: Path) -> None:
    """On paper a ground is not printed, so pale letters on a dark ground are pale letters."""
    (file,) = (
        file for document in documents_of(HALDEN) if document.key == "checklist" for file in document.companions if file.name.endswith(".html")
    )
    alone = tmp_path / file.name
    alone.write_bytes(file.content)
    context = opened.new_context(offline=True, viewport={"width": 1280, "height": 900}, color_scheme="dark")
    for path in (alone, place / "manual" / "structure.html"):
        page = visit(context.new_page(), path)
        page.emulate_media(media="print")
        look = page.evaluate(
            "(() => { const one = getComputedStyle(document.querySelector('.sheet-standing')); return [one.color, one.borderTopWidth] })()"
        )
        assert look[0] == "rgb(0, 0, 0)"
        assert float(look[1].removesuffix("px")) >= 1
        assert not page.is_visible(".standing")
    context.close()
    paper = printed(opened, alone, tmp_path / "printed.pdf", "A4")
    document = next(document for document in documents_of(HALDEN) if document.key == "checklist")
    for sheet in paper.pages:
        words = " ".join(sheet.extract_text().split())
        assert document.standing in words
        assert f"{document.number.rpartition('-')[0]} revision {document.revision}" in words


@pytest.mark.long
def test_lines_of_the_checklist_take_few_sheets(opened: Any, place: Path, tmp_path: Path) -> None:
    paper = printed(opened, place / "checklist" / "values.html", tmp_path / "printed.pdf", "A4")
    rows = visit(opened.new_page(), place / "checklist" / "values.html").locator("tr[id^=line-]").count()
    assert rows > 100
    assert len(paper.pages) <= rows / 7
