"""Drill templates stand on paper at their own size: their bars are measured in the geometry of the PDF, through every transformation."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, get_args

import pypdf
import pytest
from pypdf.generic import ContentStream

from liftout.documents import Chapter, paper
from liftout.documents.blocks import Figure
from liftout.documents.document import Paper
from liftout.facts import gather
from liftout.figures.doubler import doubler_drawings
from liftout.figures.drawing import FULL_SIZE, TALLEST, WIDTH, Drawing, drawing
from liftout.figures.fastener_template import fastener_templates
from liftout.figures.svg import HEAVY, Canvas
from liftout.job import load
from tests.documents import sample

JOB = Path(__file__).parents[2] / "jobs" / "orrin_6p_cooler" / "job.yaml"
MM = 72 / 25.4
HEAVY_MM = 0.7

Matrix = tuple[float, float, float, float, float, float]
UNIT: Matrix = (1, 0, 0, 1, 0, 0)


def times(a: Matrix, b: Matrix) -> Matrix:
    """What `a` and then `b` do."""
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def strokes(reader: pypdf.PdfReader, stream: Any, resources: Any, matrix: Matrix) -> Iterator[tuple[float, list[tuple[float, float]]]]:
    """Width and corners, in mm on the page, of every open path that is stroked."""
    kept: list[tuple[Matrix, float]] = []
    width, points = 1.0, []
    for operands, operator in ContentStream(stream, reader).operations:
        match operator:
            case b"q":
                kept.append((matrix, width))
            case b"Q":
                matrix, width = kept.pop()
            case b"cm":
                matrix = times(tuple(map(float, operands)), matrix)  # type: ignore[arg-type]
            case b"w":
                width = float(operands[0])
            case b"m":
                points = [(float(operands[0]), float(operands[1]))]
            case b"l":
                points.append((float(operands[0]), float(operands[1])))
            case b"S":
                a, b, c, d, e, f = matrix
                yield width * math.sqrt(abs(a * d - b * c)) / MM, [((x * a + y * c + e) / MM, (x * b + y * d + f) / MM) for x, y in points]
            case b"Do":
                inner = resources["/XObject"][operands[0]].get_object()
                if inner["/Subtype"] == "/Form":
                    own = tuple(map(float, inner.get("/Matrix", UNIT)))
                    yield from strokes(reader, inner, inner.get("/Resources", resources), times(own, matrix))  # type: ignore[arg-type]


@cache
def templates() -> tuple[Drawing, ...]:
    return tuple(one for one in doubler_drawings(gather(load(JOB))) if one.name.startswith("template"))


def bars(template: Drawing, sheet: Paper = "a4") -> list[tuple[float, float]]:
    """Heavy straight lines on the pages of a paper with one drawing: how long across, and how long up."""
    figure = Figure(template.name, template.svg, template.caption, template.alternative)
    pdf = paper.write(sample.document(chapters=(Chapter(key="template", title="Template", blocks=(figure,)),), paper=sheet))
    reader, found = pypdf.PdfReader(io.BytesIO(pdf)), []
    for page in reader.pages:
        for width, points in strokes(reader, page.get_contents(), page["/Resources"], UNIT):
            if len(points) == 2 and width == pytest.approx(HEAVY_MM, abs=0.01):
                (x1, y1), (x2, y2) = points
                found.append((round(abs(x2 - x1), 2), round(abs(y2 - y1), 2)))
    return sorted(found)


@pytest.mark.parametrize("number", [0, 1, 2])
def test_the_bars_measure_on_the_page_what_is_written_on_them(number: int) -> None:
    """100 mm and 4 in across, and 100 mm up."""
    assert bars(templates()[number]) == [(0.0, 100.0), (100.0, 0.0), (101.6, 0.0)]


@pytest.mark.parametrize("sheet", get_args(Paper))
def test_a_drawing_as_high_as_any_may_be_prints_at_its_own_size_with_its_title_block(sheet: Paper) -> None:
    canvas = Canvas(WIDTH, TALLEST)
    canvas.line((10, 10), (110, 10), HEAVY)
    canvas.line((10, 20), (10, 120), HEAVY)
    made = drawing(canvas, "high", "As high as any may be, with a long caption. " * 4, "Two bars.", FULL_SIZE)
    assert bars(made, sheet) == [(0.0, 100.0), (100.0, 0.0)]


def test_tiles_of_a_pattern_larger_than_a_page_print_at_their_own_size() -> None:
    tiles = fastener_templates(gather(load(JOB.parents[1] / "halden_4_survey" / "job.yaml")))
    assert len(tiles) > 2
    for tile in (tiles[0], tiles[-1]):
        assert bars(tile) == [(0.0, 100.0), (100.0, 0.0), (101.6, 0.0)]


def test_a_drawing_that_is_too_high_for_its_page_is_made_smaller_and_its_bar_says_so() -> None:
    canvas = Canvas(WIDTH, 260)
    canvas.line((10, 10), (110, 10), HEAVY)
    figure = drawing(canvas, "high", "High.", "A bar on a drawing that is too high.")
    pdf = paper.write(sample.document(chapters=(Chapter(key="high", title="High", blocks=(Figure("high", figure.svg, "High.", "A bar."),)),)))
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    drawn = [points for page in reader.pages for _, points in strokes(reader, page.get_contents(), page["/Resources"], UNIT) if len(points) == 2]
    lengths = [math.dist(*points) for points in drawn]
    assert not any(length == pytest.approx(100, abs=0.5) for length in lengths)
    assert any(60 < length < 95 for length in lengths)
