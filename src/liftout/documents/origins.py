"""Where printed numbers come from, as pages that only the site has: the job line by line, and the rows of published tables.

The papers name an origin in words. A screen can lead there, so the site shows what stands there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from html import escape
from typing import TYPE_CHECKING, Final

from liftout.documents.chapters.publications import ACCEPTANCE
from liftout.documents.document import OnScreen
from liftout.identity.resolved import JOB, resolved_yaml
from liftout.job import Said
from liftout.tables import Row, table

if TYPE_CHECKING:
    from liftout.documents.chapters.matter import Matter

_NAMED: Final = re.compile(r"\[([a-z_]+: [^\]]+)\]")
"""A row of a table, as origins name it."""


def on_screen(matter: Matter) -> tuple[OnScreen, ...]:
    """The pages that numbers of this docket lead to."""
    return (_job_lines(matter), _table_rows(matter))


# --- the job, line by line -----------------------------------------------------------------------------------


def _job_lines(matter: Matter) -> OnScreen:
    job = matter.assessment.job
    lines = resolved_yaml(job).splitlines()
    # Papers name these lines only where the job was laid out at them, as it is when a docket is issued.
    carried = {node.file for node in _nodes(job.said)} == {JOB}
    anchors = {f"{JOB}:{number}": f"line-{number}" for number in range(1, len(lines) + 1)} if carried else {}
    shown = "".join(f'<li id="line-{number}"><code>{escape(line)}</code></li>' for number, line in enumerate(lines, 1))
    content = (
        f"<p>The job of this docket as its file {JOB} holds it, with what it takes from catalogue and shop written out. "
        f'Papers name these lines: "{JOB}:12" is line 12.</p><ol class="lines">{shown}</ol>'
    )
    return OnScreen("job_lines", "The job, line by line", content, anchors)


def _nodes(said: Said) -> Iterator[Said]:
    yield said
    for _, node in said.children():
        yield from _nodes(node)


# --- rows of published tables --------------------------------------------------------------------------------


def _table_rows(matter: Matter) -> OnScreen:
    findings, worked = matter.assessment.findings, matter.assessment.worked
    steps = [step for sheets in ([one.steps for one in findings], [one.steps for one in worked]) for lines in sheets for step in lines]
    origins = [text for step in steps for text in (step.origin, *(row.origin for row in step.rows))]
    named = {name for text in origins for name in _NAMED.findall(text)}
    used = sorted({*ACCEPTANCE, *named, *(row for finding in findings for row in finding.rows_used)})
    anchors = {identity: f"row-{number}" for number, identity in enumerate(used, 1)}
    rows = [_row(identity) for identity in used]
    for row in rows:
        anchors.setdefault(row.citation, anchors[row.identity])
    content = (
        "<p>The rows of published tables that this docket uses: what stands in each, where it was published, and how it was read.</p>"
        f"{''.join(_shown(row, anchors[row.identity]) for row in rows)}"
    )
    return OnScreen("table_rows", "Rows of published tables", content, anchors)


def _row(identity: str) -> Row:
    name, _, key = identity.partition(": ")
    return table(name).row(key)


def _shown(row: Row, anchor: str) -> str:
    source = row.source
    confirmed = f", confirmed by {row.confirmed.name}, {row.confirmed.date}" if row.confirmed else ""
    pairs: Sequence[tuple[str, str]] = (
        *((cell.meaning, cell.text or "the source gives none") for cell in row.cells.values()),
        *((("Note", row.note),) if row.note else ()),
        ("Publication", ", ".join(part for part in (source.name, source.title, source.publisher) if part)),
        ("Edition", source.edition or "none"),
        ("Place", source.place),
        ("What it is", source.kind),
        ("How it was read", f"{row.read}{confirmed}"),
    )
    told = "".join(f"<div><dt>{escape(label)}</dt> <dd>{escape(words)}</dd></div>" for label, words in pairs)
    return f'<section class="row" id="{anchor}"><h2>{escape(row.identity)}</h2><dl class="fields">{told}</dl></section>'
