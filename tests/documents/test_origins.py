"""A place that a paper names is found by somebody who has the docket and nothing else."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from liftout.assessment import Assessment, assess
from liftout.documents.docket import documents
from liftout.documents.document import _texts
from liftout.identity.digests import digests
from liftout.identity.resolved import as_carried, resolved_yaml
from liftout.job import load
from liftout.records.embed import JOB, attachments
from liftout.resources import folder
from tests.demonstrations import FIRST

OF_A_PATTERN = ("pitch", "row distance")
"""Where a fastener of a pattern stands is worked from the middle of the pattern and these, and names the line of the middle."""
_NAMED = re.compile(r"([\w./-]+\.ya?ml):(\d+)")


@cache
def issued(name: str) -> Assessment:
    return assess(as_carried(load(folder("jobs") / name / "job.yaml")))


def carried_lines(name: str) -> list[str]:
    """The job file that the docket carries, line by line."""
    assessment = issued(name)
    return next(file.content.decode() for file in attachments(assessment, digests(assessment)) if file.name == JOB).split("\n")


def place_of(text: str) -> set[tuple[str, int]]:
    return {(file, int(line)) for file, line in _NAMED.findall(text.replace("\u200b", ""))}


@pytest.mark.parametrize("name", FIRST)
@pytest.mark.long
def test_every_place_that_a_paper_names_is_a_line_of_the_job_in_its_docket(name: str) -> None:
    assessment = issued(name)
    lines = carried_lines(name)
    named = {place for made in documents(assessment, digests(assessment)) for text, _ in _texts(made, "") for place in place_of(text)}
    assert len(named) > 50
    assert {file for file, _ in named} == {JOB}
    assert [line for _, line in named if not (1 <= line < len(lines) and lines[line - 1].strip())] == []


@pytest.mark.parametrize("name", FIRST)
def test_the_line_named_holds_the_key_that_is_named_beside_it(name: str) -> None:
    lines = carried_lines(name)
    evidence = {where for finding in issued(name).findings for where, _ in finding.evidence}
    told = [(int(found[2]), found[3].split(" / ")[-1]) for where in evidence if (found := re.fullmatch(r"([\w./-]+\.yaml):(\d+), ([^×]+)", where))]
    assert len(told) > 100
    wrong = [
        (line, key, lines[line - 1])
        for line, key in told
        if not key.isdigit() and key not in OF_A_PATTERN and key not in " ".join(lines[line - 2 : line])
    ]
    assert wrong == []


def test_a_job_at_the_lines_of_its_docket_says_what_it_said_and_concludes_the_same() -> None:
    said = load(folder("jobs") / "halden_4_cooler" / "job.yaml")
    laid = as_carried(said)
    assert laid.said.plain() != {}
    assert resolved_yaml(laid) == resolved_yaml(said)
    assert laid.overrides == said.overrides
    assert laid.decisions == said.decisions
    before, after = assess(said, remedies=False), assess(laid, remedies=False)
    assert [(one.key, one.verdict, one.sentence, one.inputs, one.decision) for one in before.findings] == [
        (one.key, one.verdict, one.sentence, one.inputs, one.decision) for one in after.findings
    ]


def test_a_job_at_its_own_lines_is_told_apart() -> None:
    """Else the two tests above could not fail."""
    own = assess(load(folder("jobs") / "halden_4_survey" / "job.yaml"), remedies=False)
    files = {file for finding in own.findings for where, _ in finding.evidence for file, _ in place_of(where)}
    assert "airframes/halden_4.yaml" in files


def test_what_a_docket_overrides_is_told_where_it_was_said(tmp_path: Path) -> None:
    from tests.records import papers

    (tmp_path / "jobs" / "airframes").mkdir(parents=True)
    (tmp_path / "jobs" / "airframes" / "bench.yaml").write_text("registration: ZZ-AAA\n", encoding="utf-8")
    text = papers.JOB.replace("  kind: aeroplane\n", "  from: airframes/bench\n\n  # a comment\n  kind: aeroplane\n  registration: ZZ-BBB\n")
    laid = as_carried(papers.assessed(tmp_path, text).job)
    assert [(one.old, one.new) for one in laid.overrides] == [("ZZ-AAA", "ZZ-BBB")]
    line = int(laid.overrides[0].place.partition(":")[2])
    assert "registration: ZZ-BBB" in resolved_yaml(laid).split("\n")[line - 1]
