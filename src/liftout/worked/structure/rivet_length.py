"""Length of the rivets of a doubler: what they grip, and what the shop head takes."""

from liftout.facts import Facts
from liftout.facts.doublers import Doubler
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.structure.doubler_rivet_diameter import doubler_rivet_diameter
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def rivet_length(doubler: Doubler, facts: Facts) -> Worksheet:
    sheet, rule = Worksheet(), methods.row("rivet length")
    sheet.given("t", doubler.sheet.thickness, "thickness of the sheet round the opening")
    sheet.given("t_d", doubler.thickness, "thickness of the doubler")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    sheet.given("k", rule.k, "share of the diameter that the shop head takes")
    sheet.work("G", "t + t_d", "grip", "in", places=3)
    sheet.work("L", "G + k * d", "length of the rivets, the next longer one in stock", "in", by=rule, places=3)
    return sheet
