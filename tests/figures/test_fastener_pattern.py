"""Fastener patterns, read back from the drawing."""

from __future__ import annotations

import math
import re
from functools import cache

import pytest

from liftout.facts import Facts, gather
from liftout.figures.fastener_pattern import fastener_patterns
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS
from tests.figures.seen import faults, seen


@cache
def facts(job: str) -> Facts:
    return gather(load(folder("jobs") / job / "job.yaml"))


@pytest.mark.parametrize("job", JOBS)
def test_every_bracket_with_positions_is_drawn_and_nothing_hides_anything(job: str) -> None:
    drawings = fastener_patterns(facts(job))
    words = " ".join(drawing.alternative for drawing in drawings)
    assert all(bracket.name in words for bracket in facts(job).brackets if bracket.fasteners)
    for drawing in drawings:
        assert faults(drawing) == [], drawing.name


def test_crosses_lie_as_the_fasteners_do() -> None:
    """The socket bracket of the demonstration: four screws in a square of 2 in."""
    svg = fastener_patterns(facts("halden_4_cooler"))[0].svg
    part = svg[svg.index("<title>lines and feeders, socket bracket</title>") :]
    part = part[: part.index("</g>")]
    level = re.findall(r'<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)" stroke="#000" stroke-width="0.35"', part)
    crosses = [((float(x1) + float(x2)) / 2, float(y1)) for x1, y1, x2, y2 in level if y1 == y2 and abs(float(x2) - float(x1) - 5.2) < 1e-6]
    assert len(crosses) == 4
    sides = sorted(math.dist(a, b) for n, a in enumerate(crosses) for b in crosses[:n])
    assert sides[0] == pytest.approx(sides[3], abs=5e-3)
    assert sides[4] == pytest.approx(math.sqrt(2) * sides[0], abs=5e-3)


def test_fastener_centroid_and_load_are_all_seen_where_they_fall_together() -> None:
    """The tie mount of the demonstration hangs on one screw that carries all of it."""
    (made,) = fastener_patterns(facts("halden_4_survey"))
    panel = [s for s in seen(made).shapes if s.group == "feeder and clamps, tie mount"]
    ring, sign = sorted((s for s in panel if s.kind == "circle"), key=lambda s: -s.number("r"))[:2]
    assert (ring.number("cx"), ring.number("cy")) == (sign.number("cx"), sign.number("cy"))
    (level,) = [s for s in panel if s.kind == "line" and s.points[0][1] == s.points[1][1] == ring.number("cy")]
    assert sign.values["fill"] == "#fff"
    assert level.order > sign.order
    assert sign.number("r") + 0.3 < ring.number("r") < (level.points[1][0] - level.points[0][0]) / 2 - 0.3
