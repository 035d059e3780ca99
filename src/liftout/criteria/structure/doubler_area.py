"""Area that a doubler gives back beside its opening.

Requires: across the middle of an opening the doubler has, less its rivet holes, at least the cross-section that was cut out of the sheet.
Because: the load of the cut sheet goes round the opening through what is left of the doubler beside it, however well the rivets hand it over.
Method: doubler along these sides less the opening and one hole of each row of the neighbouring sides, times its thickness, against opening
  times thickness of the sheet. A smaller area is put to a person, since no published figure was found for it.
Leaves out: the holes that the same rows put into the sheet, bending of a doubler on one face of it, and stress at the edge of the opening.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.doublers import DoublerSides
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

methods, holes = table("methods"), table("rivet_holes")


@criterion(each="doubler_sides", tables=(methods, holes))
def doubler_area(sides: DoublerSides, facts: Facts) -> Finding:
    sheet, doubler, rivets, rule = Worksheet(), sides.doubler, sides.doubler.rivets, methods.row("area beside an opening")
    sheet.given("B", sides.length, "doubler along these sides")
    sheet.given("W", sides.width, "opening along these sides")
    sheet.given("n_r", rivets.rows, "rows of rivets on each of the two sides that are cut across")
    sheet.given("d_h", sheet.row(holes, rivets.size).hole, "hole of a driven rivet")
    sheet.given("t_d", doubler.thickness, "thickness of the doubler")
    sheet.given("t", doubler.sheet.thickness, "thickness of the sheet round the opening")
    sheet.work("b", "B - W - 2 * n_r * d_h", "width of the doubler left beside the opening, on both sides of it together", "in")
    sheet.work("A_d", "b * t_d", "cross-section of that", "in^2", by=rule)
    sheet.work("A", "W * t", "cross-section cut out of the sheet", "in^2")
    return sheet.at_least("A_d", "A", allow=_smaller(sides))


def _smaller(sides: DoublerSides) -> Referral:
    place = sides.doubler.place
    return Referral(
        f"By which data does the doubler of the {sides.name} restore the sheet, though less is left of it beside the opening than was cut?",
        f"the doubler is written at {place.job.place(place.path)}; no published figure was found for this rule of the trade",
        "the licensed person who inspects the fit",
        "a wider or a thicker doubler, or data that count it",
    )
