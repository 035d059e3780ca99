"""Doublers and drill templates, read back from the drawing."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from liftout.facts import Facts, gather
from liftout.figures.doubler import doubler_drawings
from liftout.job import load
from tests.figures.seen import faults

JOB = Path(__file__).parents[2] / "jobs" / "orrin_6p_cooler" / "job.yaml"


@cache
def facts() -> Facts:
    return gather(load(JOB))


def circles(svg: str) -> list[tuple[float, float, float]]:
    return [(float(x), float(y), float(r)) for x, y, r in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"', svg)]


def test_each_doubler_has_a_drawing_and_a_template() -> None:
    names = [drawing.name for drawing in doubler_drawings(facts())]
    assert names == ["doubler-tail-frame-pass", "template-tail-frame-pass", "doubler-tail-intake", "template-tail-intake"]


def test_nothing_hides_anything() -> None:
    for drawing in doubler_drawings(facts()):
        assert faults(drawing) == [], drawing.name


def test_bars_measure_what_they_say() -> None:
    for drawing in doubler_drawings(facts()):
        if drawing.name.startswith("template"):
            heavy = [
                (float(x1), float(x2))
                for x1, y1, x2, y2 in re.findall(
                    r'<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)" stroke="#000" stroke-width="0.7"', drawing.svg
                )
                if y1 == y2
            ]
            assert sorted(round(x2 - x1, 3) for x1, x2 in heavy) == [100.0, 101.6]
            assert "MEASURE BEFORE DRILLING" in drawing.svg
            assert "centre datum" in drawing.svg
            assert float(re.search(r'height="([\d.]+)mm"', drawing.svg)[1]) <= 200  # type: ignore[index]
            assert 'width="168mm"' in drawing.svg


def test_the_whole_template_has_every_hole_at_its_own_size_and_place() -> None:
    """By hand: 2.5 in opening, first row 1.25 + 0.63 = 1.88 in out, the second 0.5 in more; seven at 0.5 in reach 1.5 in to each side; hole 0.1285 in."""
    template = next(drawing for drawing in doubler_drawings(facts()) if drawing.name == "template-tail-frame-pass")
    holes = [(x, y) for x, y, r in circles(template.svg) if r == pytest.approx(0.1285 * 25.4 / 2, abs=1e-3)]
    assert len(holes) == 4 * 2 * 7
    middle = (sum(x for x, _ in holes) / len(holes), sum(y for _, y in holes) / len(holes))
    far = max(x - middle[0] for x, _ in holes)
    assert far == pytest.approx(2.38 * 25.4, abs=2e-3)
    assert max(y - middle[1] for x, y in holes if x - middle[0] > 2.3 * 25.4) == pytest.approx(1.5 * 25.4, abs=2e-3)


def test_a_quarter_template_holds_a_quarter_of_the_holes() -> None:
    template = next(drawing for drawing in doubler_drawings(facts()) if drawing.name == "template-tail-intake")
    holes = [r for _, _, r in circles(template.svg) if r == pytest.approx(0.1285 * 25.4 / 2, abs=1e-3)]
    # Ten in a row: five on this side of the middle, two rows, on two sides.
    assert len(holes) == 20
    assert "four times" in template.svg


def test_an_incomplete_doubler_is_not_drawn() -> None:
    doubler = facts().doublers[0]
    bare = doubler._replace(side=doubler.place.missing("side"))
    assert not any(name.startswith("doubler") for name in (d.name for d in doubler_drawings(_with(bare))))


def _with(doubler: object) -> Facts:
    class Bare:
        doublers = (doubler,)

    return Bare()  # type: ignore[return-value]
