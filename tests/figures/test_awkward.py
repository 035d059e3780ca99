"""Drawings of awkward fits: twelve circuits, long names, everything in one place. Nothing overlaps, nothing leaves, nothing is cut."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from liftout.facts import Facts, gather
from liftout.facts.air import AirPath
from liftout.figures.air_path import air_path
from liftout.figures.bus_diagram import bus_diagram
from liftout.figures.doubler import doubler_drawings
from liftout.figures.drawing import PAGE, TALLEST, WIDTH, Drawing
from liftout.figures.fastener_pattern import fastener_patterns
from liftout.figures.outside_parts import outside_part_drawing
from liftout.figures.plan_view import plan_view
from liftout.figures.routes import PENS, Way, _sheets
from liftout.figures.side_view import side_view
from liftout.figures.station_diagram import station_diagram
from liftout.figures.svg import Canvas
from liftout.figures.title_block import Marking, with_title_block
from liftout.figures.wiring_diagram import wiring_diagrams
from liftout.job import load
from liftout.quantities import of
from liftout.resources import folder
from tests.figures.invented import Invented, changed, demonstration, names, told
from tests.figures.seen import faults, seen

slow = settings(deadline=None, max_examples=30, phases=[Phase.generate], suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
LONG = "removable survey and relief equipment of the second kind, left hand, with its own WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW"


def orrin() -> Facts:
    return gather(load(folder("jobs") / "orrin_6p_cooler" / "job.yaml"))


def clean(made: Drawing) -> None:
    assert faults(made) == [], made.name
    assert seen(made).height <= TALLEST, made.name
    assert not [words for words in seen(made).words if "\u2026" in words]


def twelve() -> Facts:
    """Twelve circuits, each to an item of its own, all items at one station."""
    facts = demonstration()
    items = tuple(changed(facts.items[0], name=f"{LONG} {n}", arm=told(of("94.0", "in"))) for n in range(12))
    runs = tuple(changed(facts.runs[0], name=f"W{n + 1} {LONG}", load=item) for n, item in enumerate(items))
    feeds = tuple(changed(feed, own_runs=runs if feed is facts.feeds[0] else ()) for feed in facts.feeds)
    return changed(facts, items=items, runs=runs, feeds=feeds, worked={})


def test_twelve_items_with_long_names_at_one_station() -> None:
    facts = twelve()
    for made in (side_view(facts), plan_view(facts), station_diagram(facts)):
        clean(made)
        assert all(f"{LONG} {n}" in made.alternative for n in range(12))
    key = plan_view(facts).key
    assert key is not None
    assert all(any(f"{LONG} {n}," in cell for row in key.rows for cell in row) for n in range(12)), "what has no room stands in the key in full"


def test_twelve_circuits_with_long_names() -> None:
    facts = twelve()
    for made in (*wiring_diagrams(facts), bus_diagram(facts)):
        clean(made)
    assert all(f"W{n} " in bus_diagram(facts).alternative for n in range(1, 13))


@st.composite
def ways(draw: st.DrawFn) -> Invented[list[Way]]:
    """Up to twelve ways of two to six turns, some through the same points."""
    shared = [tuple(draw(st.integers(-30, 200)) for _ in range(3)) for _ in range(4)]
    found = []
    for name in draw(st.lists(names, min_size=1, max_size=12, unique=True)):
        points = draw(st.lists(st.one_of(st.sampled_from(shared), st.tuples(*[st.integers(-30, 200)] * 3)), min_size=2, max_size=6))
        turns = tuple(tuple(told(of(Decimal(value), "in")) for value in point) for point in points)
        found.append(Way(name, turns, "begins", "ends", told(of("100", "in"))))  # type: ignore[arg-type]
    return Invented(found, tuple((way.name, len(way.turns)) for way in found))


@slow
@given(ways())
def test_routes_however_many_and_wherever_they_cross(invented: Invented[list[Way]]) -> None:
    told_ways = invented.value
    made = _sheets("circuits", "wire-routes", told_ways)
    assert len(made) == -(-len(told_ways) // len(PENS))
    for drawing in made:
        clean(drawing)
    rows = [row for drawing in made if drawing.key for row in drawing.key.rows]
    assert len(rows) == sum(len(way.turns) + 1 for way in told_ways), "each turn, and the whole of each way"
    assert all(any(row[1].startswith(way.name) for row in rows) for way in told_ways)


@slow
@given(st.lists(names, min_size=1, max_size=9, unique=True), names)
def test_air_with_parts_of_any_number_and_name(parts: list[str], leaves: str) -> None:
    facts = demonstration()
    (path,) = facts.air_paths
    mould: AirPath = path
    losses = tuple(changed(mould.losses[0], name=name) for name in parts)
    clean(air_path(changed(mould, losses=losses, leaves_into=changed(mould.leaves_into, value=leaves)), facts))


@slow
@given(st.lists(names, min_size=12, max_size=12, unique=True), names)
def test_fasteners_and_brackets_of_any_name(labels: list[str], name: str) -> None:
    facts = orrin()
    bracket = next(one for one in facts.brackets if len(one.fasteners) > 4)
    held = tuple(changed(one, name=label) for one, label in zip(bracket.fasteners, labels, strict=False))
    brackets = tuple(changed(bracket, label=f"{name} {n}", fasteners=held) for n in range(5))

    class Bare:
        pass

    Bare.brackets = brackets  # type: ignore[attr-defined]
    made = fastener_patterns(Bare())  # type: ignore[arg-type]
    assert len(made) == 2
    for drawing in made:
        clean(drawing)
        assert drawing.key is not None
        assert all(any(label in cell for row in drawing.key.rows for cell in row) for label in labels[: len(held)])


def test_doublers_and_outside_parts_with_long_names() -> None:
    facts = orrin()
    cuts = tuple(changed(cut, name=LONG, doubler=changed(cut.doubler, name=LONG)) for cut in facts.cut_openings if cut.doubler is not None)
    named = changed(facts, cut_openings=cuts)
    named.__dict__.pop("doublers", None)
    assert doubler_drawings(named)
    for made in doubler_drawings(named):
        clean(made)
    clean(outside_part_drawing(changed(facts.outside_parts[0], name=LONG)))


@given(
    st.text(st.sampled_from("WMabc 12-"), min_size=1, max_size=30).filter(str.strip),
    st.text(st.sampled_from("WM1.2"), min_size=1, max_size=12),
    names,
)
def test_a_title_block_holds_the_longest_number_and_title_in_full(number: str, revision: str, title: str) -> None:
    svg = with_title_block(Canvas(WIDTH, 40).svg("x", "x"), Marking(title, f"{number}, figure 11-12", revision, "0123456789ab", "not to scale"))
    made = Drawing("x", svg, "x", "x", "not to scale")
    assert faults(made) == []
    printed = "".join("".join(seen(made).words).split())
    for words in (title, number, revision, "0123456789ab", "figure 11-12", "not to scale"):
        assert "".join(words.split()) in printed


def test_a_title_block_stands_below_a_drawing_of_any_view_box() -> None:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="36mm" viewBox="0 0 300 120"><title>x</title>'
        '<rect x="0" y="0" width="300" height="120"/></svg>'
    )
    made = with_title_block(svg, Marking("Bearing", "X-1, figure 1-1", "A", "0123456789ab", "1:2"))
    assert 'viewBox="0 0 300 ' in made
    assert "scale(3.333333)" in made
    assert made.count("</svg>") == 1
    assert PAGE > 36
