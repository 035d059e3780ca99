"""`liftout check`: the findings of one or more jobs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from liftout.cli.terminal import Style, styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.assessment import Assessment
    from liftout.findings import Finding, Step
    from liftout.remedies import Remedies
    from liftout.worked import Worked


def arguments(parser: ArgumentParser) -> None:
    """Check every JOB against every criterion and print the findings."""
    parser.add_argument("jobs", metavar="JOB", type=Path, nargs="+", help="job file")
    parser.add_argument("--json", action="store_true", help="print the findings as JSON, one document a job")
    parser.add_argument("--strict", action="store_true", help="count open items like failures: end with 1 instead of 3")
    parser.add_argument(
        "--remedies",
        action="store_true",
        help="look for the smallest changes that make each failing finding conform, several at once where one is not enough; some seconds a finding",
    )
    parser.add_argument("--working", action="store_true", help="print the working of every finding, not of the open ones only")


def check(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import giving_up, standing
    from liftout.job import load

    worst = 0
    for file in asked.jobs:
        with giving_up():
            assessment = assess(load(file), remedies=not asked.remedies)
            looked = _looked_for(assessment) if asked.remedies else None
            if asked.json:
                from liftout.documents.machine import as_json
                from liftout.identity.digests import digests

                print(as_json(assessment, digests(assessment), looked), end="")
            else:
                _print(assessment, looked, working=asked.working)
        worst = max(worst, standing(assessment, strict=asked.strict), key=_gravity)
    return worst


def _looked_for(assessment: Assessment) -> Remedies:
    """The changes that help, each finding by itself and all together."""
    from liftout.cli.telling import telling
    from liftout.remedies import remedies

    with telling() as tell:
        return remedies(assessment, tell)


def _gravity(code: int) -> int:
    return (0, 3, 1).index(code)


_STYLE: dict[str, Style] = {"does not conform": "red", "refer": "yellow", "not assessed": "yellow"}


def _print(assessment: Assessment, looked: Remedies | None, *, working: bool) -> None:
    papers, plane = assessment.job.document.papers, assessment.facts.aircraft
    print(f"{papers.number} revision {papers.revision}: {plane.model} {plane.registration}".rstrip())
    sheets = {sheet.origin: sheet for sheet in assessment.worked}
    heading = ""
    for finding in assessment.findings:
        if finding.criterion != heading:
            heading = finding.criterion
            print(styled(f"\n{finding.title}  ({heading})", "bold"))
        _print_finding(finding, sheets, working=working)
        if looked is not None:
            for remedy in looked.of.get(finding.key, ()):
                print(f"{'':20}to conform: {remedy.sentence}")
            if finding.key in looked.of and not looked.of[finding.key]:
                print(f"{'':20}to conform: no change of what the shop may choose was found, nor several at once")
    for lapsed in assessment.lapsed:
        said = lapsed.decision
        subject = ", ".join(part for part in (said.subject, said.state) if part)
        print(styled(f"\nlapsed: the decision of {said.name}, {said.date}, on {said.criterion}, {subject}: {lapsed.why}", "yellow"))
    if looked is not None and looked.together:
        print(styled("\nTogether, each assessed on top of those above it", "bold"))
        for remedy in looked.together:
            print(f"  {remedy.brief}")
        print(f"  Then {len(looked.left)} of {len(looked.of)} findings do not conform.")
    print("\n" + ", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count))
    if assessment.open:
        print(styled(f"INCOMPLETE - NOT FOR INSTALLATION: {len(assessment.open)} open.", "bold"))
    print("Computed against the sources named; whether the aircraft may fly is for a licensed person and the authority to decide.")


def _print_finding(finding: Finding, sheets: Mapping[str, Worked], *, working: bool) -> None:
    subject = ", ".join(part for part in (finding.subject, finding.state) if part)
    print("  " + styled(f"{finding.verdict:16}", _STYLE.get(finding.verdict)) + f"  {subject}: {finding.brief}")
    if finding.case and finding.open:
        print(f"{'':20}{finding.particulars}")
    if finding.caution and finding.open:
        print(f"{'':20}{': '.join(finding.signal)}")
    for need in finding.missing:
        print(f"{'':20}needed: {need.what}; write it {need.to_write}")
    if finding.referral is not None:
        print(
            f"{'':20}{finding.referral.question} Look at {finding.referral.facts}. May decide: {finding.referral.who}. Closed by: {finding.referral.closes}."
        )
        print(f"{'':20}{decided(finding)}")
    if finding.remedy:
        print(f"{'':20}to conform: {finding.remedy}")
    if finding.verdict == "does not conform" and finding.criterion.startswith("completeness."):
        # What is missing was counted, which says neither what nor where; no worked line does.
        print(f"{'':20}asked for: {_requirement(finding.criterion)}")
    if working or finding.verdict == "does not conform":
        for line in worked_lines(finding, sheets):
            print(f"{'':20}{line}")


def _requirement(criterion: str) -> str:
    from liftout.criteria import all_criteria

    return next(one.documentation["Requires"] for one in all_criteria() if one.id == criterion)


def decided(finding: Finding) -> str:
    """The decision on a referred finding, or the mark under which one is written down."""
    made = finding.decision
    if made is None:
        return f"mark of the inputs, for a decision: {finding.inputs}"
    demonstration = "DEMONSTRATION: " if made.demonstration else ""
    return f"{demonstration}{made.decision} by {made.name}, {made.licence}, {made.date}: {made.reason} Data: {made.data}."


def worked_lines(finding: Finding, sheets: Mapping[str, Worked]) -> list[str]:
    """The worked lines behind a finding as text: formula, values put in, result; first those of the sheets it takes values from.

    Args:
        finding: the finding.
        sheets: sheets without a limit, by what is printed where a value of theirs is used.
    """
    used = dict.fromkeys(row.origin for step in finding.steps for row in step.rows if row.origin in sheets)
    return [line for steps in (*(sheets[origin].steps for origin in used), finding.steps) for line in _lines(steps)]


def _lines(steps: Sequence[Step]) -> Iterator[str]:
    from liftout.documents.formula import arrange, spoken

    for step in steps:
        if step.formula is not None and step.with_values is not None:
            worked = (
                f"{step.symbol} = {spoken(arrange(step.formula))} = {spoken(arrange(step.with_values))} = {step.result.number} {step.result.unit}"
            )
            yield worked.rstrip()
