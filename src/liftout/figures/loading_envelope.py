"""Centre-of-gravity envelope with the empty weight of each state in it, and loadings where some are given."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from liftout.facts import Facts
from liftout.facts.fact import Amount, Fact, Missing
from liftout.facts.limits import Corner, Limits
from liftout.facts.states import State
from liftout.figures.amounts import DIGITS, UNKNOWN, among, needed, on_scale, said, written
from liftout.figures.drawing import WIDTH, Drawing, Key, drawing
from liftout.figures.envelope_chart import Chart, Line
from liftout.figures.keys import ROW as KEY_ROW
from liftout.figures.keys import entry_width, key, rows_of_key, ruled
from liftout.figures.lettering import LINE, SHIFT, wrapped
from liftout.figures.marks import letters
from liftout.figures.placing import Box, Point
from liftout.figures.show import show
from liftout.figures.svg import CHAIN, HEAVY, Canvas, Pen
from liftout.quantities import Quantity, from_si, plain, rounded
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.region_outline import limit_outline

TOP, PLOT = 5.5, 98.0
MOST_POINTS = 14
"""Marks on one drawing of `loading_envelopes`."""

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


@dataclass(frozen=True)
class Curve:
    """A line besides the limits: its name, how it is drawn, its points as weight and arm in SI, and what lines of its kind are."""

    name: str
    pen: Pen
    points: tuple[Point, ...]
    kind: str = ""


def loading_envelope(facts: Facts, states: Sequence[State] | None = None, loadings: Sequence[Loading] = ()) -> Drawing:
    """The envelope of the aircraft, the empty weight of each state (of all by default) and further loadings."""
    shown = facts.states if states is None else states
    on = shown[0].undercarriage if shown else facts.states[0].undercarriage
    return envelope(facts.aircraft.on(on).limits, facts.aircraft.datum, [empty(state, facts) for state in shown], loadings)


def empty(state: State, facts: Facts) -> Loading:
    """The amended empty weight of a state, with the figures that its worksheet prints."""
    sheet = amended_empty_weight(state, facts)
    steps = {step.symbol: step for step in sheet.steps}
    if "W" not in steps or "x_cg" not in steps:
        return Loading(f"empty, {state.name}", None, None, missing=sheet.missing)
    weight, arm = steps["W"], steps["x_cg"]
    printed = (f"{weight.result.number} {weight.result.unit}", f"{arm.result.number} {arm.result.unit}")
    return Loading(f"empty, {state.name}", weight.quantity, arm.quantity, printed)


def loading_envelopes(facts: Facts, states: Sequence[State] | None = None, loadings: Sequence[Loading] = ()) -> list[Drawing]:
    """The same on as many drawings as are needed to keep each readable: first the states, then the loadings."""
    shown = [empty(state, facts) for state in (facts.states if states is None else states)]
    limits, datum = facts.aircraft.limits, facts.aircraft.datum
    sheets = [(part, ()) for part in batched(shown)] + [((), part) for part in batched(loadings)]
    drawings = [envelope(limits, datum, *sheet) for sheet in sheets or [((), ())]]
    if len(drawings) == 1:
        return drawings
    return [
        replace(made, name=f"{made.name}-{number}", caption=f"{made.caption[:-1]}, sheet {number} of {len(drawings)}.")
        for number, made in enumerate(drawings, 1)
    ]


def batched(points: Sequence[Loading]) -> list[tuple[Loading, ...]]:
    """Points in order, in parts of equal size, none with more than a readable drawing holds."""
    parts = -(-len(points) // MOST_POINTS)
    size = -(-len(points) // parts) if parts else 1
    return [tuple(points[first : first + size]) for first in range(0, len(points), size)]


def envelope(limits: Limits, datum: str, states: Sequence[Loading], loadings: Sequence[Loading] = (), curves: Sequence[Curve] = ()) -> Drawing:
    """The chart of these limits with these marks, and with these lines besides the limits."""
    points = [*states, *loadings]
    corners = (*limits.forward, *limits.aft)
    arm_unit = among((corner.arm for corner in corners), next((p.arm.unit.symbol for p in points if p.arm), "in"))
    weight_unit = among((limits.maximum_takeoff, *(c.weight for c in corners)), next((p.weight.unit.symbol for p in points if p.weight), "lb"))
    kinds = {curve.kind or curve.name: curve.pen for curve in curves}
    entries = [(ruled(HEAVY), "limits"), (ruled(CHAIN), "maximum take-off weight"), *((ruled(pen), kind) for kind, pen in kinds.items())]
    short = [entry for entry in entries if entry_width(entry[1]) <= WIDTH - 4]
    arm_axis = f"Arm aft of the datum {datum} ({arm_unit})"
    plot = Box(19.0, TOP, WIDTH - 6.0, TOP + PLOT)
    foot = plot.bottom + 12.0 + LINE * len(wrapped(arm_axis, (WIDTH - 25.0) / 2))
    words = [(pen, wrapped(kind, WIDTH - 16)) for kind, pen in kinds.items() if entry_width(kind) > WIDTH - 4]
    canvas = Canvas(WIDTH, foot + KEY_ROW * len(rows_of_key(short)) + sum(len(lines) for _, lines in words) * LINE + len(words) * 1.6)
    _chart(limits, points, curves, arm_unit, weight_unit, arm_axis).draw(canvas, plot)
    y = foot + key(canvas, 1, foot, short)
    for pen, lines in words:
        ruled(pen)(canvas, (1 + 4.5, y))
        canvas.lines((12.2, y + SHIFT), lines)
        y += len(lines) * LINE + 1.6
    shown = " and ".join(
        part for part in ("the empty weight of the aircraft in each state" if states else "", "loadings" if loadings else "") if part
    )
    caption = f"Centre-of-gravity envelope with {shown or 'no mark'}."
    spoken = f"{_limits_in_words(limits)} {_in_words(points)} {NOTE if states else ''}".strip()
    told = Key(
        ("Mark", f"Weight ({weight_unit})", f"Arm ({arm_unit})", "State or loading"),
        (
            *(_row(number, point, weight_unit, arm_unit) for number, point in enumerate(points)),
            *_limit_rows(limits, weight_unit, arm_unit, empty=bool(states)),
        ),
        ("left", "right", "right", "left"),
        "Key to the chart",
    )
    return drawing(canvas, "loading-envelope", caption, f"Chart of weight over arm from the datum {datum}. {spoken}", key=told)


def _limit_rows(limits: Limits, weight_unit: str, arm_unit: str, *, empty: bool) -> Iterator[tuple[str, str, str, str]]:
    """The corners of the limits, as the key tells them."""
    between = "straight in moment from corner to corner, so curved here" if limits.in_moment else "straight from corner to corner"
    for name, corners in (("forward limit", limits.forward), ("aft limit", limits.aft)):
        for corner in corners:
            yield "line", _told_in(corner.weight, weight_unit), _told_in(corner.arm, arm_unit), f"corner of the {name}; {between}, constant below"
        if not corners:
            yield "none", UNKNOWN, UNKNOWN, f"{name}, not assessed"
    yield "chain", _told_in(limits.maximum_takeoff, weight_unit), "", f"maximum take-off weight{f'. {NOTE}' if empty else ''}"


def _told_in(amount: Amount, unit: str) -> str:
    return UNKNOWN if isinstance(amount, Missing) else _in_unit(said(amount), unit, amount.value)


def _chart(limits: Limits, points: Sequence[Loading], curves: Sequence[Curve], arm_unit: str, weight_unit: str, arm_axis: str) -> Chart:
    """The limits, the points and the lines in the units of the axes; what is missing is left out."""

    def on_axes(line: Sequence[Point]) -> list[Point]:
        return [(float(from_si(arm, arm_unit).magnitude), float(from_si(weight, weight_unit).magnitude)) for weight, arm in line]

    def places(corners: Sequence[Corner]) -> list[Point]:
        found = [(on_scale(corner.arm, arm_unit), on_scale(corner.weight, weight_unit)) for corner in corners]
        return [(arm, weight) for arm, weight in found if arm is not None and weight is not None]

    marks = [
        (number, point.label, (float(point.arm.to(arm_unit)), float(point.weight.to(weight_unit))))
        for number, point in enumerate(points)
        if point.weight is not None and point.arm is not None
    ]
    sides = [
        (f"{side} limit", on_axes(limit_outline(limits, side)) if limits.in_moment else places(limits.side(side))) for side in ("forward", "aft")
    ]
    most = on_scale(limits.maximum_takeoff, weight_unit)
    return Chart(
        (
            *(Line(name, tuple(corners), HEAVY) for name, corners in sides if corners),
            *(Line(curve.name, tuple(on_axes(curve.points)), curve.pen) for curve in curves if curve.points),
        ),
        None if most is None else (most, f"maximum take-off weight {said(limits.maximum_takeoff)}"),
        tuple(marks),
        arm_axis,
        f"Weight ({weight_unit})",
    )


def _row(number: int, point: Loading, weight_unit: str, arm_unit: str) -> tuple[str, str, str, str]:
    if point.weight is None or point.arm is None:
        wanted = "; ".join(need.what for need in point.missing)
        return letters(number), UNKNOWN, UNKNOWN, f"{point.label}: not drawn, not assessed{': ' + wanted if wanted else ''}"
    weight, arm = point.figures
    return letters(number), _in_unit(weight, weight_unit, point.weight), _in_unit(arm, arm_unit, point.arm), point.label


def _in_words(points: Sequence[Loading]) -> str:
    """The points with their figures."""
    words = []
    for number, point in enumerate(points):
        weight, arm = point.figures
        words.append(f"{letters(number)}, {point.label}: {'not drawn, not assessed' if weight == UNKNOWN else f'{weight} at {arm}'}.")
    return " ".join(words)


def _in_unit(text: str, unit: str, quantity: Quantity) -> str:
    """A printed figure without the unit that the head of the column names; turned into that unit where it has another."""
    number, *own = text.split()
    if own == [unit]:
        return number
    return plain(rounded(quantity.to(unit), DIGITS).normalize())


def _limits_in_words(limits: Limits) -> str:
    def side(name: str, corners: Sequence[Corner]) -> str:
        if not corners:
            return f"{name} limit: {UNKNOWN}, not assessed."
        line = ", ".join(f"{said(corner.arm)} at {said(corner.weight)}" for corner in corners)
        between = "straight in moment between, so curved here" if limits.in_moment else "straight lines between"
        return f"{name} limit: {line}; {between}, constant below."

    most = limits.maximum_takeoff
    top = f"Maximum take-off weight {said(most)}{'' if isinstance(most, Fact) else ', ' + needed(most)}."
    return f"{side('Forward', limits.forward)} {side('Aft', limits.aft)} {top}"


if __name__ == "__main__":
    show(lambda facts: [loading_envelope(facts)], sys.argv[1:])
