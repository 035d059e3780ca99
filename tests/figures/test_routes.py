"""Routes of lines, and the way of the air."""

from __future__ import annotations

from dataclasses import replace

import pytest

from liftout.facts import Facts, gather
from liftout.figures.air_path import air_path, air_paths
from liftout.figures.routes import all_line_routes, wire_routes
from liftout.job import load
from liftout.resources import folder
from tests.demonstrations import JOBS as DEMONSTRATIONS
from tests.figures.seen import faults, seen

JOBS = ("halden_4_cooler", "tessel_2_cooler", "orrin_6p_cooler")


def facts(job: str) -> Facts:
    """The facts of a demonstration job."""
    return gather(load(folder("jobs") / job / "job.yaml"))


@pytest.mark.parametrize("job", JOBS)
def test_nothing_overlaps_and_every_turn_is_told(job: str) -> None:
    given = facts(job)
    (made,) = all_line_routes(given)
    assert faults(made) == []
    look = seen(made)
    for segment in given.loops[0].segments:
        assert len(segment.route.turns) == 4
        for turn in segment.route.turns:
            assert turn.arm.value.written.replace("-", "\u2212") in look.cells
            assert turn.arm.value.written in made.alternative


@pytest.mark.parametrize("job", DEMONSTRATIONS)
def test_every_turn_has_its_name_in_both_views(job: str) -> None:
    given = facts(job)
    drawings = [*all_line_routes(given), *wire_routes(given)]
    assert len(drawings) >= 1
    for made in drawings:
        assert faults(made) == []
        assert made.key is not None
        look = seen(made)
        turns = [row[0] for row in made.key.rows if row[2]]
        named = [name for text in look.texts for name in text.words.split(", ")]
        assert [named.count(turn) for turn in turns] == [2] * len(turns)


def test_turns_in_one_place_share_a_label() -> None:
    """The lines of the demonstration run above one another: from the left each turn of one hides a turn of the other."""
    (made,) = all_line_routes(facts("halden_4_cooler"))
    words = seen(made).words
    assert {"A1, B4", "A2, B3", "A3, B2", "A4, B1"} <= set(words)
    assert words.count("A1") == words.count("B4") == 1


def test_titles_of_views_keep_off_the_figures_of_the_view_above() -> None:
    for made in (*all_line_routes(facts("halden_4_cooler")), *wire_routes(facts("tessel_2_cooler"))):
        look = seen(made)
        title = next(text for text in look.texts if text.words.startswith("Seen from above"))
        above = [text.area.bottom for text in look.texts if text.area.bottom < title.area.bottom]
        assert title.area.top - max(above) > 2


def test_both_views_have_one_scale() -> None:
    """Upright on paper, a step across is as long as it is along: the two ends of the outward line, from above, are 11 in to the side."""
    (made,) = all_line_routes(facts("halden_4_cooler"))
    points = [part.split(",") for part in made.svg.partition("<polyline")[2].partition('points="')[2].partition('"')[0].split()]
    (x1, y1), (x2, y2), (x3, y3), _ = [(float(x), float(y)) for x, y in points]
    # From the side: 1 in aft and 4 in down, then 34 in aft and 8 in up.
    assert (y2 - y1) / (x2 - x1) == pytest.approx(4, rel=1e-2)
    assert (y2 - y3) / (x3 - x2) == pytest.approx(8 / 34, rel=1e-2)


def test_a_fit_without_lines_or_air_has_no_drawing() -> None:
    assert all_line_routes(facts("halden_4_survey")) == []
    assert air_paths(facts("halden_4_survey")) == []


@pytest.mark.parametrize("job", JOBS)
def test_the_air_path_tells_each_drop(job: str) -> None:
    (made,) = air_paths(facts(job))
    assert faults(made) == []
    words = seen(made).everything
    for part in ("inlet screen", "exchanger", "fan", "leaves:"):
        assert part in words
    assert "?" not in words


def test_what_is_missing_for_the_flow_is_a_question_mark() -> None:
    given = facts("halden_4_cooler")
    path = given.air_paths[0]
    broken = path._replace(fan_density=path.place.missing("fan"))
    made = air_path(broken._replace(name="other air"), replace(given, worked={}))
    assert faults(made) == []
    assert "?" in seen(made).cells
