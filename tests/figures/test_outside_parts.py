"""Outside parts, read back from the drawing."""

from __future__ import annotations

from pathlib import Path

import pytest

from liftout.facts import gather
from liftout.figures.outside_parts import outside_part_drawing, outside_part_drawings
from liftout.job import load
from liftout.quantities import of
from tests.figures.invented import changed, told
from tests.figures.seen import faults, seen

JOB = Path(__file__).parents[2] / "jobs" / "orrin_6p_cooler" / "job.yaml"


def test_a_part_with_its_measures_is_drawn_and_one_without_is_not() -> None:
    facts = gather(load(JOB))
    (part,) = facts.outside_parts
    assert [drawing.name for drawing in outside_part_drawings(facts)] == ["outside-tail-scoop"]
    bare = changed(facts, outside_parts=(changed(part, width=part.place.missing("width")),))
    assert outside_part_drawings(bare) == []


def test_it_is_to_scale_from_the_side_and_from_above() -> None:
    """By hand: 8 in on 80 mm of paper, since its width takes 50 mm; 2.8 in tall, 5 in wide, the drag 1.4 in above the skin, the foremost row 7 in ahead of the rear edge."""
    (part,) = gather(load(JOB)).outside_parts
    drawing = outside_part_drawing(part)
    assert faults(drawing) == []
    look, scale = seen(drawing), 80 / 8
    boxes = [shape.points for shape in look.shapes if shape.kind == "rect"]
    sizes = [(b[0] - a[0], b[1] - a[1]) for a, b in boxes]
    assert sizes == [(pytest.approx(80), pytest.approx(2.8 * scale, abs=2e-3)), (pytest.approx(80), pytest.approx(5 * scale, abs=2e-3))]
    (row,) = {shape.number("cx") for shape in look.shapes if shape.kind == "circle"}
    assert row == pytest.approx(boxes[1][1][0] - 7 * scale, abs=2e-3)
    assert {"drag", "lift", "forward", "1.4 in", "7 in"} <= set(look.words)


def test_both_views_are_named_and_an_arrow_leads_forward() -> None:
    (part,) = gather(load(JOB)).outside_parts
    look = seen(outside_part_drawing(part))
    side, above, forward = (next(text for text in look.texts if text.words == words) for words in ("from the side", "from above", "forward"))
    first, second = (shape for shape in look.shapes if shape.kind == "rect")
    assert side.area.bottom < first.points[0][1] < above.area.bottom < second.points[0][1]
    # The foremost row lies at the forward edge, and the head of the arrow points that way.
    heads = [s.points for s in look.shapes if s.kind == "polygon" and abs(s.points[0][1] - (forward.area.top + forward.area.bottom) / 2) < 1]
    assert [head[0][0] < head[1][0] and head[1][0] < forward.area.left for head in heads] == [True]


def test_narrow_and_flat_parts_stay_readable() -> None:
    (part,) = gather(load(JOB)).outside_parts
    for length, width, out in (("2", "9", "1"), ("20", "1", "0.5"), ("3", "3", "12")):
        sizes = {"length": told(of(length, "in")), "width": told(of(width, "in")), "stands_out": told(of(out, "in"))}
        small = {"lever": told(of(str(float(out) / 2), "in")), "to_rear_edge": told(of(str(float(length) * 0.9), "in"))}
        assert faults(outside_part_drawing(changed(part, **sizes, **small))) == []
