"""Circulars for unpressurised structure are never cited for what goes through, closes or is fastened to a pressure hull."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from liftout.assessment import applied, assess
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.job import load
from tests.criteria.bench import case_files
from tests.every_nth import every_nth

JOB = Path(__file__).parents[2] / "jobs" / "orrin_6p_cooler" / "job.yaml"
OF_STRUCTURE = (
    "structure.edge_distance",
    "structure.fastener_spacing",
    "structure.fastener_torque",
    "structure.fastener_retention",
    "structure.bolt_size",
    "structure.pressure_load",
    "removability.openings_made",
)
"""What speaks of the hull itself; load factors are the aircraft's, and their sources are named wherever they load something."""


@cache
def findings() -> tuple[Finding, ...]:
    return assess(load(JOB)).findings


def of_hull() -> list[Finding]:
    subjects = ("coolant feed-through", "connector feed-through", "lines and feed-throughs, bulkhead plate")
    return [finding for finding in findings() if finding.criterion in OF_STRUCTURE and finding.subject.startswith(subjects)]


def test_no_circular_is_cited_for_the_hull() -> None:
    assert {finding.criterion for finding in of_hull()} == set(OF_STRUCTURE)
    for finding in of_hull():
        said = " ".join((*finding.sources, *finding.to_confirm))
        assert "AC 43.13" not in said, f"{finding.key}: {said}"


def test_what_closes_the_hull_is_a_major_candidate_and_referred_in_both_states() -> None:
    closures = [finding for finding in findings() if finding.criterion == "structure.pressure_load"]
    assert {finding.subject.rpartition(", ")[2] for finding in closures} == {"equipment in", "equipment out"}
    assert all(finding.verdict is Verdict.REFER and finding.caution and finding.caution.startswith("MAJOR CANDIDATE") for finding in closures)


@pytest.mark.parametrize("fastener", every_nth(["rivet", "bolt", "screw with plate nut"], 3))
def test_no_table_of_strengths_is_read_for_fasteners_of_the_hull(fastener: str) -> None:
    """With any fastener the strength is the declared one, and where none is declared it is asked for."""
    file = next(one for one in case_files() if one.criterion == "structure.fastener_shear")
    shear = next(one for one in all_criteria() if one.id == "structure.fastener_shear")
    foot = "structure / mountings / tray / brackets / foot"
    given = {f"{foot} / fastened to": "pressure bulkhead", f"{foot} / fastener": fastener, f"{foot} / diameter": "0.190 in"}
    if fastener == "rivet":
        given |= {f"{foot} / size": "1/8 in", f"{foot} / alloy": "2117-T (AD)"}
    found = next(f for f in applied(shear, gather(file.job(given))) if f.subject == "tray, foot, forward")
    assert found.verdict is Verdict.NOT_ASSESSED
    assert "take the strength of one fastener in shear from its data" in [need.what for need in found.missing]
