"""Doublers and drill templates, read back from the drawing and from the page."""

from __future__ import annotations

import math
import re
from functools import cache
from pathlib import Path

import pytest

from liftout.facts import Fact, Facts, gather
from liftout.facts.doublers import Doubler
from liftout.figures.doubler import doubler_drawings, without_template
from liftout.figures.drawing import PAGE, TITLE_BLOCK, Drawing
from liftout.job import load
from liftout.quantities import of
from tests.figures.invented import changed, told, word
from tests.figures.joined import distinct
from tests.figures.seen import Area, faults, seen

JOB = Path(__file__).parents[2] / "jobs" / "orrin_6p_cooler" / "job.yaml"
HOLE_MM = 0.1285 * 25.4


@cache
def facts() -> Facts:
    return gather(load(JOB))


@cache
def drawings() -> dict[str, Drawing]:
    return {drawing.name: drawing for drawing in doubler_drawings(facts())}


def with_doubler(doubler: Doubler, **of_cut: object) -> Facts:
    cut = next(cut for cut in facts().cut_openings if cut.name == doubler.name)
    new = changed(facts(), cut_openings=(changed(cut, doubler=doubler, **of_cut),))
    new.__dict__.pop("doublers", None)
    return new


def test_each_doubler_has_a_drawing_and_a_template_on_as_many_sheets_as_it_needs() -> None:
    assert list(drawings()) == [
        "doubler-tail-frame-pass",
        *(f"template-tail-frame-pass-{number}" for number in (1, 2)),
        "doubler-tail-intake",
        *(f"template-tail-intake-{number}" for number in (1, 2, 3, 4)),
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
            assert "Centre datum" in drawing.svg
            assert seen(drawing).height + TITLE_BLOCK <= PAGE, "a higher drawing is made smaller on its page"
            assert 'width="168mm"' in drawing.svg


def pattern(name: str) -> list[tuple[float, float]]:
    """Holes of all sheets of a template from the centre datum, in mm: across, and up; those on two sheets once."""
    return distinct([drawing for drawing in drawings().values() if drawing.name.startswith(name)], HOLE_MM / 2)


def test_the_template_has_every_hole_at_its_own_size_and_place() -> None:
    """By hand: 2.5 in opening, first row 1.25 + 0.63 = 1.88 in out, the second 0.5 in more; seven at 0.5 in reach 1.5 in to each side; hole 0.1285 in."""
    expected = {
        (across * 25.4, up * 25.4)
        for out in (1.88, 2.38)
        for n in range(7)
        for across, up in ((out, 1.5 - n / 2), (-out, 1.5 - n / 2), (1.5 - n / 2, out), (1.5 - n / 2, -out))
    }
    found = pattern("template-tail-frame-pass")
    assert len(found) == len(expected) == 56
    assert all(any(abs(x - a) < 0.1 and abs(y - b) < 0.1 for a, b in found) for x, y in expected)


def test_the_sheets_of_a_rectangle_hold_all_its_holes() -> None:
    """By hand: rows of eleven and ten above (2.25 / 2 + 0.8 = 1.925 in and 2.375 in), of seven and six beside (2.8 in and 3.25 in): 68 holes."""
    found = pattern("template-tail-intake")
    assert len(found) == 2 * (11 + 10 + 7 + 6)
    rows = sorted({round(y / 25.4, 2) for _, y in found if y > 1.7 * 25.4})
    assert rows == [pytest.approx(1.925, abs=0.01), pytest.approx(2.375, abs=0.01)]
    assert max(x for x, _ in found) == pytest.approx(3.25 * 25.4, abs=0.1)


def test_ways_of_the_aircraft_stand_at_the_centre_lines() -> None:
    """Who looks at the left side of an aircraft sees its nose to the left; who looks at the aft face of a frame sees right to the right."""
    intake, frame = seen(drawings()["doubler-tail-intake"]), seen(drawings()["template-tail-frame-pass-1"])
    assert {"up", "aft"} <= set(intake.words)
    assert "up" in frame.words
    assert "right" in seen(drawings()["template-tail-frame-pass-2"]).words or "right" in frame.words
    shown = {word for number in (1, 2, 3, 4) for word in seen(drawings()[f"template-tail-intake-{number}"]).words}
    assert {"up", "aft"} <= shown


@pytest.mark.parametrize(
    ("faces", "right", "up"),
    [("left", "aft", "up"), ("right", "forward", "up"), ("up", "right", "forward"), ("down", "left", "forward"), ("forward", "left", "up")],
)
def test_the_sheet_is_seen_by_whoever_looks_at_its_face(faces: str, right: str, up: str) -> None:
    doubler = facts().doublers[0]
    turned = changed(doubler, sheet=changed(doubler.sheet, faces=word(faces)))
    look = seen(next(d for d in doubler_drawings(with_doubler(turned)) if d.name.startswith("doubler")))
    (sideways,) = [text for text in look.texts if text.words == right]
    (upwards,) = [text for text in look.texts if text.words == up]
    assert sideways.upwards
    assert sideways.at[0] > 120
    assert upwards.at[1] < 14


def test_stiffeners_stand_where_they_were_measured() -> None:
    """By hand: 7.2 in on 100 mm of paper; the frame at 266.5 in, 4.5 in aft of the middle, flange 1 in: edges 4 in and 5 in to the right of it."""
    look = seen(drawings()["doubler-tail-intake"])
    dashed = [s for s in look.shapes if s.kind == "line" and s.values.get("stroke-dasharray") == "1.8 1" and math.dist(*s.points) > 50]
    upright = sorted(shape.points[0][0] for shape in dashed if shape.points[0][0] == shape.points[1][0])
    middle, scale = 34 + 100 / 2, 100 / 7.2
    assert upright == [pytest.approx(middle - 4 * scale, abs=2e-3), pytest.approx(middle + 4 * scale, abs=2e-3)]
    level = sorted(shape.points[0][1] for shape in dashed if shape.points[0][1] == shape.points[1][1])
    assert level == [pytest.approx(14 + 50 + inch * scale, abs=2e-3) for inch in (-3.875, -3.125, 3.125, 3.875)]


def test_every_dashed_line_is_named_and_told_of_and_no_word_lies_over_a_line() -> None:
    look = seen(drawings()["doubler-tail-intake"])
    assert "edge of the flange of a stiffener" in look.words
    assert "stiffener" not in " ".join(seen(drawings()["doubler-tail-frame-pass"]).words), "nothing dashed is drawn there"
    lines = [s for s in look.shapes if s.kind == "line"]
    dashed = [s for s in lines if s.values.get("stroke-dasharray") == "1.8 1" and math.dist(*s.points) > 50]
    names = {text.words: text for text in look.texts if text.words in ("frame F21", "frame F22", "stringer L3", "stringer L4")}
    assert len(names) == 4
    for words, text in names.items():
        own = "x" if words.startswith("frame") else "y"
        assert text.upwards == (own == "x")
        middle = (text.area.left + text.area.right) / 2 if own == "x" else (text.area.top + text.area.bottom) / 2
        # The nearest line that runs along with the name is dashed: nobody takes it for the name of another thing.
        along = [s for s in lines if s.values[f"{own}1"] == s.values[f"{own}2"]]
        assert min(along, key=lambda s: abs(s.number(f"{own}1") - middle)) in dashed, words
    assert names["frame F21"].area.left < 34 + 50 < names["frame F22"].area.left
    assert names["stringer L4"].area.top < 14 + 50 < names["stringer L3"].area.top
    for text in [*names.values(), *(text for text in look.texts if text.words in ("up", "aft"))]:
        for line in lines:
            (x1, y1), (x2, y2) = line.points
            across = Area(min(x1, x2) - 0.03, min(y1, y2) - 0.03, max(x1, x2) + 0.03, max(y1, y2) + 0.03)
            assert not text.area.overlaps(across), (text.words, line.points)


def test_an_incomplete_doubler_is_not_drawn_and_says_what_it_lacks() -> None:
    doubler = facts().doublers[0]
    bare = changed(doubler, side=doubler.place.missing("side"))
    assert doubler_drawings(with_doubler(bare)) == []
    assert without_template(with_doubler(bare)) == [(doubler.name, "not drawn yet; choose the side of the square doubler")]


def test_a_doubler_larger_than_a_page_has_a_sheet_for_every_part_of_it() -> None:
    doubler = facts().doublers[0]
    large = changed(doubler, side=told(of("14", "in")), short_side=told(of("14", "in")))
    made = [d for d in doubler_drawings(with_doubler(large)) if d.name.startswith("template")]
    assert len(made) >= 9
    assert [fault for drawing in made for fault in faults(drawing)] == []
    assert len(distinct(made, HOLE_MM / 2)) == 56
    assert without_template(with_doubler(large)) == []
    assert isinstance(large.side, Fact)
