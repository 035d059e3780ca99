"""The inspector's checklist as a page that is filled in, on the site and as one file.

Every line stands in it as the paper has it, by the same number and from the same blocks. What was found is put in by a
person and never by the page; what the person wrote leaves it as a file, which `liftout close` compares with the docket.
Nothing is computed here.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from html import escape
from typing import TYPE_CHECKING, Final

from liftout.documents import templating
from liftout.documents.blocks import Block, Checklist, ChecklistRow, Heading, Signature
from liftout.documents.document import Attachment, Chapter, item_numbers, numbered
from liftout.documents.html import block_html, written_in
from liftout.documents.one_file import identity, in_language, in_words, on_the_site, one_file, with_data, words_of
from liftout.documents.wording import ENGLISH, chapter_in, numbered_as

if TYPE_CHECKING:
    from liftout.documents.chapters.matter import Matter

CHECKLIST_LINE: Final = "checklist line"
"""Stands before the number of a line of the checklist where another paper names it; the site makes a link of it."""
SCRIPTS: Final = ("checklist.js",)
STYLES: Final = ("checklist.css",)
REFERENCE: Final = "Reference"
WAIT: Final = (
    "This checklist is filled in by a script of its own. While this line stays, scripts are switched off or still being read: "
    "use the printed checklist."
)
SHARED_WORDS: Final = (
    *(
        "No.",
        "Date",
        "Result",
        "This inspection",
        "State inspected",
        "Serial number, as read on the data plate",
        "Total time of the aircraft",
        "LOCKED",
    ),
    *("conforms", "does not conform", "not applicable", "its data is not what was written", "its data cannot be read ({fault})"),
    "{model}, registration {registration}, serial number {serial_number}",
)
"""Words of the page that other papers and pages have too."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the checklist with its number, chapter and item: "3-12"."""

    number: str
    row: ChecklistRow


@dataclass(frozen=True, slots=True)
class LiveChecklist:
    """The checklist of a docket on a screen.

    Attributes:
        part: what stands on its page of the site, below the chapter's words.
        file: the whole page as one file.
        lines: how many lines it has.
    """

    part: str
    file: Attachment
    lines: int

    @property
    def digest(self) -> str:
        """SHA-256 of the file."""
        return hashlib.sha256(self.file.content).hexdigest()


def live_checklist(matter: Matter, chapters: Sequence[Chapter]) -> LiveChecklist:
    """The checklist of a docket on a screen.

    Args:
        matter: the docket.
        chapters: of the checklist, from the first on, as the paper has them.
    """
    lines = [line for position, chapter in enumerate(chapters, 1) for line in lines_of(position, chapter)]
    words = words_of(matter.language, "checklist", SHARED_WORDS)
    data = {
        **identity(matter),
        "states": [[state.name, in_language(state.name, matter)] for state in matter.facts.states],
        "lines": lines_digest(lines),
        "count": len(lines),
        **({"words": words} if words else {}),
    }
    with written_in(matter.language):
        box = with_data("check", _box(matter, [_in_its_language(chapter, matter) for chapter in chapters]), data)
        cautions = "".join(map(block_html, in_words(templating.chapter("shared/checklist_cautions.md.j2"), matter)))
    content = one_file(matter, "Inspector's checklist", "check", f"{cautions}\n{box}", STYLES, SCRIPTS)
    file = Attachment(f"{matter.papers.number}-checklist.html", "text/html", "the checklist as one file", "supplement", content)
    return LiveChecklist(on_the_site(box, STYLES, SCRIPTS), file, len(lines))


def lines_digest(lines: Sequence[Line]) -> str:
    """SHA-256 of what stands on the lines: entries that were made on other lines are told from entries on these."""
    told = [[line.number, line.row.item, line.row.where, line.row.method, line.row.acceptance] for line in lines]
    return hashlib.sha256(json.dumps(told, ensure_ascii=False).encode()).hexdigest()


def lines_of(position: int, chapter: Chapter) -> Iterator[Line]:
    """The lines of a chapter, number `position` of the checklist."""
    for found in numbered(position, chapter.blocks):
        if isinstance(found.block, Checklist):
            yield from map(Line, item_numbers(found.number, found.block.rows), found.block.rows)


# --- the page -----------------------------------------------------------------------------------------------------


def _in_its_language(chapter: Chapter, matter: Matter) -> Chapter:
    wording = matter.wording.of_paper("checklist")
    shops_own = ("checklist", chapter.key) in matter.own_chapters
    return chapter if matter.language == ENGLISH else chapter_in(wording.of_the_shop if shops_own else wording, chapter)


def _box(matter: Matter, chapters: Sequence[Chapter]) -> str:
    """Every chapter of the checklist, with lines or without; the script puts fields beside the lines."""
    inside = "".join(_chapter(position, chapter, matter) for position, chapter in enumerate(chapters, 1))
    signatures = "".join(block_html(block) for chapter in chapters for block in chapter.blocks if isinstance(block, Signature))
    return (
        f'<div class="check" id="check"><p class="check-wait">{in_language(WAIT, matter)}</p>'
        f'{_units(matter)}<div class="check-chapters">{inside}</div><section class="check-signatures">{signatures}</section></div>'
    )


def _units(matter: Matter) -> str:
    """Which unit of each item was fitted: what the job expects, beside room for what its plate says."""
    equipment = matter.assessment.job.document.equipment
    items = "".join(
        f'<fieldset class="check-line" data-unit="{escape(name)}"><legend>{escape(name)}</legend>'
        f"{_said((('Expected part number', item.part_number or ''), ('Expected serial number', item.serial or '')), matter)}</fieldset>"
        for name, item in equipment.items()
    )
    return f'<details class="check-units"><summary><h2>{in_language("Units fitted", matter)}</h2></summary>{items}</details>' if items else ""


def _chapter(position: int, chapter: Chapter, matter: Matter) -> str:
    # Signatures stand once, below all chapters.
    blocks = "".join(
        _block(found.block, numbered_as(found.number, matter.language), matter)
        for found in numbered(position, chapter.blocks)
        if not isinstance(found.block, Signature)
    )
    kind = "check-chapter" if any(isinstance(block, Checklist) for block in chapter.blocks) else "check-reading"
    return f'<details class="{kind}"><summary><h2><span class="number">{position}</span> {escape(chapter.title)}</h2></summary>{blocks}</details>'


def _block(block: Block, number: str, matter: Matter) -> str:
    match block:
        case Checklist(rows):
            return "".join(_line(at, row, matter) for at, row in zip(item_numbers(number, rows), rows, strict=True))
        case Heading(level, _, anchor):
            return block_html(replace(block, level=level + 1, anchor=f"check-{number.replace('.', '-')}-{anchor}"), number)
        case _:
            return block_html(block, number)


def _line(number: str, row: ChecklistRow, matter: Matter) -> str:
    """A line with what is expected or accepted; its fields are made when the page opens, and are empty."""
    marks = [word for word, holds in (("HOLD POINT", row.hold), ("SECOND PERSON", row.second_person)) if holds]
    tags = "".join(f'<span class="tag">{in_language(word, matter)}</span> ' for word in marks)
    kinds = "".join(f" data-{word}" for word, holds in (("hold", row.hold), ("second", row.second_person), ("measured", bool(row.path))) if holds)
    pairs = (("Where", row.where), ("Method", row.method), ("Acceptance value", row.acceptance), (REFERENCE, row.reference))
    return (
        f'<fieldset class="check-line" id="check-{number}" data-line="{number}"{kinds}>'
        f'<legend><span class="number">{number}</span> {tags}{escape(row.item)}</legend>{_said(pairs, matter)}</fieldset>'
    )


def _said(pairs: Sequence[tuple[str, str]], matter: Matter) -> str:
    """Labels with what they say; the sheet for print leaves out what is marked as a reference."""
    shown = "".join(
        f"<div{' data-reference' if label == REFERENCE else ''}><dt>{escape(in_language(label, matter))}</dt> <dd>{escape(text)}</dd></div>"
        for label, text in pairs
        if text
    )
    return f'<dl class="check-said">{shown}</dl>' if shown else ""
