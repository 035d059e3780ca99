"""A document as PDF: blocks become plain data, and one fixed Typst program (templates/print/docket.typ) lays them out.

No text ever becomes typesetter source. The PDF is written as PDF/A-3a and PDF/UA-1, with the document's own date, from
the shipped fonts alone, so the same document gives the same bytes on every machine.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from math import ceil
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from liftout.documents import formula, kept_papers, signature_fields, svg
from liftout.documents.blocks import (
    Alert,
    Block,
    Bullets,
    Checklist,
    Code,
    Emphasis,
    Fields,
    Figure,
    Heading,
    Inline,
    Inlines,
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
)
from liftout.documents.chapters.said import BLANK
from liftout.documents.document import CHANGED_PAGES, Chapter, Document, check, item_numbers, numbered
from liftout.documents.face import APPROVAL
from liftout.documents.tabled import OUTCOME, ValuesRow
from liftout.documents.tabled import Table as Side
from liftout.documents.tabled import table as side_by_side
from liftout.documents.title_blocks import with_title_blocks
from liftout.documents.wording import date_in, furniture, numbered_as, signed_words, word_in
from liftout.documents.working import Columns, Common, GivenRow, Note, Sheet, WorkedLine, common, sheet
from liftout.resources import folder

if TYPE_CHECKING:
    import typst

STANDARDS: Final = ("a-3a", "ua-1")

_LINE: Final = 94
"""Widths of a small letter that the text area holds at the size of tables, about."""

_LONGEST_WORD: Final = 26
"""A longer one may be broken to make room for other columns."""


class TypesetterError(Exception):
    """The typesetter refused what was checked before: the tool is broken; nothing is issued."""


def write(document: Document, kept: Path | None = None) -> bytes:
    """The PDF of `document`.

    Args:
        document: the document.
        kept: folder of papers that were set before, from which this one is taken where it is among them; None to set it in any case.

    Raises:
        DocumentError: when the document cannot be laid out; says each fault.
        TypesetterError: when the typesetter fails all the same.
    """
    # The time of creation comes from the document's own date, not from the clock: docket.typ sets it.
    files = _files(document)
    return kept_papers.once(files, kept, lambda: _pdf(document, files))


def _pdf(document: Document, files: Mapping[str, bytes]) -> bytes:
    written = _typeset(document, files, format="pdf", pdf_standards=list(STANDARDS))
    if not isinstance(written, bytes):
        raise TypesetterError(f"{document.key}: the typesetter wrote no PDF")
    return signature_fields.put(written)


def pictures(document: Document, resolution: float = 96) -> list[bytes]:
    """The pages as PNG pictures, to look at; raises as `write` does.

    Args:
        document: the document.
        resolution: pixels per inch.
    """
    written = _typeset(document, _files(document), format="png", ppi=resolution)
    return [written] if isinstance(written, bytes) else written


def _files(document: Document) -> dict[str, bytes]:
    """All that the typesetter is given, by name."""
    check(document)
    files = {"docket.typ": (folder("templates") / "print" / "docket.typ").read_bytes()}
    for name, data in (("docket.json", _document(with_title_blocks(document))), ("issue.json", _issue(document))):
        files[name] = json.dumps(data, ensure_ascii=False).encode()
    if document.face.file:
        files[document.face.file] = document.face.logo
    return files | {f"attachment-{number}": attachment.content for number, attachment in enumerate(document.attachments)}


def _typeset(document: Document, files: Mapping[str, bytes], **options: Any) -> Any:
    import typst

    # Nothing lies in the root but what is written here, and no link out of it.
    with tempfile.TemporaryDirectory(prefix="liftout-") as place:
        root = Path(place).resolve()
        for name, content in files.items():
            (root / name).write_bytes(content)
        compiler = typst.Compiler(
            root / "docket.typ", root=root, font_paths=fonts(), ignore_system_fonts=True, package_path=root, package_cache_path=root
        )
        try:
            written, warnings = compiler.compile_with_warnings(**options)
        except typst.TypstError as error:
            raise TypesetterError(f"{document.key}: {error.message}\n{error.diagnostic}") from error
    if warnings:
        raise TypesetterError(f"{document.key}: {'; '.join(warning.message for warning in warnings)}")
    return written


@cache
def fonts() -> typst.Fonts:
    """The shipped fonts, and no others."""
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder("site") / "fonts")])


# --- blocks to data -----------------------------------------------------------------------------------------


def _issue(document: Document) -> dict[str, Any]:
    """What stands at the head and foot of every page, and on the title page: it differs from docket to docket though no block does."""
    return {
        "number": document.number,
        "revision": document.revision,
        "date": {
            "year": document.date.year,
            "month": document.date.month,
            "day": document.date.day,
            "text": date_in(document.language, document.date),
        },
        "effectivity": document.effectivity,
        "digest": " ".join(re.findall(".{1,8}", document.digest)),
        "short_digest": document.short_digest,
        "standing": document.standing,
        "shop": document.shop,
        "contact": document.face.contact,
        "supersedes": document.supersedes,
    }


def _document(document: Document) -> dict[str, Any]:
    return {
        "title": document.title,
        "face": {"lines": [_broken(line, 40) for line in document.face.lines(furniture(document.language)[APPROVAL])], "logo": document.face.file},
        "language": document.language,
        "words": furniture(document.language),
        "paper": document.paper,
        "purpose": _broken(document.purpose, 40),
        "revisions": [
            [row.number, date_in(document.language, row.date), _broken(row.reason, 40), word_in(document.language, row.pages)]
            for row in document.revisions
        ],
        "marked_row": next((at for at, row in enumerate(document.revisions) if row.pages == CHANGED_PAGES), None),
        "changes": [_block(block, "") for block in document.changes],
        "front": [_block(block, "") for block in document.front],
        "signatures": [_block(signature, "") for signature in document.signatures],
        "attachments": [
            {
                "file": f"attachment-{number}",
                "name": attachment.name,
                "media_type": attachment.media_type,
                "description": attachment.description,
                "relationship": attachment.relationship,
            }
            for number, attachment in enumerate(document.attachments)
        ],
        "chapters": [
            {
                "title": _broken(chapter.title, 30),
                "number": str(position),
                "large": chapter.large,
                "blocks": [
                    _block(found.block, numbered_as(found.number, document.language))
                    | _bars(chapter, at, found.block)
                    | ({"sticky": True} if at in kept else {})
                    for kept in [_sticking(chapter.blocks)]
                    for at, found in enumerate(numbered(position, chapter.blocks))
                ],
            }
            for position, chapter in enumerate(document.chapters, 1)
        ],
    }


def _block(block: Block, number: str) -> dict[str, Any]:  # noqa: PLR0912 - as many branches as the set
    match block:
        case Heading(level, text, _):
            return {"kind": "heading", "level": level, "text": _broken(text, 40), "number": number}
        case Paragraph(of):
            return {"kind": "paragraph", "of": _inlines(of)}
        case Bullets(items):
            return {"kind": "bullets", "items": _items(items)}
        case Steps(first, items):
            return {"kind": "steps", "first": first, "items": _items(items)}
        case Alert(word, inner):
            return {"kind": "alert", "word": word, "of": [_block(inside, "") for inside in inner], "sticky": False, "whole": _length(block) < _SHORT}
        case Table(head, rows, alignment, caption):
            by_hand = bool(rows) and all(plain(cell) == BLANK for row in rows for cell in row)
            widths = [max(len(plain(cell)), 14) for cell in head] if by_hand else _widths([[plain(cell) for cell in row] for row in (head, *rows)])
            return {
                "kind": "table",
                "by_hand": by_hand,
                "columns": widths,
                "head": [_inlines(cell) for cell in head],
                "rows": [
                    [_ROOM] * len(row) if by_hand else [_inlines(cell, widest) for cell, widest in zip(row, _room(widths), strict=True)]
                    for row in rows
                ],
                "whole": [_row_height(row, widths) <= _LINES_KEPT for row in rows],
                "alignment": list(alignment),
                "caption": _broken(caption),
                "number": number,
            }
        case Shared():
            return {"kind": "shared", **_common(common(block))}
        case Working(_, titled, within):
            return {"kind": "working", "titled": titled, "within": within is not None, **_working(sheet(block))}
        case Tabled():
            return {"kind": "tabled", **_tabled(side_by_side(block))}
        case Figure(name, drawing, caption, alternative):
            width, height = svg.size(drawing)
            return {
                "kind": "figure",
                "name": name,
                "svg": svg.with_font(drawing),
                "caption": _broken(caption),
                "alternative": alternative,
                "number": number,
                "width": width,
                "height": height,
            }
        case Checklist(rows):
            return {
                "kind": "checklist",
                "rows": [
                    {
                        "number": position,
                        "item": _broken(row.item, 24),
                        "where": _broken(row.where, 24),
                        "method": _broken(row.method, 18),
                        "acceptance": _broken(row.acceptance, 14),
                        "reference": _broken(row.reference, 24),
                        "hold": row.hold,
                        "second_person": row.second_person,
                        "whole": len(row.item) + len(row.where) + len(row.reference) + 2 * max(len(row.method), len(row.acceptance)) < _SHORT,
                    }
                    for position, row in zip(item_numbers(number, rows), rows, strict=True)
                ],
            }
        case Signature(title, lines, statement):
            return {
                "kind": "signature",
                "title": _broken(title),
                "lines": [_broken(line, 30) for line in lines],
                "statement": _broken(statement),
                "signed": next((at for at, line in enumerate(lines) if line in signed_words()), None),
                "field": signature_fields.asked_for(title, statement),
            }
        case Fields(pairs):
            return {"kind": "fields", "pairs": [[_broken(label, 30), _broken(value)] for label, value in pairs]}
        case _:
            raise TypesetterError(f"{block!r} has no printed form")


_SHORT: Final = 600
"""Characters of a block that surely is lower than a page, however narrow it stands."""
_LINES_KEPT: Final = 12
"""Lines of a row of a table that stays on one page."""


def _sticking(blocks: Sequence[Block]) -> set[int]:
    """Which warnings and cautions stay on the page of what they stand before: those of a run that surely has room beside it."""
    found: set[int] = set()
    room = 0
    for at in range(len(blocks) - 1, -1, -1):
        block = blocks[at]
        if isinstance(block, Alert) and block.word != "NOTE":
            room -= _length(block) + 120
            if room > 0:
                found.add(at)
        elif not isinstance(block, Alert):
            room = 0 if isinstance(block, Heading) else 2 * _SHORT
    return found


def _length(block: Block) -> int:
    """Characters of a block of words."""
    match block:
        case Paragraph(of):
            return len(plain(of))
        case Alert(of=items):
            return sum(map(_length, items))
        case Bullets(items) | Steps(_, items):
            return sum(_length(inside) + 60 for item in items for inside in item)
        case _:
            return 0


def _row_height(row: Sequence[Inlines], widths: Sequence[int]) -> int:
    """Lines of a row of a table, at most about."""
    if not any(widths):
        return 1
    line = [_LINE * width / sum(widths) for width in widths]
    return max(ceil(_letters(plain(cell)) * 1.3 / max(wide - 3, 2)) for cell, wide in zip(row, line, strict=True))


def _bars(chapter: Chapter, at: int, block: Block) -> dict[str, Any]:
    """The change bars at a block: beside all of it or the head of its table, and beside each of its rows."""
    words = {row: word.partition(" ")[0] for row, word in chapter.barred(at).items()}
    if not words:
        return {}
    match block:
        case Table(rows=rows) | Checklist(rows=rows) | Bullets(items=rows) | Steps(items=rows):
            return {"bar": words.get(None, ""), "row_bars": [words.get(row, "") for row in range(len(rows))]}
        case Tabled(of):
            return {"bar": words.get(None, ""), "row_bars": [words.get(row, "") for row in range(len(of))]}
        case _:
            return {"bar": words.get(None, "")}


_ROOM: Final = [{"kind": "room"}]
"""A cell of a table that is filled in by hand from end to end."""


def _items(items: Iterable[Iterable[Block]]) -> list[list[dict[str, Any]]]:
    return [[_block(inside, "") for inside in item] for item in items]


def _inlines(inlines: Iterable[Inline], widest: int = 60) -> list[dict[str, Any]]:
    return [_inline(inline, widest) for inline in inlines]


def _inline(inline: Inline, widest: int) -> dict[str, Any]:
    match inline:
        case Text(text):
            return {"kind": "text", "text": _broken(text, widest)}
        case Strong(of):
            return {"kind": "strong", "of": _inlines(of, widest)}
        case Emphasis(of):
            return {"kind": "emphasis", "of": _inlines(of, widest)}
        case Code(text):
            return {"kind": "code", "text": _broken(text, widest)}
        case LineBreak():
            return {"kind": "break"}
        case _:
            raise TypesetterError(f"{inline!r} has no printed form")


def _broken(text: str, widest: int = 60) -> str:
    """`text` with places to break in each run of characters too long for its room: nothing may run off the page.

    A run breaks after a stroke, point or hyphen (a path, a part number) where that is enough, else anywhere.
    """
    return re.sub(rf"[^\s\u200b]{{{widest + 1},}}", lambda run: _divided(run[0], widest), text)


def _divided(run: str, widest: int) -> str:
    parts = re.findall(r"[^/._:,;-]*[/._:,;-]+|[^/._:,;-]+$", run)
    return "\u200b".join(piece for part in parts for piece in ([part] if len(part) <= widest else re.findall(f".{{1,{max(4, widest // 2)}}}", part)))


def _widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """Of each column its share of the line, or 0 for each where all texts fit side by side.

    A column is at least as wide as its longest word, where the line is long enough for that; what is left goes to the
    columns with long texts.
    """
    columns = [*zip(*rows, strict=True)]
    whole = [max(map(_letters, column)) + 2 for column in columns]
    if sum(whole) <= _LINE:
        return [0] * len(columns)
    least = [min(max((_letters(word) for cell in column for word in cell.split()), default=1), _LONGEST_WORD) + 2 for column in columns]
    if sum(least) >= _LINE:
        return least
    wish = [min(full, 60) - word for full, word in zip(whole, least, strict=True)]
    return [
        word + max(0, wished) * (_LINE - sum(least)) // max(1, sum(max(0, other) for other in wish)) for word, wished in zip(least, wish, strict=True)
    ]


def _letters(text: str) -> int:
    """About how many small letters `text` is as wide as."""
    hundredths = (
        55 if char in " .,:;'|ijlft()[]/-" else 135 if char in "mwMW%@…—" else 120 if char.isupper() or char.isdigit() else 100 for char in text
    )
    return ceil(sum(hundredths) / 100)


def _room(widths: Sequence[int]) -> list[int]:
    """Characters of one word that each column surely holds."""
    if not any(widths):
        return [60] * len(widths)
    return [max(4, _LINE * width // sum(widths) * 4 // 5 - 1) if sum(widths) > _LINE else max(4, width - 2) for width in widths]


# --- worksheets ---------------------------------------------------------------------------------------------


def _working(found: Sheet) -> dict[str, Any]:
    return {
        "title": _broken(found.title),
        "subject": _broken(found.subject),
        "verdict": found.verdict,
        "requires": _broken(found.requires),
        "givens": [_given(row) for row in found.givens],
        "columns": [_columns(table) for table in found.columns],
        "lines": [_line(line) for line in found.lines],
        "conclusion": _broken(found.conclusion),
        "notes": [_note(note) for note in found.notes],
    }


_BESIDE: Final = 76
"""Widths of a digit that the numbers of a table of worksheets have, beside their symbols."""


def _tabled(found: Side) -> dict[str, Any]:
    said = [[getattr(one, name).upper() if name == "verdict" else getattr(one, name) for name in found.said] for one in found.outcomes]
    outcomes = [[one.number, one.title, *cells] for one, cells in zip(found.outcomes, said, strict=True)]
    widths = _widths([["No.", found.kind, *(OUTCOME[name] for name in found.said)], *outcomes])
    return {
        "kinds": ["No.", found.kind, *(OUTCOME[name] for name in found.said)],
        "widths": widths,
        "outcomes": [[_broken(words, widest) for words, widest in zip(row, _room(widths), strict=True)] for row in outcomes],
        "lines": [_line(line) for line in found.lines],
        "columns": [_columns(table) for table in found.columns],
        "summed": [{**_piece(symbol), "meaning": _broken(meaning, 40)} for symbol, meaning in found.summed],
        "parts": [
            {
                "numbers": [one.number for one in found.outcomes[first:end]],
                "rows": [
                    {"symbol": _piece(row.symbol), "label": _broken(row.label, 18), "unit": row.unit, "values": list(row.values[first:end])}
                    for row in found.rows
                ],
            }
            for first, end in _parts(found.rows)
        ],
        "told": [
            {
                "symbols": [_piece(symbol) for symbol in told.symbols],
                "labels": ", ".join(_broken(label) for label in told.labels),
                "text": _broken(told.text),
            }
            for told in found.told
        ],
        "legend": found.legend,
    }


def _parts(rows: Sequence[ValuesRow]) -> list[tuple[int, int]]:
    """Columns that stand side by side, from and to: as many as a line holds, about as many on each."""
    if not rows:
        return []
    count = len(rows[0].values)
    widest = max(len(value) for row in rows for value in row.values) + 1.5
    most = max(1, int(_BESIDE / widest))
    each = ceil(count / ceil(count / most))
    return [(first, min(first + each, count)) for first in range(0, count, each)]


def _common(found: Common) -> dict[str, Any]:
    return {
        "count": str(found.count),
        "requires": _broken(found.requires),
        "givens": [_given(row) for row in found.givens],
        "columns": [_columns(table) for table in found.columns],
        "symbols": [{**_piece(symbol), "meaning": _broken(meaning, 40)} for symbol, meaning in found.symbols],
        "lines": [_line(line) for line in found.lines],
        "notes": [_note(note) for note in found.notes],
        "registers": [
            {
                "label": register.label,
                "runs": [
                    {"rests": _broken(rests), "entries": [{"mark": entry.mark, "text": _broken(entry.text, 40)} for entry in entries]}
                    for rests, entries in register.runs
                ],
            }
            for register in found.registers
        ],
    }


def _given(row: GivenRow) -> dict[str, Any]:
    return {
        "symbol": _piece(row.symbol),
        "meaning": _broken(row.meaning, 24),
        "told": row.told,
        "value": _broken(row.value, 20),
        "origin": _broken(row.origin, 40),
        "evidence": _broken(row.evidence, 40),
    }


def _columns(table: Columns) -> dict[str, Any]:
    return {
        "symbols": [{**_piece(symbol), "meaning": _broken(meaning, 40)} for symbol, meaning in zip(table.symbols, table.meanings, strict=True)],
        "rows": [
            {
                "label": _broken(row.label, 18),
                "values": [_broken(value, 14) for value in row.values],
                "origin": _broken(row.origin, 20),
                "evidence": _broken(row.evidence, 20),
            }
            for row in table.rows
        ],
        "everywhere": _broken(table.everywhere),
    }


def _line(line: WorkedLine) -> dict[str, Any]:
    return {
        "meaning": _broken(line.meaning, 24),
        "origin": _broken(line.origin, 24),
        "symbol": _piece(line.printed.symbol),
        "parts": [[_piece(mark) for mark in part] for part in line.printed.parts],
    }


def _piece(mark: formula.Mark) -> dict[str, Any]:
    return {"mark": formula.data(mark), "spoken": formula.spoken(mark)}


def _note(note: Note) -> dict[str, Any]:
    return {"label": note.label, "texts": [_broken(text) for text in note.texts], "word": note.word}
