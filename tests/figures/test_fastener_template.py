"""Drill templates of brackets, read back from the drawing."""

from __future__ import annotations

import math
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftout.facts import Facts, gather
from liftout.figures.drawing import PAGE, TITLE_BLOCK, Drawing
from liftout.figures.fastener_template import fastener_templates
from liftout.figures.template import Hole, Pattern, templates
from liftout.job import load
from liftout.quantities import of
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.invented import changed, told, word
from tests.figures.joined import datum, distinct, marks
from tests.figures.seen import faults, seen


@cache
def facts(job: str) -> Facts:
    return gather(load(folder("jobs") / job / "job.yaml"))


def holes(drawing: Drawing) -> list[tuple[float, float]]:
    """Holes from the centre datum, in mm: across, and up."""
    circles = [shape for shape in seen(drawing).shapes if shape.kind == "circle"]
    (datum,) = [circle for circle in circles if circle.values["r"] == "1.2" and "fill" in circle.values and circle.values["fill"] == "#fff"]
    return sorted(
        (round(circle.number("cx") - datum.number("cx"), 3), round(datum.number("cy") - circle.number("cy"), 3))
        for circle in circles
        if circle is not datum
    )


@pytest.mark.parametrize("job", JOBS)
def test_nothing_hides_anything_and_each_stands_on_a_page(job: str) -> None:
    drawings = fastener_templates(facts(job))
    assert drawings or job == "halden_4_survey", "every cooler has a bracket that a page can hold"
    for drawing in drawings:
        assert faults(drawing) == [], drawing.name
        assert seen(drawing).height + TITLE_BLOCK <= PAGE
        assert {"100 mm: measure this bar on the print", "4 in: measure this bar on the print", "100 mm"} <= set(seen(drawing).words)
        assert "Centre datum" in drawing.svg


def test_holes_lie_at_their_own_size_about_their_centroid() -> None:
    """The socket bracket of the demonstration: four screws in a square of 2 in, so each 1 in off the middle both ways; 10-32, 0.190 in."""
    template = next(one for one in fastener_templates(facts("halden_4_cooler")) if one.name.endswith("socket-bracket"))
    assert holes(template) == [(-25.4, -25.4), (-25.4, 25.4), (25.4, -25.4), (25.4, 25.4)]
    radii = {shape.values["r"] for shape in seen(template).shapes if shape.kind == "circle"} - {"1.2"}
    assert radii == {"2.413"}
    assert {"up", "right", "F1", "F4"} <= set(seen(template).words)


def test_what_goes_through_a_pressure_hull_has_none() -> None:
    names = [drawing.name for drawing in fastener_templates(facts("orrin_6p_cooler"))]
    assert any("line-support" in name for name in names)
    assert not any("bulkhead-plate" in name for name in names)


def test_from_the_other_side_the_pattern_is_mirrored() -> None:
    """A bracket ahead of a frame is seen by whoever looks aft: the right of the aircraft lies to the left."""
    bracket = next(one for one in facts("halden_4_cooler").brackets if one.label == "socket bracket")
    first = bracket.fasteners[0]
    moved = changed(first, at=changed(first.at, lateral=told(of("-6", "in"))))
    behind = changed(bracket, fasteners=(moved, *bracket.fasteners[1:]))
    ahead = changed(behind, lies=word("ahead"))

    def template(one: object) -> list[tuple[float, float]]:
        class Bare:
            brackets = (one,)

        return holes(fastener_templates(Bare())[0])  # type: ignore[arg-type]

    assert sorted((-x + 0.0, y) for x, y in template(ahead)) == template(behind)
    assert math.fsum(x for x, _ in template(behind)) == pytest.approx(0, abs=0.01)


def test_a_pattern_wider_than_a_page_stands_on_sheets_that_are_joined_by_marks() -> None:
    """The tray flange: four bolts 1/4 in; two pairs, measured by hand in the job."""
    bracket = next(one for one in facts("halden_4_survey").brackets if one.label == "tray flange")

    class Bare:
        brackets = (bracket,)

    made = fastener_templates(Bare())  # type: ignore[arg-type]
    assert len(made) > 1
    # Each mark stands on two sheets or more, and what is said of it agrees with where the holes of each sheet lie.
    shown: dict[str, int] = {}
    for drawing in made:
        found = marks(drawing)
        assert len(found) >= 2
        for name, (at, said) in found.items():
            shown[name] = shown.get(name, 0) + 1
            middle = datum(drawing)
            assert (at[0] - middle[0], middle[1] - at[1]) == (pytest.approx(said[0], abs=0.01), pytest.approx(said[1], abs=0.01))
        assert f"of {len(made)}" in drawing.caption
    assert all(count >= 2 for count in shown.values())
    spots = {name: (told_at(one.at.lateral), told_at(one.at.arm)) for name, one in ((one.name, one) for one in bracket.fasteners)}
    assert len(spots) == 4
    across, along = sorted({x for x, _ in spots.values()}), sorted({y for _, y in spots.values()})
    drilled = distinct(made, 3.175)
    assert len(drilled) == 4
    for x, y in drilled:
        assert abs(x) == pytest.approx((across[1] - across[0]) / 2 * 25.4, abs=0.01)
        assert abs(y) == pytest.approx((along[1] - along[0]) / 2 * 25.4, abs=0.01)


def told_at(amount: object) -> float:
    return float(amount.value.to("in"))  # type: ignore[attr-defined]


@given(st.lists(st.tuples(st.floats(-300, 300), st.floats(-300, 300)), min_size=2, max_size=12), st.floats(1, 8))
@settings(deadline=None, max_examples=60)
@pytest.mark.long
def test_whatever_the_pattern_every_hole_stands_whole_on_a_sheet_and_no_text_hides_another(places: list[tuple[float, float]], radius: float) -> None:
    pattern = Pattern(tuple(Hole(f"H{n}", at, radius) for n, at in enumerate(places)), (), "right", "up", ("Centre datum: somewhere.",))
    made = templates(pattern, "invented", "Drill template of an invented bracket")
    assert [fault for drawing in made for fault in faults(drawing)] == []
    assert all(seen(drawing).height + TITLE_BLOCK <= PAGE for drawing in made)
    found = distinct(made, radius)
    assert all(any(math.dist(place, spot) < 0.02 for spot in found) for place in places)
