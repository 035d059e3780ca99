"""All that the aircraft can be loaded into: a state, in a category, against one of its limits."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.aircraft import Aircraft
from liftout.facts.limits import Limits
from liftout.facts.states import State


class Reach(NamedTuple):
    """Every loading of a state in a category, against the limit of one side."""

    state: State
    limits: Limits
    side: str
    further: bool
    """Whether the category is another than that of the certification basis."""
    any_order: bool
    """Whether tanks are emptied in any order, and not in that of the flight manual."""

    @property
    def lateral(self) -> bool:
        """Whether it is a limit to the left or to the right."""
        return self.side in ("left", "right")

    @property
    def name(self) -> str:
        """The side, with the category where it is another and the order where it is not kept."""
        category = f", {self.limits.category} category" if self.further else ""
        return f"{self.side} limit{category}{', tanks in any order' if self.any_order and not self.lateral else ''}"


def lateral_reaches(plane: Aircraft, states: tuple[State, ...]) -> tuple[Reach, ...]:
    """Every state against both lateral limits, where the aircraft has any; tanks in any order, since sides are emptied unevenly."""
    return tuple(
        Reach(state, limits, side, further=False, any_order=True)
        for state in states
        for limits in (plane.on(state.undercarriage).limits,)
        for side, limit in (("left", limits.left), ("right", limits.right))
        if limit is not None
    )


def reaches(plane: Aircraft, states: tuple[State, ...]) -> tuple[Reach, ...]:
    """Every state in every category against both limits, with the tanks in their order and, where they have one, in any."""
    orders = (False, True) if len(plane.fuel_order) > 1 else (False,)
    return tuple(
        Reach(state, limits, side, further, any_order)
        for state in states
        for limits, further in ((plane.on(state.undercarriage).limits, False), *((one, True) for one in plane.on(state.undercarriage).further_limits))
        for side in ("forward", "aft")
        for any_order in orders
    )
