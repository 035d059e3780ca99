"""Every worked example of the collection from which the structural tables were made runs through code that a docket runs.

The identifiers are those of that collection. An example counts where a case file of a criterion names it, where a case of tests/reference
with a function of physics carries it, or where a test of physics does; what no docket computes is listed with the reason why not.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from tests.house.test_published_values import _families

TESTS = Path(__file__).parents[1]

EXAMPLES = (
    *("ST-I01", "ST-I02", "ST-I05", "ST-I06", "ST-I07", "ST-F01", "ST-F03", "ST-F05", "ST-F06", "ST-H01", "ST-H02", "ST-H04"),
    *("ST-A01", "ST-A03", "ST-S01", "ST-S03", "ST-S04", "ST-T01", "ST-T03", "ST-D01", "ST-D03", "ST-D04", "ST-D05"),
    *("ST-R01", "ST-R02", "ST-R04", "ST-R06", "ST-R08", "ST-R09", "ST-K01", "ST-J01", "ST-J03", "ST-M01", "ST-M03", "ST-M05"),
    *("ST-B01", "ST-B02", "ST-L01", "ST-L03", "ST-L04", "ST-C01", "ST-C02", "ST-C04", "ST-C06", "ST-C07", "ST-G01"),
    *("ST-P01", "ST-P03", "ST-P04", "ST-N01", "ST-N03", "ST-N04", "ST-N05", "ST-Q01", "ST-Q03", "ST-Q04"),
)

NOT_OF_A_DOCKET = {
    "ST-T03": "resolves one slanting test pull; the static test pulls along each axis by itself, and so never falls short forward",
    "ST-D04": "the constant of building codes; the same dynamic pressure stands in the ram drag of the air load, compared below",
    "ST-R06": "a formula that was only remembered; rivets are counted by the tables that were read",
    "ST-K01": "set-back of a bent flange: no flat pattern is drawn",
    "ST-M03": "an older rule, kept in the table beside the two that the fasteners take by their grip",
    "ST-C01": "one belt by friction alone; nothing is held by the friction under a belt",
    "ST-C02": "lashing of deck cargo by friction and direct lashings together",
    "ST-C04": "accelerations of a ship",
    "ST-C06": "tipping against the item's own weight, which is never credited: without straps nothing is restrained",
    "ST-C07": "a road rule, never a substitute for load factors of an aircraft",
    "ST-N03": "the formula of transport aeroplanes; the docket takes the value of the category, which it need not exceed",
    "ST-N04": "commuter category, which a job cannot name",
    "ST-N05": "negative factors as a share of 0.4, only remembered; the docket takes half the positive ones, which were read and are larger",
}
"""Examples that nothing in a docket works, each with the reason; all are worked in tests of formulas or of physics all the same."""


def _in_case_files() -> str:
    return "\n".join(path.read_text(encoding="utf-8") for path in (TESTS / "criteria").rglob("*.yaml"))


def _in_references() -> set[str]:
    """Examples whose case in tests/reference names a function of physics that a docket reaches; a letter behind the number is another door to the same example."""
    found, reached = set(), _families()
    for path in (TESTS / "reference").glob("*.yaml"):
        for case in yaml.safe_load(path.read_text(encoding="utf-8"))["cases"]:
            if case.get("function") in reached:
                found.add(re.sub(r"[a-z]$", "", case["id"]))
    return found


def _in_physics() -> str:
    """Tests of physics that name an example, by its number in a docstring."""
    return "\n".join(path.read_text(encoding="utf-8") for path in (TESTS / "physics").glob("test_restraint*.py"))


@pytest.mark.parametrize("example", EXAMPLES)
def test_an_example_runs_through_code_of_a_docket_or_says_why_not(example: str) -> None:
    named = re.search(rf"{example}\b", _in_case_files()) or example in _in_references() or re.search(rf"{example}\b", _in_physics())
    assert bool(named) != (example in NOT_OF_A_DOCKET), "named, and excused as well" if named else "nobody works it"


@pytest.mark.parametrize("example", sorted(NOT_OF_A_DOCKET))
def test_what_no_docket_works_is_worked_somewhere(example: str) -> None:
    found = "\n".join(
        path.read_text(encoding="utf-8") for room in ("reference", "physics") for path in (TESTS / room).iterdir() if path.suffix in (".py", ".yaml")
    )
    assert re.search(rf"{example}\b|{example.lower().replace('-', '_')}|_{example[3:].lower()}_", found)
