"""Placards at the size in which they are printed: each in the line along which it is cut, with a number and the place it goes to."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from liftout.figures.drawing import FULL_SIZE, WIDTH, Drawing, Key, drawing
from liftout.figures.full_size import BAR_MM, HEAD, TALLEST, check_bars
from liftout.figures.lettering import LINE, MM_PER_POINT, PITCH, SIZE_PT, width, wrapped
from liftout.figures.placing import Box
from liftout.figures.svg import CUT, Canvas
from liftout.quantities import Quantity

CAPITALS: Final = 0.698
"""Height of a capital letter of the shipped font, in ems."""

ROOM: Final = WIDTH - 9.0
"""Paper across for placards, beside the upright bar."""

PAD: Final = 2.5
GAP: Final = 5.0

NOTES: Final = (
    "All three bars must measure what is written on them; otherwise the letters are not as high as they must be. Cut along the dashed lines.",
    "Material: the job names none. Take one that cannot be easily erased, disfigured or obscured where it stands, and a licensed person accepts.",
)


class Placard(NamedTuple):
    """A placard: where it goes, and what is on it."""

    place: str
    wording: str


class _Cut(NamedTuple):
    number: int
    placard: Placard
    lines: tuple[str, ...]
    label: tuple[str, ...]
    across: float
    """Of the placard itself."""
    tall: float
    """Of the placard itself."""

    @property
    def width(self) -> float:
        """With its label."""
        return max(self.across, *map(width, self.label))

    @property
    def height(self) -> float:
        """With its label."""
        return self.tall + len(self.label) * LINE + 1


def placard_sheets(placards: Sequence[Placard], capitals: Quantity) -> tuple[Drawing, ...]:
    """Sheets of placards.

    Args:
        placards: in the order of their numbers.
        capitals: height of a capital letter.
    """
    size_pt = float(capitals.si) * 1000 / CAPITALS / MM_PER_POINT
    cuts = [_cut(number, placard, size_pt) for number, placard in enumerate(placards, 1)]
    sheets = list(_sheets(list(_rows(cuts))))
    return tuple(_sheet(rows, size_pt, number, str(capitals)) for number, rows in enumerate(sheets, 1))


def _cut(number: int, placard: Placard, size_pt: float) -> _Cut:
    lines = tuple(wrapped(placard.wording, ROOM - 2 * PAD, size_pt, bold=True))
    across = max(width(line, size_pt, bold=True) for line in lines) + 2 * PAD
    label = tuple(wrapped(f"{number}: {placard.place}", max(across, ROOM / 2 - GAP)))
    return _Cut(number, placard, lines, label, across, len(lines) * size_pt * MM_PER_POINT * PITCH + 2 * PAD)


def _rows(cuts: Sequence[_Cut]) -> Iterator[list[_Cut]]:
    """Placards side by side as long as they have room."""
    row: list[_Cut] = []
    for cut in cuts:
        if row and math.fsum(other.width + GAP for other in row) + cut.width > ROOM:
            yield row
            row = []
        row.append(cut)
    if row:
        yield row


def _notes() -> list[str]:
    return wrapped(" ".join(NOTES), WIDTH - 4)


def _sheets(rows: Sequence[list[_Cut]]) -> Iterator[list[list[_Cut]]]:
    room = TALLEST - HEAD - len(_notes()) * LINE - 4
    sheet: list[list[_Cut]] = []
    for row in rows:
        if sheet and math.fsum(_tall(other) + GAP for other in sheet) + _tall(row) > room:
            yield sheet
            sheet = []
        sheet.append(row)
    if sheet:
        yield sheet


def _tall(row: Sequence[_Cut]) -> float:
    return max(cut.height for cut in row)


def _sheet(rows: Sequence[list[_Cut]], size_pt: float, number: int, capitals: str) -> Drawing:
    notes = _notes()
    tall = max(math.fsum(_tall(row) + GAP for row in rows), BAR_MM + 3)
    canvas = Canvas(WIDTH, HEAD + tall + len(notes) * LINE + 1.5, smallest_pt=min(SIZE_PT, size_pt))
    check_bars(canvas)
    top = HEAD
    for row in rows:
        left = 1.0
        for cut in row:
            _draw(canvas, cut, left, top, size_pt)
            left += cut.width + GAP
        top += _tall(row) + GAP
    canvas.lines((2.0, HEAD + tall + LINE - 0.5), notes)
    named = "; ".join(f"{cut.number}, {cut.placard.place}: {cut.placard.wording}" for row in rows for cut in row)
    caption = f"Placards, sheet {number}. Print at full size: {WIDTH:g} mm wide."
    key = Key(
        ("No.", "Place", "Width", "Height"),
        tuple((str(cut.number), cut.placard.place, f"{cut.across:.1f} mm", f"{cut.tall:.1f} mm") for row in rows for cut in row),
        ("left", "left", "right", "right"),
        f"Where the placards of sheet {number} go, and their size when cut",
    )
    words = f"Placards at full size, capitals {capitals} high, bars of 100 mm and 4 in to check the print. {named}."
    return drawing(canvas, f"placards {number}", caption, words, FULL_SIZE, key)


def _draw(canvas: Canvas, cut: _Cut, left: float, top: float, size_pt: float) -> None:
    pitch = size_pt * MM_PER_POINT * PITCH
    with canvas.group(" ".join(cut.label)):
        canvas.lines((left, top + LINE - 0.8), cut.label)
        y = top + len(cut.label) * LINE + 1
        canvas.rectangle(Box(left, y, left + cut.across, y + cut.tall), CUT)
        base = y + PAD + (pitch + CAPITALS * size_pt * MM_PER_POINT) / 2
        canvas.lines((left + PAD, base), cut.lines, bold=True, size_pt=size_pt, pitch=pitch)
