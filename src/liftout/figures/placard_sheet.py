"""Placards at the size in which they are printed: each in its outline, with a number and the place it goes to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from liftout.figures.drawing import WIDTH, Drawing, drawing
from liftout.figures.lettering import MM_PER_POINT, PITCH, width, wrapped
from liftout.figures.placing import Box
from liftout.figures.svg import FIRM, Canvas
from liftout.quantities import Quantity

CAPITALS: Final = 0.698
"""Height of a capital letter of the shipped font, in ems."""

TALLEST: Final = 190.0
"""Height of one sheet, in mm: with its caption it stands on a page at its own size."""

PAD: Final = 2.5
GAP: Final = 5.0
LABEL_PT: Final = 7.0
LABEL: Final = 4.0
LINES: Final = 6


class Placard(NamedTuple):
    """A placard: where it goes, and what is on it."""

    place: str
    wording: str


class _Cut(NamedTuple):
    number: int
    placard: Placard
    lines: tuple[str, ...]
    label: str
    width: float
    height: float


def placard_sheets(placards: Sequence[Placard], capitals: Quantity) -> tuple[Drawing, ...]:
    """Sheets of placards.

    Args:
        placards: in the order of their numbers.
        capitals: height of a capital letter.
    """
    size_pt = float(capitals.si) * 1000 / CAPITALS / MM_PER_POINT
    cuts = [_cut(number, placard, size_pt) for number, placard in enumerate(placards, 1)]
    return tuple(_sheet(rows, size_pt, number) for number, rows in enumerate(_sheets(list(_rows(cuts))), 1))


def _cut(number: int, placard: Placard, size_pt: float) -> _Cut:
    lines = tuple(wrapped(placard.wording, WIDTH - 2 * PAD - 2, size_pt, bold=True, most=LINES))
    label = f"{number}: {placard.place}"
    long = max(width(line, size_pt, bold=True) for line in lines) + 2 * PAD
    tall = len(lines) * size_pt * MM_PER_POINT * PITCH + 2 * PAD
    shown = wrapped(label, WIDTH - 2, LABEL_PT, most=1)[0]
    return _Cut(number, placard, lines, shown, max(long, width(shown, LABEL_PT)), tall + LABEL)


def _rows(cuts: Sequence[_Cut]) -> Iterator[list[_Cut]]:
    """Placards side by side as long as they have room."""
    row: list[_Cut] = []
    for cut in cuts:
        if row and sum(other.width + GAP for other in row) + cut.width > WIDTH - 2:
            yield row
            row = []
        row.append(cut)
    if row:
        yield row


def _sheets(rows: Sequence[list[_Cut]]) -> Iterator[list[list[_Cut]]]:
    sheet: list[list[_Cut]] = []
    for row in rows:
        if sheet and sum(_tall(other) + GAP for other in sheet) + _tall(row) > TALLEST:
            yield sheet
            sheet = []
        sheet.append(row)
    if sheet:
        yield sheet


def _tall(row: Sequence[_Cut]) -> float:
    return max(cut.height for cut in row)


def _sheet(rows: Sequence[list[_Cut]], size_pt: float, number: int) -> Drawing:
    canvas = Canvas(WIDTH, sum(_tall(row) + GAP for row in rows))
    top = 1.0
    for row in rows:
        left = 1.0
        for cut in row:
            _draw(canvas, cut, left, top, size_pt)
            left += cut.width + GAP
        top += _tall(row) + GAP
    named = "; ".join(f"{cut.number}, {cut.placard.place}: {cut.placard.wording}" for row in rows for cut in row)
    return drawing(canvas, f"placards {number}", f"Placards, sheet {number}. Print at full size: 168 mm wide.", f"Placards. {named}.")


def _draw(canvas: Canvas, cut: _Cut, left: float, top: float, size_pt: float) -> None:
    pitch = size_pt * MM_PER_POINT * PITCH
    long = max(width(line, size_pt, bold=True) for line in cut.lines) + 2 * PAD
    with canvas.group(cut.label):
        canvas.text((left, top + LABEL - 1.2), cut.label, LABEL_PT)
        canvas.rectangle(Box(left, top + LABEL, left + long, top + cut.height), FIRM)
        for at, line in enumerate(cut.lines):
            base = top + LABEL + PAD + at * pitch + (pitch + CAPITALS * size_pt * MM_PER_POINT) / 2
            canvas.text((left + PAD, base), line, size_pt, bold=True)
