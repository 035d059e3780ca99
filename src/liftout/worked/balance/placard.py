"""What to placard where some loadings lie outside a limit: the simple limits that bring every loading inside."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from liftout.facts import Facts
from liftout.facts.reach import Reach
from liftout.findings import Referral
from liftout.physics.envelope import Limit
from liftout.physics.loading_region import ON_LIMIT_M, Check, Region, least_within, most_within
from liftout.quantities import unit
from liftout.worked.balance.reachable_loads import ReachableLoads, reachable_loads
from liftout.worksheet import Worksheet


def placard(possible: ReachableLoads, reach: Reach, limit: Limit, facts: Facts) -> Referral | None:
    """The least restrictive simple limits, each of which brings every loading inside; None where no single one does."""
    found = sorted(_simple_limits(possible, Check(reach.side, limit)))  # type: ignore[arg-type]
    if not found:
        return None
    if _order_mends(reach, limit, facts):
        found.insert(0, (0.0, "the tanks emptied in the order of the flight manual"))
    return Referral(
        question=f"some loadings lie outside the {reach.side} limit. Any one of these brings them all inside: "
        + "; or ".join(text for _, text in found)
        + ". Which of them is placarded, or how else is it kept?",
        facts=f"loading region of this state ({reach.state.name}, {reach.name}) with the worst loading worked above",
        who="the licensed person who answers for weight and balance, with the owner",
        closes="a decision that names the placard or the loading procedure",
    )


def _order_mends(reach: Reach, limit: Limit, facts: Facts) -> bool:
    """Whether tanks emptied in the order that the job tells bring every loading inside. No order evens out the sides."""
    if reach.lateral or not reach.any_order or not facts.aircraft.fuel_order:
        return False
    # Nothing can be missing and some loading is light enough, for the loadings in order are among those that were worked.
    ordered = reachable_loads(Worksheet(), reach._replace(any_order=False), facts)
    region = Region(ordered.fixed_kg, ordered.fixed_kgm, ordered.loads)
    return region.excursion(reach.side, limit).inside_m >= -ON_LIMIT_M  # type: ignore[arg-type]


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
