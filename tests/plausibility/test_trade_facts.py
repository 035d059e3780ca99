"""Facts of the trade against the engine: over which range each holds, and where it fails.

The facts have no source; they are check values and no authority. A bound that comes out otherwise than by hand is a fault
of the engine or of the hand; a fact that fails in part of its range is a result, and its file says so.
"""

from __future__ import annotations

import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from liftout.assessment import assess
from liftout.documents.load_map import CABLES, CONDUCTOR, PERFORMANCES, RATINGS, WIRE
from liftout.findings import Verdict
from liftout.job.schema import schemas
from liftout.worked.electrical.carried_current import carried_current
from tests.job.demonstration import changed, demonstration_assessed, of_document
from tests.plausibility.bounds import FACTS, current_a, found, si

ROOT = Path(__file__).parents[2]
BOUNDS = [
    pytest.param(fact, bound, id=f"{fact['id']}-{number}-{bound['of']}") for fact in FACTS for number, bound in enumerate(fact.get("bounds", ()))
]
MAPPED = [pytest.param(fact, id=fact["id"]) for fact in FACTS if "map" in fact]


def test_each_fact_says_what_it_is_and_what_came_out() -> None:
    text = Path(__file__).with_name("trade_facts.yaml").read_text(encoding="utf-8")
    assert "basis: common practice, no source\n" in text
    for fact in FACTS:
        strange = set(fact) - {"id", "says", "given", "result", "bounds", "map", "not assessed"}
        assert not strange, f"{fact['id']}: {strange}"
        assert fact["says"]
        assert ("bounds" in fact) == ("result" in fact) != ("not assessed" in fact), fact["id"]
        assert "fails" in fact.get("result", "fails").lower(), f"{fact['id']}: where does it fail?"


@pytest.mark.parametrize(("fact", "bound"), BOUNDS)
def test_the_engine_finds_the_bound_that_was_worked_by_hand(fact: dict[str, Any], bound: dict[str, str]) -> None:
    number, _, symbol = bound["value"].partition(" ")
    expected = si(bound["value"])
    if "within" in bound:
        within = si(bound["within"])
    else:
        exponent = Decimal(number).as_tuple().exponent
        assert isinstance(exponent, int)
        within = abs(si(f"{Decimal(5).scaleb(exponent - 1)} {symbol}".rstrip()))
    # One unit of the last digit: both the hand's own steps and its result are rounded.
    assert abs(found(fact["given"], bound) - expected) <= 2 * within, f"{fact['id']}: {bound}"


@pytest.mark.parametrize("fact", MAPPED)
def test_the_fact_lies_in_the_part_of_the_map_that_holds_and_only_there(fact: dict[str, Any]) -> None:
    """By the map's own conditions: conductor and rating as the page names them."""
    given = fact["given"]
    for performance in PERFORMANCES:
        holds = [
            cable
            for cable in CABLES
            if carried_current(given["system"], given["gauge"], si(cable), si(CONDUCTOR), RATINGS[WIRE]).duty_w(float(performance))
            >= si(given["duty"])
        ]
        assert holds == fact["map"][performance], f"{fact['id']} at {performance}"


def test_no_fact_holds_everywhere_and_none_nowhere() -> None:
    """A wire that passed at any efficiency and length would say that the map proves nothing."""
    for parameter in MAPPED:
        cells = [len(cables) for cables in parameter.values[0]["map"].values()]
        assert 0 < sum(cells) < len(PERFORMANCES) * len(CABLES)


def test_the_next_smaller_gauge_does_not_feed_the_same_cooler() -> None:
    """What the trade chose is not one size too many: at 10 ft and 2.5 the next smaller wire fails where the chosen one holds."""
    smaller = {"4": "6", "6": "8"}
    for parameter in MAPPED:
        given = parameter.values[0]["given"]
        wanted = current_a(given, 2.5)
        chosen = carried_current(given["system"], given["gauge"], si("10 ft"), si(CONDUCTOR), RATINGS[WIRE])
        below = carried_current(given["system"], smaller[given["gauge"]], si("10 ft"), si(CONDUCTOR), RATINGS[WIRE])
        assert below.by_drop_a < chosen.by_drop_a
        assert wanted <= chosen.largest_a
        if given["system"] == "14 V":
            assert wanted > below.largest_a
        else:
            assert below.largest_a - wanted < 1.0, "on 28 V the smaller wire passes by a hair, and with a single contact no longer"


def test_the_engine_says_nothing_of_insulation_on_lines() -> None:
    """As long as the job language has no word for it, the fact cannot be assessed: say so, and find out when that changes."""
    definitions = schemas()["job"]["$defs"]
    of_lines = {"Lines"}
    while further := set(re.findall(r"#/\$defs/(\w+)", json.dumps([definitions[name] for name in of_lines]))) - of_lines:
        of_lines |= further
    lines = json.dumps([definitions[name] for name in of_lines])
    assert "bore" in lines
    fact = next(fact for fact in FACTS if fact["id"] == "lines without insulation")
    assert ("insulat" in lines) == ("not assessed" not in fact)


def test_the_engine_asks_a_pressurised_job_for_its_feed_throughs() -> None:
    """The demonstration job, whose lines run from the cabin to the tail, as if its cabin were pressurised and it listed no feed-through."""
    before = {finding.key: finding.verdict for finding in demonstration_assessed().findings}
    after = {finding.key: finding.verdict for finding in assess(changed({"aircraft / pressurised": of_document("yes")}), remedies=False).findings}
    asked = {key for key, verdict in after.items() if verdict is not Verdict.CONFORMS and before.get(key) != verdict}
    assert asked == {
        # What leaves through the skin, which is hull then: what bears the pressure there, and what closes the tube.
        "fluids.cabin_pressure_drain | cabin unit",
        "removability.openings_made | condensate drain",
        "structure.pressure_load | condensate drain, equipment in",
        "structure.pressure_load | condensate drain, equipment out",
        # The pressure of the cabin over the air outside, which stands in the lines that go to the tail.
        "fluids.leak_test | coolant loop",
        *(key for key in after if key.startswith("fluids.line_pressure | ")),
        # What goes to the tail by an opening that nobody says holds pressure.
        "removability.listed_openings | circuit W2",
        "removability.listed_openings | line back of the coolant loop",
        "removability.listed_openings | line out of the coolant loop",
    }


def test_the_facts_stand_nowhere_else() -> None:
    """Not in code, jobs, pages or templates: neither the duties nor the sentences of the facts."""
    said = re.compile(r"\b(8[ ,]?000|13[ ,]?000)\s?(BTU|Btu)|1/8 in (condensate )?tube|3 in by 8 in|5 in duct|about (28|10) lb", re.IGNORECASE)
    for folder in ("src", "jobs", "site", "templates"):
        for path in (ROOT / folder).rglob("*"):
            if path.suffix in (".py", ".yaml", ".md", ".j2", ".typ", ".js", ".html", ".txt"):
                match = said.search(path.read_text(encoding="utf-8"))
                assert match is None, f"{path.relative_to(ROOT)}: {match and match[0]}"
