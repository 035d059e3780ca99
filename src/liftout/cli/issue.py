"""`liftout issue`: the docket of a job."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from liftout.assessment import Assessment
    from liftout.job import Job
    from liftout.records.issued import Issued


def arguments(parser: ArgumentParser) -> None:
    """Check JOB and write its docket: site and PDF, once."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file")
    parser.add_argument("--out", metavar="FOLDER", type=Path, help="write here instead of issued/<number>/<revision>/ beside the job")
    parser.add_argument(
        "--supersedes",
        metavar="OLD",
        type=Path,
        help="the revision whose place it takes: folder of a docket, a PDF of it, or a job file; changes get bars",
    )
    parser.add_argument("--redact", action="store_true", help="a copy in which marks stand for names and licences; needs --out")
    parser.add_argument("--redact-registration", action="store_true", help="likewise, and for the registration of the aircraft")
    parser.add_argument("--afresh", action="store_true", help="set every paper, also those that this machine has set before and kept")
    parser.add_argument("--theme", metavar="FOLDER", type=Path, help="share fonts, styles and scripts of the site with other dockets, there")
    parser.add_argument("--final", action="store_true", help="write nothing while anything is open, and name what is")


def issue(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up, standing
    from liftout.cli.telling import telling
    from liftout.identity.resolved import as_carried
    from liftout.job import load

    copy = asked.redact or asked.redact_registration
    if copy and asked.theme:
        print("A redacted copy goes to others and has all within itself: leave --theme out.", file=sys.stderr)
        raise SystemExit(Exit.MISTYPED)
    if copy and (asked.out is None or asked.supersedes):
        print("A redacted copy is no docket of its own: write it elsewhere with --out FOLDER, and without --supersedes.", file=sys.stderr)
        raise SystemExit(Exit.MISTYPED)
    with giving_up(), telling() as step:
        step("reading the job")
        loaded = load(asked.job)
        step("assessing")
        assessment = assess(as_carried(loaded))
        if asked.final and assessment.open:
            _refuse(assessment)
        issued = _copied(assessment, loaded, asked, step) if copy else _written(assessment, loaded, asked, step)
    counts = ", ".join(f"{count} {verdict}" for verdict, count in assessment.counts.items() if count)
    print(f"{issued.folder}\n{counts}")
    if issued.again:
        print("This very docket was there already; it was left as it is.")
    if assessment.open:
        print(f"INCOMPLETE - NOT FOR INSTALLATION: {len(assessment.open)} open; every page says so.")
    if asked.theme:
        print(f"The site takes its fonts and scripts from {asked.theme}: hand both over together, each where it lies from the other.")
    print("Open site/index.html first. Whether the aircraft may fly is for a licensed person and the authority to decide.")
    return standing(assessment)


def _written(assessment: Assessment, loaded: Job, asked: Namespace, step: Callable[[str], None]) -> Issued:
    from liftout.cli.exits import Exit
    from liftout.documents.document import DocumentError
    from liftout.records.carried import NotRead
    from liftout.records.editions import NotSuperseded
    from liftout.records.issued import NotIssued
    from liftout.records.issuing import write_docket

    try:
        return write_docket(assessment, loaded, out=asked.out, supersedes=asked.supersedes, afresh=asked.afresh, theme=asked.theme, step=step)
    except NotIssued as reason:
        print(str(reason), file=sys.stderr)
        raise SystemExit(Exit.MISTYPED) from None
    except DocumentError as error:
        print(f"{error}\nNothing was issued.", file=sys.stderr)
        raise SystemExit(Exit.UNREADABLE) from None
    except (NotSuperseded, NotRead) as reason:
        where = (
            ""
            if asked.supersedes
            else "\nThe job names this revision in papers / supersedes, and its docket is looked for there; name another place with --supersedes."
        )
        print(f"{reason}{where}\nNothing was issued.", file=sys.stderr)
        raise SystemExit(Exit.MISTYPED if isinstance(reason, NotSuperseded) else Exit.UNREADABLE) from None


def _copied(assessment: Assessment, loaded: Job, asked: Namespace, step: Callable[[str], None]) -> Issued:
    """The docket without personal data, which no register knows."""
    from liftout.cli.exits import Exit
    from liftout.documents.document import DocumentError
    from liftout.identity.digests import digests
    from liftout.records.embed import bound
    from liftout.records.issued import NotIssued
    from liftout.records.issued import issue as write
    from liftout.records.redacted import NotRedacted, leaks, redacted

    step("replacing names by marks")
    try:
        copy = redacted(loaded, assessment, registration=asked.redact_registration)
        documents, carried = bound(copy.assessment, digests(copy.assessment))
        files = [*carried, *(file for document in documents for file in document.companions)]
        if still := [fault for file in files for fault in leaks(copy.marks, file.name, file.content)]:
            raise NotRedacted("\n".join(still))  # noqa: TRY301 - told like what the copy itself refuses
        papers = copy.assessment.job.document.papers
        return write(documents, carried, asked.out, f"Docket {papers.number} revision {papers.revision}, redacted copy", step, lambda: None)
    except NotIssued as reason:
        print(str(reason), file=sys.stderr)
        raise SystemExit(Exit.MISTYPED) from None
    except (NotRedacted, DocumentError) as reason:
        print(f"{reason}\nNothing was issued.", file=sys.stderr)
        raise SystemExit(Exit.UNREADABLE) from None


def _refuse(assessment: Assessment) -> None:
    from liftout.cli.exits import standing

    print("Nothing was issued; open are:", file=sys.stderr)
    for finding in assessment.open:
        print(f"  {finding.key}: {finding.sentence}", file=sys.stderr)
    raise SystemExit(standing(assessment))
