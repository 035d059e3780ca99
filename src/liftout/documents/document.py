"""A document: what stands on its title page, its chapters, and what is checked before anything is laid out."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, is_dataclass
from typing import Any, Final, Literal

from liftout.documents import glyphs
from liftout.documents.blocks import Block, Checklist, ChecklistRow, Figure, Heading, Shared, Signature, Table, Tabled, Working
from liftout.documents.face import NO_FACE, Face
from liftout.documents.formula import Line
from liftout.documents.svg import check_svg, texts_of
from liftout.documents.tabled import table
from liftout.documents.working import common, sheet

SHORT_DIGEST: Final = 12
"""Hexadecimal digits of the job digest that stand on every page."""


class DocumentError(Exception):
    """A document that cannot be laid out; says every fault, each with the text it is in."""


Reader = Literal["shop", "owner", "inspector"]
Paper = Literal["a4", "us-letter"]
"""The sheet that it is printed on."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A change bar: at block number `block` from 0, beside its row, item or step `row` from 0, or beside the block or the head of its table.

    `word`: the part is new or reads otherwise ("changed"), or something was taken out just before or after it.
    """

    block: int
    row: int | None
    word: Literal["changed", "removed before", "removed after"] = "changed"


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter; its blocks begin below the title, with headings of level 2.

    `live` is HTML of our own that the site has below the blocks, for what no paper can do: the loading planner.
    `bars` stand beside what reads otherwise than in the revision that the docket supersedes. `large`: its letters are read at arm's length.
    """

    key: str
    title: str
    blocks: tuple[Block, ...]
    live: str = ""
    bars: tuple[Bar, ...] = ()
    large: bool = False

    def barred(self, block: int) -> dict[int | None, str]:
        """The words of the bars at a block, by row."""
        return {bar.row: bar.word for bar in self.bars if bar.block == block}


@dataclass(frozen=True, slots=True)
class OnScreen:
    """A page that only the site has, as HTML of our own; `anchors` says by what papers print where on the page it stands."""

    key: str
    title: str
    html: str
    anchors: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file carried inside the PDF, for example the resolved job."""

    name: str
    media_type: str
    description: str
    relationship: Literal["source", "data", "alternative", "supplement"]
    content: bytes


@dataclass(frozen=True, slots=True)
class Annex:
    """A PDF file of the customer's own: its number in the docket, what it is, its file, its pages and its SHA-256."""

    number: int
    title: str
    file: str
    pages: int
    digest: str


CHANGED_PAGES: Final = "those with bars"
"""The pages of a revision that marks what changed; the paper itself says which they are."""


@dataclass(frozen=True, slots=True)
class Revision:
    """A line of the record of revisions."""

    number: str
    date: datetime.date
    reason: str
    pages: str = "all"


@dataclass(frozen=True, slots=True)
class Document:
    """One document of a docket.

    `digest` is the job's, in hexadecimal; `standing` is printed at the top of every page when it is not empty
    ("INCOMPLETE - NOT FOR INSTALLATION, 7 open items"); `readers` and `purpose` lead to it from the site's first page.
    `front` is what a reader of the docket sees before all else: on the site's first page, and on the first pages of this paper.
    Its first `conclusion` blocks say where the papers stand; the others, what that rests on.
    `supersedes` names the revision that it takes the place of, and `changes` says what is otherwise; empty in a first issue.
    `face` is what the shop says of itself beside its name.
    `companions` are files that belong to it and lie beside the papers, not inside them; `on_screen` are pages that only the site has.
    """

    key: str
    title: str
    number: str
    revision: str
    date: datetime.date
    effectivity: str
    digest: str
    standing: str
    shop: str
    revisions: tuple[Revision, ...]
    chapters: tuple[Chapter, ...]
    attachments: tuple[Attachment, ...] = ()
    signatures: tuple[Signature, ...] = ()
    readers: tuple[Reader, ...] = ()
    purpose: str = ""
    front: tuple[Block, ...] = ()
    conclusion: int = 0
    companions: tuple[Attachment, ...] = ()
    on_screen: tuple[OnScreen, ...] = ()
    supersedes: str = ""
    changes: tuple[Block, ...] = ()
    language: str = "en"
    paper: Paper = "a4"
    face: Face = NO_FACE

    @property
    def short_digest(self) -> str:
        """The part of the digest that stands on every page."""
        return self.digest[:SHORT_DIGEST]


@dataclass(frozen=True, slots=True)
class Numbered:
    """A block with the number it carries in its document: "3.2" of a heading, "Figure 3-1", "Table 3-1"; of a checklist, its first item's: "3-12"."""

    block: Block
    number: str


def numbered(chapter: int, blocks: Sequence[Block]) -> Iterator[Numbered]:
    """The blocks of chapter number `chapter` with their numbers, the same in site and paper."""
    heads = [chapter, 0, 0, 0]
    figures = tables = items = 0
    for block in blocks:
        match block:
            case Heading(level, _, _):
                heads[level - 1] += 1
                heads[level:] = [0] * (4 - level)
                yield Numbered(block, ".".join(map(str, heads[:level])))
            case Figure():
                figures += 1
                yield Numbered(block, f"Figure {chapter}-{figures}")
            case Table(caption=caption) if caption:
                tables += 1
                yield Numbered(block, f"Table {chapter}-{tables}")
            case Checklist(rows):
                yield Numbered(block, f"{chapter}-{items + 1}")
                items += len(rows)
            case _:
                yield Numbered(block, "")


def item_numbers(first: str, rows: Sequence[ChecklistRow]) -> tuple[str, ...]:
    """The number of each row of a checklist whose first row has the number `first`, chapter and item, as "3-12"."""
    chapter, _, item = first.rpartition("-")
    return tuple(f"{chapter}-{number}" for number in range(int(item), int(item) + len(rows)))


_KEY: Final = re.compile(r"[a-z0-9][a-z0-9_-]*")
_ON_EVERY_PAGE: Final = {"standing": 110, "shop": 60, "title": 60, "number": 30, "revision": 12, "effectivity": 220, "contact": 110}
_FILE_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")


def check(document: Document) -> None:
    """Everything that must hold before a document is laid out.

    Raises:
        DocumentError: keys that are no file names, headings that skip a level, drawings that are no plain SVG, texts with
            characters that the shop's fonts cannot print, a title page with a blank.
    """
    wrong = [*_faults(document)]
    for text, place in _texts(document, document.title):
        if fault := glyphs.fault(text):
            wrong.append(f"{place}: {fault}")
    if wrong:
        raise DocumentError("\n".join(dict.fromkeys(wrong)))


def _faults(document: Document) -> Iterator[str]:  # noqa: PLR0912 - a list of what can be wrong
    for name in ("title", "number", "revision", "effectivity", "shop"):
        if not getattr(document, name).strip():
            yield f"{document.key}: the title page needs the {name}"
    for name, longest in _ON_EVERY_PAGE.items():
        said = document.face.contact if name == "contact" else getattr(document, name)
        if len(said) > longest:
            yield f"{document.key}: the {name} stands on every page and is at most {longest} characters long: {said!r}"
    if not re.fullmatch(r"[0-9a-f]{16,}", document.digest):
        yield f"{document.key}: the digest of the job is written in hexadecimal, not {document.digest!r}"
    if not document.chapters:
        yield f"{document.key}: a document has chapters"
    keys = [document.key, *(chapter.key for chapter in document.chapters)]
    yield from (f"{document.key}: {key!r} is no key: write small letters, digits, _ and -" for key in keys if not _KEY.fullmatch(key))
    yield from (
        f"{document.key}: the key {key!r} stands for more than one chapter" for key in {*keys[1:]} if keys[1:].count(key) > 1 or key == "index"
    )
    names = [attachment.name for attachment in document.attachments]
    yield from (
        f"{document.key}: {name!r} cannot be the name of an attached file, or is used twice"
        for name in names
        if not _FILE_NAME.fullmatch(name) or names.count(name) > 1
    )
    if any(isinstance(block, Heading | Checklist) for block in (*document.front, *document.changes)):
        yield f"{document.key}: pages before the chapters have no numbered headings and no checklist"
    for chapter in document.chapters:
        if not chapter.title.strip():
            yield f"{document.key}/{chapter.key}: a chapter has a title"
        level = 1
        for block in chapter.blocks:
            match block:
                case Heading(deeper, text, _):
                    if deeper > level + 1:
                        yield f"{document.key}/{chapter.key}: the heading {text!r} skips a level: it stands at {deeper}, below {level}"
                    level = deeper
                case Figure(name, svg):
                    if fault := check_svg(svg):
                        yield f"{document.key}/{chapter.key}: figure {name}: {fault}"


def _texts(value: Any, place: str) -> Iterator[tuple[str, str]]:  # noqa: PLR0912 - as many branches as there are kinds
    """Every text of a document that is printed, with the chapter it stands in."""
    match value:
        case str():
            yield value, place
        case Attachment(_, media_type, description, _, _):
            yield from ((text, place) for text in (media_type, description))
        case OnScreen(_, title):
            yield title, place
        case Chapter(_, title, blocks):
            yield title, place
            for block in blocks:
                yield from _texts(block, f"{place}, {title}")
        case Figure(name, svg, caption, alternative):
            yield from ((text, f"{place}, figure {name}") for text in (*texts_of(svg), caption, alternative))
        case Shared():
            yield from _texts(common(value), place)
        case Working():
            yield from _texts(sheet(value), place)
        case Tabled():
            yield from _texts(table(value), place)
        case Line():
            yield value.spoken, place
        case tuple():
            for item in value:
                yield from _texts(item, place)
        case _ if is_dataclass(value) and not isinstance(value, type):
            for name in type(value).__dataclass_fields__:
                yield from _texts(getattr(value, name), place)
