"""Lateral centre of gravity of every loading there can be.

Requires: no loading that keeps the limits of stations, tanks and weight takes the centre of gravity outside a lateral limit, in any state.
Because: an item to one side, a person beside an empty seat and a full tank on the same side add up.
Method: the set of all reachable weights and lateral moments is bounded exactly; the sheet proves its worst point by that loading's sum of moments.
Leaves out: how persons sit on a bench told with one lateral arm, and limits that change with weight.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.reach import Reach
from liftout.findings import Finding
from liftout.physics.adverse_loading import NoLoading
from liftout.physics.envelope import Limit
from liftout.tables import table
from liftout.worked.balance.placard import placard
from liftout.worked.balance.reachable_loads import reachable_loads
from liftout.worked.balance.worst_loading import worst_loading
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="lateral_reaches", tables=(methods,))
def lateral_loading(reach: Reach, facts: Facts) -> Finding:
    sheet, limits = Worksheet(), reach.limits
    edge = limits.left if reach.side == "left" else limits.right
    assert edge is not None, "only limits that there are come here"
    sheet.given("y_limit", edge, f"limit to the {reach.side}")
    possible = reachable_loads(sheet, reach, facts)
    limit = Limit(((sheet.si("W_max"), sheet.si("y_limit")),), in_moment=False)
    try:
        worst = worst_loading(sheet, possible, reach, limit)
    except NoLoading:
        return sheet.refused("the lightest pilot alone is too heavy for a limit of weight, and has no lateral limit")
    compare = sheet.at_least if reach.side == "left" else sheet.at_most
    allow = placard(possible, reach, limit, facts) if worst.outside else None
    return compare("x_cg", "y_limit", distance=True, case={"worst with": ", ".join(worst.aboard)}, allow=allow)
