"""Change bars: which parts of a document read otherwise than in the revision that it supersedes.

Each part (a heading, a paragraph, a row of a table, a line of a checklist, a step) has a mark of its words and drawings. A
docket keeps the marks of all its parts; the next revision holds its own against them. Line numbers of a job file, numbers of
lines and pages are left out of a mark: what only moved did not change.
"""

from __future__ import annotations

import datetime
import hashlib
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Any, Final

from liftout.documents.blocks import Block, Bullets, Checklist, Heading, Shared, Steps, Table, Tabled, Working
from liftout.documents.document import Bar, Chapter, Document, Revision
from liftout.documents.tabled import table
from liftout.documents.working import common, sheet
from liftout.identity.compared import Comparison

DIGITS: Final = 12
"""Hexadecimal digits of a mark."""
_LINE: Final = re.compile(r"(\.ya?ml):\d+(?::\d+)?")


@dataclass(frozen=True, slots=True)
class Superseded:
    """The revision that a docket takes the place of.

    `marks`: of each document, by chapter, the marks of its parts. `worked_anew`: the marks are not those that were kept when
    it was issued, since it kept none or was never issued; they were made again from its job by this release.
    """

    revision: str
    date: datetime.date
    digest: str
    liftout: str
    revisions: tuple[Revision, ...]
    marks: Mapping[str, Mapping[str, Sequence[str]]]
    comparison: Comparison
    worked_anew: bool = False

    def as_data(self) -> dict[str, Any]:
        """In plain words, as a docket carries it."""
        return {
            "revision": self.revision,
            "date": self.date.isoformat(),
            "digest": self.digest,
            "liftout": self.liftout,
            "revisions": [{"revision": row.number, "date": row.date.isoformat(), "reason": row.reason, "pages": row.pages} for row in self.revisions],
            "marks": self.marks,
            "comparison": self.comparison.as_data(),
            "worked_anew": self.worked_anew,
        }

    @classmethod
    def of_data(cls, said: Mapping[str, Any]) -> Superseded:
        """From plain words; raises TypeError, ValueError or KeyError where they are others than `as_data` gives."""
        return cls(
            str(said["revision"]),
            datetime.date.fromisoformat(said["date"]),
            str(said["digest"]),
            str(said["liftout"]),
            revisions_of(said["revisions"]),
            {str(key): {str(name): [str(mark) for mark in found] for name, found in chapters.items()} for key, chapters in said["marks"].items()},
            Comparison.of_data(said["comparison"]),
            bool(said["worked_anew"]),
        )


def revisions_of(said: Sequence[Mapping[str, str]]) -> tuple[Revision, ...]:
    """Lines of a record of revisions, from plain words; raises as `Superseded.of_data` does."""
    return tuple(Revision(row["revision"], datetime.date.fromisoformat(row["date"]), row["reason"], row["pages"]) for row in said)


def marks(document: Document) -> dict[str, list[str]]:
    """The marks of the parts of a document, by chapter."""
    return {chapter.key: [mark for _, mark in _parts(chapter)] for chapter in document.chapters}


def barred(document: Document, superseded: Superseded) -> Document:
    """The document with a bar at each part that reads otherwise than in the revision that it supersedes."""
    before = superseded.marks.get(document.key, {})
    chapters = tuple(replace(chapter, bars=tuple(_bars(chapter, before.get(chapter.key, ())))) for chapter in document.chapters)
    return replace(document, chapters=chapters)


def _bars(chapter: Chapter, before: Sequence[str]) -> Iterator[Bar]:
    parts = list(_parts(chapter))
    now = [mark for _, mark in parts]
    for kind, _, _, first, end in SequenceMatcher(None, before, now, autojunk=False).get_opcodes():
        if kind in ("replace", "insert"):
            yield from (replace(place, word="changed") for place, _ in parts[first:end])
        elif kind == "delete" and parts:
            place, _ = parts[min(first, len(parts) - 1)]
            yield replace(place, word="removed before" if first < len(parts) else "removed after")


def _parts(chapter: Chapter) -> Iterator[tuple[Bar, str]]:
    """The parts of a chapter in order: the place of each, and its mark."""
    for at, block in enumerate(chapter.blocks):
        for row, said in _within(block):
            yield Bar(at, row), _mark(type(block).__name__, said)


def _within(block: Block) -> Iterator[tuple[int | None, object]]:
    match block:
        case Table(head, rows, alignment, caption):
            yield None, (head, alignment, caption)
            yield from enumerate(rows)
        case Checklist(rows):
            yield from enumerate(replace(row, path=()) for row in rows)
        case Bullets(items) | Steps(_, items):
            yield from enumerate(items)
        case Heading(level, text, _):
            yield None, (level, text)
        case Working(_, titled, _):
            yield None, (titled, sheet(block))
        case Shared():
            yield None, common(block)
        case Tabled():
            found = table(block)
            yield None, (found.kind, found.lines, found.columns, found.summed, found.told, [(row.symbol, row.label, row.unit) for row in found.rows])
            yield from enumerate((replace(one, number=""), [row.values[at] for row in found.rows]) for at, one in enumerate(found.outcomes))
        case _:
            yield None, block


def _mark(kind: str, said: object) -> str:
    return hashlib.sha256(_LINE.sub(r"\1", f"{kind} {said!r}").encode()).hexdigest()[:DIGITS]
