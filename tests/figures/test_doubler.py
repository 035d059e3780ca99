"""Doublers and drill templates, read back from the drawing and from the page."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from liftout.facts import Fact, Facts, gather
from liftout.facts.doublers import Doubler
from liftout.figures.doubler import doubler_drawings, without_template
from liftout.figures.drawing import Drawing
from liftout.job import load
from liftout.quantities import of
from tests.figures.invented import changed, told, word
from tests.figures.seen import faults, seen

JOB = Path(__file__).parents[2] / "jobs" / "orrin_6p_cooler" / "job.yaml"
HOLE_MM = 0.1285 * 25.4


@cache
def facts() -> Facts:
    return gather(load(JOB))


@cache
def drawings() -> dict[str, Drawing]:
    return {drawing.name: drawing for drawing in doubler_drawings(facts())}


def circles(svg: str) -> list[tuple[float, float, float]]:
    return [(float(x), float(y), float(r)) for x, y, r in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"', svg)]


def holes(drawing: Drawing) -> list[tuple[float, float]]:
    """Holes from the centre datum, in mm: across, and up."""
    all_of_them = circles(drawing.svg)
    (datum,) = [(x, y) for x, y, r in all_of_them if r == 1.2]
    return sorted((round(x - datum[0], 3), round(datum[1] - y, 3)) for x, y, r in all_of_them if r == pytest.approx(HOLE_MM / 2, abs=1e-3))


def with_doubler(doubler: Doubler, **of_cut: object) -> Facts:
    cut = next(cut for cut in facts().cut_openings if cut.name == doubler.name)
    new = changed(facts(), cut_openings=(changed(cut, doubler=doubler, **of_cut),))
    new.__dict__.pop("doublers", None)
    return new


def test_each_doubler_has_a_drawing_and_a_template() -> None:
    assert list(drawings()) == [
        "doubler-tail-frame-pass",
        "template-tail-frame-pass",
        "doubler-tail-intake",
        "template-tail-intake",
        "template-tail-intake-left",
    ]
    assert without_template(facts()) == []


def test_nothing_hides_anything() -> None:
    for drawing in drawings().values():
        assert faults(drawing) == [], drawing.name


def heavy_lines(svg: str) -> list[tuple[float, float]]:
    """Lengths of heavy lines across and up."""
    found = re.findall(r'<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)" stroke="#000" stroke-width="0.7"', svg)
    return sorted((round(float(x2) - float(x1), 3), round(float(y2) - float(y1), 3)) for x1, y1, x2, y2 in found)


def test_bars_measure_what_they_say() -> None:
    """Two across and one up: a print may be stretched one way only."""
    for name, drawing in drawings().items():
        if name.startswith("template"):
            assert heavy_lines(drawing.svg) == [(0.0, 100.0), (100.0, 0.0), (101.6, 0.0)]
            assert "MEASURE BEFORE DRILLING" in drawing.svg
            assert "centre datum" in drawing.svg
            assert seen(drawing).height <= 205, "a higher drawing is made smaller on its page"
            assert 'width="168mm"' in drawing.svg


def test_the_whole_template_has_every_hole_at_its_own_size_and_place() -> None:
    """By hand: 2.5 in opening, first row 1.25 + 0.63 = 1.88 in out, the second 0.5 in more; seven at 0.5 in reach 1.5 in to each side; hole 0.1285 in."""
    found = holes(drawings()["template-tail-frame-pass"])
    expected = [
        (across * 25.4, up * 25.4)
        for out in (1.88, 2.38)
        for n in range(7)
        for across, up in ((out, 1.5 - n / 2), (-out, 1.5 - n / 2), (1.5 - n / 2, out), (1.5 - n / 2, -out))
    ]
    assert found == [
        (pytest.approx(x, abs=2e-3), pytest.approx(y, abs=2e-3)) for x, y in sorted((round(x, 3) + 0.0, round(y, 3)) for x, y in expected)
    ]


def test_two_quarters_of_a_rectangle_hold_half_of_its_holes_and_those_on_the_centre_line_twice() -> None:
    """By hand: rows of eleven and ten above (2.25 / 2 + 0.8 = 1.925 in and 2.375 in), of seven and six beside (2.8 in and 3.25 in).

    To the right of the middle, the middle itself included: six and five above, and four and three beside: 18 on each sheet.
    """
    right, left = (holes(drawings()[name]) for name in ("template-tail-intake", "template-tail-intake-left"))
    assert len(right) == len(left) == 6 + 5 + 4 + 3
    assert sorted((-x + 0.0, y) for x, y in left) == [(pytest.approx(x, abs=2e-3), pytest.approx(y, abs=2e-3)) for x, y in right]
    rows = sorted({round(y / 25.4, 3) for x, y in right if y > 1.7 * 25.4})
    assert rows == [pytest.approx(1.925, abs=1e-3), pytest.approx(2.375, abs=1e-3)]
    assert max(x for x, _ in right) == pytest.approx(3.25 * 25.4, abs=2e-3)


def test_ways_of_the_aircraft_stand_at_the_centre_lines() -> None:
    """Who looks at the left side of an aircraft sees its nose to the left; who looks at the aft face of a frame sees right to the right."""
    intake, frame = seen(drawings()["doubler-tail-intake"]), seen(drawings()["template-tail-frame-pass"])
    assert {"up", "aft"} <= set(intake.words)
    assert {"up", "right"} <= set(frame.words)
    assert "aft" in seen(drawings()["template-tail-intake"]).words
    assert "forward" in seen(drawings()["template-tail-intake-left"]).words


@pytest.mark.parametrize(
    ("faces", "right", "up"),
    [("left", "aft", "up"), ("right", "forward", "up"), ("up", "right", "forward"), ("down", "left", "forward"), ("forward", "left", "up")],
)
def test_the_sheet_is_seen_by_whoever_looks_at_its_face(faces: str, right: str, up: str) -> None:
    doubler = facts().doublers[0]
    turned = changed(doubler, sheet=changed(doubler.sheet, faces=word(faces)))
    look = seen(next(d for d in doubler_drawings(with_doubler(turned)) if d.name.startswith("template")))
    sideways = [text for text in look.texts if text.words == right]
    upwards = [text for text in look.texts if text.words == up]
    assert sideways
    assert upwards
    assert max(text.at[0] for text in sideways) > 130
    assert min(text.at[1] for text in upwards) < 30


def test_stiffeners_stand_where_they_were_measured() -> None:
    """By hand: 7.2 in on 80 mm of paper; the frame at 266.5 in, 4.5 in aft of the middle, flange 1 in: edges 4 in and 5 in to the right of it."""
    look = seen(drawings()["doubler-tail-intake"])
    dashed = [
        shape for shape in look.shapes if shape.kind == "line" and "stroke-dasharray" in shape.values and shape.values["stroke-width"] == "0.35"
    ]
    upright = sorted(shape.points[0][0] for shape in dashed if shape.points[0][0] == shape.points[1][0])
    middle, scale = 20 + 80 / 2, 80 / 7.2
    assert upright == [pytest.approx(middle - 4 * scale, abs=2e-3), pytest.approx(middle + 4 * scale, abs=2e-3)]
    level = sorted(shape.points[0][1] for shape in dashed if shape.points[0][1] == shape.points[1][1])
    assert level == [pytest.approx(14 + 40 + inch * scale, abs=2e-3) for inch in (-3.875, -3.125, 3.125, 3.875)]


def test_an_incomplete_doubler_is_not_drawn_and_says_what_it_lacks() -> None:
    doubler = facts().doublers[0]
    bare = changed(doubler, side=doubler.place.missing("side"))
    assert doubler_drawings(with_doubler(bare)) == []
    assert without_template(with_doubler(bare)) == [(doubler.name, "not drawn yet; choose the side of the square doubler")]


def test_a_doubler_larger_than_two_pages_has_no_template_and_says_so() -> None:
    doubler = facts().doublers[0]
    large = changed(doubler, side=told(of("14", "in")), short_side=told(of("14", "in")))
    names = [drawing.name for drawing in doubler_drawings(with_doubler(large))]
    assert names == ["doubler-tail-frame-pass"]
    ((name, why),) = without_template(with_doubler(large))
    assert (name, "larger than a page" in why) == (doubler.name, True)


def test_a_square_of_middle_size_shows_a_quarter_to_be_turned_four_times() -> None:
    doubler = facts().doublers[0]
    large = changed(doubler, side=told(of("8", "in")), short_side=told(of("8", "in")))
    template = next(d for d in doubler_drawings(with_doubler(large)) if d.name.startswith("template"))
    assert faults(template) == []
    assert "four times" in template.svg
    # Seven in a row: four of them at the middle and to the right of it, in two rows, on two sides.
    assert len(holes(template)) == 4 * 2 * 2
    assert isinstance(large.side, Fact)
