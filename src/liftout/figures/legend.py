"""A table inside a drawing: what its marks, letters and numbers stand for, with names in full."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from liftout.figures.lettering import ASCENT, MM_PER_POINT, PITCH, wrapped
from liftout.figures.placing import Point
from liftout.figures.svg import FIRM, GRID, THIN, Anchor, Canvas

Symbol = Callable[[Canvas, Point], None]
"""Draws a mark about a point."""

SIZE_PT: Final = 8.0
GAP: Final = 2.0
PAD: Final = 0.75
LINE: Final = SIZE_PT * MM_PER_POINT * PITCH
LINES_TRIED: Final = (6, 4, 3, 2, 1)
"""Lines that a cell may take, tried from the most until the table has room."""


@dataclass(frozen=True)
class Column:
    """A column: its head, its width in mm, and the side its text keeps to."""

    head: str
    width: float
    side: Anchor = "start"


@dataclass(frozen=True)
class Legend:
    """A table of rows as long as its columns; a cell is a text or a symbol."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str | Symbol, ...], ...]
    most_lines: int = LINES_TRIED[0]

    def within(self, room: float) -> Legend:
        """The same table with the most lines a cell at which it is no higher than `room` mm (or with one line a cell)."""
        tries = [replace(self, most_lines=most) for most in LINES_TRIED]
        return next((legend for legend in tries if legend.height <= room), tries[-1])

    @property
    def width(self) -> float:
        """Width of all columns."""
        return sum(column.width for column in self.columns)

    @property
    def height(self) -> float:
        """Height of the head and all rows."""
        return self._row_height(self._heads) + sum(self._row_height(cells) for cells in self._cells)

    @property
    def _heads(self) -> list[list[str]]:
        return [wrapped(column.head, column.width - GAP, SIZE_PT, bold=True, most=2) for column in self.columns]

    @property
    def _cells(self) -> list[list[list[str] | Symbol]]:
        return [
            [
                wrapped(cell, column.width - GAP, SIZE_PT, most=self.most_lines) if isinstance(cell, str) else cell
                for cell, column in zip(row, self.columns, strict=True)
            ]
            for row in self.rows
        ]

    @staticmethod
    def _row_height(cells: Sequence[list[str] | Symbol]) -> float:
        return LINE * max(len(cell) if isinstance(cell, list) else 1 for cell in cells) + 2 * PAD

    def draw(self, canvas: Canvas, left: float, top: float) -> None:
        """Draw the table with its upper left corner there."""
        y = top
        canvas.line((left, y), (left + self.width, y), FIRM)
        self._row(canvas, left, y, self._heads, bold=True)
        y += self._row_height(self._heads)
        canvas.line((left, y), (left + self.width, y), THIN)
        for number, cells in enumerate(self._cells):
            if number:
                canvas.line((left, y), (left + self.width, y), GRID)
            self._row(canvas, left, y, cells, bold=False)
            y += self._row_height(cells)
        canvas.line((left, y), (left + self.width, y), THIN)

    def _row(self, canvas: Canvas, left: float, top: float, cells: Sequence[list[str] | Symbol], *, bold: bool) -> None:
        base = top + PAD + (LINE + ASCENT * SIZE_PT * MM_PER_POINT) / 2 - 0.25
        for cell, column in zip(cells, self.columns, strict=True):
            if not isinstance(cell, list):
                cell(canvas, (left + (column.width - GAP) / 2, top + PAD + LINE / 2))
            else:
                at = {"start": 0.0, "middle": (column.width - GAP) / 2, "end": column.width - GAP}[column.side]
                for line, words in enumerate(cell):
                    canvas.text((left + at, base + line * LINE), words, SIZE_PT, anchor=column.side, bold=bold)
            left += column.width
