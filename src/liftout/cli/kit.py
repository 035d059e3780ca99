"""`liftout kit`: what is in the box of a job, or what to buy for several."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from liftout.records.purchase import Bought


def arguments(parser: ArgumentParser) -> None:
    """List the kit of JOB, or the purchase list of several: their kits summed, with no stock taken off and no scrap added."""
    parser.add_argument("job", metavar="JOB", nargs="+", type=Path, help="job file; of several the kits are summed")
    parser.add_argument("--json", action="store_true", help="print the list for a program; `liftout schema kit` describes it")
    parser.add_argument("--csv", metavar="FILE", type=Path, help="write the list as CSV for a spreadsheet; a file that is there is not touched")


def kit(asked: Namespace) -> int:
    import sys

    from liftout.assessment import assess
    from liftout.cli.exits import Exit, giving_up
    from liftout.documents.chapters.matter import Matter
    from liftout.documents.kit import as_csv, whole_kit
    from liftout.identity.digests import digests
    from liftout.job import load
    from liftout.records.exclusive import NotWritten, write_text
    from liftout.records.purchase import HEAD, summed

    kits = []
    with giving_up():
        for job in asked.job:
            assessment = assess(load(job), remedies=False)
            kits.append((assessment.job.document.papers.number, whole_kit(Matter(assessment, digests(assessment)))))
    twice = [number for number in dict.fromkeys(number for number, _ in kits) if [number for number, _ in kits].count(number) > 1]
    if twice:
        print(f"{', '.join(twice)} is given twice: its kit would be counted twice. Name each job once.", file=sys.stderr)
        return Exit.MISTYPED
    found = summed(kits)
    if asked.json:
        from liftout.cli.as_json import print_json
        from liftout.records.purchase import as_data

        print_json(as_data([number for number, _ in kits], found))
        if asked.csv is None:
            return Exit.CLEAR
    if asked.csv is not None:
        try:
            write_text(asked.csv, as_csv(HEAD, [bought.cells for bought in found]))
        except NotWritten as error:
            print(error, file=sys.stderr)
            return Exit.UNREADABLE
        if asked.json:
            return Exit.CLEAR
        print(f"{asked.csv}: {len(found)} lines.")
    else:
        _print(found)
    lacking = [bought for bought in found if bought.open]
    print(
        f"\n{len(lacking)} of {len(found)} lines have no count or no length for a part of them; "
        "no stock is taken off, and no scrap, spare or size of sale is added."
    )
    return Exit.CLEAR


def _print(found: list[Bought]) -> None:
    from liftout.cli.terminal import styled

    section = ""
    for bought in found:
        if bought.section != section:
            section = bought.section
            print(styled(f"\n{section[:1].upper()}{section[1:]}", "bold"))
        _, what, part, pieces, total, unit, cuts, serves, lacking = bought.cells
        much = ", ".join(words for words in (f"{pieces} x" if pieces else "no count", f"{total} {unit}" if total else "") if words)
        print(f"  {much}: {what}{f' [{part}]' if part else ''}")
        if cuts:
            print(f"      cut as {cuts}")
        print(f"      for {serves}")
        if lacking:
            print(f"      open: {lacking}")
