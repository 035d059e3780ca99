"""Findings for machines: the JSON of `liftout check --json` and of a docket's findings.json, schema 1."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from liftout import __version__
from liftout.assessment import Assessment
from liftout.documents.formula import arrange, spoken
from liftout.expression import Printed
from liftout.findings import Finding, Step
from liftout.identity.digests import Digests
from liftout.quantities import Quantity, rounded

if TYPE_CHECKING:
    from liftout.remedies import Remedies

SCHEMA = 1
DIGITS = 12


def as_data(assessment: Assessment, sums: Digests, looked: Remedies | None = None) -> dict[str, Any]:
    """Everything that a program needs of an assessed job; with `remedies` where somebody looked for them."""
    papers = assessment.job.document.papers
    return {
        "liftout": __version__,
        "schema": SCHEMA,
        "job": {"number": papers.number, "revision": papers.revision, "language": assessment.job.document.liftout},
        "digests": sums.as_dict(),
        "verdicts": assessment.counts,
        "findings": [_finding(finding) for finding in assessment.findings],
        **({} if looked is None else {"remedies": looked.as_data()}),
    }


def as_json(assessment: Assessment, sums: Digests, looked: Remedies | None = None) -> str:
    """The same as text, keys in the order of the schema, each finding on a line of its own."""
    data = as_data(assessment, sums, looked)
    lines = {key: _line(value) for key, value in data.items() if key != "findings"}
    lines["findings"] = "[\n" + ",\n".join(map(_line, data["findings"])) + "\n]"
    return "{" + ",\n".join(f'"{key}": {lines[key]}' for key in data) + "}\n"


def _line(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False)


def _number(quantity: Quantity | None) -> dict[str, Any] | None:
    if quantity is None:
        return None
    return {"magnitude": float(rounded(quantity.magnitude, DIGITS)), "unit": quantity.unit.symbol}


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "criterion": finding.criterion,
        "subject": finding.subject,
        "state": finding.state,
        "case": dict(finding.case),
        "verdict": str(finding.verdict),
        "value": _number(finding.value),
        "relation": finding.relation,
        "limit": _number(finding.limit),
        "margin": None if finding.margin is None else {"kind": finding.margin.kind, **(_number(finding.margin.quantity) or {})},
        "without_tolerance": finding.without_tolerance,
        "sources": list(finding.sources),
        "to_confirm": list(finding.to_confirm),
        "evidence": dict(finding.evidence),
        "data_basis": finding.data_basis,
        "inputs": finding.inputs or None,
        "decision": None if finding.decision is None else finding.decision._asdict(),
        "refer": None if finding.referral is None else finding.referral._asdict(),
        "missing": [{"measure": need.what, "write": need.where} for need in finding.missing],
        "reason": finding.reason or None,
        "remedy": finding.remedy,
        "caution": finding.caution,
        "sentence": finding.sentence,
        "steps": [_step(step) for step in finding.steps],
    }


def _step(step: Step) -> dict[str, Any]:
    return {
        "symbol": step.symbol,
        "meaning": step.meaning,
        "formula": spoken(arrange(step.formula)) if step.formula is not None else None,
        "with_values": spoken(arrange(step.with_values)) if step.with_values is not None else None,
        "magnitude": _number(step.quantity)["magnitude"] if step.quantity is not None else None,  # type: ignore[index]
        "unit": step.result.unit,
        "origin": step.origin,
        "rows": [{"label": row.label, "magnitude": _plain(row.printed), "unit": row.printed.unit, "origin": row.origin} for row in step.rows]
        if step.quantity is None
        else [],
    }


def _plain(printed: Printed) -> float:
    return float(printed.number.replace("\u2212", "-"))
