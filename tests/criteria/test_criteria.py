"""Each criterion's five cases, entered as a shop's job enters."""

from __future__ import annotations

from typing import Any

import pytest

from liftout.assessment import applied, assess
from liftout.criteria import Criterion, all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from tests.criteria.bench import KINDS, CaseFile, amount, case_files

FILES = {file.criterion: file for file in case_files()}
CRITERIA = {criterion.id: criterion for criterion in all_criteria()}


def test_every_criterion_has_a_case_file_and_every_case_file_a_criterion() -> None:
    assert sorted(FILES) == sorted(CRITERIA)


@pytest.mark.parametrize("name", sorted(FILES))
def test_a_case_file_has_its_five_cases(name: str) -> None:
    file = FILES[name]
    assert file.said["criterion"] == name
    absent = [kind for kind in KINDS if kind not in file.said]
    assert not absent, f"{name}: no case {absent}"
    published = file.said["published"]
    if isinstance(published, str):
        assert published.startswith("none, "), "say where a published value was looked for: 'none, looked in ...'"
    else:
        assert {"source", "read", "given", "value", "within"} <= set(published)


def _found(file: CaseFile, criterion: Criterion, case: dict[str, Any]) -> Finding:
    facts = gather(file.job(case.get("given") or {}))
    findings = applied(criterion, facts)
    subject, state = case.get("subject", file.said.get("subject")), case.get("state", file.said.get("state"))
    chosen = [
        finding for finding in findings if (subject is None or finding.subject == subject) and (state is None or finding.state == state)
    ]
    assert len(chosen) == 1, f"{len(chosen)} findings for {subject}, {state}: {[f.key for f in findings]}"
    return chosen[0]


def _check_value(finding: Finding, text: str, within: str | None, of: str | None) -> None:
    magnitude, symbol = amount(text)
    quantity = finding.value if of is None else next(step.quantity for step in finding.steps if step.symbol == of)
    assert quantity is not None, finding.sentence
    got = quantity.to(symbol)
    tolerance = amount(within)[0] if within else abs(magnitude).scaleb(-3)
    assert abs(got - magnitude) <= tolerance, f"{got} {symbol} instead of {text}"


CASES = [(name, kind) for name, file in FILES.items() for kind in KINDS if kind in file.said and not isinstance(file.said[kind], str)]


@pytest.mark.parametrize(("name", "kind"), CASES)
def test_case(name: str, kind: str) -> None:
    file, criterion = FILES[name], CRITERIA[name]
    case = file.said[kind]
    finding = _found(file, criterion, case)
    expected = {"conforms": "conforms", "does_not_conform": "does not conform", "missing": "not assessed"}.get(kind)
    if kind != "published":
        assert finding.verdict == Verdict(case.get("verdict", expected)), f"{finding.sentence} {finding.referral}"
    if "value" in case:
        _check_value(finding, case["value"], case.get("within"), case.get("of"))
    if "margin" in case:
        assert finding.margin is not None
        assert finding.margin.text == case["margin"]
    if kind == "boundary":
        assert finding.margin is None or finding.margin.quantity.magnitude == 0, finding.sentence
    if kind == "missing":
        assert case["measure"] in [need.what for need in finding.missing]
    if "remedy" in case:
        remedied = {found.key: found for found in assess(file.job(case.get("given") or {})).findings}[finding.key]
        assert remedied.remedy == case["remedy"]
    if "reason" in case:
        assert case["reason"] in finding.sentence
