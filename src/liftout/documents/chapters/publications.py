"""Publications and editions that findings and acceptance values rest on."""

from __future__ import annotations

from typing import Final

from liftout.documents.chapters.matter import Matter, Values
from liftout.tables import Row, table

ACCEPTANCE: Final = (
    *("bonding_limits: equipment frame to structure", "bonding_limits: bonding jumper connection", "bonding_limits: static bond of an isolated part"),
    "bonding_limits: radio equipment bond",
    *("clearances: wire above a flammable or oxygen line", "clearances: wire near a line", "clearances: wire near a movable control"),
    *("clearances: line near a flexible moving control", "clearances: line near a rigid moving control"),
    *("line_supports: flexible hose", "line_conditions: hose slack", "compass_limits: swing", "cabin_air_limits: carbon monoxide"),
)
"""Rows that chapters of the manual and the checklist print as acceptance values."""


def publications(matter: Matter) -> Values:
    """What the chapter prints."""
    used = [_row(identity) for identity in sorted({row for finding in matter.assessment.findings for row in finding.rows_used})]
    acceptance = [_row(identity) for identity in ACCEPTANCE]
    sources = {row.source.publication: row.source for row in (*used, *acceptance)}
    return {
        "publications": [
            (source.name, source.title, source.publisher, source.edition or "none", source.kind) for _, source in sorted(sources.items())
        ],
        "rows": [_line(row) for row in used],
        "acceptance": [_line(row) for row in acceptance],
    }


def _row(identity: str) -> Row:
    name, _, key = identity.partition(": ")
    return table(name).row(key)


def _line(row: Row) -> tuple[str, str, str]:
    confirmed = f", confirmed by {row.confirmed.name}, {row.confirmed.date}" if row.confirmed else ""
    return (row.identity, row.citation, f"{row.read}{confirmed}")
