"""`liftout check`: the findings of one or more jobs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from liftout.assessment import Assessment
    from liftout.findings import Finding, Step
    from liftout.worked import Worked


def check(
    jobs: Annotated[list[Path], typer.Argument(metavar="JOB...", help="Job files.", show_default=False)],
    json: Annotated[bool, typer.Option("--json", help="Print the findings as JSON, one document a job.")] = False,
    strict: Annotated[bool, typer.Option("--strict", help="Count open items like failures: end with 1 instead of 3.")] = False,
    working: Annotated[bool, typer.Option("--working", help="Print the working of every finding, not of the open ones only.")] = False,
) -> None:
    """Check JOB against every criterion and print the findings."""
    from liftout.assessment import assess
    from liftout.cli.exits import giving_up, standing
    from liftout.job import load

    worst = 0
    for file in jobs:
        with giving_up():
            assessment = assess(load(file))
            if json:
                from liftout.documents.machine import as_json
                from liftout.identity.digests import digests

                typer.echo(as_json(assessment, digests(assessment)), nl=False)
            else:
                _print(assessment, working=working)
        worst = max(worst, standing(assessment, strict=strict), key=_gravity)
    raise typer.Exit(worst)


def _gravity(code: int) -> int:
    return (0, 3, 1).index(code)


_STYLE = {"does not conform": "red", "refer": "yellow", "not assessed": "yellow"}


def _print(assessment: Assessment, *, working: bool) -> None:
    papers, plane = assessment.job.document.papers, assessment.facts.aircraft
    typer.echo(f"{papers.number} revision {papers.revision}: {plane.model} {plane.registration}".rstrip())
    sheets = {sheet.origin: sheet for sheet in assessment.worked}
    heading = ""
    for finding in assessment.findings:
        if finding.criterion != heading:
            heading = finding.criterion
            typer.secho(f"\n{finding.title}  ({heading})", bold=True)
        _print_finding(finding, sheets, working=working)
    for lapsed in assessment.lapsed:
        said = lapsed.decision
        subject = ", ".join(part for part in (said.subject, said.state) if part)
        typer.secho(f"\nlapsed: the decision of {said.name}, {said.date}, on {said.criterion}, {subject}: {lapsed.why}", fg="yellow")
    typer.echo("\n" + ", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count))
    if assessment.open:
        typer.secho(f"INCOMPLETE - NOT FOR INSTALLATION: {len(assessment.open)} open.", bold=True)
    typer.echo("Computed against the sources named; whether the aircraft may fly is for a licensed person and the authority to decide.")


def _print_finding(finding: Finding, sheets: Mapping[str, Worked], *, working: bool) -> None:
    subject = ", ".join(part for part in (finding.subject, finding.state) if part)
    typer.echo("  " + typer.style(f"{finding.verdict:16}", fg=_STYLE.get(finding.verdict)) + f"  {subject}: {finding.brief}")
    if finding.case and finding.open:
        typer.echo(f"{'':20}{finding.particulars}")
    if finding.caution and finding.open:
        typer.echo(f"{'':20}CAUTION: {finding.caution}")
    for need in finding.missing:
        typer.echo(f"{'':20}needed: {need.what}; write it at {need.where}")
    if finding.referral is not None:
        typer.echo(
            f"{'':20}{finding.referral.question} Look at {finding.referral.facts}. May decide: {finding.referral.who}. Closed by: {finding.referral.closes}."
        )
        typer.echo(f"{'':20}{decided(finding)}")
    if finding.remedy:
        typer.echo(f"{'':20}to conform: {finding.remedy}")
    if working or finding.verdict == "does not conform":
        for line in worked_lines(finding, sheets):
            typer.echo(f"{'':20}{line}")


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
