"""Blocks as HTML: the inside of a page of the site."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from functools import wraps
from html import escape
from typing import Any, Final, TypeVar, cast

from liftout.documents import formula, svg
from liftout.documents.blocks import (
    Alert,
    Alignment,
    Block,
    BlockError,
    Bullets,
    Checklist,
    Code,
    Emphasis,
    Fields,
    Figure,
    Heading,
    Inline,
    LineBreak,
    Paragraph,
    Shared,
    Signature,
    Steps,
    Strong,
    Table,
    Tabled,
    Text,
    Working,
    plain,
    slug,
)
from liftout.documents.document import CHANGED_PAGES, Chapter, Document, OnScreen, Reader, Revision, item_numbers, numbered
from liftout.documents.face import APPROVAL
from liftout.documents.tabled import ABSENT, OUTCOME, Told
from liftout.documents.tabled import Table as Side
from liftout.documents.tabled import table as side_by_side
from liftout.documents.wanted import addresses
from liftout.documents.ways import NO_LINES, NO_WAYS, Lines, Ways, given_symbols, short
from liftout.documents.ways import Columns as WaysOfColumns
from liftout.documents.wording import ENGLISH, date_in, furniture, numbered_as, word_in
from liftout.documents.working import Columns, Common, GivenRow, Note, Register, Sheet, WorkedLine, common, sheet


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading in the contents of a page, and the words below it for the search; `title` and `words` are HTML."""

    level: int
    anchor: str
    title: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class Page:
    """The inside of a page: its title as HTML, its content, its headings from the first on; a live one is given the whole width."""

    title: str
    content: str
    entries: tuple[Entry, ...]
    live: bool = False


BARS: Final = {
    "changed": "new, or otherwise than in the revision before",
    "removed before": "something was taken out before this",
    "removed after": "something was taken out after this",
}
"""What a change bar says to whoever does not see it."""

READERS: Final[dict[Reader, tuple[str, str]]] = {
    "shop": ("For the shop", "To fit the equipment, test it, and take it out again."),
    "owner": ("For the owner", "What the aircraft weighs now, and what it may carry with the equipment in and with it out."),
    "inspector": ("For the inspector", "Each figure with its source and its working, and what to look at on the aircraft."),
}


# --- pages --------------------------------------------------------------------------------------------------


_LANGUAGE: Final[ContextVar[str]] = ContextVar("language of the page being written", default=ENGLISH)


def _w(word: str) -> str:
    """A fixed word of a page in its language."""
    return furniture(_LANGUAGE.get())[word]


def _s(word: str) -> str:
    """A word of the site in the language of the page; tests hold all of them to the catalogue."""
    return word_in(_LANGUAGE.get(), word)


@contextmanager
def written_in(language: str) -> Iterator[None]:
    """What is written within has its fixed words in a language."""
    token = _LANGUAGE.set(language)
    try:
        yield
    finally:
        _LANGUAGE.reset(token)


def site_language(documents: Iterable[Document]) -> str:
    """The language of the site's own words: that of the papers that are not in English, where there are some."""
    return next((document.language for document in documents if document.language != ENGLISH), ENGLISH)


W = TypeVar("W", bound=Callable[..., Page])


def _in_its_language(page: W) -> W:
    """Writes a page with the fixed words of its document's language, and says on the page which that is where the site is in another."""

    @wraps(page)
    def written(document: Document, *arguments: Any, **named: Any) -> Page:
        with written_in(document.language):
            made = page(document, *arguments, **named)
        return made if document.language == ENGLISH else replace(made, content=f'<div lang="{document.language}">{made.content}</div>')

    return cast("W", written)


@_in_its_language
def chapter_page(document: Document, position: int, chapter: Chapter, ways: Ways = NO_WAYS) -> Page:
    """The page of a chapter, number `position` of its document; `ways` lead from it to where its numbers come from."""
    title = f"{position} {escape(chapter.title)}"
    sections = [(Entry(1, slug(chapter.title), title), [_heading(1, slug(chapter.title), str(position), chapter.title)])]
    taken = {slug(chapter.title)}
    for at, found in enumerate(numbered(position, chapter.blocks)):
        block, bars, number = found.block, chapter.barred(at), numbered_as(found.number, document.language)
        if isinstance(block, Heading):
            anchor = block.anchor if block.anchor not in taken else f"{number.replace('.', '-')}-{block.anchor}"
            taken.add(anchor)
            entry = Entry(block.level, anchor, f"{number} {escape(block.text)}")
            sections.append((entry, [_with_bar(bars.get(None), _heading(block.level, anchor, number, block.text))]))
        else:
            sections[-1][1].append(_barred(block, number, bars, ways))
    content = "\n".join((_page_head(document), *(part for _, parts in sections for part in parts)))
    return Page(title, content, tuple(replace(entry, words=_words(parts[1:])) for entry, parts in sections))


_TABLED: Final = re.compile(r"<(table|dl)\b.*?</\1>", re.DOTALL)
_WORD: Final = re.compile(r"<(math|svg|code)\b.*?</\1>|<[^>]*>|(?P<word>[\w./-]+\.ya?ml:\d+|[\w.]+(?:-[\w.()]+)+)", re.DOTALL)
_WHOLE_MOST: Final = 22
"""Letters that stay on one line: more would not fit into a column of a telephone."""


def kept_whole(html: str) -> str:
    """A page in whose tables numbers with hyphens, dates and places in a file are not broken: browsers break behind each hyphen."""
    return _TABLED.sub(lambda table: _WORD.sub(_whole, table[0]), html)


def _whole(found: re.Match[str]) -> str:
    word = found["word"]
    return f'<span class="whole">{word}</span>' if word and len(word) <= _WHOLE_MOST and any(map(str.isdigit, word)) else found[0]


def _with_bar(word: str | None, html: str) -> str:
    return f'<div class="bar {word.partition(" ")[0]}" role="group" aria-label="{BARS[word]}">{html}</div>' if word else html


def _barred(block: Block, number: str, bars: Mapping[int | None, str], ways: Ways) -> str:
    """A block as HTML with its change bars: beside all of it, or beside its rows, items or steps."""
    html = block_html(block, number, ways)
    if not bars:
        return html
    match block:
        case Table() | Checklist() | Tabled():
            # The first row of a table is its head; a list of items to inspect has one too.
            places, start = re.compile(r'<tr(?: id="[^"]*")?>'), {None: 0}
            numbers = start | {row: row + 1 for row in bars if row is not None}
        case Bullets() | Steps():
            places = re.compile(r"<li>")
            numbers = _items_at(block)
        case _:
            return _with_bar(bars.get(None), html)
    wanted = {numbers[row]: word for row, word in bars.items()}
    count = iter(range(len(html)))

    def put(found: re.Match[str]) -> str:
        word = wanted.get(next(count))
        return f'{found[0][:-1]} class="bar {word.partition(" ")[0]}" title="{BARS[word]}">' if word else found[0]

    return places.sub(put, html)


def _items_at(block: Bullets | Steps) -> dict[int | None, int]:
    """Which of the items in the HTML of a list, counted through lists within it, is each of its own."""
    found: dict[int | None, int] = {}
    at = 0
    for number, item in enumerate(block.items):
        found[number] = at
        at += 1 + sum(_count(inside) for inside in item)
    return found


def _count(block: Block) -> int:
    """How many items a block holds, with those of lists within it."""
    return sum(1 + sum(_count(inside) for inside in item) for item in block.items) if isinstance(block, Bullets | Steps) else 0


_NO_WORDS: Final = re.compile(r"<math.*?</math>|<svg.*?</svg>|<[^>]*>", re.DOTALL)


def _words(parts: Iterable[str]) -> str:
    """The words of HTML of our own, without formulas and drawings."""
    return " ".join(_NO_WORDS.sub(" ", " ".join(parts)).split())


@_in_its_language
def title_page(document: Document, paper: str, chapters: Sequence[tuple[str, str]], on_screen: Sequence[tuple[str, str]] = ()) -> Page:
    """The first page of a document: what its title page holds, and its chapters.

    Args:
        document: the document.
        paper: relative address of its PDF, or nothing.
        chapters: address and title (as text) of each chapter's page.
        on_screen: the same of pages that only the site has.
    """
    entries = [Entry(1, slug(document.title), escape(document.title))]
    pairs = (
        (_w("Document number"), document.number),
        (_w("Revision"), document.revision),
        (_w("Date"), date_in(document.language, document.date)),
        (_w("Effectivity"), document.effectivity),
        (_w("Job digest"), document.digest),
        *(((_w("Supersedes"), document.supersedes),) if document.supersedes else ()),
        *(((_w("Status"), document.standing),) if document.standing else ()),
    )
    parts = [
        _letterhead(document, "../"),
        _heading(1, entries[0].anchor, "", document.title),
        f'<p class="purpose">{escape(document.purpose)}</p>' if document.purpose else "",
        block_html(Fields(pairs)),
        f'<p><a class="paper" href="{escape(paper)}">{_w("Open as PDF, for print and record")}</a></p>' if paper else "",
        _section(entries, _w("Chapters")),
        "<ol class='chapters'>" + "".join(f'<li><a href="{escape(address)}">{escape(title)}</a></li>' for address, title in chapters) + "</ol>",
    ]
    if on_screen:
        listed = "".join(f'<li><a href="{escape(address)}">{escape(title)}</a></li>' for address, title in on_screen)
        parts += [_section(entries, _s("On this site only")), f"<ul>{listed}</ul>"]
    if document.revisions:
        rows = tuple(
            (_cell(row.number), _cell(date_in(document.language, row.date)), _cell(row.reason), _cell(_pages(row, document)))
            for row in document.revisions
        )
        head = tuple(_cell(_w(words)) for words in ("Revision", "Date", "Reason", "Pages"))
        parts += [_section(entries, _w("Record of revisions")), block_html(Table(head, rows, ("left",) * 4))]
    if document.changes:
        parts += [_section(entries, _w("What this revision changes")), *map(block_html, document.changes)]
    parts += [block_html(signature) for signature in document.signatures]
    return Page(escape(document.title), "\n".join(parts), tuple(entries))


def _pages(row: Revision, document: Document) -> str:
    """The pages of a revision; a site has chapters instead."""
    if row.pages != CHANGED_PAGES:
        return word_in(document.language, row.pages)
    changed = [str(number) for number, chapter in enumerate(document.chapters, 1) if chapter.bars]
    return f"{'chapter' if len(changed) == 1 else 'chapters'} {', '.join(changed)}" if changed else "none"


@dataclass(frozen=True, slots=True)
class Door:
    """What the first page leads to: a document, or a file beside the site. Addresses are relative to the first page."""

    title: str
    purpose: str
    address: str
    control: str = ""
    paper: str = ""
    readers: tuple[Reader, ...] = ()


def screen_page(document: Document, page: OnScreen) -> Page:
    """A page that only the site has."""
    title = escape(page.title)
    return Page(title, f"{_page_head(document)}\n{_heading(1, slug(page.title), '', page.title)}\n{page.html}", (Entry(1, slug(page.title), title),))


def landing_page(title: str, documents: Sequence[Document], doors: Sequence[Door], ways: Ways = NO_WAYS) -> Page:
    """The first page of the site: where the papers stand, what is looked for most, each reader's way to a document.

    Args:
        title: of the docket.
        documents: of the docket; the first has what stands on this page.
        doors: to each document, and to files beside the site.
        ways: from what this page names to where it stands.
    """
    with written_in(site_language(documents)):
        return _landing_page(title, documents, doors, ways)


def _landing_page(title: str, documents: Sequence[Document], doors: Sequence[Door], ways: Ways) -> Page:
    first = documents[0]
    entries = [Entry(1, "top", escape(title))]
    parts = [_heading(1, "top", "", title)]
    concluded, rests = first.front[: first.conclusion], first.front[first.conclusion :]
    # Of a docket with much open the table alone is longer than a screen: the ways into the papers stand before it.
    listed = tuple(block for block in concluded if isinstance(block, Table))
    if concluded:
        shown = "".join(block_html(block, ways=ways) for block in concluded if block not in listed)
        parts.append(f'<section class="front">{_section(entries, _s("Where the papers stand"))}{shown}</section>')
    parts += [_letterhead(first), '<div class="readers">']
    asked = list(addresses(documents))
    asked_for = _s("Looked for most:")
    for reader, (name, lead) in READERS.items():
        own = [door for door in doors if reader in door.readers]
        if own:
            looked_for = "".join(
                f'<li><a href="{escape(address)}">{escape(_s(one.question))}</a></li>' for one, address in asked if one.reader == reader
            )
            parts.append(
                f'<section class="reader">{_section(entries, _s(name))}<p>{escape(_s(lead))}</p><ul>{"".join(map(_door, own))}</ul>'
                f"{f'<p>{asked_for}</p><ul>{looked_for}</ul>' if looked_for else ''}</section>"
            )
    parts.append("</div>")
    if listed:
        parts.append(f'<section class="front">{"".join(block_html(block, ways=ways) for block in listed)}</section>')
    parts.append(_section(entries, _s("All papers")))
    head = "".join(f"<th scope='col'>{_s(words)}</th>" for words in ("Paper", "Number and revision", "PDF"))
    rows = "".join(
        f'<tr><th scope="row"><a href="{escape(door.address)}">{escape(door.title)}</a></th><td>{escape(door.control)}</td><td>{_pdf(door)}</td></tr>'
        for door in doors
    )
    parts.append(
        f'<div class="wide" tabindex="0" role="group" aria-label="{_s("All papers")}"><table class="ruled"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>'
    )
    if rests:
        parts.append(
            f'<section class="front">{_section(entries, _s("What that rests on"))}{"".join(block_html(block, ways=ways) for block in rests)}</section>'
        )
    return Page(escape(title), "\n".join(parts), tuple(entries))


def _door(door: Door) -> str:
    return f'<li><a href="{escape(door.address)}">{escape(door.title)}</a>{f" <span>{escape(door.purpose)}</span>" if door.purpose else ""}</li>'


def _pdf(door: Door) -> str:
    return f'<a href="{escape(door.paper)}" aria-label="{escape(door.title)}, PDF">PDF</a>' if door.paper else ""


def _letterhead(document: Document, up: str = "") -> str:
    """The shop's name, and what it says of itself; `up` leads from the page to the first one."""
    name, face = escape(document.shop), document.face
    if not face.lines() and not face.file:
        return f'<p class="eyebrow">{name}</p>'
    logo = f'<img src="{up}assets/{face.file}" alt="{_w("Logo of")} {name}">' if face.file else ""
    lines = "".join(f"<span>{escape(line)}</span>" for line in face.lines(_w(APPROVAL)))
    return f'<div class="letterhead">{logo}<p><strong>{name}</strong>{lines}</p></div>'


def _page_head(document: Document) -> str:
    words = " · ".join(escape(part) for part in (document.title, f"{document.number} {_w('revision')} {document.revision}", document.effectivity))
    return f'<p class="eyebrow">{words}</p>'


def _section(entries: list[Entry], title: str) -> str:
    entries.append(Entry(2, slug(title), escape(title)))
    return _heading(2, slug(title), "", title)


def _heading(level: int, anchor: str, number: str, text: str) -> str:
    label = f'<span class="number">{escape(number)}</span> ' if number else ""
    return f'<h{level} id="{escape(anchor)}">{label}{escape(text)}</h{level}>'


# --- blocks -------------------------------------------------------------------------------------------------


def block_html(block: Block, number: str = "", ways: Ways = NO_WAYS) -> str:  # noqa: PLR0912 - as many branches as the set
    """A block as HTML, with the number it carries in its document, and with ways from its numbers to their origins.

    Raises:
        BlockError: for a block outside the closed set.
    """
    match block:
        case Heading(level, text, anchor):
            return _heading(level, anchor, number, text)
        case Paragraph(of):
            return f"<p>{_inlines(of)}</p>"
        case Bullets(items):
            return f"<ul>{_items(items)}</ul>"
        case Steps(first, items):
            return f'<ol class="steps" start="{first}">{_items(items)}</ol>'
        case Alert(word, inner):
            body = "".join(block_html(inside) for inside in inner)
            return f'<section class="alert {word.lower()}" role="note" aria-label="{_w(word)}"><p class="word">{_w(word)}</p>{body}</section>'
        case Table(head, rows, alignment, caption):
            return _table(head, rows, alignment, f"{number}. " if number else "", caption, ways)
        case Shared():
            return _shared(common(block), ways.lines(block))
        case Working(_, titled, within):
            return _working(sheet(block), titled=titled or within is not None, lines=ways.lines(block))
        case Tabled():
            return _tabled(side_by_side(block), ways.columns(block))
        case Figure(name, drawing, caption, alternative):
            width, _ = svg.size(drawing)
            prefix = slug(f"{number}-{name}")
            return (
                f'<figure id="{prefix}"><div class="drawing" role="img" aria-label="{escape(alternative)}" style="--drawn:{width:g}mm">'
                f"{svg.inline(drawing, prefix)}</div><figcaption><strong>{escape(number)}.</strong> {escape(caption)}</figcaption></figure>"
            )
        case Checklist():
            return _checklist(block, number, ways)
        case Signature(title, lines, statement):
            boxes = "".join(f"<div><dt>{escape(line)}</dt> <dd></dd></div>" for line in lines)
            capacity = f"<p><strong>{escape(title)}</strong></p>" if title else ""
            said = f"<p>{escape(statement)}</p>" if statement else ""
            return f'<section class="signature">{capacity}{said}<dl>{boxes}</dl></section>'
        case Fields(pairs):
            return (
                '<dl class="fields">' + "".join(f"<div><dt>{escape(label)}</dt> <dd>{escape(value)}</dd></div>" for label, value in pairs) + "</dl>"
            )
        case _:
            raise BlockError(f"{block!r} has no HTML")


def _items(items: Iterable[Iterable[Block]]) -> str:
    return "".join(f"<li>{''.join(block_html(inside) for inside in item)}</li>" for item in items)


def blocks_html(blocks: Iterable[Block], language: str = ENGLISH) -> str:
    """Blocks as HTML, with the fixed words of a language."""
    with written_in(language):
        return "".join(map(block_html, blocks))


def _inlines(inlines: Iterable[Inline]) -> str:
    return "".join(_inline(inline) for inline in inlines)


def _inline(inline: Inline) -> str:
    match inline:
        case Text(text):
            return escape(text)
        case Strong(of):
            return f"<strong>{_inlines(of)}</strong>"
        case Emphasis(of):
            return f"<em>{_inlines(of)}</em>"
        case Code(text):
            return f"<code>{escape(text)}</code>"
        case LineBreak():
            return "<br>"
        case _:
            raise BlockError(f"{inline!r} has no HTML")


def _cell(text: str) -> tuple[Inline, ...]:
    return (Text(text),) if text else ()


def _wide(label: str, table: str) -> str:
    """A table in a box of its own, which scrolls where the page is narrow."""
    return f'<div class="wide" tabindex="0" role="group" aria-label="{escape(label)}">{table}</div>'


def _table(
    head: Sequence[tuple[Inline, ...]],
    rows: Sequence[Sequence[tuple[Inline, ...]]],
    alignment: Sequence[Alignment],
    number: str,
    caption: str,
    ways: Ways,
) -> str:
    said = f"<caption><span><strong>{escape(number)}</strong>{escape(caption)}</span></caption>" if caption else ""
    top = "".join(f'<th scope="col"{_aligned(side)}>{_inlines(cell)}</th>' for cell, side in zip(head, alignment, strict=True))
    cards = _is_wide((head, *rows))
    labels = [f' data-label="{escape(plain(cell))}"' if cards else "" for cell in head]
    body = "".join(
        "<tr>"
        + "".join(f"<td{_aligned(side)}{label}>{_told_by(cell, ways)}</td>" for cell, side, label in zip(row, alignment, labels, strict=True))
        + "</tr>"
        for row in rows
    )
    kind = "ruled cards" if cards else "ruled"
    return _wide(caption or _w("Table"), f'<table class="{kind}">{said}<thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>')


_NARROW: Final = 44
"""Letters beside each other that a telephone shows."""
_COLUMN: Final = 16
"""Letters that a column of words is comfortable with, and what its white space takes."""
_BETWEEN: Final = 2


def _is_wide(rows: Iterable[Sequence[tuple[Inline, ...]]]) -> bool:
    """Whether a table is wider than a telephone, so that its rows are shown as cards there."""
    columns: Iterable[tuple[int, ...]] = zip(*([len(plain(cell)) for cell in row] for row in rows), strict=True)
    return sum(min(max(letters), _COLUMN) + _BETWEEN for letters in columns) > _NARROW


def _aligned(side: Alignment) -> str:
    """What a cell says of its side; at the left it stands anyway."""
    return "" if side == "left" else f' class="{side}"'


def _told_by(cell: tuple[Inline, ...], ways: Ways) -> str:
    """A cell, with ways from what it names."""
    return "".join(ways.origin(inline.text) if isinstance(inline, Text) else _inline(inline) for inline in cell)


def _checklist(block: Checklist, first: str, ways: Ways) -> str:
    number_, item, method, acceptance, value, initials = names = [
        _w(word) for word in ("No.", "Item and where", "Method", "Acceptance value", "Measured value", "Initials")
    ]
    rows = []
    for number, row in zip(item_numbers(first, block.rows), block.rows, strict=True):
        tags = "".join(
            f'<span class="tag">{_w(word)}</span> ' for word, said in (("HOLD POINT", row.hold), ("SECOND PERSON", row.second_person)) if said
        )
        reference = f"<br><small>{ways.origin(row.reference)}</small>" if row.reference else ""
        rows.append(
            f'<tr id="line-{number}"><td class="right" data-label="{number_}">{number}</td>'
            f'<th scope="row" data-label="{item}">{tags}{escape(row.item)}<br><span class="where">{escape(row.where)}</span>{reference}</th>'
            f'<td data-label="{method}">{escape(row.method)}</td><td data-label="{acceptance}">{escape(row.acceptance)}</td>'
            f'<td class="blank" data-label="{value}"></td><td class="blank" data-label="{initials}"></td></tr>'
        )
    head = "".join(f'<th scope="col">{name}</th>' for name in names)
    return _wide(_s("Items to inspect"), f'<table class="ruled checklist"><thead><tr>{head}</tr></thead><tbody>{"".join(rows)}</tbody></table>')


# --- worksheets ---------------------------------------------------------------------------------------------


def _working(found: Sheet, *, titled: bool, lines: Lines) -> str:
    title = f"<p><strong>{escape(found.title)}</strong>{f'<br>{escape(found.subject)}' if found.subject else ''}</p>"
    requires = _requires(found.requires)
    verdict = f'<p class="verdict {slug(found.verdict)}">{escape(found.verdict)}</p>' if found.verdict else ""
    name = ", ".join(part for part in (found.title, found.subject) if part)
    parts = [f'<section class="worksheet"{_id(lines.anchor)} role="group" aria-label="Worksheet: {escape(name)}">']
    parts.append(f'<div class="head">{title if titled else requires or "<p></p>"}{verdict}</div>{requires if titled else ""}')
    parts += [_givens(found.givens, lines), *(_columns(table, lines) for table in found.columns), *_lines(found, lines)]
    if found.conclusion:
        parts.append(f'<p class="conclusion">{escape(found.conclusion)}</p>')
    return "".join((*parts, _signals(found.notes), _notes(found.notes), "</section>"))


def _shared(found: Common, lines: Lines) -> str:
    """What worksheets share: the formulas without numbers, and what they name by number."""
    parts = [f'<section class="worksheet shared"{_id(lines.anchor)} role="group" aria-label="What these worksheets share">']
    parts.append(f"<p><strong>For all {found.count} worksheets below</strong></p>{_requires(found.requires)}")
    parts += [_givens(found.givens, lines), *(_columns(table, lines) for table in found.columns)]
    if found.symbols:
        named = "; ".join(f"{formula.mathml(symbol)} {escape(meaning)}" for symbol, meaning in found.symbols)
        parts.append(f"<p>Given on each worksheet: {named}.</p>")
    if found.lines:
        parts.append("<p>Formulas. A line below that prints no formula uses the one that stands here under its symbol.</p>")
    parts += [
        *_lines(found, lines),
        _signals(found.notes),
        _notes(found.notes),
        *map(_register, found.registers),
        "</section>",
    ]
    return "".join(parts)


def _tabled(found: Side, columns: WaysOfColumns) -> str:
    """Worksheets side by side: what each comes to, then its numbers, a column for each."""
    parts = [
        '<section class="worksheet tabled" role="group" aria-label="Worksheets side by side">',
        *_lines(found, columns.lines),
        _outcomes(found),
        *map(_columns, found.columns),
    ]
    if found.rows:
        head = "".join(f'<th scope="col" class="right">{one.number}</th>' for one in found.outcomes)
        body = "".join(
            f'<tr><th scope="row">{formula.mathml(row.symbol)}{f" {escape(row.label)}" if row.label else ""}</th>'
            f"<td>{escape(row.unit)}</td>{''.join(_number(value, *columns.of(at, row)) for at, value in enumerate(row.values))}</tr>"
            for row in found.rows
        )
        head = f'<th scope="col">Symbol</th><th scope="col">Unit</th>{head}'
        parts.append(
            _wide("Numbers, a column for each worksheet", f'<table class="ruled"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>')
        )
    told = "; ".join(_told(one, columns.lines) for one in found.told)
    if found.legend or found.summed:
        parts.append(f'<p class="meaning">{found.legend}{_summed(found)}</p>')
    parts.append(f'<p class="meaning"><strong>From</strong> {told}.</p>' if told else "")
    return "".join((*parts, "</section>"))


def _summed(found: Side) -> str:
    named = "; ".join(f"{formula.mathml(symbol)} {escape(meaning)}" for symbol, meaning in found.summed)
    return f" By row: {named}." if named else ""


def _outcomes(found: Side) -> str:
    head = "".join(f'<th scope="col">{name}</th>' for name in ("No.", found.kind, *(OUTCOME[name] for name in found.said)))
    rows = "".join(
        f'<tr id="{short(one.anchor)}"><td>{one.number}</td><th scope="row" data-label="{escape(found.kind)}">{escape(one.title)}</th>'
        f"{''.join(_outcome(name, getattr(one, name)) for name in found.said)}</tr>"
        for one in found.outcomes
    )
    return _wide("What each comes to", f'<table class="ruled cards"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>')


def _outcome(name: str, text: str) -> str:
    return f'<td data-label="{OUTCOME[name]}">{escape(text)}</td>'


def _number(text: str, anchor: str, address: str) -> str:
    number = f'<a href="{escape(address)}">{escape(text)}</a>' if address and text != ABSENT else escape(text)
    return f'<td class="value"{_id(anchor)}>{number}</td>'


def _told(told: Told, lines: Lines) -> str:
    named = ", ".join((*map(formula.mathml, told.symbols), *map(escape, told.labels)))
    return f"{named}: {lines.ways.origin(told.text)}"


def _requires(text: str) -> str:
    return f"<p><strong>Requires</strong> {escape(text)}</p>" if text else ""


def _signals(notes: Iterable[Note]) -> str:
    return "".join(
        f'<section class="alert {note.word.lower()}" role="note" aria-label="{note.word}"><p class="word">{note.word}</p>'
        f"{''.join(f'<p>{escape(text)}</p>' for text in note.texts)}</section>"
        for note in notes
        if note.word
    )


def _notes(notes: Iterable[Note]) -> str:
    rows = "".join(
        f"<div><dt>{escape(note.label)}</dt> {' '.join(f'<dd>{escape(text)}</dd>' for text in note.texts)}</div>" for note in notes if not note.word
    )
    return f'<dl class="notes">{rows}</dl>' if rows else ""


def _register(register: Register) -> str:
    runs = []
    for rests, entries in register.runs:
        named = "; ".join(f"<strong>{escape(entry.mark)}</strong> {escape(entry.text)}" for entry in entries)
        runs.append(f"<dd>{f'<em>{escape(rests)}</em>: ' if rests else ''}{named}</dd>")
    return f'<dl class="notes"><div><dt>{escape(register.label)}</dt> {" ".join(runs)}</div></dl>'


_GIVEN_COLUMNS: Final[tuple[tuple[str, Alignment], ...]] = (
    ("Symbol", "left"),
    ("Given", "left"),
    ("Value", "right"),
    ("From", "left"),
    ("Evidence", "left"),
)


def _givens(rows: Sequence[GivenRow], lines: Lines) -> str:
    if not rows:
        return ""
    head = "".join(f'<th scope="col"{_aligned(side)}>{name}</th>' for name, side in _GIVEN_COLUMNS)
    body = "".join(_given(row, lines) for row in rows)
    return _wide("Givens", f'<table class="ruled givens"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>')


def _given(row: GivenRow, lines: Lines) -> str:
    return (
        f"<tr{_id(lines.of(row.symbol))}><td>{formula.mathml(row.symbol)}</td><td>{escape(row.meaning)}</td>"
        f'<td class="value">{escape(row.value)}</td>'
        f'<td class="origin">{lines.ways.origin(row.origin, row.symbol)}</td><td class="origin">{escape(row.evidence)}</td></tr>'
    )


def _columns(table: Columns, lines: Lines = NO_LINES) -> str:
    """Columns of givens: what each symbol means, then a row for each thing."""
    named = "; ".join(f"{formula.mathml(symbol)} {escape(meaning)}" for symbol, meaning in zip(table.symbols, table.meanings, strict=True))
    everywhere = f". All values: {lines.ways.origin(table.everywhere)}." if table.everywhere else "."
    rests = "" if table.everywhere else '<th scope="col">From</th><th scope="col">Evidence</th>'
    head = "".join(f'<th scope="col" class="right"{_id(lines.of(symbol))}>{formula.mathml(symbol)}</th>' for symbol in table.symbols)
    rows = []
    for row in table.rows:
        ends = "" if table.everywhere else f'<td class="origin">{lines.ways.origin(row.origin)}</td><td class="origin">{escape(row.evidence)}</td>'
        values = "".join(f'<td class="value">{escape(value)}</td>' for value in row.values)
        rows.append(f'<tr><th scope="row">{escape(row.label)}</th>{values}{ends}</tr>')
    body = "".join(rows)
    made = f'<table class="ruled"><thead><tr><th scope="col">Row</th>{head}{rests}</tr></thead><tbody>{body}</tbody></table>'
    return f'<p class="meaning">By row: {named}{everywhere}</p>{_wide("Givens by row", made)}'


def _lines(found: Sheet | Common | Side, lines: Lines) -> Iterator[str]:
    """Worked lines; the first of a symbol has the anchor, unless a given of the same name stands above."""
    taken = set() if isinstance(found, Side) else {formula.spoken(symbol) for symbol in given_symbols(found)}
    for line in found.lines:
        symbol = line.printed.symbol_text
        yield _line(line, lines, "" if symbol in taken else lines.of(line.printed.symbol))
        taken.add(symbol)


def _line(line: WorkedLine, lines: Lines, anchor: str) -> str:
    by = f" <small>by {lines.ways.origin(line.origin)}</small>" if line.origin else ""
    meaning = f'<p class="meaning">{escape(line.meaning)}{by}</p>' if line.meaning or by else ""
    rows = []
    for at, part in enumerate(line.printed.parts):
        left = formula.mathml(line.printed.symbol) if at == 0 else ""
        rows.append(f"<div>{left}</div><div>{' '.join(map(formula.mathml, part))}</div>")
    return f'{meaning}<div class="formula"{_id(anchor)}>{"".join(rows)}</div>{_uses(line, lines)}'


def _uses(line: WorkedLine, lines: Lines) -> str:
    """Links from a worked line to the lines that gave what it puts in; a screen can lead there, paper cannot."""
    leads = "".join(
        f' <a href="#{escape(anchor)}" aria-label="{escape(name.spelled)}, where it comes from">{formula.mathml(name)}</a>'
        for name, anchor in lines.used_by(line)
    )
    return f'<p class="uses">from{leads}</p>' if leads else ""


def _id(anchor: str) -> str:
    return f' id="{escape(anchor)}"' if anchor else ""
