"""Diameter of the rivets of a doubler."""

from liftout.facts import Facts
from liftout.facts.doublers import Doubler
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

holes = table("rivet_holes")


@worked
def doubler_rivet_diameter(doubler: Doubler, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("d", sheet.row(holes, doubler.rivets.size).diameter, "nominal diameter of the rivets")
    sheet.needs()
    return sheet
