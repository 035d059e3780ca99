"""`liftout check`: the findings of one or more jobs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from rich.console import Console

    from liftout.assessment import Assessment
    from liftout.findings import Finding


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

                typer.echo(as_json(assessment), nl=False)
            else:
                _print(assessment, working=working)
        worst = max(worst, standing(assessment, strict=strict), key=_gravity)
    raise typer.Exit(worst)


def _gravity(code: int) -> int:
    return (0, 3, 1).index(code)


_WIDTH = 110


def _print(assessment: Assessment, *, working: bool) -> None:
    from rich.console import Console

    console = Console(highlight=False, soft_wrap=False, emoji=False, markup=False)
    papers = assessment.job.document.papers
    console.print(
        f"{papers.number} revision {papers.revision}: {assessment.facts.aircraft.model}, {assessment.facts.aircraft.registration}".rstrip(", ")
    )
    family = ""
    for finding in assessment.findings:
        if finding.criterion.partition(".")[0] != family:
            family = finding.criterion.partition(".")[0]
            console.print(f"\n{family}", style="bold")
        _print_finding(console, finding, working=working)
    console.print()
    console.print(", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count))
    if assessment.open:
        console.print(f"INCOMPLETE - NOT FOR INSTALLATION: {len(assessment.open)} open.", style="bold")
    console.print("Computed against the sources named; whether the aircraft may fly is for a licensed person and the authority to decide.")


_MARK = {"conforms": "      ", "does not conform": "FAILS ", "refer": "refer ", "not assessed": "open  ", "not applicable": "n/a   "}
_STYLE = {"does not conform": "bold red", "refer": "yellow", "not assessed": "yellow"}


def _print_finding(console: Console, finding: Finding, *, working: bool) -> None:
    from rich.padding import Padding
    from rich.text import Text

    head = Text(_MARK[finding.verdict], style=_STYLE.get(finding.verdict, ""))
    head.append(
        f"{finding.criterion.partition('.')[2].replace('_', ' ')}, {finding.subject}{', ' + finding.state if finding.state else ''}", style=""
    )
    console.print(head)
    console.print(Padding(Text(finding.sentence), (0, 0, 0, 8)))
    if finding.remedy:
        console.print(Padding(Text(f"To conform: {finding.remedy}."), (0, 0, 0, 8)))
    if working or (finding.open and finding.value is not None):
        from liftout.documents.formula import arrange, spoken

        for step in finding.steps:
            if step.formula is None or step.with_values is None:
                continue
            line = f"{step.symbol} = {spoken(arrange(step.formula))} = {spoken(arrange(step.with_values))} = {step.result.number} {step.result.unit}".rstrip()
            console.print(Padding(Text(line, style="dim"), (0, 0, 0, 10)))
