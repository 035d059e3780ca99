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

from liftout.documents import columns, formula, kept_papers, signature_fields, svg
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
from liftout.documents.columns import Words
from liftout.documents.document import CHANGED_PAGES, Chapter, Document, check, item_numbers, numbered
from liftout.documents.face import APPROVAL
from liftout.documents.tabled import OUTCOME, ValuesRow
from liftout.documents.tabled import Table as Side
from liftout.documents.tabled import table as side_by_side
from liftout.documents.title_blocks import with_title_blocks
from liftout.documents.unparted import unparted
from liftout.documents.wording import date_in, furniture, numbered_as, signed_words, word_in
from liftout.documents.working import Columns, Common, GivenRow, Note, Sheet, WorkedLine, common, sheet
from liftout.resources import folder

if TYPE_CHECKING:
    import typst

STANDARDS: Final = ("a-3a", "ua-1")


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
        case Table():
            return _table(block, number)
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
        case Checklist():
            return _checklist(block, number)
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
_KEPT: Final = 105.0
"""Height in mm of a row of a table that stays on one page: half a page."""
_SHORT_TABLE: Final = 60.0
"""Height in mm of a table that no page parts."""


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


def _table(table: Table, number: str) -> dict[str, Any]:
    by_hand = bool(table.rows) and all(plain(cell) == BLANK for row in table.rows for cell in row)
    head = [_words(cell, bold=True) for cell in table.head]
    rows = [[_words(cell) for cell in row] for row in table.rows]
    tight = not by_hand and not columns.has_room([head, *rows])
    hand = columns.TIGHT if tight else columns.TABLE
    wide = [max(len(words.text), 14) for words in head] if by_hand else columns.widths([head, *rows], hand)
    rooms = [share / 10 or columns.LINE for share in wide]
    heights = [_height(row, cells, rooms, hand) for row, cells in zip([head, *rows], [table.head, *table.rows], strict=True)]
    whole = [height <= _KEPT for height in heights[1:]]
    return {
        "kind": "table",
        "by_hand": by_hand,
        "tight": tight,
        "columns": wide,
        "head": [_inlines(cell) for cell in table.head],
        "rows": [
            [_ROOM] * len(row) if by_hand else [_inlines(cell, room - hand.beside) for cell, room in zip(row, rooms, strict=True)]
            for row in table.rows
        ],
        "whole": whole,
        "together": 0 if by_hand else _together(heights, table.caption),
        "foot": 2 if len(rows) > 3 and all(whole[-2:]) and not by_hand else 0,
        "alignment": list(table.alignment),
        "caption": _broken(table.caption),
        "number": number,
    }


_METHOD, _ACCEPTANCE, _VALUE, _INITIALS = 37.0, 30.0, 27.0, 16.0
"""Widths in mm of columns of a checklist, as docket.typ has them; the first is as wide as its numbers, the second has what is left."""


def _checklist(block: Checklist, number: str) -> dict[str, Any]:
    hand = columns.CHECKED
    numbers = item_numbers(number, block.rows)
    item = (
        columns.LINE
        - _METHOD
        - _ACCEPTANCE
        - _VALUE
        - _INITIALS
        - max(Words(position, bold=True).width(hand.size) for position in (*numbers, "No."))
        - hand.beside
    )
    rows = []
    for position, row in zip(numbers, block.rows, strict=True):
        lines = max(
            sum(hand.lines(text, item) for text in (row.item, row.where, row.reference)) + row.hold + row.second_person + 1,
            hand.lines(row.method, _METHOD),
            hand.lines(row.acceptance, _ACCEPTANCE),
        )
        rows.append(
            {
                "number": position,
                **{name: columns.fitted(getattr(row, name), item - hand.beside) for name in ("item", "where", "reference")},
                "method": columns.fitted(row.method, _METHOD - hand.beside),
                "acceptance": columns.fitted(row.acceptance, _ACCEPTANCE - hand.beside),
                "hold": row.hold,
                "second_person": row.second_person,
                "whole": hand.height(lines) <= _KEPT,
            }
        )
    return {"kind": "checklist", "rows": rows}


def _words(cell: Inlines, *, bold: bool = False) -> Words:
    return Words(plain(cell), bold or any(isinstance(inline, Strong) for inline in cell), any(isinstance(inline, Code) for inline in cell))


def _height(row: Sequence[Words], cells: Sequence[Inlines], rooms: Sequence[float], hand: columns.Hand) -> float:
    """How high a row of a table is, at most about."""
    breaks = [sum(isinstance(inline, LineBreak) for inline in cell) for cell in cells]
    return hand.height(max(hand.lines(words.text, room) + more for words, room, more in zip(row, rooms, breaks, strict=True)))


def _together(heights: Sequence[float], caption: str) -> float:
    """Room in mm that a table asks for where it begins: for all of a short one, for its head and two rows of a longer one."""
    above = 9.0 + 4.0 * (len(caption) // 90) if caption else 0.0
    all_of_it = above + sum(heights)
    return round(all_of_it if all_of_it <= _SHORT_TABLE else min(above + sum(heights[:3]), _KEPT), 1)


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


def _inlines(inlines: Iterable[Inline], room: float | None = None) -> list[dict[str, Any]]:
    """Words of a paragraph, or of a cell with so much room in mm."""
    return [_inline(inline, room) for inline in inlines]


def _inline(inline: Inline, room: float | None) -> dict[str, Any]:
    match inline:
        case Text(text):
            return {"kind": "text", "text": _in_room(text, room)}
        case Strong(of):
            return {"kind": "strong", "of": _inlines(of, room)}
        case Emphasis(of):
            return {"kind": "emphasis", "of": _inlines(of, room)}
        case Code(text):
            return {"kind": "code", "text": _in_room(text, room)}
        case LineBreak():
            return {"kind": "break"}
        case _:
            raise TypesetterError(f"{inline!r} has no printed form")


def _in_room(text: str, room: float | None) -> str:
    return _broken(text) if room is None else columns.fitted(text, room)


def _broken(text: str, widest: int = 60) -> str:
    """`text` with places to break in each run of characters too long for its room: nothing may run off the page.

    A run breaks after a stroke, point or hyphen (a path, a part number) where that is enough, else anywhere. No line parts a number and its unit.
    """
    return re.sub(rf"[^\s\u200b]{{{widest + 1},}}", lambda run: _divided(run[0], widest), unparted(text))


def _divided(run: str, widest: int) -> str:
    parts = re.findall(r"[^/._:,;-]*[/._:,;-]+|[^/._:,;-]+$", run)
    return "\u200b".join(piece for part in parts for piece in ([part] if len(part) <= widest else re.findall(f".{{1,{max(4, widest // 2)}}}", part)))


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


_BESIDE: Final = 137.0
"""Room in mm that the numbers of a table of worksheets have, beside their symbols."""


def _tabled(found: Side) -> dict[str, Any]:
    hand = columns.TIGHT
    said = [[getattr(one, name).upper() if name == "verdict" else getattr(one, name) for name in found.said] for one in found.outcomes]
    head = ["No.", found.kind, *(OUTCOME[name] for name in found.said)]
    outcomes = [[one.number, one.title, *cells] for one, cells in zip(found.outcomes, said, strict=True)]
    wide = columns.widths([[Words(words, bold=True) for words in head], *([Words(words) for words in row] for row in outcomes)], hand)
    rooms = [share / 10 or columns.LINE for share in wide]
    return {
        "kinds": head,
        "widths": wide,
        "outcomes": [[columns.fitted(words, room - hand.beside, hand.size) for words, room in zip(row, rooms, strict=True)] for row in outcomes],
        "whole": [_is_low(zip(row, rooms, strict=True)) for row in outcomes],
        "lines": [_line(line) for line in found.lines],
        "columns": [_columns(table) for table in found.columns],
        "summed": [{**_piece(symbol), "meaning": _broken(meaning, 40)} for symbol, meaning in found.summed],
        "parts": [_part([one.number for one in found.outcomes[first:end]], found.rows, first, end) for first, end in _parts(found.rows)],
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
    most = max(1, int(_BESIDE / (max(_numbers(row.values) for row in rows) + columns.TIGHT.beside)))
    each = ceil(count / ceil(count / most))
    return [(first, min(first + each, count)) for first in range(0, count, each)]


def _numbers(values: Iterable[str]) -> float:
    """Width of the widest of several numbers."""
    return max(Words(value).width(columns.TIGHT.size) for value in values)


def _part(numbers: Sequence[str], rows: Sequence[ValuesRow], first: int, end: int) -> dict[str, Any]:
    taken = [*(_numbers(row.values[at] for row in rows) for at in range(first, end)), _numbers(row.unit for row in rows) + 3]
    room = columns.LINE - sum(taken) - len(taken) * columns.TIGHT.beside
    return {
        "numbers": numbers,
        "rows": [
            {
                "symbol": _piece(row.symbol),
                "label": columns.fitted(row.label, room - columns.TIGHT.beside, columns.TIGHT.size),
                "unit": row.unit,
                "values": list(row.values[first:end]),
                "whole": _is_low([(f"{formula.spoken(row.symbol)} {row.label}", room)]),
            }
            for row in rows
        ],
    }


def _is_low(cells: Iterable[tuple[str, float]]) -> bool:
    """Whether a row of texts, each with its room, is surely lower than half a page."""
    return columns.TIGHT.height(max(columns.TIGHT.lines(text, room) for text, room in cells)) <= _KEPT


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
        "whole": len(row.meaning) < _SHORT / 2 and len(row.origin) + len(row.evidence) < _SHORT,
    }


def _columns(table: Columns) -> dict[str, Any]:
    hand = columns.TIGHT
    values = sum(max(10.0, _numbers(across)) + hand.beside for across in zip(*(row.values for row in table.rows), strict=True))
    texts = [(row.label, "; ".join(part for part in (row.origin, row.evidence) if part)) for row in table.rows]
    beside = max(columns.LINE - values, _ROW_AND_ORIGIN)
    wide = (
        [0, 0]
        if table.everywhere
        else columns.widths([(Words("Row"), Words("From; evidence")), *((Words(one), Words(other)) for one, other in texts)], hand, beside)
    )
    label, origin = (share / 10 or beside for share in wide)
    return {
        "symbols": [{**_piece(symbol), "meaning": _broken(meaning, 40)} for symbol, meaning in zip(table.symbols, table.meanings, strict=True)],
        "widths": wide,
        "rows": [
            {
                "label": columns.fitted(row.label, label - hand.beside, hand.size),
                "values": [_broken(value, 14) for value in row.values],
                "origin": columns.fitted(row.origin, origin - hand.beside, hand.size),
                "evidence": columns.fitted(row.evidence, origin - hand.beside, hand.size),
                "whole": _is_low([(text[0], label), (text[1], origin)]),
            }
            for row, text in zip(table.rows, texts, strict=True)
        ],
        "everywhere": _broken(table.everywhere),
    }


_ROW_AND_ORIGIN: Final = 50.0
"""Room in mm that names of rows and their origins have at least, beside numbers."""


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
