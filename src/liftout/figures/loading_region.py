"""Every loading there can be, before any change and with everything in, inside the limits; and how loadings move as fuel is burnt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from liftout.facts import Facts
from liftout.facts.limits import Limits
from liftout.facts.loadings import TAKEOFF
from liftout.facts.states import State
from liftout.figures.drawing import Drawing
from liftout.figures.loading_envelope import Curve, Loading, envelope
from liftout.figures.svg import DOTTED, FIRM, SECOND, Pen
from liftout.worked.balance.fuel_burn import fuel_burn
from liftout.worked.balance.region_outline import Outline, region_outline

CAPTION: Final = "Every loading that there can be, {}, with the worst loadings against each limit."
BURN: Final = "Fuel burn of named loadings, {}: take-off, landing, and no usable fuel."


def loading_region(facts: Facts, limits: Limits, shown: Sequence[State], worst: Sequence[Loading]) -> Drawing:
    """The outline of all loadings of one state, solid, and of a second one, dashed, with their worst loadings.

    Args:
        facts: the job.
        limits: limits of the category that is flown in.
        shown: one state or two.
        worst: the worst loadings, with the figures of their sheets.
    """
    pens = (FIRM, SECOND)
    curves = [_outline(region_outline(state, limits, facts), pen) for state, pen in zip(shown, pens, strict=False)]
    made = envelope(limits, facts.aircraft.datum, (), worst, [curve for curve in curves if curve.points])
    caption = CAPTION.format(" and ".join(state.name for state in shown))
    drawn = " ".join(f"{'Solid' if curve.pen is FIRM else 'Dashed'} outline: {curve.name}." for curve in curves if curve.points)
    return replace(made, name="loading-region", caption=caption, alternative=f"{made.alternative} {drawn}")


def fuel_burns(facts: Facts, limits: Limits, state: State, marks: Sequence[Loading], names: Sequence[str]) -> Drawing:
    """How the named loadings of a state move inside its outline while fuel is burnt.

    Args:
        facts: the job.
        limits: limits of the category that is flown in.
        state: the state.
        marks: take-off, landing and no usable fuel of each, with the figures of their sheets.
        names: the loadings that are drawn.
    """
    flown = [one for one in facts.loaded if one.loading.name in names and one.state.name == state.name and one.when == TAKEOFF]
    tracks = [(one.loading.name, track) for one in flown if len(track := fuel_burn(one, facts)) > 1]
    outline = _outline(region_outline(state, limits, facts), SECOND)
    curves = [Curve(name, DOTTED, track[::-1], "fuel burnt, tanks emptied in their order") for name, track in tracks]
    made = envelope(limits, facts.aircraft.datum, (), marks, [curve for curve in (outline, *curves) if curve.points])
    drawn = "Dotted lines run from take-off to no usable fuel, tanks emptied in their order." if tracks else ""
    return replace(made, name="fuel-burn", caption=BURN.format(state.name), alternative=f"{made.alternative} {drawn}".strip())


def _outline(outline: Outline, pen: Pen) -> Curve:
    points = outline.points
    return Curve(f"every loading, {outline.state}", pen, (*points, points[0]) if points else ())
