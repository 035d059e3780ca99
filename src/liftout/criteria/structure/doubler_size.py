"""Size of a doubler.

Requires: each side of a doubler holds the opening, all rows of rivets on both sides of it and their distances from the edges.
Because: rows that do not fit are put where there is room, too near to an edge, when half of the holes are drilled.
Method: opening, twice the first row's distance, the rows' distances and the distance of the last row from the edge, added up.
Leaves out: what is left of the doubler beside the opening, which the area asks; whether there is room for the doubler between stringers and
    frames, which the distance to the stiffeners asks.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.doublers import DoublerSides
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="doubler_sides")
def doubler_size(sides: DoublerSides, facts: Facts) -> Finding:
    sheet, doubler, rivets = Worksheet(), sides.doubler, sides.doubler.rivets
    sheet.needs(rivets.rows)
    sheet.given("B", sides.reach, "doubler from one of these sides to the other")
    sheet.given("D", sides.depth, "opening from one of these sides to the other")
    sheet.given("e_o", rivets.from_opening, "from the edge of the opening to the first row")
    sheet.given("e_d", rivets.from_edge, "from the last row to the edge of the doubler")
    if doubler.in_several_rows:
        sheet.given("n_r", rivets.rows, "rows on each side")
        sheet.given("g", rivets.row_distance, "from row to row")
        sheet.work("B_min", "D + 2 * (e_o + (n_r - 1) * g + e_d)", "what the pattern needs", "in")
    else:
        sheet.work("B_min", "D + 2 * (e_o + e_d)", "what the pattern needs", "in")
    return sheet.at_least("B", "B_min")
