"""Distance from row to row of a doubler.

Requires: the rows of rivets of a doubler stand at least the published multiple of their diameter apart, staggered rows too.
Because: rows too near to each other leave a thin strip between two lines of holes, along which the sheet tears.
Method: distance from row to row, square to the rows, against the multiple of the diameter.
Leaves out: distances from rivet to rivet, which have a criterion of their own.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.doublers import Doubler
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.doubler_rivet_diameter import doubler_rivet_diameter
from liftout.worksheet import Worksheet

layout = table("fastener_layout")


@criterion(each="doublers", tables=(layout,))
def doubler_row_distance(doubler: Doubler, facts: Facts) -> Finding:
    sheet, rivets = Worksheet(), doubler.rivets
    sheet.needs(rivets.rows)
    if not doubler.in_several_rows:
        return sheet.met("a single row on each side")
    sheet.given("g", rivets.row_distance, "distance from row to row")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    sheet.given("r", layout.row("distance between rows").least, "least multiple of the diameter, distance between rows")
    sheet.work("g_min", "r * d", "least distance from row to row for this diameter", "in")
    return sheet.at_least("g", "g_min")
