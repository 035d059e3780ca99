"""What every template at its own size has: bars by which the print is checked, words that say so, and crosses at its holes."""

from __future__ import annotations

from typing import Final

from liftout.figures.drawing import TALLEST as TALLEST_DRAWING
from liftout.figures.drawing import WIDTH
from liftout.figures.lettering import LINE, MM_PER_INCH, SHIFT, wrapped
from liftout.figures.placing import Point
from liftout.figures.svg import FIRM, HEAVY, THIN, Canvas

HEAD: Final = 19.0
"""Paper above a template, for the two level bars."""

TALLEST: Final = TALLEST_DRAWING - 2 * LINE
"""Most paper that a template may take: a higher drawing would be made smaller. A long number in the title block has two lines to spare."""

BAR_MM: Final = 100.0
BAR_IN: Final = 4.0
HALF_CROSS: Final = 1.8

MEASURE_FIRST: Final = (
    "MEASURE BEFORE DRILLING. All three bars must measure what is written on them; otherwise do not use this sheet.",
    "Measure from each hole to the nearest rivet, stiffener and edge of the aircraft, and look behind the place, before you drill.",
)

SENSE: Final = {"arm": ("forward", "aft"), "lateral": ("left", "right"), "height": ("down", "up")}
"""What smaller and larger values of a coordinate mean."""


def notes_of(*more: str) -> list[str]:
    """The words below a template, in lines."""
    return wrapped(" ".join((*MEASURE_FIRST, *more)), WIDTH - 4)


def height(tall: float, notes: list[str]) -> float:
    """Paper that a template takes whose drawing is so tall: bars above it, words below it."""
    return HEAD + max(tall, BAR_MM) + 3 + len(notes) * LINE + 2


def write_notes(canvas: Canvas, notes: list[str]) -> None:
    """The words, at the foot of the canvas."""
    canvas.lines((2.0, canvas.height - (len(notes) - 1) * LINE - 1.5), notes)


def check_bars(canvas: Canvas) -> None:
    """100 mm and 4 in across, and 100 mm up, since a print may be stretched one way only."""
    left, base = 4.0, 4.0
    for number, (long, words) in enumerate(((BAR_MM, "100 mm"), (BAR_IN * MM_PER_INCH, "4 in"))):
        y = base + number * 8
        canvas.line((left, y), (left + long, y), HEAVY)
        for x in (left, left + long):
            canvas.line((x, y - 2), (x, y + 2), FIRM)
        canvas.text((left + long + 4, y + SHIFT), f"{words}: measure this bar on the print")
    x = WIDTH - 2.5
    canvas.line((x, HEAD), (x, HEAD + BAR_MM), HEAVY)
    for y in (HEAD, HEAD + BAR_MM):
        canvas.line((x - 2, y), (x + 2, y), FIRM)
    canvas.text((x - 1.2, HEAD + 4), "100 mm", anchor="end", upwards=True)


def hole_cross(canvas: Canvas, at: Point, radius: float) -> None:
    """A hole at its own size with a cross to punch by."""
    canvas.circle(at, radius, THIN)
    canvas.line((at[0] - HALF_CROSS, at[1]), (at[0] + HALF_CROSS, at[1]), THIN)
    canvas.line((at[0], at[1] - HALF_CROSS), (at[0], at[1] + HALF_CROSS), THIN)
