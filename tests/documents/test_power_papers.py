"""What the papers say of the supply: placards for the ground and for shedding, what waits for a release, the interference sheet."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from liftout.assessment import assess
from liftout.documents.chapters.interference import MODES, interference
from liftout.documents.chapters.matter import Matter
from liftout.documents.chapters.tests import COMPASS_STATES, functional_tests
from liftout.documents.held_back import held_back
from liftout.documents.power_placards import power_placards
from liftout.identity.digests import digests
from liftout.job import load
from liftout.resources import folder


@cache
def matter(job: str) -> Matter:
    assessment = assess(load(folder("jobs") / job / "job.yaml"), remedies=False)
    return Matter(assessment, digests(assessment))


def test_the_least_engine_speed_and_the_longest_time_stand_on_the_placards() -> None:
    """Tessel: 12 + 20.2 = 32.2 A lie a fifth of the way from 31 A at 800 rpm to 37 A at 1000 rpm: 840 rpm, on the placard 850.

    At 800 rpm 1.2 A flow out; 17 % of 22 Ah are 3.74 Ah, which last 187 min.
    """
    wordings = [wording.replace("\u00a0", " ") for _, wording, _ in power_placards(matter("tessel_2_cooler"))]
    (both,) = [wording for wording in wordings if "RPM" in wording]  # on one placard: apart, one would seem to forbid what the other allows
    assert both.endswith("ENGINE AT LEAST 850 RPM, OR NO MORE THAN 187 MIN AT 800 RPM")


@pytest.mark.parametrize("job", ["halden_4_cooler", "orrin_6p_cooler", "tessel_2_cooler", "halden_4_survey"])
def test_equipment_is_shed_first(job: str) -> None:
    of = matter(job)
    (wording,) = [text for _, text, _ in power_placards(of) if text.startswith("ALL GENERATORS LOST")]
    items = [load.name.upper() for load in of.facts.shed if load.equipment]
    others = [load.name.upper() for load in of.facts.shed if not load.equipment and load.name.upper() in wording]
    places = [wording.index(name) for name in (*items, *others)]
    assert all(first < second for first, second in pairwise(sorted(places)))
    assert max(places[: len(items)]) < min(places[len(items) :], default=len(wording))


def test_what_is_not_released_holds_the_equipment_back() -> None:
    of = matter("orrin_6p_cooler")
    assert held_back(of) == ["larger alternator"]
    assert any("NOT TO BE POWERED UNTIL THE LARGER ALTERNATOR IS RELEASED" in wording for _, wording, _ in power_placards(of))
    assert held_back(matter("halden_4_cooler")) == []


def test_the_interference_sheet_has_a_row_for_each_instrument_and_a_blank_for_each_mode() -> None:
    of = matter("halden_4_cooler")
    sheet = interference(of)
    named = [one.name for one in (*of.facts.instruments, *of.facts.neighbours.sensors)]
    assert [row[0].partition(" (")[0] for row in sheet["rows"]] == named
    assert all(set(row[2:]) == {"_" * len(row[2])} and len(row) == 2 + len(MODES) for row in sheet["rows"])


def test_every_magnetic_sensor_is_swung_with_the_unit_out_and_in_off_and_on() -> None:
    of = matter("halden_4_cooler")
    items = {test.item.lower() for test in functional_tests(of)}
    for sensor in of.facts.neighbours.sensors:
        assert {f"{sensor.name}, {state}".lower() for state in COMPASS_STATES} <= items
