"""Adverse loadings: the worst loading of each state against each limit, drawn and worked."""

from __future__ import annotations

from collections.abc import Iterator

from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.said import said
from liftout.facts.loads import possible_loads
from liftout.figures.loading_envelope import Loading, loading_envelope
from liftout.findings import Finding, ToMeasure
from liftout.facts import Missing


def adverse(matter: Matter) -> Values:
    """What the chapter prints."""
    findings = matter.findings(["balance.adverse_loading"])
    return {
        "drawings": [loading_envelope(matter.facts, None, list(_loadings(findings)))],
        "results": [(finding.state, finding.subject, finding.sentence) for finding in findings],
        "loads": [
            (load.name, said(load.most), said(load.arm), "any amount" if load.any_amount else "whole, or not at all") for load in possible_loads(matter.facts.aircraft)
        ],
        "findings": findings,
    }


def _loadings(findings: tuple[Finding, ...]) -> Iterator[Loading]:
    """The worst loadings as the envelope shows them, with the figures of their sheets."""
    for finding in findings:
        steps = {step.symbol: step for step in finding.steps}
        label = f"worst loading, {finding.state}, {finding.subject}"
        if "W" not in steps or "x_cg" not in steps:
            yield Loading(label, None, None, missing=tuple(map(_missing, finding.missing)))
            continue
        weight, arm = steps["W"], steps["x_cg"]
        printed = (f"{weight.result.number} {weight.result.unit}", f"{arm.result.number} {arm.result.unit}")
        yield Loading(label, weight.quantity, arm.quantity, printed)


def _missing(need: ToMeasure) -> Missing:
    return Missing(need.what, need.where)
