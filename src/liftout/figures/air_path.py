"""The way of the air through an exchanger, part by part, with the drop of each on the ground and aloft."""

from __future__ import annotations

import sys

from liftout.facts import Facts
from liftout.facts.air import ALOFT, GROUND, AirCase, AirPath
from liftout.figures.amounts import UNKNOWN, said
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, drawing
from liftout.figures.legend import Column, Legend
from liftout.figures.lettering import wrapped
from liftout.figures.placing import Box
from liftout.figures.show import show
from liftout.figures.svg import FIRM, Canvas
from liftout.quantities import plain, rounded
from liftout.worked import Worked
from liftout.worked.fluids.air_flow import air_flow

TOP, BOTTOM = 4.0, 22.0
GAP = 5.0
LINE = 3.6
TABLE = 32.0


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
    table = Legend((Column("Part", 66), Column("On the ground", 50), Column("Aloft", 50)), tuple(rows)).within(TALLEST - TABLE - 1)
    canvas = Canvas(WIDTH, TABLE + table.height + 1)
    room = (WIDTH - 2 - GAP * (len(parts) - 1)) / len(parts)
    for n, (name, symbol) in enumerate(parts):
        left = 1 + n * (room + GAP)
        box = Box(left, TOP, left + room, BOTTOM)
        ends = not symbol
        if not ends:
            canvas.rectangle(box, FIRM)
        words = wrapped(name, room - 1.6, 8.0, most=4)
        first = box.centre[1] - LINE * len(words) / 2 + LINE * 0.75
        for line, text in enumerate(words):
            canvas.text((box.centre[0], first + line * LINE), text, anchor="middle")
        if n:
            canvas.arrow((left - GAP + 0.4, box.centre[1]), (left - 0.4, box.centre[1]))
    table.draw(canvas, 1, TABLE)
    told = " ".join(f"{name}: {low} on the ground, {high} aloft." for name, low, high in rows)
    title = f"Air of the {path.name}, in the order in which it passes."
    return drawing(canvas, f"air-{path.name}", title, f"{title} {', then '.join(name for name, _ in parts)}. {told} {about}")


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
