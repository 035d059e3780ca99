"""The summary of a fleet as one page: it opens from a folder, with no network and no script."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from typing import TYPE_CHECKING, Final

from liftout.findings import Verdict
from liftout.fleet.checked import FAILS, WORDS

if TYPE_CHECKING:
    from liftout.fleet.summary import Summary

_STYLE: Final = """
:root { color-scheme: light dark; }
body { font: 1rem/1.45 system-ui, sans-serif; margin: 1.5rem auto; max-width: 72rem; padding: 0 1rem; }
h1 { font-size: 1.5rem; margin-bottom: .3rem; }
h2 { font-size: 1.15rem; margin-top: 2.2rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: .92rem; }
caption { text-align: left; padding-bottom: .4rem; }
th, td { border-bottom: 1px solid #8886; padding: .3rem .7rem .3rem 0; text-align: left; vertical-align: top; }
td.number, th.number { text-align: right; font-variant-numeric: tabular-nums; }
td.bad { font-weight: 700; }
pre { white-space: pre-wrap; margin: 0; font-size: .88rem; }
@media print { body { max-width: none; } a { color: inherit; } }
"""
_NUMERIC: Final = {"conforms", "does not conform", "refer", "not assessed", "not applicable", "to act on", "findings", "jobs"}


def page(summary: Summary, *, against: bool = False, issued: bool = False) -> Iterator[str]:
    """The page, piece by piece.

    Args:
        summary: of the fleet.
        against: whether dockets were checked again, and what changed is told.
        issued: whether dockets were written.
    """
    from liftout.fleet.summary import CHANGES, DATA, JOBS, MARGINS, job_cells

    total = sum(summary.standings.values())
    yield f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>{total} jobs</title>\n'
    yield f'<meta name="viewport" content="width=device-width, initial-scale=1">\n<style>{_STYLE}</style>\n</head>\n<body>\n<main>\n'
    yield f"<h1>{total} {'job' if total == 1 else 'jobs'}</h1>\n"
    yield f"<p>{escape(summary.sentence)}.</p>\n"
    yield "<p>Computed against the sources that each docket names; whether an aircraft may fly is for a licensed person and the authority to decide. "
    files = (JOBS, MARGINS, *((CHANGES,) if against else ()), DATA)
    links = ", ".join(f'<a href="{name}">{name}</a>' for name in files)
    yield f"The same as files: {links}.</p>\n"
    faults = [(shown, result.fault) for shown, result in summary.faults()]
    if faults:
        yield from _table("Not checked", "Jobs that cannot be read, or at which the program broke.", ("job", "fault"), faults, whole=True)
    if against:
        changes = list(summary.changes())
        told = "Findings of dockets in use that come out otherwise today." if changes else "No finding of a docket in use comes out otherwise today."
        yield from _table("What changed since the dockets were issued", told, ("docket", "finding", "before", "now"), changes)
    if issued:
        written = ((shown, folder or f"not issued: {why}") for shown, folder, why in summary.dockets())
        yield from _table("Dockets", "Each lies below the folder of its job.", ("job", "docket"), written)
    head = ("job", "standing", "docket", "aircraft", "serial number", *(str(one) for one in Verdict), "to act on")
    rows = ((cells[0], cells[1], f"{cells[2]} {cells[3]}".strip(), *cells[5:-1]) for cells in (job_cells(*one) for one in summary.jobs()))
    yield from _table("Jobs", "What needs most stands first.", head, rows)
    waiting = ((title, criterion, verdict, str(jobs), str(findings)) for criterion, title, verdict, findings, jobs in summary.waiting())
    yield from _table("To act on", "What most jobs share stands first.", ("requirement", "criterion", "verdict", "jobs", "findings"), waiting)
    least = ((kind, title, criterion, margin, verdict, shown) for kind, criterion, title, shown, margin, verdict in summary.criteria())
    note = (
        f"Of each criterion the job with the least left, worst first. Margins of one kind are ranked, and no others. Every job stands in {MARGINS}."
    )
    yield from _table("Least left", note, ("kind of margin", "requirement", "criterion", "margin", "verdict", "job"), least)
    yield "</main>\n</body>\n</html>\n"


def _table(title: str, caption: str, head: Sequence[str], rows: Iterable[Sequence[str]], *, whole: bool = False) -> Iterator[str]:
    yield f'<h2>{escape(title)}</h2>\n<div class="wide" tabindex="0" role="region" aria-label="{escape(title)}">\n<table>\n'
    yield f"<caption>{escape(caption)}</caption>\n<thead><tr>"
    yield from (f'<th scope="col"{_number(name)}>{escape(name)}</th>' for name in head)
    yield "</tr></thead>\n<tbody>\n"
    for row in rows:
        yield f"<tr>{''.join(_cell(name, cell, whole=whole and place > 0) for place, (name, cell) in enumerate(zip(head, row, strict=True)))}</tr>\n"
    yield "</tbody>\n</table>\n</div>\n"


def _cell(name: str, text: str, *, whole: bool) -> str:
    kind = _number(name) or (' class="bad"' if text == WORDS[FAILS] else "")
    return f"<td{kind}>{f'<pre>{escape(text)}</pre>' if whole else escape(text)}</td>"


def _number(name: str) -> str:
    return ' class="number"' if name in _NUMERIC else ""
