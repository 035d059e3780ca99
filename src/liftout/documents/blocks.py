"""The closed set of blocks that documents are made of, and the one reader that makes them from a chapter's Markdown.

A chapter's template is rendered to Markdown, parsed here once, and every writer (site, paper) lays out the same
blocks. What is not in the set is an error: HTML, links, images, block quotes, rules, unknown fences.

Objects (a finding, a drawing, the rows of a checklist) never pass through Markdown. The template puts them on a
`Shelf`, which answers with a fence that holds a key; `read` takes them down again, each once.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final, Literal, Protocol, TypeVar

from liftout.findings import Finding
from liftout.worked import Worked

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token


class BlockError(Exception):
    """A chapter holds something outside the closed set, or puts it where it cannot stand: the template is wrong."""


# --- inlines ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Text:
    """Plain text."""

    text: str


@dataclass(frozen=True, slots=True)
class Strong:
    """Bold."""

    of: tuple[Inline, ...]


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Italic."""

    of: tuple[Inline, ...]


@dataclass(frozen=True, slots=True)
class Code:
    """What is written exactly so: a path in the job file, a part number."""

    text: str


@dataclass(frozen=True, slots=True)
class LineBreak:
    """A new line within a paragraph."""


Inline = Text | Strong | Emphasis | Code | LineBreak
Inlines = tuple[Inline, ...]


def plain(inlines: Inlines) -> str:
    """The text of `inlines` without its marks."""
    parts: list[str] = []
    for inline in inlines:
        match inline:
            case Text(text) | Code(text):
                parts.append(text)
            case Strong(of) | Emphasis(of):
                parts.append(plain(of))
            case LineBreak():
                parts.append(" ")
    return "".join(parts)


# --- blocks -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading below the chapter's own title; level 2 to 4."""

    level: int
    text: str
    anchor: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    of: Inlines


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list without numbers; an item is a paragraph, with bullets below it or not."""

    items: tuple[tuple[Paragraph | Bullets, ...], ...]


@dataclass(frozen=True, slots=True)
class Steps:
    """Numbered instructions; `first` is the number of the first, so that a warning may stand between two."""

    first: int
    items: tuple[tuple[Paragraph | Bullets, ...], ...]


AlertWord = Literal["WARNING", "CAUTION", "NOTE"]


@dataclass(frozen=True, slots=True)
class Alert:
    """WARNING (people), CAUTION (equipment) or NOTE (never instructs), before the step it belongs to."""

    word: AlertWord
    of: tuple[Paragraph | Bullets, ...]


Alignment = Literal["left", "center", "right"]


@dataclass(frozen=True, slots=True)
class Table:
    """A table; each row has a cell for each column of `head`."""

    head: tuple[Inlines, ...]
    rows: tuple[tuple[Inlines, ...], ...]
    alignment: tuple[Alignment, ...]
    caption: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Shared:
    """What the worksheets of one kind have in common, printed once before them: givens, formulas, notes, a list of what they rest on."""

    of: tuple[Finding | Worked, ...]


@dataclass(frozen=True, slots=True)
class Working:
    """The worksheet of a finding: givens, worked lines, conclusion, sources, what is still to confirm; or of a worked value.

    `titled`: it begins with its own title and subject; False where a heading just above says both.
    `within`: what was printed before it for all worksheets of its kind; it then prints only what is its own.
    """

    of: Finding | Worked
    titled: bool = True
    within: Shared | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Tabled:
    """Worksheets of one kind that differ in their numbers alone, side by side; `within` was printed before them."""

    of: tuple[Finding | Worked, ...]
    within: Shared


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing: SVG text, caption, and the alternative text that says what it shows.

    It says its size in mm; 168 mm fill the width of the paper. `documents.svg` says what it may hold. `title_blocks` puts the
    title block on it, with the number of the figure, the revision and the digest of the job.
    """

    name: str
    svg: str
    caption: str
    alternative: str
    scale: str = "not to scale"

    @property
    def key(self) -> None:
        """What was placed already has its key in a table of its own."""
        return None


@dataclass(frozen=True, slots=True)
class ChecklistRow:
    """One item to inspect; measured value and initials are always left blank.

    `hold`: an inspector sees it before the work goes on. `second_person`: checked independently by another person.
    `path`: the value of the job that it measures again, where it is one.
    """

    item: str
    where: str
    method: str
    acceptance: str
    reference: str = ""
    hold: bool = False
    second_person: bool = False
    path: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Checklist:
    """Items to inspect."""

    rows: tuple[ChecklistRow, ...]


SIGNED: Final = "Signature"
"""The line of a signature block that is signed, by hand or in the field that lies on it."""


@dataclass(frozen=True, slots=True)
class Signature:
    """Lines left blank for the person who signs; `title` says in which capacity, `statement` what for."""

    title: str
    lines: tuple[str, ...]
    statement: str = ""


@dataclass(frozen=True, slots=True)
class Fields:
    """Label and value pairs."""

    pairs: tuple[tuple[str, str], ...]


Block = Heading | Paragraph | Bullets | Steps | Alert | Table | Shared | Working | Tabled | Figure | Checklist | Signature | Fields


B = TypeVar("B", bound=Block)


class Drawing(Protocol):
    """What a drawing of `liftout.figures` offers."""

    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def svg(self) -> str: ...  # noqa: D102
    @property
    def caption(self) -> str: ...  # noqa: D102
    @property
    def alternative(self) -> str: ...  # noqa: D102
    @property
    def scale(self) -> str: ...  # noqa: D102
    @property
    def key(self) -> DrawingKey | None: ...  # noqa: D102


class DrawingKey(Protocol):
    """What the marks of a drawing stand for."""

    @property
    def head(self) -> tuple[str, ...]: ...  # noqa: D102
    @property
    def rows(self) -> tuple[tuple[str, ...], ...]: ...  # noqa: D102
    @property
    def alignment(self) -> tuple[Alignment, ...]: ...  # noqa: D102
    @property
    def caption(self) -> str: ...  # noqa: D102


# --- the shelf ----------------------------------------------------------------------------------------------

NO_VALUE: Final = "\u2013"
"""In the key of a drawing: of this there is none here."""

_SHELVED: Final = {
    "common": Shared,
    "working": Working,
    "tabled": Tabled,
    "figure": Figure,
    "checklist": Checklist,
    "signature": Signature,
    "fields": Fields,
    "table": Table,
}
_ALERTS: Final[dict[str, AlertWord]] = {"warning": "WARNING", "caution": "CAUTION", "note": "NOTE"}


class Shelf:
    """Objects of one chapter on their way from its template to its blocks.

    Each method puts one on and returns the fence that stands for it in the Markdown.
    """

    def __init__(self) -> None:
        self._held: dict[str, Block] = {}
        self._count = 0

    def common(self, of: Shared) -> str:
        """What several worksheets have in common."""
        return self._put("common", of)

    def working(self, of: Finding | Worked, titled: bool = True, within: Shared | None = None) -> str:
        """The worksheet of a finding, or of a worked value; `within` was printed before it."""
        return self._put("working", Working(of, titled, within))

    def tabled(self, of: Tabled) -> str:
        """Worksheets side by side."""
        return self._put("tabled", of)

    def figure(self, drawing: Drawing) -> str:
        """A drawing, and below it the table that says what its marks stand for."""
        placed = self._put("figure", Figure(drawing.name, drawing.svg, drawing.caption, drawing.alternative, drawing.scale))
        key = drawing.key
        if key is None or not key.rows:
            return placed
        return placed + self.table(key.head, [[cell or NO_VALUE for cell in row] for row in key.rows], key.alignment, key.caption)

    def checklist(self, rows: Iterable[ChecklistRow]) -> str:
        """Items to inspect."""
        return self._put("checklist", Checklist(tuple(rows)))

    def signature(self, lines: Iterable[str], title: str = "", statement: str = "") -> str:
        """Lines for a person who signs."""
        return self._put("signature", Signature(_said(title), tuple(map(_said, lines)), _said(statement)))

    def fields(self, pairs: Iterable[tuple[str, str]]) -> str:
        """Label and value pairs."""
        return self._put("fields", Fields(tuple((_said(label), _said(value)) for label, value in pairs)))

    def table(self, head: Sequence[str], rows: Iterable[Sequence[str]], alignment: Sequence[Alignment] = (), caption: str = "") -> str:
        """A table of plain texts; columns stand left unless `alignment` says otherwise."""
        cells = tuple(tuple(map(_cell, row)) for row in rows)
        left: Alignment = "left"
        sides = tuple(alignment) or (left,) * len(head)
        return self._put("table", Table(tuple(map(_cell, head)), cells, sides, _said(caption)))

    def _put(self, word: str, block: Block) -> str:
        check(block)
        self._count += 1
        key = str(self._count)
        self._held[key] = block
        return f"\n```{word}\n{key}\n```\n"

    def take(self, word: str, key: str) -> Block:
        """The block that the fence `word` with `key` stands for, once.

        Raises:
            BlockError: when there is none, or it is of another kind.
        """
        block = self._held.pop(key, None)
        if block is None or not isinstance(block, _SHELVED[word]):
            raise BlockError(f"nothing of kind {word} lies on the shelf under {key!r}: put it there with {{{{ {word}(...) }}}}, once")
        return block

    def check_empty(self) -> None:
        """Nothing was put on the shelf and then left out of the chapter.

        Raises:
            BlockError: when something was.
        """
        if self._held:
            raise BlockError(f"put on the shelf but not placed in the chapter: {', '.join(type(block).__name__ for block in self._held.values())}")


_SPACE: Final = re.compile(r"[ \t\r\n\f\v\x85\u2028\u2029]+")


def one_line(text: str) -> str:
    """`text` with one space for each run of white space; a space that does not break stays."""
    return _SPACE.sub(" ", text)


def _said(text: object) -> str:
    if not isinstance(text, str):
        raise BlockError(f"{text!r} is not a text")
    return one_line(str(text))


def _cell(text: object) -> Inlines:
    said = _said(text)
    return (Text(said),) if said else ()


def check(block: Block) -> None:  # noqa: PLR0912 - as many branches as the set
    """What a block must hold to be laid out.

    Raises:
        BlockError: when something is empty, or a row of a table is longer or shorter than its head.
    """
    match block:
        case Heading(level, text, _) if not text.strip() or level not in (2, 3, 4):
            raise BlockError(f"a heading has a text and stands at level 2 to 4, not {level}: {text!r}")
        case Table(head, rows, alignment, caption):
            if not head or len(alignment) != len(head):
                raise BlockError(f"a table has a head, and one alignment a column: {caption or head!r}")
            for row in rows:
                if len(row) != len(head):
                    raise BlockError(f"a row of {len(row)} cells in a table of {len(head)} columns: {' | '.join(plain(cell) for cell in row)}")
        case Checklist(rows):
            for item in rows:
                if not (item.item and item.where and item.method and item.acceptance):
                    raise BlockError(f"a checklist row says what, where, by which method and what is accepted: {item!r}")
        case Signature(_, lines) if not lines:
            raise BlockError("a signature block has lines")
        case Shared(of) if len(of) < 2:
            raise BlockError("only several worksheets have something in common")
        case Working(of, _, Shared(all_of)) if all(of is not one for one in all_of):
            raise BlockError("a worksheet is printed below what it has in common with others of its own kind")
        case Tabled(of, Shared(all_of)) if len(of) < 2 or any(all(one is not other for other in all_of) for one in of):
            raise BlockError("a table holds several worksheets, printed below what they have in common")
        case Figure(name, svg, caption, alternative, _) if not (name and svg and caption and alternative):
            raise BlockError(f"a figure has a name, a drawing, a caption and an alternative text: {name or caption!r}")
        case Bullets(items) | Steps(_, items):
            if not items or not all(items):
                raise BlockError("a list has items, and each has a text")
        case Alert(word, of) if not of:
            raise BlockError(f"an empty {word}")


def slug(text: str) -> str:
    """An anchor for `text`: lower-case letters and digits joined by hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-") or "section"


# --- the reader ---------------------------------------------------------------------------------------------


def read(markdown: str, shelf: Shelf) -> tuple[Block, ...]:
    """The blocks of a chapter.

    Args:
        markdown: CommonMark with tables; values in it are escaped (`liftout.documents.templating`).
        shelf: the objects that its fences stand for; it is empty afterwards.

    Raises:
        BlockError: for anything outside the closed set, with the line of the Markdown.
    """
    if bad := re.search(r"[\x00-\x08\x0b-\x1f\x7f]", markdown):
        raise BlockError(f"{_around(markdown, bad.start())!r} holds a control character, which cannot be printed")
    blocks = _Reader(markdown, shelf).blocks()
    shelf.check_empty()
    return blocks


def _around(text: str, at: int) -> str:
    return text[max(0, at - 30) : at + 30]


@cache
def _parser() -> MarkdownIt:
    from markdown_it import MarkdownIt

    # HTML is recognised, to be refused; without it, it would be printed as text without a word.
    return MarkdownIt("commonmark", {"html": True}).enable("table")


_CHARACTER = re.compile(r"&#(\d+);")


class _Reader:
    """One pass over the tokens of a Markdown text."""

    def __init__(self, markdown: str, shelf: Shelf | None, start: int = 0) -> None:
        self._lines = markdown.split("\n")
        self._shelf = shelf
        self._start = start
        environment: dict[str, Any] = {}
        self._tokens = iter(_parser().parse(markdown, environment))
        self._anchors: set[str] = set()
        self._last_step = 0
        if environment.get("references"):
            raise BlockError(f"a link cannot be printed: [{next(iter(environment['references'])).lower()}]: ...")

    def blocks(self) -> tuple[Block, ...]:
        return tuple(self._each_block())

    def _each_block(self) -> Iterator[Block]:
        for token in self._tokens:
            match token.type:
                case "heading_open":
                    self._last_step = 0
                    yield self._heading(token)
                case "paragraph_open":
                    yield self._paragraph()
                case "bullet_list_open":
                    yield self._checked(Bullets(tuple(self._items("bullet_list_close"))), token)
                case "ordered_list_open":
                    yield self._steps(token)
                case "table_open":
                    yield self._table(token)
                case "fence":
                    yield self._fence(token)
                case _:
                    raise self._refused(token)

    def _heading(self, token: Token) -> Heading:
        if not token.markup.startswith("#"):
            raise self._error(token, "write a heading with ##")
        inlines = self._inlines(next(self._tokens))
        next(self._tokens)
        if any(not isinstance(inline, Text) for inline in inlines):
            raise self._error(token, "a heading is plain text")
        text = plain(inlines).strip()
        anchor, count = slug(text), 1
        while anchor in self._anchors:
            count += 1
            anchor = f"{slug(text)}-{count}"
        self._anchors.add(anchor)
        return self._checked(Heading(int(token.tag[1:]), text, anchor), token)

    def _paragraph(self) -> Paragraph:
        inlines = self._inlines(next(self._tokens))
        next(self._tokens)
        return Paragraph(inlines)

    def _steps(self, token: Token) -> Steps:
        start = token.attrGet("start")
        first = 1 if start is None else int(start)
        if first not in (1, self._last_step + 1):
            raise self._error(token, f"step {first} follows step {self._last_step}: go on counting, or begin at 1")
        steps = self._checked(Steps(first, tuple(self._items("ordered_list_close"))), token)
        self._last_step = first + len(steps.items) - 1
        return steps

    def _items(self, end: str) -> Iterator[tuple[Paragraph | Bullets, ...]]:
        for token in self._tokens:
            if token.type == end:
                return
            yield tuple(self._item(token))

    def _item(self, opened: Token) -> Iterator[Paragraph | Bullets]:
        for token in self._tokens:
            match token.type:
                case "list_item_close":
                    return
                case "paragraph_open":
                    yield self._paragraph()
                case "bullet_list_open":
                    yield self._checked(Bullets(tuple(self._items("bullet_list_close"))), token)
                case "fence":
                    raise self._error(token, f"{token.info.strip()} stands before the step it belongs to, at the left margin, not inside a list")
                case _:
                    raise self._refused(token)
        raise self._error(opened, "this list has no end")

    def _table(self, opened: Token) -> Table:
        head: list[Inlines] = []
        alignment: list[Alignment] = []
        rows: list[list[Inlines]] = []
        for token in self._tokens:
            match token.type:
                case "table_close":
                    break
                case "tr_open":
                    rows.append([])
                    self._check_width(token, len(head))
                case "th_open":
                    style = str(token.attrGet("style") or "text-align:left")
                    alignment.append("right" if style.endswith("right") else "center" if style.endswith("center") else "left")
                    head.append(self._inlines(next(self._tokens)))
                case "td_open":
                    rows[-1].append(self._inlines(next(self._tokens)))
        return self._checked(Table(tuple(head), tuple(tuple(row) for row in rows[1:]), tuple(alignment)), opened)

    def _check_width(self, token: Token, columns: int) -> None:
        """Markdown drops cells beyond the head without a word, and fills up missing ones."""
        if not columns or not token.map:
            return
        row = self._lines[token.map[0]].strip()
        cells = len(re.findall(r"(?<!\\)\|", row.removeprefix("|").removesuffix("|"))) + 1
        if cells != columns:
            raise self._error(token, f"a row of {cells} cells in a table of {columns} columns")

    def _fence(self, token: Token) -> Block:
        word = token.info.strip()
        if word in _ALERTS:
            line = self._start + (token.map[0] if token.map else 0) + 1
            inner = _Reader(token.content, None, line).blocks()
            for block in inner:
                if not isinstance(block, Paragraph | Bullets):
                    raise self._error(token, f"a {word} holds paragraphs and bullets, not a {type(block).__name__.lower()}")
            return self._checked(Alert(_ALERTS[word], tuple(block for block in inner if isinstance(block, Paragraph | Bullets))), token)
        if word in _SHELVED and self._shelf is not None:
            return self._shelf.take(word, token.content.strip())
        raise self._error(token, f"a fence {word!r}: known are {', '.join((*_ALERTS, *_SHELVED))}")

    def _inlines(self, token: Token) -> Inlines:
        return tuple(_merged(self._each_inline(iter(token.children or ()), token, "")))

    def _each_inline(self, children: Iterator[Token], parent: Token, end: str) -> Iterator[Inline]:
        for child in children:
            match child.type:
                case "text" | "text_special":
                    yield Text(child.content)
                case "softbreak":
                    yield Text(" ")
                case "hardbreak":
                    yield LineBreak()
                case "code_inline":
                    # Escaped values may stand in code, where Markdown itself leaves character references alone.
                    yield Code(_CHARACTER.sub(lambda found: chr(int(found[1])), child.content))
                case "strong_open":
                    yield Strong(tuple(_merged(self._each_inline(children, parent, "strong_close"))))
                case "em_open":
                    yield Emphasis(tuple(_merged(self._each_inline(children, parent, "em_close"))))
                case found if found == end:
                    return
                case _:
                    raise self._refused(child, parent)

    def _checked(self, block: B, token: Token) -> B:
        try:
            check(block)
        except BlockError as error:
            raise self._error(token, str(error)) from None
        return block

    def _refused(self, token: Token, place: Token | None = None) -> BlockError:
        kinds = {
            "image": "an image (use figure)",
            "link_open": "a link",
            "blockquote_open": "a block quote",
            "hr": "a rule",
            "code_block": "an indented text",
        }
        kind = "HTML" if token.type.startswith("html") else kinds.get(token.type, token.type)
        return self._error(place or token, f"{kind} is not in the closed set of blocks")

    def _error(self, token: Token, wrong: str) -> BlockError:
        at = token.map[0] if token.map else 0
        shown = self._lines[at].strip() if at < len(self._lines) else ""
        return BlockError(f"line {self._start + at + 1} of the chapter, {shown[:80]!r}: {wrong}")


def _merged(inlines: Iterable[Inline]) -> Iterator[Inline]:
    """Texts side by side as one."""
    held = ""
    for inline in inlines:
        if isinstance(inline, Text):
            held += inline.text
            continue
        if held:
            yield Text(held)
            held = ""
        yield inline
    if held:
        yield Text(held)
