"""What a release of Python changed has no say in a paper: `liftout verify` proves to the byte, whichever Python issued it.

Since 3.12 `sum` of floats carries what rounding drops. Where it has a say, write `math.fsum`, which rounds once on every release.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.demonstrations import FIRST
from tests.supply.lock import ROOT

ADDING = """
import builtins, math

def one_by_one(items, /, start=0):
    for item in items:
        start = start + item
    return start

def rounded_once(items, /, start=0):
    items = [start, *items]
    numbers = all(isinstance(item, int | float) for item in items)
    return math.fsum(items) if numbers and any(isinstance(item, float) for item in items) else one_by_one(items[1:], start)

builtins.sum = {way}
"""
FINDINGS = """
from liftout.cli.main import main
main(["check", "--json", "{job}"])
"""
PAPERS = """
from tests.documents.test_regression_papers import papers
print(papers())
"""
WAYS = ("one_by_one", "rounded_once")


def said(program: str) -> list[str]:
    """What a program prints with each way to add."""
    runs = [subprocess.Popen([sys.executable, "-c", ADDING.format(way=way) + program], cwd=ROOT, stdout=subprocess.PIPE, text=True) for way in WAYS]
    return [run.communicate()[0] for run in runs]


def test_the_two_ways_to_add_differ() -> None:
    one, other = said("print(sum([0.1] * 10))")
    assert (one, other) == ("0.9999999999999999\n", "1.0\n")


@pytest.mark.parametrize("job", FIRST)
def test_findings_are_the_same_however_floats_are_added(job: str) -> None:
    one, other = said(FINDINGS.format(job=ROOT / "jobs" / job / "job.yaml"))
    assert one == other
    assert len(one) > 10_000


@pytest.mark.long
def test_papers_are_the_same_however_floats_are_added() -> None:
    one, other = said(PAPERS)
    assert one == other
    assert one.count("'") >= 10
