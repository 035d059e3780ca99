"""No verdict decides what only a licensed person or the authority may decide."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from liftout.applied import applied
from liftout.criteria import all_criteria
from liftout.facts import gather
from liftout.findings import Verdict
from liftout.within_tolerance import within_tolerance
from tests.criteria.bench import CaseFile, case_files
from tests.job.demonstration import demonstration_assessed

ROOT = Path(__file__).parents[2]
CODE = ROOT / "src" / "liftout"
FORBIDDEN = re.compile(
    r"\b(airworthy|unairworthy|legal|illegal|approved|approves|certified|safe to fly|cleared to fly|permitted to fly)\b", re.IGNORECASE
)


def test_there_are_five_verdicts_and_none_of_them_judges_the_aircraft() -> None:
    assert [str(verdict) for verdict in Verdict] == ["conforms", "does not conform", "refer", "not assessed", "not applicable"]


@pytest.mark.parametrize("criterion", all_criteria(), ids=lambda criterion: criterion.id)
def test_no_criterion_says_what_it_may_not(criterion: object) -> None:
    text = (CODE / "criteria" / criterion.family / f"{criterion.name}.py").read_text(encoding="utf-8")  # type: ignore[attr-defined]
    assert not FORBIDDEN.search(text)


@pytest.mark.parametrize(
    "path", sorted(path for room in ("worked", "facts", "cli") for path in (CODE / room).rglob("*.py")), ids=lambda path: path.stem
)
def test_no_text_around_findings_says_what_it_may_not(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            assert not FORBIDDEN.search(node.value), f"line {node.lineno}: {node.value}"


@pytest.mark.parametrize("file", case_files(), ids=lambda file: file.criterion)
def test_no_finding_says_what_it_may_not(file: CaseFile) -> None:
    """In any verdict that the case files lead to."""
    criterion = next(one for one in all_criteria() if one.id == file.criterion)
    for _, case in file.cases():
        job = file.job(case.get("given") or {})
        for finding in within_tolerance(job, applied(criterion, gather(job))):
            referral = finding.referral
            said = [finding.sentence, finding.requires, finding.title, finding.remedy or "", finding.caution or "", finding.reason]
            said += [referral.question, referral.who, referral.closes] if referral else []
            assert not any(FORBIDDEN.search(text) for text in said), finding.key


def test_the_demonstration_says_who_decides() -> None:
    for finding in demonstration_assessed().findings:
        if finding.verdict is Verdict.REFER:
            assert finding.referral is not None
            assert finding.referral.who
            assert finding.referral.closes
            assert finding.referral.question.endswith("?")


def test_no_path_of_this_machine_stands_in_what_is_shipped() -> None:
    own = [str(path) for path in (ROOT, ROOT.parent, Path.home()) if len(path.parts) > 1]
    for folder in ("src", "templates", "site", "jobs", "tests"):
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and path.suffix in (".py", ".yaml", ".md", ".j2", ".typ", ".js", ".css", ".html", ".txt", ".toml"):
                text = path.read_text(encoding="utf-8", errors="replace")
                assert not [place for place in own if f"{place}/" in text], path.relative_to(ROOT)
