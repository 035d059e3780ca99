"""The worst loading of a region against a limit, put on a sheet with its sum of moments as proof."""

from typing import NamedTuple, cast

from liftout.facts.reach import Reach
from liftout.physics.envelope import Limit
from liftout.physics.loading_region import Region, Side
from liftout.tables import table
from liftout.worked.balance.reachable_loads import ReachableLoads
from liftout.worksheet import Worksheet

methods = table("methods")


class Worst(NamedTuple):
    """The worst loading: what is aboard, and whether it lies outside."""

    aboard: tuple[str, ...]
    outside: bool


def worst_loading(sheet: Worksheet, possible: ReachableLoads, reach: Reach, limit: Limit) -> Worst:
    """Search the worst loading and work its W, M and x_cg (or, to the sides, y_cg) on the sheet.

    Raises:
        NoLoading: when the lightest loading is too heavy for a limit of weight.
    """
    side = cast("Side", reach.side)
    region = Region(possible.fixed_kg, possible.fixed_kgm, possible.loads, side)
    excursion = region.excursion(side, limit)
    rows = list(possible.rows(region.loading(side, excursion.weight_kg).amounts))
    lateral = "lateral " if reach.lateral else ""
    weights, moments = "", ""
    if rows:
        sheet.column("w", [(name, weight) for name, weight, _ in rows], "aboard in the worst loading, found by search")
        sheet.column("x", [(name, arm) for name, _, arm in rows], f"its {lateral}arm")
        weights, moments = " + sum(w)", " + sum(w * x)"
    rule = methods.row("adverse loading")
    sheet.work("W", f"W_e{weights}{possible.oil.weight}", "weight of the worst loading", "lb", by=rule, places=2)
    sheet.work("M", f"M_e{moments}{possible.oil.moment}", f"its {lateral}moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", f"{lateral}centre of gravity of this loading", "in", places=2)
    return Worst(tuple(name for name, _, _ in rows), excursion.inside_m < 0)
