"""Centre of gravity of every loading there can be.

Requires: no loading that keeps the limits of stations, tanks and weight takes the centre of gravity outside a limit, in any state and category.
Because: samples miss the loading that the next pilot flies; what cannot be loaded wrongly needs no computation before the flight.
Method: the set of all reachable weights and moments is bounded exactly; the sheet proves its worst point by that loading's sum of moments.
Leaves out: loads outside the stations and tanks of the flight manual, and movement of persons in flight.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.reach import Reach
from liftout.findings import Finding
from liftout.physics.adverse_loading import NoLoading
from liftout.tables import table
from liftout.worked.balance.ballast import ballast_changes
from liftout.worked.balance.limit_line import limit_line, limit_of
from liftout.worked.balance.other_places import other_places
from liftout.worked.balance.placard import placard
from liftout.worked.balance.reachable_loads import reachable_loads
from liftout.worked.balance.worst_loading import worst_loading
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="reaches", tables=(methods,))
def loading_region(reach: Reach, facts: Facts) -> Finding:
    sheet, limits = Worksheet(), reach.limits
    possible = reachable_loads(sheet, reach, facts)
    limit = limit_of(sheet, limits, reach.side)
    try:
        worst = worst_loading(sheet, possible, reach, limit)
    except NoLoading:
        return sheet.refused("the lightest pilot alone makes the aircraft heavier than a limit of weight allows")
    if not limit_line(sheet, limits, reach.side):
        return sheet.refused("heavier than the last corner of the envelope")
    compare = sheet.at_least if reach.side == "forward" else sheet.at_most
    allow = placard(possible, reach, limit, facts) if worst.outside else None
    case = {"worst with": ", ".join(worst.aboard)}
    otherwise = [*other_places(reach.state.items, facts), *ballast_changes(sheet, facts, reach.state, reach.side, f"worst loading, {reach.name}")]
    return compare("x_cg", "x_limit", distance=True, case=case, otherwise=otherwise, allow=allow)
