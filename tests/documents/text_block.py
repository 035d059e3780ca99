"""Where the text of a page ends: the right end of each run of letters, from the page's own content and the widths in its fonts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pypdf
from pypdf.generic import ContentStream

Matrix = tuple[float, ...]
_UNMOVED: Matrix = (1, 0, 0, 1, 0, 0)


def ends(page: pypdf.PageObject) -> Iterator[float]:
    """Right end of each run of letters in points, drawings left out, which stand in contents of their own."""
    fonts: dict[str, dict[int, float]] = {name: _widths(font) for name, font in page["/Resources"].get("/Font", {}).items()}  # type: ignore[union-attr]
    placed, kept = _UNMOVED, list[Matrix]()
    widths, size, line = dict[int, float](), 1.0, _UNMOVED
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        match operator:
            case b"q":
                kept.append(placed)
            case b"Q":
                placed = kept.pop()
            case b"cm":
                placed = _after(tuple(map(float, operands)), placed)
            case b"Tf":
                widths, size = fonts[operands[0]], float(operands[1])
            case b"Tm":
                line = _after(tuple(map(float, operands)), placed)
            case b"Tj" | b"TJ":
                run = operands[0] if operator == b"TJ" else operands
                wide = sum(-float(part) if isinstance(part, (int, float)) else _wide(part, widths) for part in run)
                yield line[0] * wide / 1000 * size + line[4]


def _after(first: Matrix, then: Matrix) -> Matrix:
    a, b, c, d, e, f = first
    p, q, r, s, t, u = then
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def _wide(letters: Any, widths: dict[int, float]) -> float:
    written: bytes = getattr(letters, "original_bytes", letters)
    return sum(widths.get(written[at] << 8 | written[at + 1], 1000.0) for at in range(0, len(written) - 1, 2))


def _widths(font: Any) -> dict[int, float]:
    """Width of each glyph in thousandths, from runs as `first [w w w]` and `first last w`."""
    found: dict[int, float] = {}
    told = [item.get_object() for item in font.get_object()["/DescendantFonts"][0].get_object()["/W"].get_object()]
    while told:
        first = int(told.pop(0))
        after = told.pop(0)
        if isinstance(after, list):
            found |= {first + at: float(width) for at, width in enumerate(after)}
        else:
            found |= dict.fromkeys(range(first, int(after) + 1), float(told.pop(0)))
    return found
