"""The last page: what went into the aircraft and was opened, counted out and in again."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from liftout.criteria.removability.removal_steps import WAYS_IN
from liftout.documents.chapters.continued import work_tools
from liftout.documents.chapters.matter import Matter, Values
from liftout.documents.chapters.parts import caps
from liftout.documents.chapters.said import BLANK, NOT_SAID, NOTHING
from liftout.documents.holds import hold
from liftout.facts import Facts

OWN_ROWS = 2
"""Rows left for what the fitter brings or opens besides."""


def count(matter: Matter) -> Values:
    """What the chapter prints."""
    facts = matter.facts
    return {
        "tools": _side_by_side(_counted([*tools(facts), *_own("tool")])),
        "blanks": [
            (number, f"{BLANK if closed.startswith(NOT_SAID) else closed}: {what.partition(' (')[0]}, {where}", BLANK, BLANK)
            for number, what, where, closed in caps(facts)
        ],
        "panels": _counted([*panels(facts), *_own("panel")]),
        "hold": hold("tools, blanks and panels counted", "each line of this page, and the inside of each panel before it was closed"),
    }


def tools(facts: Facts) -> tuple[str, ...]:
    """Tools by name: those of the removal steps, those that the chapters use, the instruments of the tests."""
    named = [tool for out in facts.removals for tool in out.tools if tool != "none"]
    return tuple(dict.fromkeys([*named, *work_tools(facts)]))


def panels(facts: Facts) -> tuple[str, ...]:
    """Panels, doors, covers and hatches that a removal step opens or closes."""
    return tuple(dict.fromkeys(found[2] for out in facts.removals for step in out.steps if (found := WAYS_IN.match(step.value.lower()))))


def _own(kind: str) -> Iterator[str]:
    yield from (f"{kind} besides: {BLANK}" for _ in range(OWN_ROWS))


def _side_by_side(rows: list[tuple[str, str, str]]) -> list[tuple[str, ...]]:
    """Two rows in each, so that the whole count stands on one page."""
    left, right = rows[: (len(rows) + 1) // 2], rows[(len(rows) + 1) // 2 :]
    return [(*one, *other) for one, other in zip_longest(left, right, fillvalue=(NOTHING,) * 3)]


def _counted(names: list[str]) -> list[tuple[str, str, str]]:
    return [(name, BLANK, BLANK) for name in names]
