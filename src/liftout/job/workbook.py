"""The as-fitted record as a workbook: a form that a spreadsheet opens, and its way back to what was said.

The library for it is an extra and is loaded here alone. Every cell of the form is text: a spreadsheet that turns the
line "3-12" into a day of December, or a length into a bare number, is told so. A formula is refused, since what stands in a
record was read on the aircraft and not computed.
"""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, Final

from liftout.job.errors import Fault, JobError
from liftout.job.reader import BYTES_MAX, Said, bytes_of, unseen

HEAD: Final = ("liftout", "job", "revision", "digest", "state")
LINE: Final = ("line", "item", "acceptance", "measured", "result", "reason", "disposition", "instrument", "calibration due", "by", "date")
SHOWN: Final = ("item", "acceptance")
"""Columns that are printed for the reader of the form and not read back."""
PART: Final = ("item", "part number", "serial", "batch")
DEVIATION: Final = (
    *("kind", "found", "line", "place", "value", "instrument", "by", "date"),
    *("photo", "photo digest", "decision", "decision reason", "decided by", "decided on"),
)
UNPACKED_MAX: Final = 20 * BYTES_MAX


def said_in(content: bytes, file: Path) -> Said:
    """What a workbook says, as if it had been written as YAML; lines and columns are those of the cells.

    Args:
        content: the workbook.
        file: what it is called in messages.

    Raises:
        JobError: when it cannot be opened, or a cell holds what is no text.
    """
    book = _opened(content, file)
    tree: dict[str, Said] = {}
    for row in _rows(book, file, "record", ("key", "value")):
        if row["key"].value and row["value"].value:
            tree[str(row["key"].value)] = row["value"]
    tree["entries"] = _named(file, _rows(book, file, "lines", LINE), "line", [key for key in LINE[1:] if key not in SHOWN])
    tree["parts"] = _named(file, _rows(book, file, "parts", PART), "item", PART[1:])
    tree["deviations"] = Said(tuple(_deviation(row) for row in _rows(book, file, "deviations", DEVIATION)), file.name, 1, 1)
    return _node(file, tree)


def blank(file: Path, head: Mapping[str, str], lines: Sequence[tuple[str, str, str]], items: Sequence[str]) -> bytes:
    """The form, as it is written.

    Args:
        file: where it is to be, which names what is missing.
        head: number, revision, digest and state.
        lines: number, item and acceptance value of each line of the checklist.
        items: names of the items.

    Raises:
        JobError: when the library is not installed.
    """
    openpyxl = _library(file)
    book = openpyxl.Workbook()
    book.remove(book.active)
    _sheet(book, "record", ("key", "value"), [(key, head.get(key, "")) for key in HEAD], (14, 70))
    _sheet(book, "lines", LINE, [(*line, *[""] * (len(LINE) - len(line))) for line in lines], (8, 44, 30, 16, 18, 24, 24, 18, 16, 14, 14))
    _sheet(book, "parts", PART, [(name, "", "", "") for name in items], (30, 20, 20, 20))
    _sheet(book, "deviations", DEVIATION, [[""] * len(DEVIATION)] * 12, (16,) * len(DEVIATION))
    whole = io.BytesIO()
    book.save(whole)
    return whole.getvalue()


def _sheet(book: Any, title: str, head: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[int]) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    sheet = book.create_sheet(title)
    for row in (head, *rows):
        sheet.append([text or None for text in row])
    for cells in sheet.iter_rows(min_row=1, max_row=len(rows) + 1, max_col=len(head)):
        for cell in cells:
            cell.number_format = "@"
            cell.alignment = Alignment(wrap_text=True, vertical="top")
            if isinstance(cell.value, str):
                cell.data_type = "s"  # a text that begins with an equals sign is no formula here
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for column, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(column)].width = width
    sheet.freeze_panes = "A2"


def new_book(file: Path) -> Any:
    """An empty workbook, to be saved as `file`.

    Raises:
        JobError: when its library is not installed.
    """
    return _library(file).Workbook()


def _library(file: Path) -> Any:
    try:
        import openpyxl
    except ImportError:
        raise _refuse(
            file,
            "a workbook needs a library that is not installed.",
            'Install "liftout[xlsx]", or save the table as CSV, the record as JSON or YAML.',
        ) from None
    return openpyxl


def _refuse(file: Path, wrong: str, right: str, line: int = 1, column: int = 1) -> JobError:
    return JobError([Fault(file.name, line, column, (), wrong, right)])


def _opened(content: bytes, file: Path) -> Any:
    openpyxl = _library(file)
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if sum(part.file_size for part in packed.infolist()) > UNPACKED_MAX:
                raise _refuse(file, f"unpacks to more than {UNPACKED_MAX} bytes.", "A record has a few hundred lines; take pictures out.")
        return openpyxl.load_workbook(io.BytesIO(content), data_only=False)
    except JobError:
        raise
    except (OSError, zipfile.BadZipFile, KeyError, ValueError, EOFError, SyntaxError) as error:  # a torn workbook breaks anywhere in it
        raise _refuse(file, f"cannot be read as a workbook: {error}.", "Save it again as .xlsx; leave encryption off.") from None


def first_sheet(file: Path) -> list[tuple[int, list[str]]]:
    """Number and texts of each row of the first sheet of a workbook: a shop's own table.

    Raises:
        JobError: when it cannot be opened, or a cell holds what is no text, number or day.
    """
    sheet = _opened(bytes_of(file, file.name, UNPACKED_MAX), file).worksheets[0]
    return [(number, [_plain(file, sheet.title, cell) for cell in cells]) for number, cells in enumerate(sheet.iter_rows(), 1)]


def _plain(file: Path, title: str, cell: Any) -> str:
    if isinstance(cell.value, float | int) and not isinstance(cell.value, bool):
        return repr(cell.value).removesuffix(".0")
    value = _text(file, title, cell).value
    return "" if value is None else str(value)


def _rows(book: Any, file: Path, title: str, head: Sequence[str]) -> Iterator[dict[str, Said]]:
    """The rows of a sheet in which anything is written, each cell under the head of its column."""
    if title not in book.sheetnames:
        if title in ("record", "lines"):
            raise _refuse(file, f'has no sheet "{title}".', "Begin with liftout close JOB --blank FILE.xlsx, which makes the form.")
        return
    sheet = book[title]
    names = [str(cell.value).strip().lower() if cell.value is not None else "" for cell in sheet[1]]
    absent = [name for name in head if name not in names]
    if absent:
        raise _refuse(file, f'sheet "{title}" has no column {", ".join(absent)}.', f"Its first row reads: {', '.join(head)}.")
    for cells in sheet.iter_rows(min_row=2):
        row = {name: _text(file, title, cells[names.index(name)]) for name in head}
        if any(node.value for node in row.values()):
            yield row


def _text(file: Path, title: str, cell: Any) -> Said:
    """What one cell says; a cell of the form is text or a date."""
    value, where = cell.value, f"{file.name} [{title}!{cell.coordinate}]"
    fault: tuple[str, str] | None = None
    if cell.data_type == "f":
        fault = "holds a formula.", "Write what was read on the aircraft."
    elif cell.data_type == "e":
        fault = f"holds an error of the spreadsheet: {value}.", "Write what was read on the aircraft."
    elif isinstance(value, datetime.datetime):
        value = value.date().isoformat()
    elif isinstance(value, bool) or (isinstance(value, float | int) and title == "lines"):
        fault = f"holds the bare value {value}.", "Write it as text, with its unit; set the format of the cell to text."
    elif value is not None and (found := unseen(str(value).replace("\n", " "))) is not None:
        fault = f"holds the invisible character {found[1]}.", "Type the cell again."
    if fault is not None:
        raise JobError([Fault(where, cell.row, cell.column, (), *fault)])
    text = " ".join(str(value).split()) if value is not None else None
    return Said(text or None, where, cell.row, cell.column)


def _keys(row: Mapping[str, Said], keys: Sequence[str]) -> Said:
    """The cells of a row that say something, as keys."""
    first = next(iter(row.values()))
    return Said({key: row[key] for key in keys if row[key].value}, first.file, first.line, first.column)


def _named(file: Path, rows: Iterator[dict[str, Said]], name: str, keys: Sequence[str]) -> Said:
    """The rows that say something, by what their first column names; each name once."""
    found: dict[str, Said] = {}
    for row in rows:
        said, key = _keys(row, keys), row[name].value
        if not said.value:
            continue
        if not isinstance(key, str) or key in found:
            wrong = f"{key} stands twice." if key else f"holds something, and no {name}."
            raise JobError([Fault(row[name].file, said.line, 1, (), wrong, "Keep one row for each.")])
        found[key] = said
    return _node(file, found)


def _deviation(row: Mapping[str, Said]) -> Said:
    told = dict(_said(_keys(row, DEVIATION[:8])))
    if row["photo"].value:
        photo = {"file": row["photo"], **({"digest": row["photo digest"]} if row["photo digest"].value else {})}
        told["photos"] = Said((_like(row["photo"], photo),), row["photo"].file, row["photo"].line, row["photo"].column)
    if row["decision"].value:
        names = {"decision": "decision", "decision reason": "reason", "decided by": "by", "decided on": "date"}
        told["disposition"] = _like(row["decision"], {key: row[column] for column, key in names.items() if row[column].value})
    return _like(row["kind"], told)


def _said(node: Said) -> dict[str, Said]:
    assert isinstance(node.value, dict)
    return node.value


def _like(place: Said, value: dict[str, Said]) -> Said:
    return Said(value, place.file, place.line, place.column)


def _node(file: Path, value: dict[str, Said]) -> Said:
    return Said(value, file.name, 1, 1)
