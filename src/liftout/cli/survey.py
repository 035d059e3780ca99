"""`liftout survey`: one walk round the aircraft for everything that is missing or merely stated, and the way back into the job file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from liftout.cli.terminal import styled

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Sequence

    from liftout.assessment import Assessment
    from liftout.records.survey import Ask


def arguments(parser: ArgumentParser) -> None:
    """List what JOB does not say or merely states, by its place on the aircraft; or enter a filled sheet."""
    parser.add_argument("job", metavar="JOB", type=Path, help="job file")
    parser.add_argument("--sheet", metavar="FILE", type=Path, help="write a sheet to fill in; a file that is there is not touched")
    parser.add_argument("--enter", metavar="FILE", type=Path, help="enter what is written on a sheet into the job file")
    parser.add_argument("--json", action="store_true", help="print what is asked as JSON")


def survey(asked: Namespace) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up
    from liftout.job import load
    from liftout.records.exclusive import NotWritten, write_text
    from liftout.records.survey import asks, by_tool, sheet

    with giving_up():
        assessment = assess(load(asked.job), remedies=False)
        try:
            if asked.enter is not None:
                return _enter(asked.job, asked.enter, assessment)
            if asked.sheet is not None:
                rows = by_tool(asks(assessment))
                write_text(asked.sheet, sheet(assessment, rows))
                count = sum(one.blank for one in rows)
                print(f"{asked.sheet}: {count} {'value' if count == 1 else 'values'} to find.")
                print(f"Enter what was found with: liftout survey {asked.job} --enter {asked.sheet}")
                return Exit.CLEAR
        except NotWritten as error:
            print(error, file=sys.stderr)
            return Exit.UNREADABLE
    found = by_tool(asks(assessment))
    if asked.json:
        import json

        told = [{"place": one.place, "key": list(one.path), "what": one.what, "like": one.like, "tool": one.tool, "stated": one.now} for one in found]
        print(json.dumps(told, indent=2, ensure_ascii=False))
    else:
        _print(found)
    return Exit.OPEN if found else Exit.CLEAR


def _print(found: Sequence[Ask]) -> None:
    place = ""
    for one in found:
        if one.place != place:
            place = one.place
            print(styled(f"\n{place[:1].upper()}{place[1:]}", "bold"))
        print(f"  {' / '.join(one.path)}")
        print(f"      {one.what}{f', for example {one.like}' if one.like else ''}{f'; {one.tool}' if one.tool else ''}")
        if one.now:
            print(f"      merely stated so far: {one.now}")
    blanks = sum(one.blank for one in found)
    print(
        f"\n{blanks} to find, {len(found) - blanks} parts to describe."
        if found
        else "Nothing is missing, and no finding rests on a value that is merely stated."
    )


def _enter(job: Path, filled: Path, before: Assessment) -> int:
    from liftout.assessment import assess
    from liftout.cli.exits import standing
    from liftout.job import load
    from liftout.job.reader import read_file
    from liftout.records.survey import enter

    for path in enter(read_file(filled, filled.name), filled.name, before):
        print(f"entered: {path}")
    after = assess(load(job), remedies=False)
    print(", ".join(f"{count} {verdict}" for verdict, count in after.counts.items() if count))
    return standing(after)
