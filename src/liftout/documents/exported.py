"""Tables of the papers for a spreadsheet: each with the number that it carries in its paper, and the findings as one more."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from liftout.documents.blocks import Checklist, Table, plain, slug
from liftout.documents.document import Document, item_numbers, numbered
from liftout.findings import Finding


class Exported(NamedTuple):
    """One table: what its file is called, what it is, and its cells as text."""

    name: str
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


FINDINGS_HEAD = ("criterion", "subject", "state", "case", "verdict", "value", "", "limit", "margin", "sources")
LINES_HEAD = ("line", "item", "where", "method", "acceptance", "measured", "initials")


def tables(documents: Iterable[Document], findings: Iterable[Finding]) -> Iterator[Exported]:
    """Every numbered table and every checklist of the papers, in their order, and the findings."""
    for document in documents:
        for number, chapter in enumerate(document.chapters, 1):
            for found in numbered(number, chapter.blocks):
                match found.block:
                    case Table(head, rows, _, caption) if caption:
                        cells = tuple(tuple(map(plain, row)) for row in rows)
                        yield Exported(_name(document, found.number.removeprefix("Table "), caption), caption, tuple(map(plain, head)), cells)
                    case Checklist(rows):
                        lines = tuple(
                            (line, row.item, row.where, row.method, row.acceptance, "", "")
                            for line, row in zip(item_numbers(found.number, rows), rows, strict=True)
                        )
                        yield Exported(_name(document, found.number, chapter.title), chapter.title, LINES_HEAD, lines)
    yield Exported("findings", "Findings", FINDINGS_HEAD, tuple(map(_finding, findings)))


def _name(document: Document, number: str, title: str) -> str:
    """File name: paper, number in it, and what it is."""
    return f"{document.key}-{number}-{slug(title)[:40].rstrip('-')}"


def _finding(finding: Finding) -> tuple[str, ...]:
    margin = finding.margin.text if finding.margin else ""
    return (
        finding.criterion,
        finding.subject,
        finding.state,
        finding.particulars,
        str(finding.verdict),
        finding.value_text,
        finding.relation,
        finding.limit_text,
        margin,
        "; ".join(finding.sources),
    )


def sheet_name(name: str, taken: Iterable[str]) -> str:
    """A name for a sheet of a workbook: 31 characters, none of them a bracket or a stroke, and no other sheet's."""
    short = re.sub(r"[\[\]:*?/\\]", " ", name)[:31]
    used, count = set(taken), 1
    while short in used:
        count += 1
        short = f"{short[: 30 - len(str(count))]} {count}"
    return short
