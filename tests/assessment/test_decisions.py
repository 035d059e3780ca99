"""Decisions close what they were made on, and nothing else."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import jsonschema
import pytest
import yaml

from liftout.assessment import Assessment, assess
from liftout.documents.machine import as_json
from liftout.findings import Finding, Verdict
from liftout.identity.digests import digests
from liftout.identity.resolved import decisions_yaml
from liftout.job import JobError, load
from liftout.job.schema import schemas
from tests.job.demonstration import FILE

STATED = "structure.floor_load | tail unit"
"""Referred in the demonstration, whose tail shelf has a limit that is merely stated."""


def copied(place: Path) -> Path:
    """A copy of the demonstration jobs; the path of the job file in it, without decisions of its own."""
    shutil.copytree(FILE.parents[1], place / "jobs")
    job = place / "jobs" / FILE.parent.name / "job.yaml"
    job.with_name("decisions.yaml").unlink(missing_ok=True)
    return job


def of(assessed: Assessment, key: str) -> Finding:
    """The finding of that key."""
    return next(finding for finding in assessed.findings if finding.key == key)


def decision(finding: Finding, **other: str) -> dict[str, str]:
    """An accepted decision on a finding, as a person would write it."""
    made = {
        "criterion": finding.criterion,
        "subject": finding.subject,
        "state": finding.state,
        "inputs": finding.inputs,
        "decision": "accepted",
        "reason": "the shelf was measured and computed anew",
        "data": "report R-7, revision A",
        "name": "B. Roe",
        "licence": "engineer 0000 (invented)",
        "date": "2026-11-21",
        "demonstration": "yes",
    }
    return {key: text for key, text in (made | other).items() if text}


def decided(job: Path, *decisions: dict[str, str]) -> Assessment:
    """The job assessed with these decisions beside it."""
    job.with_name("decisions.yaml").write_text(yaml.safe_dump({"liftout": "1", "decisions": list(decisions)}, sort_keys=False), encoding="utf-8")
    return assess(load(job), remedies=False)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A demonstration job without decisions."""
    return copied(tmp_path)


def test_a_decision_closes_its_finding_and_leaves_its_verdict(job: Path) -> None:
    before = assess(load(job), remedies=False)
    finding = of(before, STATED)
    assert finding.verdict is Verdict.REFER
    assert finding.open
    after = decided(job, decision(finding))
    closed = of(after, STATED)
    assert closed.verdict is Verdict.REFER
    assert not closed.open
    assert closed.decision is not None
    assert closed.decision.name == "B. Roe"
    assert not after.lapsed
    assert {f.key for f in before.open} - {f.key for f in after.open} == {STATED}
    assert after.counts == before.counts


def test_a_refusal_closes_nothing(job: Path) -> None:
    finding = of(assess(load(job), remedies=False), STATED)
    after = of(decided(job, decision(finding, decision="refused")), STATED)
    assert after.open
    assert after.decision is not None


def test_a_decision_lapses_when_an_input_changes(job: Path) -> None:
    finding = of(assess(load(job), remedies=False), STATED)
    airframe = job.parents[1] / "airframes" / "halden_4.yaml"
    airframe.write_text(airframe.read_text(encoding="utf-8").replace("30 lb/ft^2", "29 lb/ft^2"), encoding="utf-8")
    after = decided(job, decision(finding))
    assert of(after, STATED).open
    assert len(after.lapsed) == 1
    assert of(after, STATED).inputs in after.lapsed[0].why


def test_a_decision_does_not_lapse_when_lines_move_or_another_part_changes(job: Path) -> None:
    finding = of(assess(load(job), remedies=False), STATED)
    text = job.read_text(encoding="utf-8").replace("liftout: 1\n", "liftout: 1\n# one more line\n# and another\n", 1)
    job.write_text(text.replace("customer: ", "customer: new ", 1), encoding="utf-8")
    after = decided(job, decision(finding))
    assert not after.lapsed
    assert not of(after, STATED).open


def test_a_decision_on_what_is_not_referred_lapses(job: Path) -> None:
    before = assess(load(job), remedies=False)
    conforming = next(finding for finding in before.findings if finding.verdict is Verdict.CONFORMS)
    after = decided(job, decision(conforming, inputs="0"), decision(of(before, STATED), subject="nobody"))
    assert [lapsed.why.split(":")[0] for lapsed in after.lapsed] == [
        "the finding is no longer referred",
        "no finding has this criterion, subject and state",
    ]
    assert of(after, conforming.key).decision is None


def test_every_referred_finding_has_a_mark_of_its_own_and_no_other_has_one(job: Path) -> None:
    findings = assess(load(job), remedies=False).findings
    marks = [finding.inputs for finding in findings if finding.verdict is Verdict.REFER]
    assert marks
    assert all(marks)
    assert len(set(marks)) == len(marks)
    assert not any(finding.inputs for finding in findings if finding.verdict is not Verdict.REFER)


def test_a_demonstration_decision_is_refused_in_a_customers_job(job: Path) -> None:
    finding = of(assess(load(job), remedies=False), STATED)
    job.write_text(job.read_text(encoding="utf-8").replace('  demonstration: "yes"\n', ""), encoding="utf-8")
    with pytest.raises(JobError, match=r"decisions.yaml:.*\n.*customer's job"):
        decided(job, decision(finding))


@pytest.mark.parametrize(
    ("broken", "told"),
    [
        ({"decision": "perhaps"}, "accepted"),
        ({"licence": ""}, "licence"),
        ({"date": "yesterday"}, "not a date"),
        ({"data": ""}, "data"),
        ({"signed": "yes"}, "no such key"),
    ],
)
def test_what_a_decision_lacks_is_said_with_its_line(job: Path, broken: dict[str, str], told: str) -> None:
    finding = of(assess(load(job), remedies=False), STATED)
    with pytest.raises(JobError, match=told) as caught:
        decided(job, decision(finding, **broken))
    assert all(fault.file == "decisions.yaml" for fault in caught.value.faults)


def test_decisions_travel_with_the_papers(job: Path) -> None:
    after = decided(job, decision(of(assess(load(job), remedies=False), STATED)))
    carried = yaml.safe_load(decisions_yaml(after.job))
    jsonschema.validate(carried, schemas()["decisions"])
    told = json.loads(as_json(after, digests(after)))
    jsonschema.validate(told, schemas()["findings"])
    mine = next(finding for finding in told["findings"] if finding["criterion"] == "structure.floor_load" and finding["subject"] == "tail unit")
    assert mine["decision"]["name"] == "B. Roe"
    assert mine["decision"]["demonstration"] is True
    assert mine["verdict"] == "refer"
