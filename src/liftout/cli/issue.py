"""`liftout issue`: the docket of a job."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from liftout.assessment import Assessment


def arguments(parser: ArgumentParser) -> None:
    """Check JOB and write its docket: site and PDF, once."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file")
    parser.add_argument("--out", metavar="FOLDER", type=Path, help="write here instead of issued/<number>/<revision>/ beside the job")
    parser.add_argument("--final", action="store_true", help="write nothing while anything is open, and name what is")


def issue(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import giving_up, standing
    from liftout.job import load

    with giving_up(), _telling() as step:
        step("reading the job")
        loaded = load(asked.job)
        step("assessing")
        assessment = assess(loaded)
        if asked.final and assessment.open:
            _refuse(assessment)
        folder = _written(assessment, asked.out, step)
    counts = ", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count)
    print(f"{folder}\n{counts}")
    if assessment.open:
        print(f"INCOMPLETE - NOT FOR INSTALLATION: {len(assessment.open)} open; every page says so.")
    print("Open site/index.html first. Whether the aircraft may fly is for a licensed person and the authority to decide.")
    return standing(assessment)


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
        print(str(reason), file=sys.stderr)
        raise SystemExit(Exit.MISTYPED) from None
    except DocumentError as error:
        print(f"{error}\nNothing was issued.", file=sys.stderr)
        raise SystemExit(Exit.UNREADABLE) from None


def _refuse(assessment: Assessment) -> None:
    from liftout.cli.exits import standing

    print("Nothing was issued; open are:", file=sys.stderr)
    for finding in assessment.open:
        print(f"  {finding.key}: {finding.sentence}", file=sys.stderr)
    raise SystemExit(standing(assessment))


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
