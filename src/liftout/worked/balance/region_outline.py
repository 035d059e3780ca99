"""Outline of all loadings of a state, and limits of the centre of gravity, as a chart of weight over arm draws them."""

from typing import NamedTuple

from liftout.facts import Facts, Missing
from liftout.facts.limits import Limits
from liftout.facts.reach import Reach
from liftout.facts.states import State
from liftout.physics.adverse_loading import NoLoading
from liftout.physics.loading_region import Region
from liftout.physics.moment_line import curved
from liftout.worked.balance.limit_line import limit_of
from liftout.worked.balance.reachable_loads import reachable_loads
from liftout.worksheet import NotAssessed, Worksheet


class Outline(NamedTuple):
    """The exact region of every loading of a state, tanks in their order; points are weight and arm, straight between them on a chart.

    Attributes:
        state: the state.
        forward: the foremost loading at each weight, the lightest first.
        aft: the rearmost, the lightest first.
        missing: what is missing for it; then there are no points.
    """

    state: str
    forward: tuple[tuple[float, float], ...]
    aft: tuple[tuple[float, float], ...]
    missing: tuple[Missing, ...] = ()

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """All of it, once round: up the forward side and down the aft side."""
        return (*self.forward, *reversed(self.aft))


def region_outline(state: State, limits: Limits, facts: Facts) -> Outline:
    """The outline of the region of a state in a category.

    Args:
        state: the state.
        limits: limits of the category.
        facts: the job.

    Returns:
        The outline, or an empty one with what is missing; empty without it where no loading keeps every limit of weight.
    """
    try:
        possible = reachable_loads(Worksheet(), Reach(state, limits, "forward", further=False, any_order=False), facts)
        region = Region(possible.fixed_kg, possible.fixed_kgm, possible.loads)
    except NotAssessed as end:
        return Outline(state.name, (), (), end.missing)
    except NoLoading:
        return Outline(state.name, (), ())
    return Outline(state.name, curved(region.breakpoints("forward")), curved(region.breakpoints("aft")))


def limit_outline(limits: Limits, side: str) -> tuple[tuple[float, float], ...]:
    """Weight and arm along one limit, curved where it is straight in moment; nothing where a corner is missing."""
    try:
        limit = limit_of(Worksheet(), limits, side)
    except NotAssessed:
        return ()
    return curved(limit.points) if limit.in_moment else limit.points
