"""Centre of gravity of every loading there can be.

Requires: no loading that keeps the limits of stations, tanks and weight takes the centre of gravity outside a limit, in any state and category.
Because: samples miss the loading that the next pilot flies; what cannot be loaded wrongly needs no computation before the flight.
Method: the set of all reachable weights and moments is bounded exactly; the sheet proves its worst point by that loading's sum of moments.
Leaves out: loads outside the stations and tanks of the flight manual, and movement of persons in flight.
"""

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.reach import Reach
from liftout.findings import Finding, Referral
from liftout.physics.adverse_loading import NoLoading
from liftout.physics.envelope import Limit
from liftout.physics.loading_region import Check, Region, least_within, most_within
from liftout.quantities import unit
from liftout.tables import table
from liftout.worked.balance.ballast import ballast_changes
from liftout.worked.balance.limit_line import limit_line, limit_of
from liftout.worked.balance.other_places import other_places
from liftout.worked.balance.reachable_loads import ReachableLoads, reachable_loads
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="reaches", tables=(methods,))
def loading_region(reach: Reach, facts: Facts) -> Finding:
    sheet, limits = Worksheet(), reach.limits
    possible = reachable_loads(sheet, reach, facts)
    limit = limit_of(sheet, limits, reach.side)
    try:
        region = Region(possible.fixed_kg, possible.fixed_kgm, possible.loads)
        excursion = region.excursion(reach.side, limit)  # type: ignore[arg-type]
    except NoLoading:
        return sheet.refused("the lightest pilot alone makes the aircraft heavier than a limit of weight allows")
    rows = list(possible.rows(region.loading(reach.side, excursion.weight_kg).amounts))  # type: ignore[arg-type]
    sheet.column("w", [(name, weight) for name, weight, _ in rows], "aboard in the worst loading, found by search")
    sheet.column("x", [(name, arm) for name, _, arm in rows], "its arm")
    rule = methods.row("adverse loading")
    sheet.work("W", f"W_e + sum(w){possible.oil.weight}", "weight of the worst loading", "lb", by=rule, places=2)
    sheet.work("M", f"M_e + sum(w * x){possible.oil.moment}", "its moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "centre of gravity of this loading", "in", places=2)
    if not limit_line(sheet, limits, reach.side):
        return sheet.refused("heavier than the last corner of the envelope")
    compare = sheet.at_least if reach.side == "forward" else sheet.at_most
    allow = _placard(possible, reach, limit) if excursion.inside_m < 0 else None
    case = {"worst with": ", ".join(name for name, _, _ in rows)}
    otherwise = [*other_places(reach.state.items, facts), *ballast_changes(sheet, facts, reach.state, reach.side, f"worst loading, {reach.name}")]
    return compare("x_cg", "x_limit", distance=True, case=case, otherwise=otherwise, allow=allow)


def _placard(possible: ReachableLoads, reach: Reach, limit: Limit) -> Referral | None:
    """The least restrictive simple limits, each of which brings every loading inside; None where no single one does."""
    found = sorted(_simple_limits(possible, Check(reach.side, limit)))  # type: ignore[arg-type]
    if not found:
        return None
    if reach.any_order:
        found.insert(0, (0.0, "the tanks emptied in the order of the flight manual"))
    return Referral(
        question=f"some loadings lie outside the {reach.side} limit. Any one of these brings them all inside: "
        + "; or ".join(text for _, text in found)
        + ". Which of them is placarded, or how else is it kept?",
        facts=f"loading region of this state ({reach.state.name}, {reach.name}) with the worst loading worked above",
        who="the licensed person who answers for weight and balance, with the owner",
        closes="a decision that names the placard or the loading procedure",
    )


def _simple_limits(possible: ReachableLoads, check: Check) -> Iterator[tuple[float, str]]:
    """What each limit takes away, and the limit in words, rounded to the safe side."""
    pound = unit("lb")
    for station in possible.stations:
        if station.holds == "pilot":
            continue
        within_kg = most_within(possible.fixed_kg, possible.fixed_kgm, possible.loads, station.name, [check])
        if within_kg is not None:
            most = pound.from_si(Decimal(repr(within_kg))).quantize(Decimal(1), ROUND_FLOOR)
            whole_kg = station.maximum.value.si_float  # type: ignore[union-attr]
            yield whole_kg - within_kg, f"{station.name} at most {most} lb"
    for name, tank in possible.fuels:
        within_kg = least_within(possible.fixed_kg, possible.fixed_kgm, possible.loads, name, [check])
        if within_kg is not None:
            least = pound.from_si(Decimal(repr(within_kg))).quantize(Decimal(1), ROUND_CEILING)
            yield within_kg, f"{tank} never below {least} lb"
