"""Spacing of the rivets of a doubler.

Requires: no two rivets of a doubler stand nearer to each other than the published multiple of their diameter, at its corners too.
Because: holes in a close row weaken the sheet between them like a perforation, and rows meet at the corners of a square.
Method: the least of pitch, distance from row to row and distance across a corner, against the multiple of a single or a double row.
  Rivets of staggered rows are nearest to each other aslant, half a pitch and a row on.
  Rows that run past the first row of the next side are refused, since they would cross it.
Leaves out: the largest spacing, which is against gaping, and rivets of the aircraft in the neighbourhood.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import Doubler, DoublerSides
from liftout.facts.doublers import sides as doubler_sides
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.doubler_rivet_diameter import doubler_rivet_diameter
from liftout.worksheet import Worksheet

layout = table("fastener_layout")


@criterion(each="doublers", tables=(layout,))
def doubler_spacing(doubler: Doubler, facts: Facts) -> Finding:
    sheet, rivets = Worksheet(), doubler.rivets
    sheet.needs(rivets.head, rivets.rows, rivets.in_a_row, rivets.in_a_short_row, *doubler.stand)
    assert isinstance(rivets.head, Fact)
    sheet.given("e_o", rivets.from_opening, "from the edge of the opening to the first row")
    sheet.given("p", rivets.pitch, "from rivet to rivet in a row")
    terms = ["p", "s_c"]
    if doubler.in_several_rows:
        sheet.given("g", rivets.row_distance, "from row to row")
        terms.append("s_g" if doubler.staggered else "g")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    key = f"{'double-row ' if doubler.in_several_rows else ''}spacing {rivets.head.value} head"
    sheet.given("r", sheet.row(layout, key).least, f"least multiple of the diameter, {key}")
    for sides in doubler_sides(doubler):
        _of_sides(sheet, sides)
    if _crossed(sheet):
        return sheet.refused("the rows of two sides cross at the corner of the doubler")
    if sheet.has("c_2"):
        sheet.work("s_c", "sqrt((c_2 - h_1)**2 + (c_1 - h_2)**2)", "nearest rivets of two sides, across the corner", "in")
    else:
        sheet.work("s_c", "sqrt(2) * (c_1 - h_1)", "nearest rivets of two sides, across the corner", "in")
    if doubler.staggered:
        sheet.work("s_g", "sqrt(g**2 + (p / 2)**2)", "nearest rivets of two staggered rows", "in")
    sheet.work("s", f"min({', '.join(terms)})", "least distance of two rivets", "in")
    sheet.work("s_min", "r * d", "least spacing for this diameter", "in")
    return sheet.at_least("s", "s_min")


def _of_sides(sheet: Worksheet, sides: DoublerSides) -> None:
    """How far the first row lies from the middle, and how far its last rivet from the middle of its side."""
    n, which = (2, f" of the {sides.which}") if sides.shorter else (1, f" of the {sides.which}" if sides.which else "")
    sheet.given(f"D_{n}", sides.depth, f"opening across the rows{which}")
    sheet.given(f"n_{n}", sides.in_a_row, f"rivets in one row{which}")
    sheet.work(f"c_{n}", f"D_{n} / 2 + e_o", f"first row{which} from the middle of the opening", "in")
    sheet.work(f"h_{n}", f"(n_{n} - 1) * p / 2", f"last rivet of a row{which} from the middle of its side", "in")


def _crossed(sheet: Worksheet) -> bool:
    """Whether the rows of two neighbouring sides run past each other."""
    return sheet.exceeds("h_1", "c_2") or sheet.exceeds("h_2", "c_1") if sheet.has("c_2") else sheet.exceeds("h_1", "c_1")
