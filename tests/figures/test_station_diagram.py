"""The station diagram, read back against its own scale."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from liftout.facts import Facts
from liftout.figures.drawing import TALLEST
from liftout.figures.station_diagram import station_diagram
from tests.figures.invented import NEED, Invented, changed, demonstration, fits
from tests.figures.seen import Seen, faults, seen

slow = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def scale(look: Seen) -> list[tuple[float, float]]:
    """Printed value and place of each tick of the scale."""
    axis = max(
        s.points[0][1]
        for s in look.shapes
        if s.kind == "line" and not s.group and s.values["stroke-width"] == "0.35" and s.points[0][1] == s.points[1][1] and s.points[0][0] == 6
    )
    found = []
    for shape in look.shapes:
        (x1, y1), (x2, _) = shape.points[:2]
        if shape.kind == "line" and not shape.group and x1 == x2 and y1 == axis:
            text = next(t for t in look.texts if t.at[0] == x1 and axis + 4 < t.at[1] < axis + 5)
            found.append((float(text.words.replace("\u2212", "-")), x1))
    return found


def read_off(look: Seen, x: float) -> float:
    (first, start), (last, end) = (ticks := scale(look))[0], ticks[-1]
    return first + (x - start) * (last - first) / (end - start)


def marked(look: Seen, name: str) -> float:
    """Where on the paper a thing is marked on its line: the heavy stroke."""
    (stroke,) = [s for s in look.shapes if s.group == name and s.kind == "line" and s.values["stroke-width"] == "0.7"]
    return stroke.points[0][0]


@slow
@given(fits())
def test_however_crowded_nothing_overlaps_and_nothing_leaves(fit: Invented[Facts]) -> None:
    made = station_diagram(fit.value)
    assert faults(made) == []


def test_everything_stands_at_its_arm_on_one_scale() -> None:
    facts = demonstration()
    look = seen(station_diagram(facts))
    assert look.height <= TALLEST
    for item in facts.items:
        name = f"{item.name}, {'removable' if item.removable else 'provision'}"
        assert read_off(look, marked(look, name)) == pytest.approx(float(item.arm.value.magnitude), abs=0.1)  # type: ignore[union-attr]
    assert read_off(look, marked(look, "main wheels")) == pytest.approx(61.5, abs=0.1)
    assert read_off(look, marked(look, "nose wheel")) == pytest.approx(-12, abs=0.1)
    assert read_off(look, marked(look, "baggage")) == pytest.approx(97, abs=0.1)
    datum = next(s for s in look.shapes if s.group == "datum firewall" and s.kind == "line")
    assert read_off(look, datum.points[0][0]) == pytest.approx(0, abs=0.1)
    bar = next(s for s in look.shapes if s.group == "Limits of the centre of gravity" and s.values["stroke-width"] == "0.7")
    assert sorted(round(read_off(look, x), 1) for x, _ in bar.points) == [33.0, 47.5]


def test_each_mark_is_named_once_in_the_table_and_in_words() -> None:
    facts = demonstration()
    made = station_diagram(facts)
    look = seen(made)
    for words in ("main wheels", "nose wheel", "wing tanks (fuel)", "cabin unit, removable", "limits of the centre of gravity, foremost to rearmost"):
        assert look.cells.count(words) == 1
        assert words in made.alternative


def test_what_has_no_arm_is_named_and_not_drawn() -> None:
    facts = demonstration()
    items = (changed(facts.items[0], arm=NEED), *facts.items[1:])
    look = seen(station_diagram(changed(facts, items=items, worked={})))
    assert f"{facts.items[0].name}, removable (not assessed: measure it)" in look.everything
    assert not [s for s in look.shapes if s.group == f"{facts.items[0].name}, removable"]


def test_an_aircraft_without_wheels_gets_no_lane_for_them() -> None:
    facts = demonstration()
    look = seen(station_diagram(changed(facts, wheels=changed(facts.wheels, declined=NEED), worked={})))
    assert "Wheels" not in look.words
