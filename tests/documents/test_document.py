"""What is checked before a document is laid out: every fault is said, each with the text it is in."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from liftout.documents import Attachment, Chapter, DocumentError, check, glyphs
from liftout.documents.blocks import Checklist, Figure, Heading, Paragraph, Table, Text, Working
from liftout.documents.document import numbered
from liftout.documents.svg import check_svg, inline
from liftout.resources import folder
from tests.documents import coverage, sample


def chapter(*blocks: Any, title: str = "Chapter") -> tuple[Chapter, ...]:
    return (Chapter("chapter", title, blocks),)


def said(text: str) -> Paragraph:
    return Paragraph((Text(text),))


def test_the_sample_is_whole() -> None:
    check(sample.document())


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({"number": " "}, "the title page needs the number"),
        ({"digest": "XYZ"}, "hexadecimal"),
        ({"chapters": ()}, "a document has chapters"),
        ({"key": "Manual 1"}, "is no key"),
        ({"standing": "x" * 111}, "the standing stands on every page"),
        ({"chapters": (Chapter("a", "A", ()), Chapter("a", "B", ()))}, "stands for more than one chapter"),
        ({"chapters": (Chapter("index", "A", ()),)}, "stands for more than one chapter"),
        ({"chapters": chapter(title="  ")}, "a chapter has a title"),
        ({"chapters": chapter(Heading(3, "Deep", "deep"))}, "'Deep' skips a level: it stands at 3, below 1"),
        ({"chapters": chapter(Heading(2, "A", "a"), Heading(4, "Deep", "deep"))}, "it stands at 4, below 2"),
        ({"attachments": (Attachment("../x", "text/plain", "d", "source", b""),)}, "cannot be the name of an attached file"),
        ({"attachments": (Attachment("x", "text/plain", "d", "source", b""),) * 2}, "used twice"),
        ({"chapters": chapter(said("a 👍 b"))}, r'Chapter: "a 👍 b" holds U\+1F44D \(THUMBS UP SIGN\)'),
        ({"chapters": chapter(said("nul \x00 b"))}, r'"nul · b" holds U\+0000'),
        ({"chapters": chapter(said("turned \u202e round"))}, r"holds U\+202E \(RIGHT-TO-LEFT OVERRIDE\)"),
        ({"chapters": chapter(said("two\nlines"))}, r"holds U\+000A"),
        ({"shop": "飛行"}, r"holds U\+98DB"),
        ({"chapters": chapter(Working(replace(sample.voltage_drop(), remedy="use 👍")))}, "THUMBS UP"),
        ({"chapters": chapter(sample.bearing("👍"))}, "figure bearing: .*THUMBS UP"),
        ({"chapters": chapter(Table(((Text("👍"),),), (), ("left",)))}, "THUMBS UP"),
    ],
)
def test_faults(changes: dict[str, Any], wrong: str) -> None:
    with pytest.raises(DocumentError, match=wrong):
        check(sample.document(**changes))


def test_all_faults_are_said_at_once() -> None:
    with pytest.raises(DocumentError) as caught:
        check(sample.document(number="", chapters=chapter(said("👍"), said("飛"))))
    assert len(str(caught.value).splitlines()) == 3


def test_coverage_is_that_of_the_shipped_fonts() -> None:
    fonts = folder("site") / "fonts"
    assert (fonts / "coverage.txt").read_text(encoding="ascii") == coverage.coverage(fonts), "run python -m tests.documents.coverage"


@pytest.mark.parametrize("text", ["Ω µ Δ ° · ² ³ ⁻¹ × − ≤ ≥ √ ± – — … ‘’ “” → ½ Ø №", "Łódź, Þórshöfn, Zürich, Афины, Ελλάδα", "a\u00a0b"])
def test_what_the_trade_writes_can_be_printed(text: str) -> None:
    assert glyphs.fault(text) == ""


def test_numbers_of_headings_figures_tables_and_items() -> None:
    captioned = Table(((Text("a"),),), (), ("left",), "Caption")
    bare = replace(captioned, caption="")
    blocks = [Heading(2, "a", "a"), Heading(3, "b", "b"), captioned, bare, Heading(2, "c", "c"), Heading(3, "d", "d"), captioned, sample.bearing()]
    blocks += [Checklist(sample.CHECKS), Checklist(sample.CHECKS)]
    assert [found.number for found in numbered(4, blocks)] == [
        "4.1",
        "4.1.1",
        "Table 4-1",
        "",
        "4.2",
        "4.2.1",
        "Table 4-2",
        "Figure 4-1",
        "4-1",
        "4-5",
    ]


SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm" viewBox="0 0 10 10">{}</svg>'


@pytest.mark.parametrize(
    "svg",
    [
        SVG.format("<script>alert(1)</script>"),
        SVG.format("<style>@import url(x)</style>"),
        SVG.format("<foreignObject/>"),
        SVG.format('<image href="http://example.org/a.png"/>'),
        SVG.format('<use href="http://example.org/a.svg#a"/>'),
        SVG.format('<rect fill="url(http://example.org/a)"/>'),
        SVG.format('<rect onclick="alert(1)"/>'),
        SVG.format('<text font-family="Comic">x</text>'),
        SVG.format('<text style="x">x</text>'),
        '<!DOCTYPE svg [<!ENTITY a "b">]>' + SVG.format(""),
        '<svg xmlns="http://www.w3.org/2000/svg"/>',
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"/>',
        "<svg>",
        "text",
    ],
)
def test_a_drawing_is_plain(svg: str) -> None:
    assert check_svg(svg)
    with pytest.raises(DocumentError, match="figure f"):
        check(sample.document(chapters=chapter(Figure("f", svg, "c", "a"))))


def test_drawings_on_one_page_keep_their_identifiers_apart() -> None:
    placed = inline(sample.bearing().svg, "figure-2")
    assert 'id="figure-2-tip"' in placed
    assert "url(#figure-2-tip)" in placed
    assert 'id="tip"' not in placed
