"""`liftout criteria`: what is checked, how, and from which source."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

_CITATIONS_SHOWN = 8


def arguments(parser: ArgumentParser) -> None:
    """List what is checked, or tell one criterion in full."""
    parser.add_argument("name", metavar="NAME", nargs="?", help="a criterion or a family; all without it")


def criteria(asked: Namespace) -> int:
    import difflib

    from liftout.cli.exits import Exit
    from liftout.criteria import HEADINGS, all_criteria

    name: str | None = asked.name
    found = [c for c in all_criteria() if name is None or name in (c.id, c.family, c.name)]
    if not found:
        near = difflib.get_close_matches(name or "", [c.id for c in all_criteria()] + [c.name for c in all_criteria()], n=1, cutoff=0.4)
        print(f'there is no criterion "{name}".' + (f'  Did you mean "{near[0]}"?' if near else ""), file=sys.stderr)
        return Exit.MISTYPED
    if len(found) > 1:
        width = max(len(c.id) for c in found)
        for each in found:
            print(f"{each.id:{width}}  {each.documentation['Title']}")
        return Exit.CLEAR
    one = found[0]
    print(f"{one.id}: {one.documentation['Title']}\n")
    for heading in HEADINGS:
        print(f"{heading}: {one.documentation[heading]}")
    for table in one.tables:
        print(f"\nFrom the table {table.name}: {table.meaning}")
        citations = dict.fromkeys(f"{row.citation} ({row.read})" for row in table.rows)
        for citation in citations if len(citations) <= _CITATIONS_SHOWN else ():
            print(f"  {citation}")
        if len(citations) > _CITATIONS_SHOWN:
            print(f"  {len(table)} rows with a source each; `liftout check --json` names those that a finding used.")
    return Exit.CLEAR
