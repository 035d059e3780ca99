"""Spacing of the rivets of a doubler.

Requires: no two rivets of a doubler stand nearer to each other than the published multiple of their diameter, at its corners too.
Because: holes in a close row weaken the sheet between them like a perforation, and rows meet at the corners of a square.
Method: the least of pitch, distance from row to row and distance across a corner, against the multiple of a single or a double row.
  Rows that run past the first row of the next side are refused, since they would cross it.
Leaves out: the largest spacing, which is against gaping, and rivets of the aircraft in the neighbourhood.
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
def doubler_spacing(doubler: Doubler, facts: Facts) -> Finding:
    sheet, rivets = Worksheet(), doubler.rivets
    sheet.needs(rivets.head, rivets.rows, rivets.in_a_row)
    assert isinstance(rivets.head, Fact)
    sheet.given("D", doubler.size, "diameter or longest side of the opening")
    sheet.given("e_o", rivets.from_opening, "from the edge of the opening to the first row")
    sheet.given("p", rivets.pitch, "from rivet to rivet in a row")
    sheet.given("n_1", rivets.in_a_row, "rivets in one row")
    terms = ["p", "s_c"]
    if doubler.in_several_rows:
        sheet.given("g", rivets.row_distance, "from row to row")
        terms.append("g")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    key = f"{'double-row ' if doubler.in_several_rows else ''}spacing {rivets.head.value} head"
    sheet.given("r", sheet.row(layout, key).least, f"least multiple of the diameter, {key}")
    sheet.work("c_1", "D / 2 + e_o", "first row from the middle of the opening", "in")
    sheet.work("h", "(n_1 - 1) * p / 2", "last rivet of a row from the middle of its side", "in")
    if sheet.exceeds("h", "c_1"):
        return sheet.refused("the rows of two sides cross at the corner of the doubler")
    sheet.work("s_c", "sqrt(2) * (c_1 - h)", "nearest rivets of two sides, across the corner", "in")
    sheet.work("s", f"min({', '.join(terms)})", "least distance of two rivets", "in")
    sheet.work("s_min", "r * d", "least spacing for this diameter", "in")
    return sheet.at_least("s", "s_min")
