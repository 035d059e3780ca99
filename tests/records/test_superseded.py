"""A new revision marks what reads otherwise than in the one whose place it takes, and says what changed; alike every time."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from liftout.assessment import Assessment
from liftout.documents import paper
from liftout.documents.blocks import Checklist, ChecklistRow, Heading, Paragraph, Steps, Table, Text
from liftout.documents.change_bars import Superseded, barred, marks
from liftout.documents.document import Bar, Chapter, Document
from liftout.documents.html import chapter_page
from liftout.identity.compared import Comparison
from liftout.identity.digests import digests
from liftout.records.carried import NotRead, read
from liftout.records.editions import NotSuperseded, find, supersede
from liftout.records.verified import Outcome, verify
from tests.documents import sample
from tests.records import papers

NEXT = papers.JOB.replace("revision: A, date: 2026-01-01", "revision: B, date: 2026-02-01")


@pytest.fixture(scope="module")
def old(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("old")
    return papers.folder_of(papers.assessed(place), place / "docket")


def new(folder: Path, text: str = NEXT) -> Assessment:
    return papers.assessed(folder, text)


def superseded(assessment: Assessment, place: Path) -> Superseded:
    return supersede(place, assessment, digests(assessment))


# --- what gets a bar -----------------------------------------------------------------------------------------------


def words(text: str) -> Paragraph:
    return Paragraph((Text(text),))


def row(item: str) -> ChecklistRow:
    return ChecklistRow(item, "there", "look", "present", "job.yaml:12")


BLOCKS = (
    Heading(2, "One", "one"),
    words("first"),
    words("second"),
    Table(((Text("a"),),), (((Text("1"),),), ((Text("2"),),), ((Text("3"),),)), ("left",)),
    Steps(1, ((words("do this"),), (words("do that"),))),
    Checklist((row("nut"), row("bolt"))),
)


def document(*blocks: object) -> Document:
    return replace(sample.document(), chapters=(Chapter("one", "One", blocks),))  # type: ignore[arg-type]


def bars(before: tuple[object, ...], now: tuple[object, ...]) -> tuple[Bar, ...]:
    first = document(*before)
    was = Superseded("A", first.date, first.digest, "0", (), {first.key: marks(first)}, Comparison((), (), ()))
    return barred(document(*now), was).chapters[0].bars


def changed(at: int, block: object) -> tuple[object, ...]:
    return (*BLOCKS[:at], block, *BLOCKS[at + 1 :])


def test_what_is_the_same_has_no_bar() -> None:
    assert bars(BLOCKS, BLOCKS) == ()


@pytest.mark.parametrize(
    ("now", "expected"),
    [
        (changed(1, words("other")), [Bar(1, None)]),
        (changed(3, Table(((Text("a"),),), (((Text("1"),),), ((Text("7"),),), ((Text("3"),),)), ("left",))), [Bar(3, 1)]),
        (changed(3, Table(((Text("b"),),), BLOCKS[3].rows, ("left",))), [Bar(3, None)]),  # type: ignore[union-attr]
        (changed(4, Steps(1, ((words("do this"),), (words("do more"),), (words("do that"),)))), [Bar(4, 1)]),
        (changed(5, Checklist((row("nut"), row("bolt"), row("pin")))), [Bar(5, 2)]),
        ((*BLOCKS[:2], *BLOCKS[3:]), [Bar(2, None, "removed before")]),
        (BLOCKS[:5], [Bar(4, 1, "removed after")]),
        ((words("new"), *BLOCKS), [Bar(0, None)]),
    ],
)
def test_only_what_changed_has_a_bar(now: tuple[object, ...], expected: list[Bar]) -> None:
    assert list(bars(BLOCKS, now)) == expected


def test_what_only_moved_has_no_bar() -> None:
    """A comment put into a job file moves every line below it."""
    moved = replace(row("nut"), reference="job.yaml:97:4")
    assert bars(BLOCKS, changed(5, Checklist((moved, row("bolt"))))) == ()
    assert bars(BLOCKS, changed(4, Steps(7, BLOCKS[4].items))) == ()  # type: ignore[union-attr]


def test_site_and_paper_show_the_same_bars() -> None:
    now = (words("new"), BLOCKS[1], *changed(3, Table(((Text("a"),),), (((Text("1"),),), ((Text("7"),),), ((Text("3"),),)), ("left",)))[2:5],
           Checklist((row("nut"), row("pin"), row("bolt"))))  # fmt: skip
    first = document(*BLOCKS)
    was = Superseded("A", first.date, first.digest, "0", (), {first.key: marks(first)}, Comparison((), (), ()))
    made = barred(document(*now), was)
    html = chapter_page(made, 1, made.chapters[0]).content
    assert html.count('class="bar ') == len(made.chapters[0].bars)
    assert '<tr class="bar changed" title="new, or otherwise than in the revision before"><td>7</td>' in html
    assert html.index("new, or otherwise") < html.index("first")
    data = paper._document(made)["chapters"][0]["blocks"]
    marked = sum((block.get("bar", "") != "") + sum(word != "" for word in block.get("row_bars", ())) for block in data)
    assert marked == len(made.chapters[0].bars)
    assert paper.write(made) == paper.write(made)


# --- a whole docket --------------------------------------------------------------------------------------------------


def test_a_revision_says_what_it_supersedes_and_which_pages_changed(tmp_path: Path, old: Path) -> None:
    text = NEXT.replace("[day VFR]", "[day VFR, night VFR]")
    assessment = new(tmp_path, text)
    made = papers.documents(assessment, superseded(assessment, old))
    manual = made["manual"]
    assert manual.supersedes.startswith("revision A, 2026-01-01")
    assert [(line.number, line.pages) for line in manual.revisions] == [("A", "all"), ("B", "those with bars")]
    assert [chapter.key for chapter in manual.chapters if any(bar.word == "changed" for bar in chapter.bars)]
    content = paper.write(manual)
    reader = PdfReader(io.BytesIO(content))
    front = " ".join((reader.pages[0].extract_text() + reader.pages[1].extract_text()).split())
    assert "Supersedes revision A" in front
    assert "What this revision changes" in front
    assert "day VFR, night VFR" in front
    (tmp_path / "paper.pdf").write_bytes(content)
    assert verify(read(tmp_path / "paper.pdf")).outcome is Outcome.HOLDS


def test_folder_paper_and_job_of_a_revision_give_the_same_bars(tmp_path: Path, old: Path) -> None:
    assessment = new(tmp_path, NEXT.replace("[day VFR]", "[day VFR, night VFR]"))
    of_folder, of_paper = superseded(assessment, old), superseded(assessment, old / "BARE-1-3.pdf")
    assert of_folder == of_paper
    (tmp_path / "jobs" / "earlier").mkdir()
    (tmp_path / "jobs" / "earlier" / "job.yaml").write_text(papers.JOB, encoding="utf-8")
    of_job = superseded(assessment, tmp_path / "jobs" / "earlier")
    assert of_job.worked_anew
    assert replace(of_job, worked_anew=False) == of_folder


def test_the_record_of_revisions_goes_on(tmp_path: Path, old: Path) -> None:
    second = new(tmp_path / "b")
    third_text = NEXT.replace("revision: B, date: 2026-02-01", "revision: C, date: 2026-03-01, supersedes: B")
    docket = papers.folder_of(second, tmp_path / "docket", superseded(second, old))
    third = new(tmp_path / "c", third_text)
    made = papers.documents(third, superseded(third, docket))
    assert [(line.number, line.pages) for line in made["manual"].revisions] == [("A", "all"), ("B", "marked in B"), ("C", "those with bars")]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda text: text.replace("BARE-1", "BARE-2"), "of another docket"),
        (lambda text: text.replace("revision: B", "revision: A"), "cannot take its own place"),
        (lambda text: text.replace("2026-02-01", "2025-02-01"), "later than"),
        (lambda text: text.replace("shop: the bench}", "shop: the bench, supersedes: X}"), "says that it supersedes revision X"),
        (lambda text: text.replace("  model: bench\n", "  model: bench\n  serial number: Z9\n"), "is for serial number not said"),
    ],
)
def test_a_revision_takes_no_other_place_than_its_own(tmp_path: Path, old: Path, change: Callable[[str], str], told: str) -> None:
    assessment = new(tmp_path, change(NEXT))
    with pytest.raises(NotSuperseded, match=told):
        superseded(assessment, old)


def test_what_is_no_revision_is_refused(tmp_path: Path, old: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "text.pdf").write_text("x", encoding="utf-8")
    (tmp_path / "link.pdf").symlink_to(old / "BARE-1-3.pdf")
    for place in (tmp_path / "empty", tmp_path / "text.pdf", tmp_path / "link.pdf", tmp_path / "nothing"):
        with pytest.raises(NotRead):
            find(place)
