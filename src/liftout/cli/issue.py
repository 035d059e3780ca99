"""`liftout issue`: the docket of a job."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from collections.abc import Callable

    from liftout.assessment import Assessment


def issue(
    job: Annotated[Path, typer.Argument(metavar="JOB", help="A job file.", show_default=False)],
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="FOLDER", help="Write here instead of issued/<number>/<revision>/ beside the job.", show_default=False),
    ] = None,
    final: Annotated[bool, typer.Option("--final", help="Write nothing while anything is open, and name what is.")] = False,
) -> None:
    """Check JOB and write its docket: site and PDF, once."""
    from liftout.assessment import assess
    from liftout.cli.exits import giving_up, standing
    from liftout.job import load

    with giving_up(), _telling() as step:
        step("reading the job")
        loaded = load(job)
        step("assessing")
        assessment = assess(loaded)
        if final and assessment.open:
            _refuse(assessment)
        folder = _written(assessment, out, step)
    counts = ", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count)
    typer.echo(f"{folder}\n{counts}")
    if assessment.open:
        typer.echo(f"INCOMPLETE - NOT FOR INSTALLATION: {len(assessment.open)} open; every page says so.")
    typer.echo("Open site/index.html first. Whether the aircraft may fly is for a licensed person and the authority to decide.")
    raise typer.Exit(standing(assessment))


def _written(assessment: Assessment, out: Path | None, step: Callable[[str], None]) -> Path:
    from liftout.cli.exits import Exit
    from liftout.documents.docket import documents
    from liftout.documents.document import DocumentError
    from liftout.identity.digests import digests
    from liftout.records.embed import attachments, carrying
    from liftout.records.issued import NotIssued, place_of
    from liftout.records.issued import issue as write

    sums = digests(assessment)
    step("writing the chapters")
    carried = attachments(assessment, sums)
    papers = assessment.job.document.papers
    try:
        return write(
            carrying(documents(assessment, sums), carried),
            carried,
            out or place_of(assessment),
            f"Docket {papers.number} revision {papers.revision}",
            step,
        ).folder
    except NotIssued as reason:
        typer.echo(str(reason), err=True)
        raise typer.Exit(Exit.MISTYPED) from None
    except DocumentError as error:
        typer.echo(f"{error}\nNothing was issued.", err=True)
        raise typer.Exit(Exit.UNREADABLE) from None


def _refuse(assessment: Assessment) -> None:
    from liftout.cli.exits import standing

    typer.echo("Nothing was issued; open are:", err=True)
    for finding in assessment.open:
        typer.echo(f"  {finding.key}: {finding.sentence}", err=True)
    raise typer.Exit(standing(assessment))


@contextmanager
def _telling() -> Iterator[Callable[[str], None]]:
    """Say on a terminal what is being done; elsewhere say nothing."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn

    with Progress(SpinnerColumn(), TextColumn("{task.description}"), TimeElapsedColumn(), console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("reading")
        yield lambda text: progress.update(task, description=text)
