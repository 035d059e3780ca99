"""The checklist on a screen as a document: the same lines as on paper, nothing filled in, told from any other."""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import replace

import pytest

from liftout.documents.blocks import Checklist, ChecklistRow, Heading, Signature
from liftout.documents.checklist import Line, lines_digest, lines_of, live_checklist
from liftout.documents.docket import PLANS, _written, checklist_chapters
from liftout.documents.document import Document
from liftout.documents.html import block_html
from tests.browser.checklist_pages import papers_of

HALDEN = "halden_4_cooler"


@pytest.fixture(scope="module")
def paper() -> Document:
    return _written(next(plan for plan in PLANS if plan.key == "checklist"), papers_of(HALDEN))


def rows() -> dict[str, ChecklistRow]:
    """Every line of the checklist by its number."""
    chapters = checklist_chapters(papers_of(HALDEN))
    return {line.number: line.row for position, chapter in enumerate(chapters, 1) for line in lines_of(position, chapter)}


def text_of(name: str = HALDEN) -> str:
    return papers_of(name).live_checklist.file.content.decode()


def test_the_file_lies_beside_the_papers_under_the_number_of_the_docket(paper: Document) -> None:
    file = papers_of(HALDEN).live_checklist.file
    assert [one.name for one in paper.companions] == [file.name] == [f"{papers_of(HALDEN).papers.number}-checklist.html"]


def test_the_paper_names_the_file_by_its_digest(paper: Document) -> None:
    last = paper.chapters[-1]
    assert last.key == "filled_in"
    assert hashlib.sha256(text_of().encode()).hexdigest() in str(last.blocks)


def test_the_page_has_the_lines_of_the_paper_under_their_numbers(paper: Document) -> None:
    on_paper = {line.number: line.row for position, chapter in enumerate(paper.chapters, 1) for line in lines_of(position, chapter)}
    assert on_paper == rows()
    for page in (text_of(), paper.chapters[-1].live):
        assert re.findall(r'data-line="([^"]+)"', page) == list(on_paper)
    assert sum(len(block.rows) for chapter in paper.chapters for block in chapter.blocks if isinstance(block, Checklist)) == len(on_paper)


def test_nothing_is_filled_in_or_ticked_in_what_is_written(paper: Document) -> None:
    for page in (text_of().partition("</style>")[2].rpartition("<script>")[0], paper.chapters[-1].live):
        assert "data-line" in page
        assert not re.search(r"<(input|select|textarea|option|button)\b|<[^>]+ (checked|aria-pressed|value)\b", page)


def test_the_same_docket_is_the_same_file_and_another_line_is_another_list() -> None:
    matter = papers_of(HALDEN)
    assert live_checklist(matter, checklist_chapters(matter)).digest == matter.live_checklist.digest
    lines = [Line(number, row) for number, row in rows().items()]
    told = json.loads(re.findall(r'id="check-data" data-sum="[0-9a-f]{8}">(.*?)</script>', text_of())[0])
    assert told["lines"] == lines_digest(lines)
    assert told["count"] == len(lines)
    assert told["digest"] == matter.digests.job
    lines[3] = replace(lines[3], row=replace(lines[3].row, acceptance="at most 1 V"))
    assert lines_digest(lines) != told["lines"]


def test_the_file_fetches_nothing_and_says_where_the_docket_stands() -> None:
    text = text_of()
    assert not re.search(r"<(link|img|iframe)\b|\bsrc=|https?://", text)
    assert '<p class="standing"><strong>' in text
    assert text.index('class="alert warning"') < text.index('id="check"')


def test_every_chapter_stands_in_the_file_whole_also_one_without_lines() -> None:
    chapters = checklist_chapters(papers_of(HALDEN))
    without = [chapter.key for chapter in chapters if not any(isinstance(block, Checklist) for block in chapter.blocks)]
    assert "interference" in without, "a chapter without lines is what is easily left out"
    there = [seen(part) for part in re.findall(r'<details class="check-(?:chapter|reading)">.*?</details>', text_of(), re.DOTALL)]
    assert len(there) == len(chapters)
    for number, (chapter, found) in enumerate(zip(chapters, there, strict=True), 1):
        assert found.startswith(f"{number} {chapter.title}")
        for block in chapter.blocks:
            if not isinstance(block, Checklist | Signature | Heading):
                assert seen(block_html(block)) in found, (chapter.key, block)
    assert text_of().count('class="signature"') == sum(isinstance(block, Signature) for chapter in chapters for block in chapter.blocks) > 0


def seen(markup: str) -> str:
    """The words of markup, with one space between them."""
    return " ".join(re.sub(r"<[^>]*>", " ", markup).split())
