"""`liftout close`: the as-fitted record of a job, or the blank form of one."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from liftout.cli.as_json import print_json
from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from liftout.assessment import Assessment
    from liftout.identity.digests import Digests
    from liftout.job import Job
    from liftout.records.as_fitted import Closed


def arguments(parser: ArgumentParser) -> None:
    """Compare each RECORD with the checklist of JOB, assess again with what was measured, and write the as-fitted record."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file, or the job.yaml of the docket that was fitted")
    parser.add_argument("records", metavar="RECORD", type=Path, nargs="*", help="what was measured: JSON from the checklist page, YAML, or .xlsx")
    parser.add_argument("--blank", metavar="FILE", type=Path, help="write the form of a record instead: .json, .yaml or .xlsx")
    parser.add_argument("--state", metavar="STATE", default="", help="of the blank form: the state that is inspected")
    parser.add_argument("--out", metavar="FOLDER", type=Path, help="write here instead of beside the docket, and leave the register alone")
    parser.add_argument("--look", action="store_true", help="compare and print, and write nothing")
    parser.add_argument("--json", action="store_true", help="print the comparison as JSON")


def close(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up
    from liftout.cli.telling import telling
    from liftout.identity.digests import digests
    from liftout.identity.resolved import as_carried
    from liftout.job import load

    if bool(asked.records) == bool(asked.blank):
        print("Give the records to close, or --blank FILE for the form of one.", file=sys.stderr)
        return Exit.MISTYPED
    with giving_up(), telling() as step:
        step("reading the job")
        job = as_carried(load(asked.job))
        step("assessing")
        before = assess(job, remedies=False)
        sums = digests(before)
        if asked.blank:
            return _blank(asked, before, sums)
        closed, folder = _closed(asked, job, before, sums, step)
    _print(closed, folder, as_json=asked.json)
    if closed.failing:
        return Exit.DOES_NOT_CONFORM
    return Exit.OPEN if closed.open else Exit.CLEAR


def _closed(asked: Namespace, job: Job, before: Assessment, sums: Digests, step: Callable[[str], None]) -> tuple[Closed, Path | None]:
    """The comparison, and the folder that it was written to; none where it was only looked at."""
    from liftout.cli.exits import Exit
    from liftout.records.as_fitted import closed, handed_in
    from liftout.records.issued import NotIssued
    from liftout.records.register import RegisterError, jobs_folder
    from liftout.records.registered import next_number

    step("reading the records")
    records = [handed_in(file) for file in asked.records]
    papers = job.document.papers
    try:
        count = next_number(jobs_folder(job.file), papers.number, papers.revision, [record.digest for record in records])
        step("comparing, and assessing again with what was measured")
        made = closed(job, before, sums, records, count)
        if asked.look:
            return made, None
        return made, _written(asked, made, sums, step)
    except (NotIssued, RegisterError) as reason:
        print(str(reason), file=sys.stderr)
        raise SystemExit(Exit.MISTYPED) from None


def _written(asked: Namespace, made: Closed, sums: Digests, step: Callable[[str], None]) -> Path:
    from liftout.cli.exits import Exit
    from liftout.documents import kept_papers
    from liftout.documents.document import DocumentError
    from liftout.identity.digests import digests
    from liftout.records.as_fitted_docket import photographs, place_of, refuse_repeated
    from liftout.records.as_fitted_inside import carried
    from liftout.records.as_fitted_paper import papers
    from liftout.records.embed import carrying
    from liftout.records.issued import issue
    from liftout.records.registered import claim_as_fitted

    folder = asked.out or place_of(made)
    if not asked.out:
        refuse_repeated(made, sums)
    after = digests(made.after)
    step("writing the record")
    inside = carried(made, after)
    numbers = made.after.job.document.papers
    try:
        return issue(
            carrying(papers(made, after), inside),
            (*inside, *photographs(made)),
            folder,
            f"As-fitted record {numbers.number} revision {numbers.revision}",
            step,
            (lambda: None) if asked.out else lambda: claim_as_fitted(made, folder),
            kept_papers.folder(),
        ).folder
    except DocumentError as error:
        print(f"{error}\nNothing was written.", file=sys.stderr)
        raise SystemExit(Exit.UNREADABLE) from None


def _print(made: Closed, folder: Path | None, *, as_json: bool) -> None:
    from liftout.records.acceptance import Standing
    from liftout.records.as_fitted_paper import as_data, open_items, reissued

    if as_json:
        print_json(as_data(made))
        return
    first = made.records[0].told
    print(f"{first.job} revision {first.revision}, as fitted: {', '.join(dict.fromkeys(record.told.state for record in made.records))}")
    print(", ".join(f"{count} {standing}" for standing in Standing if (count := sum(one.standing is standing for one in made.lines))))
    for changed in (one for one in made.changed if one.verdict):
        finding = changed.after or changed.before
        assert finding is not None
        now = changed.after.sentence if changed.after else "there is no such finding any more."
        subject = ", ".join(part for part in (finding.subject, finding.state) if part)
        print("  " + styled("another conclusion", "yellow") + f"  {finding.title}, {subject}: {now}")
    figures = sum(not one.verdict for one in made.changed)
    if figures:
        print(f"  {figures} findings have other figures and the same conclusion; the record lists them.")
    for what, where, why in open_items(made):
        print("  " + styled("open", "yellow") + f"  {what}, {where}: {why}")
    if made.reissue:
        print(reissued(made))
    print(f"{made.open} open." if made.open else "Nothing is open in this record.")
    print(str(folder) if folder else "Nothing was written.")
    print("Whether the aircraft may fly is for a licensed person and the authority to decide.")


def _blank(asked: Namespace, before: Assessment, sums: Digests) -> int:
    from liftout.cli.exits import Exit
    from liftout.facts.states import everything_in
    from liftout.job import Fault, JobError
    from liftout.records.as_fitted_docket import write_blank

    names = [state.name for state in before.facts.states]
    state = asked.state or everything_in(before.facts.states).name
    if state not in names:
        print(f'There is no state "{state}". Write one of: {", ".join(names)}.', file=sys.stderr)
        return Exit.MISTYPED
    try:
        write_blank(asked.blank, before, sums, state)
    except FileExistsError:
        raise JobError([Fault(asked.blank.name, 1, 1, (), "is there already; it was left as it is.", "Name another file.")]) from None
    except OSError as error:
        raise JobError([Fault(asked.blank.name, 1, 1, (), f"cannot be written: {error.strerror}.", "Name another place.")]) from None
    print(f"{asked.blank}\nThe form of a record for the state {state}; lines that stay empty count as missing.")
    return Exit.CLEAR
