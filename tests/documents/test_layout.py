"""How pages break, seen on the printed pages: what belongs together stays together, and nothing is lost where it cannot."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

import pypdf
import pytest

from liftout.documents import Document, docket, paper
from liftout.documents.blocks import Alert, Block, Bullets, Heading, Paragraph, Shared, Steps, Table, Text, Working, plain
from liftout.documents.document import CHANGED_PAGES, Bar, Chapter, numbered
from liftout.expression import Call, Printed, Symbol
from liftout.findings import Step
from liftout.identity.digests import digests
from tests.documents import sample
from tests.documents.test_paper import one, paragraph, squeezed, words
from tests.documents.text_block import ends
from tests.every_nth import every_nth
from tests.job.demonstration import demonstration_assessed


@cache
def demonstration(key: str) -> Document:
    return docket.document(demonstration_assessed(), digests(demonstration_assessed()), key)


@cache
def opened(key: str) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(paper.write(demonstration(key))))


@cache
def pages_of(key: str) -> list[list[str]]:
    """The lines of each page, without its head and its foot."""
    document = demonstration(key)
    found = []
    for page in opened(key).pages:
        lines = [line for line in page.extract_text().split("\n") if line.strip()]
        foot = next(at for at in range(len(lines) - 1, -1, -1) if squeezed(lines[at]).startswith(squeezed(document.effectivity)))
        head = next(at for at, line in enumerate(lines) if squeezed(document.number) in squeezed(line))
        found.append(lines[head + 1 : foot])
    return found


def printed(*blocks: Block) -> list[str]:
    return [squeezed(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(paper.write(one(*blocks)))).pages]


PAPERS = ("manual", "amendment", "checklist", "records")
RIGHT_MARGIN = 18 / 25.4 * 72
TRAILING_SPACE = 5.0
"""In points: a line may end with a space, which reaches into the margin and is not seen."""


@pytest.mark.parametrize("key", [*every_nth(PAPERS, 2), pytest.param("calculations", marks=pytest.mark.long)])
def test_no_line_reaches_beyond_the_text_block(key: str) -> None:
    for number, page in enumerate(opened(key).pages, 1):
        most = float(page.mediabox.width) - RIGHT_MARGIN + TRAILING_SPACE
        assert all(end <= most for end in ends(page)), f"{key}, page {number}"


def test_a_line_that_reaches_beyond_is_seen() -> None:
    page = pypdf.PdfReader(io.BytesIO(paper.write(one(paragraph("x" * 60 + " " + "y" * 59))))).pages[-1]
    assert max(ends(page)) <= float(page.mediabox.width) - RIGHT_MARGIN + TRAILING_SPACE
    formula = Call("min", (Call("sqrt", (Symbol("p_" + "1" * 150),)),))  # no piece of it can be divided
    step = Step("p", "least", formula, None, Printed("1", ""), "")
    page = pypdf.PdfReader(io.BytesIO(paper.write(one(Working(replace(sample.voltage_drop(), steps=(step,))))))).pages[-1]
    assert max(ends(page)) > float(page.mediabox.width) - RIGHT_MARGIN + TRAILING_SPACE


@pytest.mark.parametrize("key", every_nth(PAPERS, 2))
@pytest.mark.long
def test_no_heading_and_no_caption_stands_at_the_foot_of_a_page(key: str) -> None:
    wanted = set()
    for position, chapter in enumerate(demonstration(key).chapters, 1):
        for found in numbered(position, chapter.blocks):
            match found.block:
                case Heading(_, text, _):
                    wanted.add(squeezed(f"{found.number}{text}"))
                case Table(caption=caption) if caption:
                    wanted.add(squeezed(f"{found.number}.{caption}"))
    ends = {squeezed(lines[-1]) for lines in pages_of(key) if lines}
    assert len(wanted) > 10
    assert not wanted & ends


@pytest.mark.parametrize("key", every_nth(PAPERS, 2))
def test_no_warning_ends_a_page_away_from_its_step(key: str) -> None:
    pages = [squeezed("".join(lines)) for lines in pages_of(key)]
    seen = 0
    for chapter in demonstration(key).chapters:
        for at, block in enumerate(chapter.blocks[:-1]):
            after = chapter.blocks[at + 1]
            if isinstance(block, Alert) and block.word != "NOTE" and isinstance(after, Steps | Bullets | Paragraph):
                said = squeezed("".join(texts(block)))
                alone = [page for page in pages if page.endswith(said)]
                assert not alone, f"{block.word} {said[:60]} ends a page"
                seen += 1
    assert seen > 3 or key == "records"


def texts(block: Block) -> list[str]:
    match block:
        case Paragraph(of):
            return [plain(of)]
        case Alert(of=items):
            return [text for inside in items for text in texts(inside)]
        case Bullets(items) | Steps(_, items):
            return [text for item in items for inside in item for text in texts(inside)]
        case Table(head, rows, _, caption):
            return [caption, *(plain(cell) for row in (head, *rows) for cell in row)]
        case Heading(_, text, _):
            return [text]
        case _:
            return []


@pytest.mark.parametrize("key", every_nth(PAPERS, 2))
def test_every_word_of_headings_warnings_steps_and_tables_is_on_some_page(key: str) -> None:
    whole = set(re.findall(r"\w+", " ".join("\n".join(lines) for lines in pages_of(key)).replace("\u200b", "")))
    joined = squeezed("".join("".join(lines) for lines in pages_of(key)))
    for chapter in demonstration(key).chapters:
        for text in (text for block in chapter.blocks for text in texts(block)):
            lost = [word for word in re.findall(r"\w+", text) if word not in whole and word not in joined]
            assert not lost, f"{chapter.title}: {text}"


@pytest.mark.parametrize("key", every_nth(PAPERS, 2))
@pytest.mark.long
def test_pages_are_numbered_by_chapter_and_the_contents_name_them(key: str) -> None:
    document = demonstration(key)
    pages = [squeezed(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(paper.write(document))).pages]
    labels = [re.search(r"Page((?:\d+-\d+)|[ivx]+)\((\d+)of(\d+)\)", page) for page in pages]
    assert [int(label[2]) for label in labels if label] == list(range(1, len(pages) + 1))
    first = {label[1]: at for at, label in enumerate(labels) if label}
    contents = "".join(page for page, label in zip(pages, labels, strict=True) if label and not label[1][0].isdigit())
    for position, chapter in enumerate(document.chapters, 1):
        at = first[f"{position}-1"]
        assert pages[at].count(squeezed(f"{position}{chapter.title}")) == 2, "in the running head, and as the heading"
        assert re.search(rf"{re.escape(squeezed(f'{position}{chapter.title}'))}[. ]+{position}-1", contents)


def test_a_long_list_of_changed_pages_leaves_the_reason_its_room() -> None:
    # Every other page has a bar, so that none joins the next.
    blocks = tuple(block for number in range(60) for block in (Heading(2, f"Section {number}", f"s{number}"), *lines(34)))
    bars = tuple(Bar(at, None) for at in range(0, len(blocks), 70))
    first = sample.document().revisions[0]
    document = sample.document(
        chapters=(Chapter("long", "Long", blocks, bars=bars),),
        revisions=(replace(first, reason="First issue of all"), replace(first, number="B", reason="Lines weighed again", pages=CHANGED_PAGES)),
        revision="B",
    )
    page = pypdf.PdfReader(io.BytesIO(paper.write(document))).pages[0].extract_text().replace("\u200b", "")
    assert len(re.findall(r"1-\d+", page)) > 15
    assert "First issue of all" in page
    assert "Lines weighed again" in page


# --- one thing after another ------------------------------------------------------------------------------------


def lines(count: int) -> list[Paragraph]:
    return [paragraph(f"line {number}") for number in range(count)]


@pytest.mark.parametrize("count", range(25, 45, 2))
def test_a_run_of_warnings_stands_on_the_page_of_its_first_step(count: int) -> None:
    warnings = [Alert("WARNING", (paragraph("Firstwarning."),)), Alert("CAUTION", (paragraph("Thencaution. " + words(20, "c")),))]
    pages = printed(*lines(count), *warnings, Steps(1, ((paragraph("Firststep."),), (paragraph("Secondstep."),))))
    (at,) = [number for number, text in enumerate(pages) if "Firstwarning." in text]
    assert "Thencaution." in pages[at]
    assert "c19" in pages[at]
    assert "Firststep." in pages[at]


@pytest.mark.parametrize("count", range(30, 44, 2))
@pytest.mark.parametrize("shared", [True, False])
def test_a_heading_stands_on_the_page_where_its_worksheet_begins(count: int, shared: bool) -> None:
    first = sample.voltage_drop()
    block = Shared((first, replace(first, subject="run W2"))) if shared else Working(first, titled=False)
    pages = printed(*lines(count), Heading(2, "Headofthesheet", "a"), block)
    (at,) = [number for number, text in enumerate(pages) if "Headofthesheet" in text]
    assert ("Forall2worksheets" if shared else "Requires") in pages[at]


def test_a_run_of_warnings_longer_than_a_page_loses_nothing_and_leaves_no_empty_page() -> None:
    run = [Alert("WARNING", (paragraph(f"Mark{number}. " + words(60, f"w{number}x")),)) for number in range(14)]
    pages = printed(*lines(20), *run, Steps(1, ((paragraph("Firststep."),),)))
    text = "".join(pages)
    assert all(f"Mark{number}." in text and f"w{number}x59" in text for number in range(14))
    (at,) = [number for number, page in enumerate(pages) if "Firststep." in page]
    assert "Mark13." in pages[at]
    (first,) = [number for number, page in enumerate(pages) if "line19" in page]
    assert "Mark0." in pages[first]


@pytest.mark.parametrize("count", range(27, 41, 3))
def test_a_row_of_a_table_stays_on_one_page(count: int) -> None:
    row: Sequence[Any] = ((Text("Rowbegins " + words(130, "r") + " Rowends"),), (Text("x"),))
    pages = printed(*lines(count), Table(((Text("Head"),), (Text("b"),)), ((*row,), (*row,)), ("left", "left")))
    for page in pages:
        assert page.count("Rowbegins") == page.count("Rowends")
        assert page.count("Head") == (1 if "Rowbegins" in page else 0)
    assert sum(page.count("Rowends") for page in pages) == 2


def test_a_row_longer_than_a_page_breaks_and_loses_nothing() -> None:
    pages = printed(Table(((Text("Head"),), (Text("b"),)), (((Text(words(1400, "r")),), (Text("x"),)),), ("left", "left")))
    text = "".join(pages)
    assert all(f"r{number}" in text for number in range(1400))
    assert sum("Head" in page for page in pages) >= 2


def test_a_wide_part_number_wraps_in_its_cell() -> None:
    number = "SK-8841-200/15-ASSEMBLY-LEFT-HAND-WITH-BRACKET-AND-GROMMET-REV-C"
    cells = [(Text("Part"),), (Text("Where"),), (Text("Note"),)]
    rows = ((((Text(number),), (Text("tail cone " * 8),), (Text("fitted with two screws " * 6),))),)
    pages = printed(Table(tuple(cells), rows, ("left",) * 3))
    assert squeezed(number) in "".join(pages) or all(part in "".join(pages) for part in number.split("-"))


def table_of(count: int, caption: str = "Captionhere") -> Table:
    rows = tuple(((Text(f"Row{number}x"),), (Text(words(4, "r")),)) for number in range(count))
    return Table(((Text("Head"),), (Text("b"),)), rows, ("left", "left"), caption)


@pytest.mark.parametrize("count", range(22, 46))
def test_a_head_keeps_two_rows_and_an_end_has_two(count: int) -> None:
    pages = printed(*lines(count), table_of(14))
    found = [(page.count("Head"), len(re.findall(r"Row\d+x", page))) for page in pages]
    assert sum(rows for _, rows in found) == 14
    assert all(rows >= 2 for heads, rows in found if heads)
    assert all(heads == 1 for heads, rows in found if rows)


@pytest.mark.parametrize("count", range(22, 46, 2))
def test_a_short_table_stands_on_one_page_with_its_caption(count: int) -> None:
    (page,) = [page for page in printed(*lines(count), table_of(4)) if "Row0x" in page]
    assert "Captionhere" in page
    assert all(f"Row{number}x" in page for number in range(4))


def test_a_table_takes_no_more_room_for_what_it_asks_for() -> None:
    (page,) = [page for page in printed(*lines(3), table_of(3), paragraph("Afterthetable.")) if "Row0x" in page]
    assert "line0" in page
    assert "Afterthetable." in page
