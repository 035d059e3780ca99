"""`liftout criteria`: what is checked, how, and from which source."""

from __future__ import annotations

from typing import Annotated

import typer

_CITATIONS_SHOWN = 8


def criteria(
    name: Annotated[str | None, typer.Argument(metavar="NAME", help="A criterion or a family; all without it.", show_default=False)] = None,
) -> None:
    """List what is checked, or tell one criterion in full."""
    import difflib

    from liftout.cli.exits import Exit
    from liftout.criteria import HEADINGS, all_criteria

    found = [c for c in all_criteria() if name is None or name in (c.id, c.family, c.name)]
    if not found:
        near = difflib.get_close_matches(name or "", [c.id for c in all_criteria()] + [c.name for c in all_criteria()], n=1, cutoff=0.4)
        typer.echo(f'there is no criterion "{name}".' + (f'  Did you mean "{near[0]}"?' if near else ""), err=True)
        raise typer.Exit(Exit.MISTYPED)
    if len(found) > 1:
        width = max(len(c.id) for c in found)
        for each in found:
            typer.echo(f"{each.id:{width}}  {each.documentation['Title']}")
        return
    one = found[0]
    typer.echo(f"{one.id}: {one.documentation['Title']}\n")
    for heading in HEADINGS:
        typer.echo(f"{heading}: {one.documentation[heading]}")
    for table in one.tables:
        typer.echo(f"\nFrom the table {table.name}: {table.meaning}")
        citations = dict.fromkeys(f"{row.citation} ({row.read})" for row in table.rows)
        for citation in citations if len(citations) <= _CITATIONS_SHOWN else ():
            typer.echo(f"  {citation}")
        if len(citations) > _CITATIONS_SHOWN:
            typer.echo(f"  {len(table)} rows with a source each; `liftout check --json` names those that a finding used.")
