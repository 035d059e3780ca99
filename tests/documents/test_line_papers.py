"""What a fitter orders, fills, bleeds and tests by: the papers on lines, air and condensate."""

from __future__ import annotations

from functools import cache

import pytest

from liftout.assessment import assess
from liftout.documents.chapters import tests as functional
from liftout.documents.chapters.air import air
from liftout.documents.chapters.lines import lines
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.parts import parts
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder

COOLERS = ["halden_4_cooler", "orrin_6p_cooler", "tessel_2_cooler"]


@cache
def matter(job: str) -> Matter:
    assessment = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    return Matter(assessment, digests(assessment))


@cache
def in_order(job: str) -> tuple[functional.Test, ...]:
    return tuple(functional.functional_tests(matter(job)))


def plain(text: object) -> str:
    return str(text).replace("\u00a0", " ")


@pytest.mark.parametrize("job", COOLERS)
def test_every_line_can_be_ordered(job: str) -> None:
    of = matter(job)
    ordered = parts(of)
    assert len(ordered["lines"]) == len(of.facts.lines)
    for line in of.facts.lines:
        rows = [row for row in ordered["ordered"] if row[1] == line.segment.name]
        assert {row[2] for row in rows} >= {"clamps", *(fitting.name for fitting in line.segment.fittings)}
        assert all(row[4].isdigit() for row in rows)
    assert not any("not said" in cell for table in ("lines", "ordered") for row in ordered[table] for cell in row)


def test_what_is_poured_together_makes_the_quantity() -> None:
    """Halden: half glycol by mass of 2.98 lb is 1.49 lb of each."""
    ((_, kind, share, glycol, water, volume, weight),) = parts(matter("halden_4_cooler"))["coolants"]
    assert [plain(cell) for cell in (kind, share, glycol, water, volume, weight)] == [
        "propylene glycol",
        "50 % by mass",
        "1.49 lb",
        "1.49 lb",
        "1.301 L",
        "2.98 lb",
    ]


@pytest.mark.parametrize("job", COOLERS)
def test_bend_and_support_are_told_and_not_left_blank(job: str) -> None:
    """Hoses whose maker lets them bend to 2 in, as the jobs say; 24 in between supports of a hose (AC 43.13-1B par. 9-30d(3))."""
    (loop,) = lines(matter(job))["loops"]
    assert [(route["name"], plain(route["bend"]), plain(route["support"])) for route in loop["routes"]] == [
        ("out", "at least 2 in", "at most 24 in"),
        ("back", "at least 2 in", "at most 24 in"),
    ]


@pytest.mark.parametrize("job", COOLERS)
def test_flow_is_told_and_tested_cold_at_work_and_hot(job: str) -> None:
    (loop,) = lines(matter(job))["loops"]
    assert [row[0] for row in loop["flows"]] == ["cold start", "at work", "hottest"]
    flows = [test for test in in_order(job) if test.item.startswith("Flow of the")]
    assert len(flows) == 3
    assert all(plain(test.acceptance).startswith("at least ") for test in flows)
    # Each of them starts laminar, where a declared loss is not the whole of it.
    assert any("Measure the flow with the liquid at the temperature of the case cold start." in words for words in loop["flow_cautions"])


@pytest.mark.parametrize("job", [*COOLERS, "halden_4_survey"])
def test_carbon_monoxide_is_measured_in_every_state_of_the_vents_with_the_equipment_in_and_out(job: str) -> None:
    of = matter(job)
    states = of.facts.place.part("cabin").said_at("vent_states")
    rows = [test for test in in_order(job) if test.item.startswith("Carbon monoxide")]
    assert len(rows) == 3 * len(states)
    for state in states:
        assert sum(test.item.endswith(f": {state}") for test in rows) == 3
    assert {plain(test.acceptance) for test in rows} == {"at most 50 ppm"}
    assert all("23.831" in test.source for test in rows)


@pytest.mark.parametrize("job", COOLERS)
def test_cabin_load_and_cooling_are_estimates_with_their_uncertainty(job: str) -> None:
    told = air(matter(job))["load"]
    for rows in (told["parts"], told["cooling"]):
        assert [words for words, _ in rows[-2:]] == ["The least that it may be", "The most that it may be"]


def test_the_cabin_load_on_paper_is_that_by_hand() -> None:
    """Halden, 30 % uncertain either way; heat of a person 115 W.

    Sun 1.6 m2 x 0.75 x 900; skin 9 m2 x 3 x (35 - 27) K; 4 persons; 180 W as said. Fresh air: water vapour of 5.628 kPa at 35 degrees and
    3.567 kPa at 27 (steam tables, from memory) makes 0.014135 and 0.011147 kg of water in a kg of dry air, so 15.88 kJ/kg between outside
    and inside; 12 L/s carry 0.013437 kg/s of dry air: 213.4 W. Together 2149.4 W.
    """
    told = air(matter("halden_4_cooler"))["load"]
    assert [plain(cell) for _, cell in told["parts"]] == ["1080 W", "216.0 W", "460.0 W", "180.0 W", "213.4 W", "2149 W", "1505 W", "2794 W"]
    assert [plain(cell) for _, cell in told["cooling"]] == ["1900 W", "1330 W", "2470 W"]


@pytest.mark.parametrize("job", COOLERS)
def test_findings_on_air_stand_in_one_chapter(job: str) -> None:
    of = matter(job)
    titles = {row[0] for row in air(of)["results"]}
    assert titles
    assert not titles & {row[0] for row in lines(of)["results"]}
