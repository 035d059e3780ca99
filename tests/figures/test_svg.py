"""The SVG writer."""

from __future__ import annotations

import math
import subprocess
import sys
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftout.documents.svg import check_svg
from liftout.figures.drawing import drawing
from liftout.figures.placing import Box
from liftout.figures.svg import DASHED, FIRM, Canvas, escaped, number
from tests.figures.seen import faults, seen


def blank() -> Canvas:
    return Canvas(100, 60)


@given(st.text())
def test_every_text_comes_back_as_it_was_or_with_replacement_characters(text: str) -> None:
    canvas = blank()
    canvas.text((10, 10), text)
    svg = canvas.svg(text, text)
    assert check_svg(svg) == ""
    root = ElementTree.fromstring(svg)
    back = root.findtext("{http://www.w3.org/2000/svg}title")
    legal = "".join(
        c if c in "\t\n" or " " <= c <= "\ud7ff" or "\ue000" <= c <= "\ufffd" or c > "\uffff" else "\ufffd" for c in text.replace("\r", "\n")
    )
    assert (back or "").replace("\r", "\n") == legal


@given(st.floats(-1e4, 1e4))
def test_numbers_have_no_exponent_and_no_negative_zero(value: float) -> None:
    text = number(value)
    assert "e" not in text
    assert text != "-0"
    assert float(text) == pytest.approx(value, abs=0.000501)


def test_markup_in_a_name_stays_text() -> None:
    assert escaped('<script a="&">') == "&lt;script a=&quot;&amp;&quot;&gt;"


def test_text_too_small_to_copy_is_refused() -> None:
    with pytest.raises(ValueError, match="half size"):
        blank().text((1, 5), "small", 8.9)


def test_dashes_and_weights_are_written_and_no_colour_is() -> None:
    canvas = blank()
    canvas.line((1, 1), (9, 1), DASHED)
    shape = seen(drawing(canvas, "x", "x", "x")).shapes[0]
    assert shape.values["stroke-dasharray"] == "1.8 1"
    assert shape.values["stroke-width"] == "0.35"
    assert shape.values["stroke"] == "#000"


@given(st.floats(0, 50), st.floats(0, 30), st.floats(0.1, 40), st.floats(0.1, 25), st.floats(0.5, 3))
def test_hatching_stays_inside_and_runs_at_45_degrees(left: float, top: float, wide: float, high: float, spacing: float) -> None:
    canvas, box = blank(), Box(left, top, left + wide, top + high)
    canvas.hatching(box, spacing)
    lines = seen(drawing(canvas, "x", "x", "x")).shapes
    assert len(lines) <= (wide + high) / spacing + 1
    for line in lines:
        (x1, y1), (x2, y2) = line.points
        assert x2 - x1 == pytest.approx(y1 - y2, abs=0.003)
        assert box.grown(0.002).holds(Box(x1, y2, x2, y1))
    if wide > 4 * spacing and high > 4 * spacing:
        assert len(lines) >= 4


@given(st.floats(1, 360), st.floats(0.1, 20))
def test_the_tip_of_an_arrow_is_where_it_points(degrees: float, length: float) -> None:
    canvas = blank()
    end = (50 + length * math.cos(math.radians(degrees)), 30 + length * math.sin(math.radians(degrees)))
    canvas.arrow((50, 30), end)
    head = seen(drawing(canvas, "x", "x", "x")).shapes[-1]
    assert head.kind == "polygon"
    assert head.points[0] == pytest.approx(end, abs=0.001)


@given(st.floats(0.5, 60), st.booleans())
def test_a_dimension_runs_from_end_to_end_and_its_figure_is_clear_of_it(length: float, upright: bool) -> None:
    canvas = blank()
    end = (20, 50 - length * 0.7) if upright else (20 + length, 50)
    canvas.dimension((20, 50), end, "31.5 in")
    look = seen(drawing(canvas, "x", "x", "x"))
    tips = [shape.points[0] for shape in look.shapes if shape.kind == "polygon"]
    assert tips == [pytest.approx((20, 50), abs=0.001), pytest.approx(end, abs=0.001)]
    area = look.texts[0].area
    assert area.right < 20 if upright else area.bottom < 50


def test_an_arc_ends_where_it_should() -> None:
    canvas = blank()
    canvas.arc((10, 10), (10, 14), 2, FIRM, clockwise=False)
    canvas.sector((30, 30), 3, 90)
    arc, sector = seen(drawing(canvas, "x", "x", "x")).shapes
    assert arc.points == ((10, 10), (10, 14))
    assert arc.values["d"] == "M10 10A2 2 0 0 0 10 14"
    assert sector.points == ((30, 30), (30, 27), (27, 30))


def test_what_is_drawn_in_a_group_carries_its_name() -> None:
    canvas = blank()
    with canvas.group("cabin <unit>"):
        canvas.circle((5, 5), 2)
    assert seen(drawing(canvas, "x", "x", "x")).shapes[0].group == "cabin <unit>"


def test_the_judge_of_drawings_sees_each_kind_of_fault() -> None:
    canvas = blank()
    canvas.text((10, 10), "one over")
    canvas.text((12, 11), "another")
    canvas.text((95, 30), "beyond the edge")
    canvas.text((10, 40), "covered")
    canvas.rectangle(Box(5, 35, 30, 45), None, "#fff")
    canvas.line((1, 1), (1, 70))
    words = " / ".join(faults(drawing(canvas, "x", "x", "x")))
    assert "'another' overlaps 'one over'" in words
    assert "'beyond the edge' leaves the drawing" in words
    assert "'covered' is hidden by a rect" in words
    assert "line of '' leaves the drawing" in words


def test_a_drawing_is_named_like_a_file() -> None:
    assert drawing(blank(), "wiring-W1 / Öl", "x", "x").name == "wiring-w1-l"


_TWICE = """
from tests.figures.invented import demonstration
from liftout.figures.side_view import side_view
import sys
sys.stdout.buffer.write(side_view(demonstration()).svg.encode())
"""


def test_two_processes_write_the_same_bytes() -> None:
    # -R: sets and dictionaries of each process have an order of their own.
    written = [subprocess.run([sys.executable, "-R", "-c", _TWICE], capture_output=True, check=True).stdout for _ in range(2)]
    assert written[0] == written[1] != b""
