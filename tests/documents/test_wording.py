"""Papers in another language: every fixed sentence is there, values stay, nothing is mixed in silently."""

from __future__ import annotations

import ast
import datetime
import inspect
import re
import typing
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from jinja2 import Environment, nodes

from liftout.assessment import assess
from liftout.documents import docket, html, paper, site
from liftout.documents.blocks import Alert, Block, Checklist, Figure, Heading, Paragraph, Signature, Text
from liftout.documents.chapters.matter import Matter
from liftout.documents.document import Document
from liftout.documents.html import chapter_page, title_page
from liftout.documents.wanted import WANTED
from liftout.documents.wording import (
    FURNITURE,
    TRANSLATED,
    UNTRANSLATED,
    Wording,
    catalogue,
    entries,
    furniture,
    german,
    localised,
    own_words,
    translated,
)
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried
from liftout.job import load
from liftout.job.part import Key, Part
from liftout.job.values import Stated
from liftout.job.whole import Document as JobDocument
from liftout.records.as_fitted import checklist
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.records import on_disk

PLANNED = [
    pytest.param(name, plan.key, marks=() if name == "halden_4_cooler" else pytest.mark.long)
    for name in JOBS
    for plan in docket.PLANS
    if plan.key in TRANSLATED["de"]
]
"""Each demonstration with each document of its docket that is in German."""
FIRST_PAGES = ("shared/page_one.md.j2", "shared/page_one_rests.md.j2", "shared/redacted.md.j2", "shared/both_units.md.j2")
"""What the first document of a docket has before its chapters, and what any of them may have."""
VALUE = "zzq"
"""Stands in a sentence where a value stands."""


def german_wording(*own: str) -> Wording:
    return Wording("de", frozenset((VALUE, *own)))


@cache
def both(name: str, key: str = "checklist") -> tuple[Document, Document, Wording]:
    """A document in English and in German."""
    job = load(folder("jobs") / name / "job.yaml")
    matter_ = Matter(assessment := assess(as_carried(job.with_change(("shop", "language"), "de")), remedies=False), digests(assessment))
    plan = next(plan for plan in docket.PLANS if plan.key == key)
    english = docket._written(plan, matter_)
    return english, translated(english, matter_.wording), matter_.wording


# --- the list of fixed sentences against the catalogue ----------------------------------------------------------


def sentences_of(template: str) -> Iterator[str]:
    """Each fixed sentence of a template, with VALUE where it prints one, and once for each way in which it may be put together."""
    tree = Environment(autoescape=True).parse((folder("templates") / template).read_text(encoding="utf-8"))
    whole: list[str] = []
    whole += lines_in(tree.body, {""}, whole)
    for line in dict.fromkeys(whole):
        for said in re.split(r"`[^`]*`|\*\*", re.sub(r"^\s*(?:#+|-|[0-9]+\.)\s+", "", line)):
            if said.replace(VALUE, "").strip(" .,:"):
                yield said.strip()
    for call in tree.find_all(nodes.Call):
        for constant in call.find_all(nodes.Const):
            if isinstance(constant.value, str) and constant.value not in ("left", "right", "center", ""):
                yield constant.value
    for taken in [*tree.find_all(nodes.Include), *tree.find_all(nodes.FromImport), *tree.find_all(nodes.Import)]:
        if isinstance(taken.template, nodes.Const) and taken.template.value != "shared/alerts.md.j2":
            yield from sentences_of(taken.template.value)


def lines_in(body: list[nodes.Node], begun: set[str], whole: list[str]) -> set[str]:
    """How the last line of a part of a template may read that goes on from these beginnings; lines that end in it are added to `whole`."""
    for node in body:
        if isinstance(node, nodes.Output):
            text = "".join(piece.data if isinstance(piece, nodes.TemplateData) else VALUE for piece in node.nodes)
            first, *others = text.split("\n")
            begun = {line + first for line in begun}
            for other in others:
                whole += sorted(begun)
                begun = {other}
        elif isinstance(node, nodes.If):
            between = [one for one in node.test.find_all(nodes.Getattr) if one.attr == "last"]  # of a list, what stands after all but the last
            branches = [node.else_] if between else [node.body, *(branch.body for branch in node.elif_), node.else_]
            begun = set().union(*(lines_in(branch, begun, whole) for branch in branches))
        elif isinstance(node, nodes.For):
            begun = begun | lines_in(node.body, begun, whole) | lines_in(node.else_, begun, whole)
        elif isinstance(node, nodes.Macro | nodes.CallBlock):
            begun = lines_in(node.body, begun, whole)
    return begun


@pytest.mark.parametrize("language", TRANSLATED)
def test_every_fixed_sentence_of_a_template_is_in_the_catalogue(language: str) -> None:
    wording = Wording(language, frozenset([VALUE]))
    asked = 0
    for plan in (plan for plan in docket.PLANS if plan.key in TRANSLATED[language]):
        signed = (word for sign in plan.signatures for word in (sign.title, sign.statement) if word)
        for text in (plan.title, plan.purpose, *plan.chapters.values(), *signed):
            wording.said(text)
        first = FIRST_PAGES if plan is docket.PLANS[0] else ()
        for template in (*first, *(docket.template_of(plan.key, chapter) for chapter in plan.chapters)):
            for sentence in sentences_of(template):
                asked += 1
                wording.said(sentence)
    assert asked > 90
    assert list(wording.missing) == [], "write these into templates/wording"


ROWS = ("ChecklistRow", "Test", "worded")
PARTS_OF_ONES = frozenset(
    {f"at the head of each seat{VALUE}", f"{VALUE}", f"{VALUE} {VALUE}", f"{VALUE}, {VALUE}", f"{VALUE}; {VALUE}", f"{VALUE}: {VALUE}"}
)


def rows_of(module: Any) -> Iterator[str]:
    """Each fixed text that a chapter puts into a line of the checklist, with VALUE where it puts a value."""
    for call in ast.walk(ast.parse(inspect.getsource(module))):
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id in ROWS:
            for argument in call.args:
                yield from texts_in(argument)


def texts_in(node: ast.expr) -> Iterator[str]:
    match node:
        case ast.Constant(value=str() as text):
            yield text.replace("{}", VALUE)
        case ast.JoinedStr(values=values):
            yield "".join(piece.value if isinstance(piece, ast.Constant) else VALUE for piece in values)
        case ast.IfExp(body=body, orelse=otherwise):
            yield from texts_in(body)
            yield from texts_in(otherwise)


def test_every_fixed_text_of_a_line_is_in_the_catalogue() -> None:
    """What chapters put into lines themselves; a text that begins with another fixed one is held by the demonstrations."""
    wording = german_wording(*own_words(load(folder("jobs") / JOBS[0] / "job.yaml")))
    names = {key.partition("-")[0] for key in next(plan for plan in docket.PLANS if plan.key == "checklist").chapters}
    modules = [import_module(f"liftout.documents.chapters.{name}") for name in sorted(names | {"tests"})]
    texts = [text for module in modules for text in rows_of(module)]
    assert len(texts) > 150
    for text in texts:
        if text and not text.startswith(f"{VALUE}: ") and text not in PARTS_OF_ONES:
            wording.said(text)
    assert list(wording.missing) == []


def measured_again(annotation: Any) -> bool:
    """Whether a key so written holds a value that the checklist may ask for again."""
    inner = [one for one in typing.get_args(annotation) if one not in (type(None), Ellipsis)]
    origin = typing.get_origin(annotation)
    if annotation is Stated or origin is typing.Literal:
        return True
    if origin in (typing.Annotated, dict):
        return measured_again(inner[0 if origin is typing.Annotated else -1])
    return origin is not tuple and any(measured_again(one) for one in inner)


def parts(part: type[Part], seen: set[type[Part]]) -> Iterator[Key]:
    """Every key of a part and of all parts below it."""
    if part not in seen:
        seen.add(part)
        for key in part.KEYS.values():
            yield key
            waiting = [key.annotation]
            while waiting:
                one = waiting.pop()
                waiting.extend(typing.get_args(one))
                if isinstance(one, type) and issubclass(one, Part):
                    yield from parts(one, seen)


def test_every_value_that_may_be_measured_again_has_its_words() -> None:
    """What a key means and how it is measured, for jobs that no demonstration is like."""
    known, asked = entries("de"), 0
    for key in parts(JobDocument, set()):
        if measured_again(key.annotation) and "informational" not in key.extra and key.spoken not in ("liftout", "stated"):
            asked += 1
            assert key.description in known, f"{key.spoken}: write what it means into templates/wording"
            assert key.extra.get("measure", "measure again") in known, f"{key.spoken}: write how it is measured into templates/wording"
    assert asked > 300


@pytest.mark.parametrize(("name", "key"), PLANNED)
def test_no_sentence_of_a_demonstration_is_left_in_english(name: str, key: str) -> None:
    _, german_one, wording = both(name, key)
    assert list(wording.missing) == []
    assert UNTRANSLATED not in repr(german_one)
    assert german_one.language == "de"


def test_words_of_page_and_paper_are_there_in_every_language() -> None:
    program = (folder("templates") / "print" / "docket.typ").read_text(encoding="utf-8")
    assert set(re.findall(r'\bw\("([^"]+)"\)', program)) <= set(FURNITURE)
    for language in TRANSLATED:
        assert set(furniture(language)) == set(FURNITURE)


def test_the_catalogue_names_the_same_values_on_both_sides_and_no_sentence_twice() -> None:
    for language in TRANSLATED:
        catalogue(language)  # refuses where the values differ
        written = [
            line.split('": "')[0]
            for file in (folder("templates") / "wording").glob(f"{language}*.yaml")
            for line in file.read_text(encoding="utf-8").split("\n")
            if line.startswith('"')
        ]
        assert [line for line, count in Counter(written).items() if count > 1] == []
        assert len(written) == len(entries(language))


def test_every_word_of_the_site_is_in_the_catalogue() -> None:
    """What the first page, the menus and the search say beside what documents say."""
    program = ast.parse(inspect.getsource(html)), ast.parse(inspect.getsource(site))
    said = {
        call.args[0].value
        for tree in program
        for call in ast.walk(tree)
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id in ("_s", "say") and isinstance(call.args[0], ast.Constant)
    }
    readers = [word for told in html.READERS.values() for word in told]
    words = [
        *said,
        *readers,
        *(one.question for one in WANTED),
        *site.SITE_WORDS,
        site.ON_A_PAGE,
        "first page",
        "Paper",
        "Number and revision",
        "PDF",
    ]
    assert len(words) > 35
    for language in TRANSLATED:
        assert [word for word in words if word not in entries(language)] == []


# --- what becomes of blocks -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "key"), PLANNED)
def test_blocks_cautions_lines_and_figures_are_the_same_ones(name: str, key: str) -> None:
    """Nothing is lost or moved: the same blocks in the same order, the same numbers in each line."""
    english, other, _ = both(name, key)
    for one, two in zip(english.chapters, other.chapters, strict=True):
        assert [type(block) for block in one.blocks] == [type(block) for block in two.blocks]
        for left, right in zip(one.blocks, two.blocks, strict=True):
            assert digits(left) == digits(right)
            if isinstance(left, Alert):
                assert isinstance(right, Alert)
                assert left.word == right.word
                assert left.of != right.of
            if isinstance(left, Heading):
                assert isinstance(right, Heading)
                assert left.anchor == right.anchor
            if isinstance(left, Checklist):
                assert isinstance(right, Checklist)
                assert [(row.hold, row.second_person, row.path) for row in left.rows] == [
                    (row.hold, row.second_person, row.path) for row in right.rows
                ]


def digits(block: Block) -> Counter[str]:
    """The runs of digits in a block, whatever stands between them."""
    dates = re.sub(r"\b([0-9]{2})\.([0-9]{2})\.([0-9]{4})\b", r"\3-\2-\1", repr(block).replace("\\u202f", "").replace("\\xa0", " "))
    return Counter(re.findall(r"[0-9]+", dates))


def test_a_sentence_that_is_not_there_is_marked_and_listed() -> None:
    wording = german_wording()
    assert wording.said("This sentence is in no catalogue.") == "[en] This sentence is in no catalogue."
    assert list(wording.missing) == ["This sentence is in no catalogue."]


def test_values_stand_where_they_stood_and_words_of_the_job_stay() -> None:
    wording = german_wording("cabin unit", "r. voe", "brass rule", "expected")
    assert wording.said("Flight controls with the cabin unit in") == "Flugsteuerung mit eingebautem Gerät: cabin unit"
    assert wording.said("expected 94.0\u00a0in, within ________") == "erwartet 94,0\u00a0in, auf ________ genau"
    assert wording.said("job.yaml:12; measured by R. Voe, 2026-11-04, brass rule") == "job.yaml:12; gemessen von R. Voe, 04.11.2026, brass rule"
    assert wording.said("It is not a measured value. It replaces no finding.") == "Er ist kein gemessener Wert. Er ersetzt keinen Befund."
    assert german_wording("chart wb").said("Document chart WB, revision 2025-02-03") == "Dokument chart WB, Revision 2025-02-03"
    assert not wording.missing


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("0.5\u00a0mΩ", "0,5\u00a0mΩ"),
        ("−3.60 in", "−3,60 in"),
        ("12345.6 lb", "12\u202f345,6 lb"),
        ("2014.6 lb", "2014,6 lb"),
        ("1 1/2 in", "1 1/2 in"),
        ("5/32 in", "5/32 in"),
        ("1234567", "1\u202f234\u202f567"),
        ("2026-11-20", "20.11.2026"),
        ("11-125", None),
        ("3 bananas", None),
        ("AN3", None),
    ],
)
def test_numbers_and_dates_are_written_as_the_language_writes_them(text: str, said: str | None) -> None:
    assert localised(text, "de") == said
    assert localised(text, "en") == text


def test_a_number_in_german_reads_back() -> None:
    for number in ("0", "-1.5", "99999.25", "100000", "1000000.001"):
        assert german(number).replace("\u202f", "").replace(",", ".") == number


# --- paper and page ---------------------------------------------------------------------------------------------


def test_paper_and_page_are_in_the_language_with_their_furniture() -> None:
    import io

    from pypdf import PdfReader

    _, checklist, _ = both("halden_4_survey")
    written = paper.write(checklist)
    reader = PdfReader(io.BytesIO(written))
    assert reader.root_object["/Lang"] == "de"
    told = " ".join(" ".join(page.extract_text().split()) for page in reader.pages)
    for word in ("WARNUNG", "HALTEPUNKT", "Annahmewert", "Gemessener Wert", "Seite", "Tabelle 1-1", "Verzeichnis der Revisionen", "04.11.2026"):
        assert word in told
    for word in ("WARNING", "HOLD POINT", "Acceptance value", "Page ", "Record of revisions", "Table 1-1"):
        assert word not in told
    assert len(reader.get_fields() or {}) == sum(isinstance(block, Signature) for chapter in checklist.chapters for block in chapter.blocks)
    page = chapter_page(checklist, 1, checklist.chapters[0]).content
    assert page.startswith('<div lang="de">')
    assert "WARNUNG" in page
    assert "Verzeichnis der Revisionen" in title_page(checklist, "", ()).content


def test_a_document_that_the_language_does_not_have_is_english_and_says_so() -> None:
    job = load(folder("jobs") / "halden_4_survey" / "job.yaml").with_change(("shop", "language"), "de")
    assessment = assess(as_carried(job), remedies=False)
    record = docket.document(assessment, digests(assessment), "calculations")
    assert record.language == "en"
    assert record.purpose.endswith("Dieses Dokument ist in englischer Sprache.")
    english = docket.document(
        assess(as_carried(load(folder("jobs") / "halden_4_survey" / "job.yaml")), remedies=False), digests(assessment), "checklist"
    )
    assert english.language == "en"
    assert english.date == datetime.date(2026, 11, 4)
    assert Paragraph((Text("x"),)) not in english.chapters[0].blocks


def test_lettering_of_drawings_is_in_the_language_and_no_unit_becomes_a_state() -> None:
    english, german_one, wording = both("halden_4_cooler", "amendment")
    drawn = [
        (one.svg, two.svg, two.scale)
        for left, right in zip(english.chapters, german_one.chapters, strict=True)
        for one, two in zip(left.blocks, right.blocks, strict=True)
        if isinstance(one, Figure) and isinstance(two, Figure)
    ]
    assert len(drawn) > 3
    for before, after, _ in drawn:
        left, right = (re.findall(r"<text[^>]*>([^<]+)<", svg) for svg in (before, after))
        assert len(left) == len(right)
        assert not {"limits", "forward limit", "aft limit", "maximum take-off weight", "Equipment", "Wheels"} & set(right)
    assert "Arm hinter der Bezugsebene firewall (in)" in drawn[0][1]
    assert {scale for *_, scale in drawn} > {"ohne Maßstab"}, "a drawing to scale keeps its scale"
    assert wording.said("Arm (in)") == "Arm (in)"
    assert wording.said("in") == "eingebaut"


def test_an_amount_in_a_sentence_is_an_amount_and_no_other_word() -> None:
    wording = german_wording("pilot", "wing tanks")
    assert wording.said("pilot 260.5\u00a0lb; fuel, wing tanks 444\u00a0lb") == "Person am Steuer 260,5\u00a0lb; Kraftstoff, wing tanks 444\u00a0lb"
    assert wording.said("wing tanks bananas") == "[en] wing tanks bananas"


def test_what_was_measured_is_compared_whatever_the_language_of_the_checklist_is(tmp_path: Path) -> None:
    """A record is held against acceptance values, whose words it must understand: a German checklist may not make them mere sights."""
    jobs = on_disk.put(tmp_path / "jobs")
    compared = []
    for language in ("en", "de"):
        shop = (jobs / "shop.yaml").read_text(encoding="utf-8").split("language:")[0]
        (jobs / "shop.yaml").write_text(f"{shop}language: {language}\n", encoding="utf-8")
        made = on_disk.docket(jobs, "halden_4_survey")
        english = replace(made, lines=checklist(docket.document(made.assessment, made.digests, "checklist", in_english=True)))
        record = english.record()
        first = next(line for line in english.lines if line.number in record["entries"] and "measured" in record["entries"][line.number])
        record["entries"][first.number]["measured"] = "999 V" if first.acceptance.endswith("V") else record["entries"][first.number]["measured"]
        compared.append([(one.line.number, one.standing) for one in english.closed({**record, "state": made.assessment.facts.states[1].name}).lines])
    assert compared[0] == compared[1]
    assert len({standing for _, standing in compared[0]}) > 1
