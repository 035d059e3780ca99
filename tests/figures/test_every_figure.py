"""Every drawing of the papers of every demonstration, as it is printed: one hand, readable at half size, nothing hidden or cut, numbered, told in words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from xml.etree import ElementTree

import pytest

from liftout.assessment import assess
from liftout.documents.blocks import Figure, Table, plain
from liftout.documents.docket import document
from liftout.documents.document import Document, numbered
from liftout.documents.svg import size
from liftout.documents.title_blocks import with_title_blocks
from liftout.figures.drawing import PAGE, WIDTH
from liftout.figures.lettering import HALF_SIZE_PT, MM_PER_POINT
from liftout.figures.svg import WEIGHTS
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import FIRST, JOBS
from tests.figures.seen import NS, faults, seen

SHOWN_IN = ("manual", "amendment", "records")
"""The documents that have drawings."""


@cache
def papers(job: str) -> tuple[Document, ...]:
    assessment = assess(load(folder("jobs") / job / "job.yaml"))
    sums = digests(assessment)
    return tuple(with_title_blocks(document(assessment, sums, key)) for key in SHOWN_IN)


def figures(job: str) -> Iterator[tuple[Document, str, Figure, Table | None]]:
    """Each drawing with its document, its number and the key below it."""
    for paper in papers(job):
        for number, chapter in enumerate(paper.chapters, 1):
            found = [*numbered(number, chapter.blocks)]
            for one, after in zip(found, [*found[1:], None], strict=True):
                if isinstance(one.block, Figure):
                    key = after.block if after is not None and isinstance(after.block, Table) else None
                    yield paper, one.number, one.block, key


KINDS = {
    "halden_4_cooler": "side-view plan-view kept-clear wiring wire-routes line-routes air fasteners holes restraint loading-envelope loading-region "
    "station-diagram fuel-burn buses placards",
    "orrin_6p_cooler": "doubler template outside",
}


@pytest.mark.parametrize("job", KINDS)
def test_every_kind_of_drawing_is_among_them(job: str) -> None:
    names = [figure.name for _, _, figure, _ in figures(job)]
    assert [kind for kind in KINDS[job].split() if not any(name.startswith(kind) for name in names)] == []


@pytest.mark.parametrize("job", FIRST)
def test_no_text_overlaps_another_leaves_the_drawing_or_is_cut(job: str) -> None:
    for _, _, figure, _ in figures(job):
        assert faults(figure) == [], figure.name
        assert not [words for words in seen(figure).words if "\u2026" in words or words.endswith("...")], figure.name


@pytest.mark.parametrize("job", FIRST)
def test_every_drawing_prints_at_its_own_size_with_letters_that_can_be_read_at_half_of_it(job: str) -> None:
    for _, _, figure, _ in figures(job):
        wide, high = size(figure.svg)
        assert wide == WIDTH
        assert high <= PAGE, f"{figure.name} would be made smaller, letters and scale with it"
        smallest = min(text.size for text in seen(figure).texts) / MM_PER_POINT
        assert smallest / 2 >= HALF_SIZE_PT - 1e-3, figure.name


@pytest.mark.parametrize("job", JOBS)
def test_lines_have_the_weights_of_one_series_and_no_drawing_has_a_colour_or_a_grey(job: str) -> None:
    for _, _, figure, _ in figures(job):
        for element in ElementTree.fromstring(figure.svg).iter():
            assert element.attrib.get("stroke", "#000") == "#000", figure.name
            assert element.attrib.get("fill", "#000") in ("#000", "#fff", "none"), figure.name
            if "stroke-width" in element.attrib:
                assert float(element.attrib["stroke-width"]) in WEIGHTS, figure.name
            assert "opacity" not in element.attrib, figure.name


@pytest.mark.parametrize("job", JOBS)
def test_every_drawing_has_a_title_block_with_number_revision_fingerprint_and_scale(job: str) -> None:
    numbers = []
    for paper, number, figure, _ in figures(job):
        block = [text.words for text in seen(figure).texts if text.group == "title block"]
        said = " ".join(block)
        numbers.append(f"{paper.number}, {number.lower()}")
        assert numbers[-1] in said, figure.name
        assert {"Drawing", "Revision", "Job", "Scale", paper.revision, paper.short_digest} <= set(block), figure.name
        assert re.fullmatch(r"1:[\d.]+|[\d.]+:1|not to scale|see bars", figure.scale), figure.name
        assert figure.scale in said
        first = re.split(r"[.:] ", figure.caption)[0].rstrip(".:")
        assert first.split()[:3] == said.split()[:3], "it begins with the title"
    assert len(numbers) == len(set(numbers))


@pytest.mark.parametrize("job", JOBS)
def test_diagrams_and_charts_say_that_they_are_not_to_scale_and_views_say_their_scale(job: str) -> None:
    diagrams = ("wiring", "buses", "air", "loading", "fuel-burn")
    for _, _, figure, _ in figures(job):
        if figure.name.startswith(("holes", "template", "placards")):
            assert figure.scale == "1:1"
        else:
            assert (figure.scale == "not to scale") == figure.name.startswith(diagrams), figure.name


_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_FIGURE = re.compile(r"\d+(?:\.\d+)? (?:in|mm|ft|lb|lbf|A|V|kg|N)")


@pytest.mark.parametrize("job", JOBS)
def test_alternative_texts_hold_the_figures_that_are_drawn_and_those_of_the_key(job: str) -> None:
    for _, _, figure, key in figures(job):
        look = seen(figure)
        words = figure.alternative
        bars = {text.words for text in look.texts if any(_ends_a_bar(shape.points, text.at) for shape in look.shapes)}
        drawn = {text.words for text in look.texts if _FIGURE.fullmatch(text.words)} - bars
        assert [text for text in drawn if text not in words] == [], figure.name
        cells = [plain(cell) for row in (key.rows if key is not None else ()) for cell in row[1:]]
        if not figure.name.startswith(("placards", "template", "holes")):
            numbers = {number for cell in cells for number in _NUMBER.findall(cell)}
            assert [number for number in sorted(numbers) if number not in words] == [], figure.name
        assert len(words) > len(figure.caption), figure.name
        assert any(letter.isdigit() for letter in words) or figure.name.startswith("placards"), figure.name


def _ends_a_bar(points: tuple[tuple[float, float], ...], at: tuple[float, float]) -> bool:
    """Whether a level line ends 2 mm below the start of a text: a bar that gives the scale."""
    return len(points) == 2 and points[0][1] == points[1][1] and points[1][0] == at[0] and abs(points[1][1] - at[1] - 2) < 1e-6


def test_a_planted_overlap_is_found_in_a_real_drawing() -> None:
    figure = next(figure for _, _, figure, _ in figures("halden_4_cooler") if figure.name == "kept-clear-from-the-left")
    root = ElementTree.fromstring(figure.svg)
    label = next(element for element in root.iter(f"{NS}text") if (element.text or "").startswith("K1"))
    planted = f'<text x="{label.attrib["x"]}" y="{label.attrib["y"]}" font-size="{label.attrib["font-size"]}">K99</text></svg>'
    svg = figure.svg.replace("</svg>", planted)
    found = faults(Figure(figure.name, svg, figure.caption, figure.alternative))
    assert any("'K99' overlaps" in fault for fault in found)
