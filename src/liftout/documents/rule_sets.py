"""Rule sets: which publications each authority's questions were taken from, which edition was seen, and how it was read."""

from __future__ import annotations

from liftout.tables import Row, table

rule_sets = table("rule_sets")
HEAD = ("Publication", "Edition or date that was seen", "How it was read")


def rules_of(authority: str) -> list[tuple[str, str, str]]:
    """The publications of an authority, a row of the printed table each."""
    return [(f"{row.source.name}, {row.source.place}", row.edition.text, how_read(row)) for row in rule_sets if row.authority.text == authority]


def how_read(row: Row) -> str:
    """How a row was read, in print, with what is noted of it."""
    reading = "read in a stored copy" if row.read == "stored copy" else f"{row.read}, to confirm"
    return f"{reading}. {row.note}" if row.note else reading
