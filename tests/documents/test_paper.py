"""The PDF: everything is in it, as typed, on every page what must be there, and the same bytes everywhere."""

from __future__ import annotations

import hashlib
import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pypdf
import pytest

from liftout.documents import Chapter, Document, paper
from liftout.documents.blocks import Alert, Bullets, Checklist, ChecklistRow, Code, Fields, Heading, Paragraph, Signature, Steps, Table, Text, Working
from tests.documents import sample
from tests.every_nth import every_nth

ROOT = Path(__file__).parents[2]


@cache
def written() -> bytes:
    return paper.write(sample.document())


def opened(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf))


def squeezed(text: str) -> str:
    """Without what a typesetter may change: spaces, line ends, places to break."""
    return re.sub(r"[\s\u200b\u00a0]+", "", text)


def text_of(pdf: bytes) -> str:
    return squeezed("".join(page.extract_text() for page in opened(pdf).pages))


def test_a_hostile_text_prints_exactly_as_typed_wherever_it_stands() -> None:
    text = text_of(written())
    # Paragraph, code, bold, fields, alert, and two tables.
    assert text.count(squeezed(sample.HOSTILE)) == 7
    assert "{{7*7}}" in text
    assert "49" not in text


def test_every_page_carries_number_revision_effectivity_digest_count_and_standing() -> None:
    document = sample.document()
    pages = opened(written()).pages
    for number, page in enumerate(pages, 1):
        text = squeezed(page.extract_text())
        assert text.startswith(squeezed(document.standing))
        for mark in (
            document.number,
            f"revision {document.revision}",
            "2025-03-04",
            document.effectivity,
            document.short_digest,
            f"({number} of {len(pages)})",
            document.shop,
        ):
            assert squeezed(mark) in text


def test_no_mark_where_nothing_is_open() -> None:
    assert "INCOMPLETE" not in text_of(paper.write(sample.document(standing="")))


def test_title_page() -> None:
    text = squeezed(opened(written()).pages[0].extract_text())
    for words in (
        "Installation manual",
        sample.DIGEST,
        "Record of revisions",
        "First issue",
        "Inserted by",
        "Prepared by",
        "Accepted by the licensed person",
        "Contents",
    ):
        assert squeezed(words) in text or words == "Contents"


def test_the_file_says_what_it_is() -> None:
    reader = opened(written())
    catalogue: Any = reader.trailer["/Root"]
    assert reader.metadata is not None
    assert reader.metadata.title == "Installation manual, SFW-24-031-M, revision B"
    assert reader.metadata.author == "Skerry Fitting Works"
    assert reader.metadata["/CreationDate"] == "D:20250304000000Z"
    assert catalogue["/Lang"] == "en"
    assert catalogue["/MarkInfo"]["/Marked"]
    assert catalogue["/ViewerPreferences"]["/DisplayDocTitle"]
    about = catalogue["/Metadata"].get_data().decode()
    assert "<pdfaid:part>3</pdfaid:part>" in about
    assert "<pdfaid:conformance>A</pdfaid:conformance>" in about
    assert "<pdfuaid:part>1</pdfuaid:part>" in about


def test_the_job_is_inside() -> None:
    reader = opened(written())
    assert list(reader.attachments) == ["job.yaml"]
    assert reader.attachments["job.yaml"] == [b"liftout: 1\n"]
    (file,) = reader.trailer["/Root"]["/AF"]
    assert file.get_object()["/AFRelationship"] == "/Source"


def test_bookmarks_follow_the_headings() -> None:
    titles: list[str] = []

    def walk(items: Any) -> None:
        for item in items:
            walk(item) if isinstance(item, list) else titles.append(item.title)

    walk(opened(written()).outline)
    document = sample.document()
    wanted = [
        text for chapter in document.chapters for text in (chapter.title, *(block.text for block in chapter.blocks if isinstance(block, Heading)))
    ]
    assert [re.sub(r"^[\d.]+ ", "", title) for title in titles if title != "Contents"] == wanted


def tags(pdf: bytes) -> list[tuple[str, Any]]:
    """Structure elements in reading order."""
    found: list[tuple[str, Any]] = []

    def walk(node: Any) -> None:
        node = node.get_object()
        if isinstance(node, pypdf.generic.ArrayObject):
            for child in node:
                walk(child)
        elif isinstance(node, pypdf.generic.DictionaryObject):
            if "/S" in node:
                found.append((str(node["/S"]), node))
            if "/K" in node:
                walk(node["/K"])

    walk(opened(pdf).trailer["/Root"]["/StructTreeRoot"]["/K"])
    return found


def test_headings_formulas_figures_and_tables_are_tagged() -> None:
    found = tags(written())
    kinds = {kind for kind, _ in found}
    assert {"/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/Formula", "/Figure", "/L", "/LI", "/TOC"} <= kinds
    for kind, node in found:
        if kind in ("/Formula", "/Figure"):
            assert node["/Alt"], node
    spoken = [str(node["/Alt"]) for kind, node in found if kind == "/Formula"]
    assert "= r × L × (1 + alpha × (T − T_0))" in spoken
    assert "A strap lies on the floor and carries a load from above." in [str(node["/Alt"]) for kind, node in found if kind == "/Figure"]


def test_only_the_shipped_fonts_are_in_it() -> None:
    names = {str(font["/BaseFont"]).rpartition("+")[2] for page in opened(written()).pages for font in fonts_of(page)}
    assert names
    assert all(name.startswith("IBMPlex") for name in names), names


def fonts_of(page: Any) -> list[Any]:
    return [font.get_object() for font in page["/Resources"].get("/Font", {}).values()]


def test_words_of_drawings_are_printed() -> None:
    text = text_of(written())
    assert "1250N" in text
    assert "strap" in text


def test_no_rule_of_pdfua_that_the_checker_covers_is_broken(tmp_path: Path) -> None:
    """The checker covers only part of PDF/UA-1 (16 of 106 rules when this was written): a second opinion, no proof."""
    import pdfua

    assert pdfua.coverage().covered < pdfua.coverage().total
    place = tmp_path / "sample.pdf"
    place.write_bytes(written())
    report = pdfua.validate(str(place))
    broken = [finding for finding in report.findings if finding.severity.name in ("ERROR", "FATAL", "CRITICAL")]
    assert broken == []
    assert report.exit_code == 0


PROGRAM = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from liftout.documents import paper
from tests.documents import sample
print(hashlib.sha256(paper.write(sample.document())).hexdigest())
"""


def test_the_same_bytes_in_other_processes_folders_zones_and_locales(tmp_path: Path) -> None:
    first = {"TZ": "Pacific/Kiritimati", "LC_ALL": "C", "PYTHONHASHSEED": "1", "TMPDIR": str(tmp_path), "SOURCE_DATE_EPOCH": "1"}
    second = {"TZ": "America/Anchorage", "LC_ALL": "C.UTF-8", "LANG": "de_DE.UTF-8", "PYTHONHASHSEED": "77", "TYPST_FONT_PATHS": "/usr/share/fonts"}
    sums = set()
    for number, environment in enumerate((first, second)):
        place = tmp_path / f"elsewhere {number}"
        place.mkdir()
        run = subprocess.run(
            [sys.executable, "-c", PROGRAM, str(ROOT)], cwd=place, env={**os.environ, **environment}, capture_output=True, text=True, check=True
        )
        sums.add(run.stdout.strip())
    assert sums == {hashlib.sha256(written()).hexdigest()}


CHANGES: dict[str, dict[str, Any]] = {
    "the job's digest alone": {"digest": "5" * 64},
    "another aircraft": {"number": "SFW-24-032-M", "effectivity": "Halden 4, serial H4-0218 only", "digest": "6" * 64},
    "nothing open any more": {"standing": "", "digest": "7" * 64},
    "another shop, with nothing carried": {"shop": "Other Works", "attachments": (), "revision": "C"},
}


def changed(name: str, blocks: int) -> Document:
    """The sample as it is issued next: its heads and feet otherwise, and so many blocks of its first chapter left out."""
    made = sample.document(**CHANGES[name])
    first = made.chapters[0]
    return replace(made, chapters=(replace(first, blocks=first.blocks[blocks:]), *made.chapters[1:]))


_COLD = """
import hashlib, sys
from tests.documents.test_paper import changed
from liftout.documents import paper
print(hashlib.sha256(paper.write(changed(sys.argv[1], int(sys.argv[2])))).hexdigest())
"""


@pytest.mark.parametrize("blocks", [0, 1])
@pytest.mark.parametrize("name", CHANGES)
@pytest.mark.long
def test_what_a_typesetter_keeps_of_another_docket_is_never_seen_in_this_one(name: str, blocks: int) -> None:
    """It keeps what it laid out for the papers before; a paper set then is the one that a new process sets."""
    written()
    warm = paper.write(changed(name, blocks))
    assert warm != written()
    run = subprocess.run([sys.executable, "-c", _COLD, name, str(blocks)], cwd=ROOT, capture_output=True, text=True, check=True)
    assert hashlib.sha256(warm).hexdigest() == run.stdout.strip()


def test_what_differs_between_dockets_of_one_kind_is_read_where_it_is_printed() -> None:
    """Else all pages are laid out again for another digest. The title blocks of drawings say it themselves."""
    names = ("the job's digest alone", "another aircraft")
    written_in_words = [replace(sample.document(**CHANGES[name]), chapters=(Chapter("short", "Placards", (paragraph("One."),)),)) for name in names]
    one, other = map(paper._files, written_in_words)
    assert {name for name in one if one[name] != other[name]} == {"issue.json"}


# --- nothing is lost ----------------------------------------------------------------------------------------


def words(count: int, mark: str) -> str:
    return " ".join(f"{mark}{number}" for number in range(count))


def paragraph(text: str) -> Paragraph:
    return Paragraph((Text(text),))


def one(*blocks: Any, **changes: Any) -> Document:
    return sample.document(chapters=(Chapter("long", "Long", blocks),), **changes)


LONG = 1500
CASES: dict[str, Any] = {
    "paragraph": lambda: paragraph(words(LONG, "w")),
    "code": lambda: Paragraph((Code(words(LONG, "w")),)),
    "bullets": lambda: Bullets(((paragraph(words(LONG, "w")),),)),
    "steps": lambda: Steps(1, ((paragraph(words(LONG, "w")),),)),
    "warning": lambda: Alert("WARNING", (paragraph(words(LONG, "w")),)),
    "caution": lambda: Alert("CAUTION", (Bullets(tuple((paragraph(word),) for word in words(LONG, "w").split())),)),
    "note": lambda: Alert("NOTE", (paragraph(words(LONG, "w")),)),
    "cell": lambda: Table(((Text("a"),), (Text("b"),)), (((Text(words(LONG, "w")),), (Text("x"),)),), ("left", "right")),
    "rows": lambda: Table(((Text("a"),), (Text("b"),)), tuple(((Text(word),), (Text("x"),)) for word in words(LONG, "w").split()), ("left", "right")),
    "caption": lambda: Table(((Text("a"),),), (), ("left",), words(LONG, "w")),
    "figure caption": lambda: replace(sample.bearing(), caption=words(LONG, "w")),
    "checklist row": lambda: Checklist((ChecklistRow(words(LONG, "w"), "there", "look", "tight"),)),
    "checklist": lambda: Checklist(tuple(ChecklistRow(word, "there", "look", "tight", hold=True) for word in words(300, "w").split())),
    "statement": lambda: Signature("Title", ("Name",), words(LONG, "w")),
    "lines": lambda: Signature("Title", tuple(words(200, "w").split())),
    "fields": lambda: Fields(((words(20, "l"), words(LONG, "w")),)),
    "conclusion": lambda: Working(replace(sample.not_applicable(), reason=words(LONG, "w"))),
    "requires": lambda: Working(replace(sample.voltage_drop(), requires=words(LONG, "w")), titled=False),
    "subject": lambda: Working(replace(sample.voltage_drop(), subject=words(LONG, "w"))),
    "sources": lambda: Working(replace(sample.voltage_drop(), sources=tuple(words(LONG, "w").split()))),
    "remedy": lambda: Working(replace(sample.voltage_drop(), caution=words(LONG, "w"))),
    "heading": lambda: Heading(2, words(600, "w"), "h"),
}


@pytest.mark.parametrize("case", every_nth(CASES, 3))
def test_a_block_longer_than_a_page_loses_no_word(case: str) -> None:
    block = CASES[case]()
    document = one(block)
    found = {word for page in opened(paper.write(document)).pages for word in re.findall(r"\bw\d+\b", page.extract_text().lower())}
    count = {"checklist": 300, "lines": 200, "heading": 600}.get(case, LONG)
    assert found == {f"w{number}" for number in range(count)}
    assert_nothing_outside(document)


def assert_nothing_outside(document: Document) -> None:
    """Seen as pictures, the margins are white."""
    from PIL import Image

    for picture in paper.pictures(document, resolution=50.8):  # two pixels a millimetre
        page = Image.open(io.BytesIO(picture)).convert("L")
        width, height = page.size
        for margin in ((0, 0, 46, height), (width - 34, 0, width, height), (0, 0, width, 12), (0, height - 10, width, height)):
            assert page.crop(margin).getextrema() == (255, 255), margin


@pytest.mark.long
def test_words_without_a_place_to_break_stay_on_the_page() -> None:
    run = "x" * 400
    many = Table(tuple((Text(f"head{column}"),) for column in range(12)), ((tuple((Text(run),) for _ in range(12))),), ("left",) * 12)
    steps = tuple(
        replace(step, meaning=run, origin=run, rows=tuple(row._replace(label=run, origin=run, evidence=run) for row in step.rows))
        for step in sample.voltage_drop().steps[-3:]
    )
    finding = replace(
        sample.voltage_drop(), title=run, subject=run, sources=(run,), requires=run, remedy=run, caution=run, steps=steps, value_text=run
    )
    document = one(
        paragraph(run),
        Heading(2, run, "a"),
        Fields(((run, run),)),
        many,
        replace(many, head=((Text("a"),),) * 12, rows=(), caption=run),
        replace(sample.bearing(), caption=run),
        Checklist((ChecklistRow(run, run, run, run, reference=run),)),
        Signature(run, (run,), run),
        Alert("WARNING", (paragraph(run),)),
        Working(finding),
        purpose=run,
        revisions=(replace(sample.document().revisions[0], reason=run),),
    )
    assert_nothing_outside(document)
    assert text_of(paper.write(document)).count("x") >= 400 * 40


def test_words_of_a_table_stay_whole_while_the_line_has_room_for_them() -> None:
    head = ("No.", "Item", "Part number", "Serial", "Stays", "Weight, dry", "Weight, filled")
    rows = [
        ("1", "cabin unit", "SK-210", "SK210-031", "removable", "28.5 lb", "29.53 lb"),
        ("2", "lines and feeders", "not said in the job: say the part number", "not said", "provision", "7.4 lb", "7.40 lb"),
    ]
    cells = [[(Text(words),) for words in row] for row in (head, *rows)]
    document = one(Table(tuple(cells[0]), tuple(map(tuple, cells[1:])), ("left",) * 7))
    text = " ".join(page.extract_text() for page in opened(paper.write(document)).pages)
    for word in (word for row in (head, *rows) for cell in row for word in cell.split()):
        assert word in text, word


def test_a_long_path_breaks_after_its_strokes_and_points() -> None:
    data = paper._broken("airframes/halden_4_of_the_island.yaml:34", 20)
    assert data == "airframes/\u200bhalden_\u200b4_\u200bof_\u200bthe_\u200bisland.\u200byaml:\u200b34"
    assert paper._broken("a short one", 20) == "a short one"


@pytest.mark.parametrize("lines", range(22, 34))
def test_a_drawing_and_its_caption_stand_on_one_page(lines: int) -> None:
    tall = replace(
        sample.bearing(), svg=sample.bearing().svg.replace('height="36mm"', 'height="66mm"'), caption="Captionofthedrawing. " + words(120, "c")
    )
    document = one(*(paragraph(f"line {number}") for number in range(lines)), tall)
    pages = [page.extract_text() for page in opened(paper.write(document)).pages]
    (at,) = [number for number, text in enumerate(pages) if "1 250 N" in text]
    assert "Captionofthedrawing" in pages[at]
    assert "c119" in pages[at]


def test_table_heads_are_repeated_on_each_page() -> None:
    rows = tuple(((Text(str(row)),), (Text("x"),)) for row in range(150))
    pages = opened(paper.write(one(Table(((Text("Columnhead"),), (Text("b"),)), rows, ("left", "left"))))).pages
    assert sum("Columnhead" in page.extract_text() for page in pages) >= 3


def test_a_long_list_of_contents_is_all_there() -> None:
    headings = tuple(Heading(2, f"Section number {number}, {words(12, 'w')}", f"s{number}") for number in range(60))
    alone = text_of(paper.write(one(*headings)))
    listed = text_of(paper.write(sample.document(chapters=(Chapter("a", "A", headings), Chapter("b", "B", ())))))
    for number in range(60):
        assert alone.count(f"Sectionnumber{number},") == 1
        assert listed.count(f"Sectionnumber{number},") == 2


# --- the fixed program --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "surprise"},
        {"kind": "paragraph", "of": [{"kind": "surprise"}]},
        {
            "kind": "table",
            "columns": [0],
            "head": [[]],
            "rows": [],
            "alignment": ["surprise"],
            "caption": "",
            "number": "",
            "by_hand": False,
            "tight": False,
            "whole": [],
            "together": 0,
            "foot": 0,
        },
    ],
)
def test_the_typesetter_stops_at_what_it_does_not_know(change: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper, "_block", lambda _block, _number: change)
    with pytest.raises(paper.TypesetterError, match="surprise"):
        paper.write(one(paragraph("x"), signatures=()))


def test_an_unknown_mark_stops_it_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("liftout.documents.formula.data", lambda _mark: {"kind": "surprise"})
    with pytest.raises(paper.TypesetterError, match="unknown mark"):
        paper.write(one(Working(sample.voltage_drop())))


def test_an_unknown_block_stops_before() -> None:
    with pytest.raises(paper.TypesetterError, match="has no printed form"):
        paper.write(one(object()))


def test_nothing_is_left_on_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    paper.write(sample.document())
    assert list(tmp_path.iterdir()) == []
