"""Edge distance of the rivets of a doubler.

Requires: no rivet of a doubler stands nearer to the opening or to the edge of the doubler than the published multiple of its diameter.
Because: a rivet near an edge tears out through it, and the edge of an opening is where a crack begins.
Method: the smaller of both distances, as designed, against the multiple for the head.
Leaves out: edges of the sheet of the aircraft and rivets of the aircraft nearby, which are measured before anything is drilled.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import Doubler
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.doubler_rivet_diameter import doubler_rivet_diameter
from liftout.worksheet import Worksheet

layout = table("fastener_layout")


@criterion(each="doublers", tables=(layout,))
def doubler_edge_distance(doubler: Doubler, facts: Facts) -> Finding:
    sheet, rivets = Worksheet(), doubler.rivets
    sheet.needs(rivets.head)
    assert isinstance(rivets.head, Fact)
    sheet.given("e_o", rivets.from_opening, "from the edge of the opening to the first row")
    sheet.given("e_d", rivets.from_edge, "from the last row to the edge of the doubler")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    sheet.given("r", sheet.row(layout, f"edge distance {rivets.head.value} head").least, f"least multiple of the diameter, {rivets.head.value} head")
    sheet.work("e", "min(e_o, e_d)", "smaller edge distance", "in")
    sheet.work("e_min", "r * d", "least edge distance for this diameter", "in")
    return sheet.at_least("e", "e_min")
