"""The way of the air through an exchanger, part by part, with the drop of each on the ground and aloft."""

from __future__ import annotations

import sys
from typing import Final

from liftout.facts import Facts
from liftout.facts.air import ALOFT, GROUND, AirCase, AirPath
from liftout.figures.amounts import UNKNOWN, said
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.placing import Box, Point
from liftout.figures.show import show
from liftout.figures.svg import FIRM, Canvas
from liftout.quantities import plain, rounded
from liftout.worked import Worked
from liftout.worked.fluids.air_flow import air_flow

TOP: Final = 4.0
GAP: Final = 5.0
EACH: Final = 8
"""Parts side by side: with more the way goes on in a further row."""


def air_path(path: AirPath, facts: Facts) -> Drawing:
    """One air path, from its inlet to where the warm air leaves."""
    ground, aloft = (air_flow(AirCase(path, case), facts) for case in (GROUND, ALOFT))
    duct_drops = [(duct.name, f"dp_{n}") for n, duct in enumerate(path.ducts, 1)]
    parts = [("air at the inlet", ""), *((loss.name, f"dp_d{n}") for n, loss in enumerate(path.losses, 1)), ("fan", "p_fan"), *duct_drops]
    parts.append((f"leaves: {said(path.leaves_into)}", ""))
    lines = [("flow", "Q"), ("density at the inlet", "rho"), ("air at the inlet", "T_i"), ("rise, scoop", "p_s")]
    lines += [(f"{'rise' if symbol == 'p_fan' else 'drop'}, {name}", symbol) for name, symbol in parts if symbol]
    rows = [(words, shown(ground, symbol), shown(aloft, symbol)) for words, symbol in lines]
    scoop = path.place.part("scoop")
    about = f"Scoop: {f'none, because {scoop.declined.value}' if scoop.declined else 'declared' if scoop.there else UNKNOWN}."
    told = Key(("Part", "On the ground", "Aloft"), tuple(rows), ("left", "right", "right"), f"Flow and drops of the {path.name}")
    rows_on_paper = [parts[n : n + EACH] for n in range(0, len(parts), EACH)]
    each = min(EACH, len(parts))
    first = 1.0 if len(rows_on_paper) == 1 else 1.0 + GAP
    room = (WIDTH - 1 - first - GAP * (each - 1)) / each
    tall = LINE * max(len(wrapped(name, room - 1.6)) for name, _ in parts) + 5
    canvas = Canvas(WIDTH, TOP + len(rows_on_paper) * (tall + GAP))
    for down, row in enumerate(rows_on_paper):
        _row(canvas, row, (first, TOP + down * (tall + GAP)), tall, room, begun=down > 0)
    words = " ".join(f"{name}: {low} on the ground, {high} aloft." for name, low, high in rows)
    title = f"Air of the {path.name}, in the order in which it passes."
    return drawing(canvas, f"air-{path.name}", title, f"{title} {', then '.join(name for name, _ in parts)}. {words} {about}", key=told)


def _row(canvas: Canvas, parts: list[tuple[str, str]], start: Point, tall: float, room: float, *, begun: bool) -> None:
    """Parts side by side with arrows from one to the next; what leaves and what enters has no box."""
    for n, (name, symbol) in enumerate(parts):
        left = start[0] + n * (room + GAP)
        box = Box(left, start[1], left + room, start[1] + tall)
        if symbol:
            canvas.rectangle(box, FIRM)
        words = wrapped(name, room - 1.6)
        canvas.lines((box.centre[0], box.centre[1] + SHIFT - (len(words) - 1) / 2 * LINE), words, anchor="middle")
        if n or begun:
            canvas.arrow((left - GAP + 0.4, box.centre[1]), (left - 0.4, box.centre[1]))


def air_paths(facts: Facts) -> list[Drawing]:
    """All air paths that the job describes."""
    return [air_path(path, facts) for path in facts.air_paths if path.declined is None]


def shown(sheet: Worked, symbol: str) -> str:
    """A value of the sheet to four digits; a question mark where something is missing for it."""
    if sheet.sheet is None or not sheet.sheet.has(symbol):
        return UNKNOWN
    found = sheet.sheet.result(symbol, sheet.origin).quantity
    return f"{plain(rounded(found.magnitude, 4))} {found.unit.symbol}".rstrip()


if __name__ == "__main__":
    show(air_paths, sys.argv[1:])
