"""Centre-of-gravity envelope with the empty weight of each state in it, and loadings where some are given."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace

from liftout.facts import Facts
from liftout.facts.aircraft import Corner, Limits
from liftout.facts.fact import Fact, Missing
from liftout.facts.states import State
from liftout.figures.amounts import DIGITS, UNKNOWN, among, needed, on_scale, said, written
from liftout.figures.drawing import TALLEST, WIDTH, Drawing, drawing
from liftout.figures.legend import Column, Legend, Symbol
from liftout.figures.lettering import wrapped
from liftout.figures.marks import letters, mark
from liftout.figures.placing import BETWEEN, STRAIGHT, Box, Placer, Point, around
from liftout.figures.scale import Scale, spanning
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, FIRM, GRID, HEAVY, THIN, Anchor, Canvas, room_for
from liftout.quantities import Quantity, plain, rounded
from liftout.worked.balance.amended_empty_weight import amended_empty_weight

PLOT = Box(19.0, 5.0, WIDTH - 6.0, 103.0)
LINE = 3.6
MOST_ROWS = 14
NOTE = "The limits are those of the aircraft as loaded for flight. The marks of the states show it empty."


@dataclass(frozen=True)
class Loading:
    """A weight and the arm of its centre of gravity, with the figures to print where a worksheet printed them."""

    label: str
    weight: Quantity | None
    arm: Quantity | None
    printed: tuple[str, str] = ("", "")
    missing: tuple[Missing, ...] = ()

    @property
    def figures(self) -> tuple[str, str]:
        """Weight and arm as they are printed."""
        if self.weight is None or self.arm is None:
            return UNKNOWN, UNKNOWN
        return self.printed[0] or written(self.weight), self.printed[1] or written(self.arm)


def loading_envelope(facts: Facts, states: Sequence[State] | None = None, loadings: Sequence[Loading] = ()) -> Drawing:
    """The envelope of the aircraft, the empty weight of each state (of all by default) and further loadings."""
    shown = facts.states if states is None else states
    return envelope(facts.aircraft.limits, facts.aircraft.datum, [empty(state, facts) for state in shown], loadings)


def empty(state: State, facts: Facts) -> Loading:
    """The amended empty weight of a state, with the figures that its worksheet prints."""
    sheet = amended_empty_weight(state, facts)
    steps = {step.symbol: step for step in sheet.steps}
    if "W" not in steps or "x_cg" not in steps:
        return Loading(f"empty, {state.name}", None, None, missing=sheet.missing)
    weight, arm = steps["W"], steps["x_cg"]
    printed = (f"{weight.result.number} {weight.result.unit}", f"{arm.result.number} {arm.result.unit}")
    return Loading(f"empty, {state.name}", weight.quantity, arm.quantity, printed)


def envelope(limits: Limits, datum: str, states: Sequence[Loading], loadings: Sequence[Loading] = ()) -> Drawing:
    """The chart of these limits with these marks."""
    points = [*states, *loadings]
    corners = (*limits.forward, *limits.aft)
    arm_unit = among((corner.arm for corner in corners), next((p.arm.unit.symbol for p in points if p.arm), "in"))
    weight_unit = among((limits.maximum_takeoff, *(c.weight for c in corners)), next((p.weight.unit.symbol for p in points if p.weight), "lb"))
    chart = _Chart(limits, points, arm_unit, weight_unit)
    lines = wrapped(_limits_in_words(limits), WIDTH - 2, 8.0, most=4) + wrapped(NOTE, WIDTH - 2, 8.0)
    tables = _tables(chart, TALLEST - PLOT.bottom - 18 - len(lines) * LINE)
    foot = PLOT.bottom + 13 + max(table.height for table in tables)
    canvas = Canvas(WIDTH, foot + 4 + len(lines) * LINE)
    chart.draw(canvas, datum)
    for number, table in enumerate(tables):
        table.draw(canvas, 1 + number * (WIDTH + 2) / 2, PLOT.bottom + 13)
    for number, words in enumerate(lines):
        canvas.text((1, foot + 4.5 + number * LINE), words)
    return drawing(
        canvas,
        "loading-envelope",
        "Centre-of-gravity envelope with the empty weight of the aircraft in each state" + (" and loadings." if loadings else "."),
        f"Chart of weight over arm from the datum {datum}. {_limits_in_words(limits)} {chart.in_words()} {NOTE}",
    )


def _tables(chart: _Chart, room: float) -> list[Legend]:
    """The table of all points; where they are many, two tables side by side."""
    rows = tuple(chart.row(number) for number in range(len(chart.points)))
    halves = [rows] if len(rows) <= MOST_ROWS else [rows[: -(-len(rows) // 2)], rows[-(-len(rows) // 2) :]]
    widths = (12, 8, 26, 24, 4, WIDTH - 76) if len(halves) == 1 else (10, 7, 18, 15, 2, 30)
    heads = ("Mark", "", f"Weight ({chart.weight_unit})", f"Arm ({chart.arm_unit})", "", "State or loading")
    sides: tuple[Anchor, ...] = ("middle", "start", "end", "end", "start", "start")
    columns = tuple(Column(*column) for column in zip(heads, widths, sides, strict=True))
    tables = [Legend(columns, half).within(room) for half in halves]
    least = min(table.most_lines for table in tables)
    tables = [replace(table, most_lines=least) for table in tables]
    return tables


@dataclass
class _Chart:
    limits: Limits
    points: list[Loading]
    arm_unit: str
    weight_unit: str

    def __post_init__(self) -> None:
        sides = [self._places(self.limits.forward), self._places(self.limits.aft)]
        top = on_scale(self.limits.maximum_takeoff, self.weight_unit)
        told = [p for side in sides for p in side] + [p for n in range(len(self.points)) if (p := self.place(n))]
        arms = [arm for arm, _ in told] or [0.0, 1.0]
        weights = [weight for _, weight in told] + ([top] if top is not None else []) or [0.0, 1.0]
        self.arm = Scale(*spanning(arms, 0.08), PLOT.left, PLOT.right)
        self.weight = Scale(*spanning(weights, 0.06), PLOT.bottom, PLOT.top)
        self.placer = Placer(PLOT.grown(-0.5))

    def _places(self, corners: Sequence[Corner]) -> list[Point]:
        found = [(on_scale(corner.arm, self.arm_unit), on_scale(corner.weight, self.weight_unit)) for corner in corners]
        return [(arm, weight) for arm, weight in found if arm is not None and weight is not None]

    def place(self, number: int) -> Point | None:
        """Arm and weight of a point in the units of the chart."""
        point = self.points[number]
        if point.weight is None or point.arm is None:
            return None
        return float(point.arm.to(self.arm_unit)), float(point.weight.to(self.weight_unit))

    def on_paper(self, place: Point) -> Point:
        """Where it is drawn."""
        return self.arm.at(place[0]), self.weight.at(place[1])

    def row(self, number: int) -> tuple[str | Symbol, ...]:
        """The row of the table for a point."""
        point = self.points[number]
        if self.place(number) is None:
            wanted = "; ".join(need.what for need in point.missing)
            return "", letters(number), UNKNOWN, UNKNOWN, "", f"{point.label}: not drawn, not assessed{': ' + wanted if wanted else ''}"
        weight, arm = (
            _in_unit(text, unit, q) for text, unit, q in zip(point.figures, (self.weight_unit, self.arm_unit), (point.weight, point.arm), strict=True)
        )
        return (lambda canvas, at: mark(canvas, at, number)), letters(number), weight, arm, "", point.label

    def in_words(self) -> str:
        """The points with their figures."""
        words = []
        for number, point in enumerate(self.points):
            weight, arm = point.figures
            placed = f"{weight} at {arm}" if self.place(number) else "not drawn, not assessed"
            words.append(f"{letters(number)}, {point.label}: {placed}.")
        return " ".join(words)

    def draw(self, canvas: Canvas, datum: str) -> None:
        """Axes, limits, marks."""
        places = [(n, self.on_paper(p)) for n in range(len(self.points)) if (p := self.place(n))]
        self.placer.marks.extend(around(at, 4, 4) for _, at in places)
        self._axes(canvas, datum)
        self._limit_lines(canvas)
        rooms = [(number, at, self.placer.near(at, *room_for(letters(number), 9, bold=True), 2.4)) for number, at in places]
        for _, at, room in rooms:
            if room:
                canvas.line(at, room.centre, THIN)
        for number, at, _ in rooms:
            with canvas.group(self.points[number].label):
                mark(canvas, at, number)
        for number, _, room in rooms:
            if room:
                canvas.label(room, letters(number), 9, bold=True)

    def _axes(self, canvas: Canvas, datum: str) -> None:
        for value, text in self.arm.ticks(12):
            x = self.arm.at(value)
            canvas.line((x, PLOT.top), (x, PLOT.bottom), GRID)
            canvas.line((x, PLOT.bottom), (x, PLOT.bottom + 1.2), FIRM)
            canvas.text((x, PLOT.bottom + 4.6), text, anchor="middle")
        for value, text in self.weight.ticks(10):
            y = self.weight.at(value)
            canvas.line((PLOT.left, y), (PLOT.right, y), GRID)
            canvas.line((PLOT.left - 1.2, y), (PLOT.left, y), FIRM)
            canvas.text((PLOT.left - 2, y + 1), text, anchor="end")
        canvas.rectangle(PLOT, FIRM)
        where = wrapped(f"Arm aft of the datum {datum} ({self.arm_unit})", PLOT.width, 8.5, most=1)[0]
        canvas.text((PLOT.centre[0], PLOT.bottom + 9.2), where, 8.5, anchor="middle")
        canvas.text((4, PLOT.centre[1]), f"Weight ({self.weight_unit})", 8.5, anchor="middle", upwards=True)

    def _limit_lines(self, canvas: Canvas) -> None:
        top = on_scale(self.limits.maximum_takeoff, self.weight_unit)
        lines = []
        for side, corners in (("forward limit", self.limits.forward), ("aft limit", self.limits.aft)):
            places = self._places(corners)
            if places:
                line = [(self.arm.at(places[0][0]), PLOT.bottom), *(self.on_paper(place) for place in places)]
                with canvas.group(side):
                    canvas.polyline(line, HEAVY)
                lines.append((side, line))
                self.placer.follow(line)
        if top is not None:
            y = self.weight.at(top)
            with canvas.group("maximum take-off weight"):
                canvas.line((PLOT.left, y), (PLOT.right, y), CHAIN)
            self.placer.follow([(PLOT.left, y), (PLOT.right, y)])
            self._caption(
                canvas,
                [(PLOT.left + share * PLOT.width, y) for share in (0.25, 0.5, 0.75)],
                f"maximum take-off weight {said(self.limits.maximum_takeoff)}",
            )
        for side, line in lines:
            self._caption(canvas, [((x1 + x2) / 2, (y1 + y2) / 2) for (x1, y1), (x2, y2) in zip(line, line[1:], strict=False)], side)

    def _caption(self, canvas: Canvas, targets: Sequence[Point], words: str) -> None:
        """The name of a line beside one of its points, where there is room."""
        for target in targets:
            room = self.placer.beside(target, *room_for(words), 0.6, degrees=STRAIGHT + BETWEEN)
            if room:
                canvas.label(room, words)
                return


def _in_unit(text: str, unit: str, quantity: Quantity | None) -> str:
    """A printed figure without the unit that the head of the column names; turned into that unit where it has another."""
    number, _, own = text.rpartition(" ")
    if own == unit or quantity is None:
        return number
    return plain(rounded(quantity.to(unit), DIGITS).normalize())


def _limits_in_words(limits: Limits) -> str:
    def side(name: str, corners: Sequence[Corner]) -> str:
        if not corners:
            return f"{name} limit: {UNKNOWN}, not assessed."
        line = ", ".join(f"{said(corner.arm)} at {said(corner.weight)}" for corner in corners)
        return f"{name} limit: {line}; straight lines between, constant below."

    most = limits.maximum_takeoff
    top = f"Maximum take-off weight {said(most)}{'' if isinstance(most, Fact) else ', ' + needed(most)}."
    return f"{side('Forward', limits.forward)} {side('Aft', limits.aft)} {top}"


if __name__ == "__main__":
    show(lambda facts: [loading_envelope(facts)], sys.argv[1:])
