"""`liftout fleet`: many jobs checked, on all cores or on a cluster, and told on one page."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.fleet.run import Task
    from liftout.fleet.spread import Crew
    from liftout.fleet.summary import Summary

INTERRUPTED = 130
"""What a command ends with that a person stopped (common practice, no source)."""
RESULTS = "results"
"""The folder of kept results, in the folder of the summary."""


def arguments(parser: ArgumentParser) -> None:
    """Check every job of the jobs FOLDERs on all cores, and write one page, tables and data about all of them."""
    parser.add_argument("folders", metavar="FOLDER", type=Path, nargs="+", help="jobs folder: every job.yaml one folder below it")
    parser.add_argument("--out", metavar="FOLDER", type=Path, default=Path("fleet"), help="where summary and results lie; fleet without it")
    parser.add_argument("--workers", metavar="COUNT", type=int, help="how many jobs at a time; as many as there are cores without it")
    parser.add_argument("--strict", action="store_true", help="count open items like failures: end with 1 instead of 3")
    parser.add_argument("--issue", action="store_true", help="write the docket of every job too")
    parser.add_argument("--theme", metavar="FOLDER", type=Path, help="with --issue: dockets share fonts, styles and scripts of their sites, there")
    parser.add_argument(
        "--issued", action="store_true", help="check the dockets in use again instead, and list what comes out otherwise, after a correction say"
    )
    parser.add_argument("--differences", metavar="KIT", help="check nothing: print in which facts of their own the sisters of kits/KIT differ")
    parser.add_argument("--csv", metavar="FILE", type=Path, help="write the differences as CSV; a file that is there is not touched")
    parser.add_argument("--cluster", metavar="ADDRESS", help="check on the workers of a dask cluster, whose scheduler is there (extra fleet)")
    for name, meaning in (("ca", "certificate of the authority"), ("cert", "certificate of this client"), ("key", "its private key")):
        parser.add_argument(f"--tls-{name}", metavar="FILE", type=Path, help=f"of an encrypted cluster: {meaning}")


def fleet(asked: Namespace) -> int:
    for folder in asked.folders:
        if not folder.is_dir():
            _stop(f"{folder} is no folder. Give a jobs folder, which holds a folder for each job.")
    if asked.csv is not None and asked.differences is None:
        _stop("--csv belongs to --differences; what is checked is written as CSV in any case.")
    if asked.differences is not None:
        from liftout.cli.differences import print_differences

        return print_differences(asked)
    if asked.issue and (asked.cluster or asked.issued):
        _stop("--issue writes dockets beside the jobs of this machine: leave --cluster and --issued out.")
    if asked.theme and not asked.issue:
        _stop("--theme belongs to --issue: it says where the dockets have what their sites share.")
    if asked.workers is not None and asked.workers < 1:
        _stop(f"{asked.workers} workers check nothing. Give 1 or more.")
    return _checked(asked)


def _checked(asked: Namespace) -> int:
    import sqlite3

    from liftout.cli.exits import Exit
    from liftout.fleet.checked import OtherProgram, worst
    from liftout.fleet.cluster import NotReached
    from liftout.fleet.summary import Summary
    from liftout.records.exclusive import NotWritten
    from liftout.records.register import RegisterError

    summary = Summary()
    try:
        tasks = _tasks(asked)
        with _crew(asked) as crew:
            again = _run(asked, tasks, crew, summary)
        summary.write(asked.out, against=asked.issued, issued=asked.issue)
    except KeyboardInterrupt:
        print("Stopped. What was checked is kept; the same command goes on from there.", file=sys.stderr)
        return INTERRUPTED
    except NotReached as reason:
        _stop(str(reason))
    except OtherProgram as reason:
        _stop(
            f"A worker of the cluster would not compute the same: its {reason} differs. Install the very same release there; nothing was told of it."
        )
    except (RegisterError, NotWritten) as reason:
        print(reason, file=sys.stderr)
        return Exit.UNREADABLE
    except sqlite3.OperationalError as error:
        print(f"The folder for passing files of this machine cannot be used: {error}. What was checked so far is kept.", file=sys.stderr)
        return Exit.UNREADABLE
    except OSError as error:
        print(f"{error.filename or asked.out} cannot be used: {error.strerror}. What was checked so far is kept.", file=sys.stderr)
        return Exit.UNREADABLE
    _print(asked, summary, again)
    code = summary.code
    summary.close()
    return worst([1 if asked.strict and code == Exit.OPEN else code])


def _tasks(asked: Namespace) -> list[Task]:
    from liftout.fleet.run import jobs_in, task_of

    if asked.issued:
        from liftout.fleet.dockets import issued_before

        found = issued_before(asked.folders)
        for note in found.notes:
            print(styled(note, "yellow") if sys.stderr.isatty() else note, file=sys.stderr)
        if not found.tasks:
            _stop("No docket is in use there; liftout issue writes one.")
        return list(found.tasks)
    tasks = [task_of(shown, file) for shown, file in jobs_in(asked.folders)]
    if not tasks:
        _stop(f"There is no job in {', '.join(map(str, asked.folders))}: no file job.yaml one folder below it.")
    return tasks


@contextmanager
def _crew(asked: Namespace) -> Iterator[Crew]:
    if asked.cluster:
        from liftout.fleet.cluster import Certificates, cluster

        with cluster(asked.cluster, Certificates(asked.tls_ca, asked.tls_cert, asked.tls_key)) as there:
            yield there
    else:
        from liftout.fleet.spread import Cores, cores

        yield Cores(asked.workers or cores())


def _run(asked: Namespace, tasks: list[Task], crew: Crew, summary: Summary) -> int:
    """Check, and issue where that is asked for; how many jobs were not checked again."""
    from liftout.cli.telling import counting
    from liftout.fleet.kept import Kept
    from liftout.fleet.program import this_program
    from liftout.fleet.run import run

    program, again = this_program(), 0
    kept = Kept(asked.out / RESULTS, program)
    with counting(len(tasks), "checking") as step:
        for done in run(tasks, crew, kept, program if asked.cluster else None):
            summary.add(done.shown, done.result)
            again += done.kept
            step()
    if asked.issue:
        from liftout.fleet.dockets import ToIssue, issue_all
        from liftout.fleet.run import jobs_in

        files = dict(jobs_in(asked.folders))
        jobs = (ToIssue(shown, files[shown], result.code, result.digests or {}) for shown, result in list(summary.jobs()))
        with counting(len(tasks), "issuing") as step:
            for shown, written in issue_all(jobs, crew, asked.theme):
                summary.add_docket(shown, written.folder, written.why)
                step()
    return again


def _print(asked: Namespace, summary: Summary, again: int) -> None:
    from liftout.fleet.summary import PAGE

    total = sum(summary.standings.values())
    what = "docket" if asked.issued else "job"
    print(styled(f"{total} {what if total == 1 else what + 's'}: {summary.sentence}.", "bold"))
    if again:
        print(f"{again} of them {'was' if again == 1 else 'were'} not checked again: nothing they are made from has changed.")
    for shown, result in summary.faults():
        print(f"{shown}: {result.fault}", file=sys.stderr)
    if asked.issue:
        for shown, folder, why in summary.dockets():
            print(f"{shown}: {folder}" if folder else f"{shown}: not issued: {why}", file=sys.stdout if folder else sys.stderr)
    if asked.issued:
        _print_changes(summary)
    print(f"{asked.out / PAGE}")
    print("Computed against the sources named; whether an aircraft may fly is for a licensed person and the authority to decide.")


def _print_changes(summary: Summary) -> None:
    heading, count = "", 0
    for shown, finding, was, now in summary.changes():
        if shown != heading:
            heading = shown
            print(styled(f"\n{shown}", "bold"))
        print(f"  {finding}\n      was: {was or 'no such finding'}\n      now: {now or 'no such finding'}")
        count += 1
    print(f"\n{count} {'finding comes' if count == 1 else 'findings come'} out otherwise." if count else "No finding comes out otherwise.")


def _stop(words: str) -> NoReturn:
    from liftout.cli.exits import Exit

    print(words, file=sys.stderr)
    raise SystemExit(Exit.MISTYPED)
