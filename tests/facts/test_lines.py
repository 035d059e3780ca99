"""Lines: tube by its outside, hose by its inside, and the middle that follows from a route."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from liftout.facts import Fact, Facts, Missing, gather
from liftout.job.errors import JobError
from liftout.worked.fluids.liquid_lateral_moment import liquid_lateral_moment
from tests.criteria.bench import CaseFile

BENCH = Path(__file__).parents[1] / "criteria" / "fluids" / "line_bend.yaml"
LINE = "lines / loops / loop / segments / line"
TUBE = {f"{LINE} / inside diameter": None, f"{LINE} / kind": "tube", f"{LINE} / outside diameter": "3/8 in", f"{LINE} / wall": "0.035 in"}
TURNS = "[{arm: 1 m, lateral: 0 m, height: 0 m}, {arm: 1 m, lateral: 3 m, height: 0 m}, {arm: 5 m, lateral: 3 m, height: 3 m}]"
ROUTE = {f"{LINE} / arm": None, f"{LINE} / datum": None, f"{LINE} / route": f"{{datum: firewall, points: {TURNS}}}"}


@cache
def _file() -> CaseFile:
    said: dict[str, Any] = yaml.load(BENCH.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return CaseFile(BENCH, said)


def _facts(given: dict[str, str | None]) -> Facts:
    return gather(_file().job(given))


def test_a_tube_has_the_bore_that_its_walls_leave() -> None:
    """3/8 in less twice 0.035 in is 0.305 in: not the 0.375 in of a hose of that name, for which a laminar loss is 2.29 times smaller."""
    bore = _facts(TUBE).lines[0].segment.inside_diameter
    assert isinstance(bore, Fact)
    assert bore.value.to("in") == Decimal("0.305")
    assert (Decimal("0.375") / bore.value.to("in")) ** 4 == pytest.approx(Decimal("2.29"), rel=Decimal("0.003"))
    assert "less two walls" in bore.origin


def test_a_tube_without_its_wall_has_no_bore() -> None:
    bore = _facts({name: text for name, text in TUBE.items() if not name.endswith("wall")}).lines[0].segment.inside_diameter
    assert isinstance(bore, Missing)
    assert bore.what == "measure the wall of the tube"


@pytest.mark.parametrize(
    ("given", "wrong"),
    [
        ({f"{LINE} / kind": "tube"}, "is told of a tube"),
        ({**TUBE, f"{LINE} / wall": "0.2 in"}, "leaves no bore"),
        ({f"{LINE} / route": f"{{datum: firewall, points: {TURNS}}}"}, "stands beside a route"),
        ({**ROUTE, f"{LINE} / route": "{datum: firewall, points: [{arm: 1 m, lateral: 0 m, height: 0 m}]}"}, "leads nowhere"),
    ],
)
def test_what_cannot_be_is_a_fault(given: dict[str, str | None], wrong: str) -> None:
    with pytest.raises(JobError, match=wrong):
        _facts(given)


def test_the_middle_of_a_route_weighs_each_piece_by_its_length() -> None:
    """By hand: 3 m at 1 m and 5 m (3, 4, 5) at 3 m: (3 x 1 + 5 x 3) / 8 = 2.25 m."""
    arm = _facts(ROUTE).lines[0].segment.arm
    assert isinstance(arm, Fact)
    assert arm.value.to("m") == Decimal("2.25")


def test_without_route_and_arm_the_route_is_asked_for() -> None:
    arm = _facts({f"{LINE} / arm": None}).lines[0].segment.arm
    assert isinstance(arm, Missing)
    assert arm.what == "measure where the line runs, point by point"


def test_the_liquid_of_a_route_hangs_to_the_side_of_its_middle() -> None:
    """By hand: 3 m about 1.5 m and 5 m at 3 m to the right lie at 19.5 / 8 = 2.4375 m."""
    lateral = _facts(ROUTE).lines[0].segment.route.lateral
    assert isinstance(lateral, Fact)
    assert lateral.value.to("m") == Decimal("2.4375")


def test_lateral_moment_of_the_liquid_in_lines_and_items() -> None:
    """By hand: 1051.9 kg/m3 x (pi x 0.005^2 x 0.5334 m3 x 2.4375 m + 0.0005 m3 x 0.1 m) = 0.160010 kg m."""
    facts = _facts({**ROUTE, "equipment / unit / position / lateral": "0.1 m"})
    sheet = liquid_lateral_moment(facts.filled(facts.loops[0]), facts)
    assert sheet.sheet is not None, sheet.missing
    assert sheet.sheet.si("L") == pytest.approx(0.160010, rel=1e-5)


def test_without_a_route_nobody_knows_how_far_to_the_side_the_liquid_hangs() -> None:
    facts = _facts({"equipment / unit / position / lateral": "0.1 m"})
    sheet = liquid_lateral_moment(facts.filled(facts.loops[0]), facts)
    assert [need.what for need in sheet.missing] == ["measure where the line runs, point by point"]
