"""Each criterion's cases, entered as a shop's job enters."""

from __future__ import annotations

from typing import Any

import pytest

from liftout.assessment import applied, assess
from liftout.criteria import Criterion, all_criteria
from liftout.facts import gather
from liftout.findings import Finding, Verdict
from liftout.tables import READINGS, publications
from tests.criteria.bench import KINDS, CaseFile, amount, case_files, is_requirement, last_digit
from tests.house.test_printed_lines import lines_close, verdict_follows_from_value_and_limit

FILES = {file.criterion: file for file in case_files()}
CRITERIA = {criterion.id: criterion for criterion in all_criteria()}
CASES = [pytest.param(name, label, case, id=f"{name}-{label}") for name, file in FILES.items() for label, case in file.cases()]
KEYS = {"given", "subject", "state", "verdict", "value", "within", "of", "margin", "remedy", "measure", "reason", "rests_on", "told"}
VERDICTS = {"conforms": "conforms", "does_not_conform": "does not conform", "boundary": "conforms", "missing": "not assessed"}


def test_every_criterion_has_a_case_file_and_every_case_file_a_criterion() -> None:
    assert sorted(FILES) == sorted(CRITERIA)


@pytest.mark.parametrize("name", sorted(FILES))
def test_a_case_file_has_its_five_cases(name: str) -> None:
    file = FILES[name]
    assert file.said["criterion"] == name
    strange = set(file.said) - {"criterion", "bench", "subject", "state", *KINDS, *(f"also_{kind}" for kind in KINDS)}
    assert not strange, f"{name}: no such key {strange}"
    absent = [kind for kind in KINDS if kind not in file.said]
    assert not absent, f"{name}: no case {absent}"
    if isinstance(file.said["published"], str):
        assert file.said["published"].startswith("none, "), "say where a published value was looked for: 'none, looked in ...'"


@pytest.mark.parametrize(("name", "label", "case"), CASES)
def test_a_case_says_what_it_must(name: str, label: str, case: dict[str, Any]) -> None:
    kind = label.removeprefix("also_").partition(" ")[0]
    assert set(case) <= KEYS | ({"source", "read"} if kind == "published" else set())
    if kind == "published":
        assert {"source", "read", "given"} <= set(case)
        if is_requirement(case):
            assert "verdict" in case, "a requirement decides a case: say how"
            assert {"value", "reason", "measure"} & set(case), "a verdict without what leads to it shows little"
        else:
            assert {"value", "within"} <= set(case)
        publication = case["source"]["publication"]
        assert (
            publication in publications() if isinstance(publication, str) else {"name", "title", "publisher", "edition", "kind"} == set(publication)
        )
        assert case["source"]["place"]
        assert case["read"] in READINGS
    elif kind == "missing":
        assert "measure" in case
    else:
        assert "value" in case or "reason" in case, "a verdict without the value that leads to it shows little"


def _found(file: CaseFile, criterion: Criterion, case: dict[str, Any]) -> Finding:
    facts = gather(file.job(case.get("given") or {}))
    findings = applied(criterion, facts)
    subject, state = case.get("subject", file.said.get("subject")), case.get("state", file.said.get("state"))
    if subject == "the whole fit":
        state = None
    chosen = [finding for finding in findings if (subject is None or finding.subject == subject) and (state is None or finding.state == state)]
    assert len(chosen) == 1, f"{len(chosen)} findings for {subject}, {state}: {[f.key for f in findings]}"
    return chosen[0]


def _check_value(finding: Finding, text: str, within: str | None, of: str | None) -> None:
    magnitude, symbol = amount(text)
    quantity = finding.value if of is None else next(step.quantity for step in finding.steps if step.symbol == of)
    assert quantity is not None, finding.sentence
    tolerance, told = amount(within) if within else (last_digit(magnitude), symbol)
    assert told == symbol, "write `within` in the unit of `value`"
    got = quantity.to(symbol)
    assert abs(got - magnitude) <= tolerance, f"{got} {symbol} instead of {text}"


@pytest.mark.parametrize(("name", "label", "case"), CASES)
def test_case(name: str, label: str, case: dict[str, Any]) -> None:
    file, criterion = FILES[name], CRITERIA[name]
    kind = label.removeprefix("also_").partition(" ")[0]
    finding = _found(file, criterion, case)
    verdict = case.get("verdict", VERDICTS.get(kind))
    if verdict is not None:
        assert finding.verdict is Verdict(verdict), f"{finding.sentence} {finding.referral}"
    lines_close(finding)
    verdict_follows_from_value_and_limit(finding)
    if "value" in case:
        _check_value(finding, case["value"], case.get("within"), case.get("of"))
    if "margin" in case:
        assert finding.margin is not None
        assert finding.margin.text == case["margin"]
    if kind == "boundary":
        assert finding.value is not None
        assert finding.limit is not None
        if finding.margin is None:  # counted
            assert finding.value == finding.limit
        else:
            assert finding.margin.quantity.magnitude == 0, finding.sentence
    if "measure" in case:
        assert case["measure"] in [need.what for need in finding.missing]
        assert all(need.where for need in finding.missing)
    if "remedy" in case:
        remedied = {found.key: found for found in assess(file.job(case.get("given") or {})).findings}[finding.key]
        assert remedied.remedy == (None if case["remedy"] == "null" else case["remedy"])
    if "reason" in case:
        assert case["reason"] in finding.sentence
    if "rests_on" in case:
        rested = {where.rpartition(", ")[2] for where, _ in finding.evidence} | {path for path, _ in finding.rests_on}
        assert case["rests_on"] in rested, f"rests on {sorted(rested)}"
    if "told" in case:
        assert case["told"] in [*finding.particulars.split("; "), *([finding.referral.facts] if finding.referral else [])]
