"""What the papers say of restraint: the table of directions, the pulls, and an item that is belted on a seat."""

from __future__ import annotations

from functools import cache

import pytest

from liftout.assessment import assess
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.placing import placing
from liftout.documents.chapters.restraint import restraint
from liftout.documents.directions import directions
from liftout.identity.digests import digests
from liftout.job import Job
from tests.job.demonstration import changed, demonstration

BELT = (
    "{nameplate: tag sewn to the belt, attached: {arm: 94 in, lateral: -7 in, height: 24 in}, runs over: [{arm: 94 in, lateral: 7 in, height: 24 in}], "
    "anchored: {arm: 98 in, lateral: -9 in, height: 14 in}, far end: {arm: 98 in, lateral: 9 in, height: 14 in}, rating: 4000 lbf, rating is: ultimate, "
    "anchor: seat, webbing: PW-50, stretch: 9 %}"
)
BELTED: dict[str, str | None] = {
    "equipment / cabin unit / takes seats": '{station: rear passengers, seats: "1"}',
    "restraint / cabin unit / belted on": "{seat: rear passengers, rating: 2000 lbf, rating is: ultimate, document: {number: HD-4-MM, page: 25-9}}",
    "restraint / cabin unit / straps": f"{{belt: {BELT}}}",
}


def matter(job: Job) -> Matter:
    """The matter of a job's papers."""
    assessment = assess(job, remedies=False)
    return Matter(assessment, digests(assessment))


@cache
def shipped() -> Matter:
    """The demonstration as it is shipped."""
    return matter(demonstration())


def tables(of: Matter, item: str = "cabin unit") -> Values:
    """The tables of one item."""
    return directions(next(held for held in of.facts.restraints if held.item.name == item), of)


def test_each_direction_has_its_limits_and_what_governs() -> None:
    """By hand, forward: both rear straps at 1500 / 1.33 lbf, each 10.5 in aft of 12.4700 in: 2 * 1127.8 * 0.84202 / 34.83 = 54.53 of 4.5.

    The filled weight is 34.80 lb where the papers print 34.83 lb with its coolant, so that the figure is checked to half a per cent.
    """
    rows = {row[0]: row[1:] for row in tables(shipped())["limits"]}
    assert set(rows) == {"forward", "aft", "up", "down", "left", "right"}
    demanded, plastic, elastic, held, governing, verdict = rows["forward"]
    assert (demanded, governing, verdict) == ("4.500", "S1, S2", "conforms")
    assert float(plastic) == float(held) == pytest.approx(54.53, rel=0.005)
    assert float(elastic) <= float(plastic) * (1 + 1e-3)
    assert rows["left"][4] == "S2, S4"
    assert rows["down"][1:4] == ("none", "none", "none")
    assert "floor alone" in rows["down"][4]


def test_each_strap_has_its_pull_in_each_direction() -> None:
    """By hand: 34.83 lb * 4.5 = 157 lbf forward, 78.4 lbf a strap over 0.842."""
    load, *straps = ([cell.replace("\u00a0", " ") for cell in row] for row in tables(shipped())["pulls"])
    assert load[:2] == ["Ultimate load", "157 lbf"]
    assert [row[1] for row in straps] == ["93 lbf", "93 lbf", "0 lbf", "0 lbf"]
    assert {row[4] for row in straps} == {"none"}  # downward the floor holds alone


def test_what_one_strap_missing_leaves_is_told_by_direction() -> None:
    rows = tables(shipped())["without"]
    assert ("Load factor held forward without S1", "not restrained", "4.500") in rows
    assert len(rows) == 5


def test_an_item_belted_on_a_seat_says_so_and_shows_the_path_of_its_belt() -> None:
    papers = matter(changed(BELTED))
    item = next(item for item in placing(papers)["items"] if item["name"] == "cabin unit")
    assert item["belted"] == "rear passengers"
    assert item["hooked"] == [{"name": "belt", "anchor": "seat", "known": True, "over": True}]
    assert "94 in, \u22127 in, 24 in; 94 in, 7 in, 24 in" in item["drawing"].alternative
    words = " ".join(f"{row.item} {row.acceptance}" for row in restraint(papers)["rows"])
    assert "far end 98 in, 9 in, 14 in" in words.replace("\u00a0", " ")
    assert "nobody sits there; seat rated 2000 lbf, ultimate" in words.replace("\u00a0", " ")
