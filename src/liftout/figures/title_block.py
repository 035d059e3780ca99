"""The title block at the foot of a drawing: title, number, revision, fingerprint of the job, and scale."""

from __future__ import annotations

import math
import re
from typing import Final, NamedTuple

from liftout.figures.drawing import TITLE_BLOCK
from liftout.figures.lettering import FAMILY, LINE, wrapped
from liftout.figures.placing import Box
from liftout.figures.svg import FIRM, THIN, Canvas, number

PAD: Final = 1.5
HEADS: Final = ("", "Drawing", "Revision", "Job", "Scale")
"""What stands above each cell."""
COLUMNS: Final = (59.0, 41.0, 16.0, 29.0, 23.0)
"""Widths in mm, as wide as the drawing together."""


_HEAD: Final = re.compile(r'<svg\b[^>]*?\swidth="(?P<width>[\d.]+)mm"\s+height="(?P<height>[\d.]+)mm"[^>]*?\sviewBox="(?P<box>[^"]+)"[^>]*>')


class Marking(NamedTuple):
    """What tells a drawing from all others."""

    title: str
    number: str
    """Of the document and of the figure in it."""
    revision: str
    fingerprint: str
    """The short digest of the job."""
    scale: str


def with_title_block(svg: str, marking: Marking, heads: tuple[str, ...] = HEADS) -> str:
    """The drawing with its title block below; it grows by `drawing.TITLE_BLOCK`, or more where a number needs more lines.

    Args:
        svg: a drawing that says its width and height in mm and its view box.
        marking: what the block says.
        heads: what stands above each cell, in the language of the paper.

    Raises:
        ValueError: where it does not say them.
    """
    head = _HEAD.search(svg)
    if head is None:
        raise ValueError("a drawing has a width and a height in mm, and a view box")
    width_mm, height_mm = float(head["width"]), float(head["height"])
    x, y, wide, _ = map(float, head["box"].split())
    canvas = _block(width_mm, height_mm, marking, heads)
    each = wide / width_mm
    grown = head[0].replace(f'height="{head["height"]}mm"', f'height="{number(canvas.height)}mm"')
    grown = grown.replace(f'viewBox="{head["box"]}"', f'viewBox="{number(x)} {number(y)} {number(wide)} {number(canvas.height * each)}"')
    placed = canvas.elements
    if (x, y, each) != (0.0, 0.0, 1.0):
        placed = f'<g transform="translate({number(x)} {number(y)}) scale({each:.6f})" font-family="{FAMILY}">\n{placed}\n</g>'
    body = svg[head.end() :]
    end = body.rindex("</svg>")
    return f"{svg[: head.start()]}{grown}{body[:end]}{placed}\n{body[end:]}"


def _block(width_mm: float, height_mm: float, marking: Marking, heads: tuple[str, ...]) -> Canvas:
    cells = [wrapped(cell, column - 2 * PAD - 0.5, bold=not head) for head, cell, column in zip(heads, marking, _columns(width_mm), strict=True)]
    tall = max(TITLE_BLOCK, max(len(cell) + bool(head) for head, cell in zip(heads, cells, strict=True)) * LINE + 3.0)
    canvas = Canvas(width_mm, height_mm + tall)
    box = Box(FIRM.weight / 2, height_mm + 0.5, width_mm - FIRM.weight / 2, height_mm + tall - FIRM.weight / 2)
    left = 0.0
    with canvas.group("title block"):
        canvas.rectangle(box, FIRM)
        for head, cell, column in zip(heads, cells, _columns(width_mm), strict=True):
            if left:
                canvas.line((left, box.top), (left, box.bottom), THIN)
            base = box.top + LINE - 0.2
            if head:
                canvas.text((left + PAD, base), head)
            canvas.lines((left + PAD, base + (LINE if head else 0)), cell, bold=True)
            left += column
    return canvas


def _columns(width_mm: float) -> tuple[float, ...]:
    """The columns of a drawing of that width: the title takes what the others leave."""
    return (width_mm - math.fsum(COLUMNS[1:]), *COLUMNS[1:])
