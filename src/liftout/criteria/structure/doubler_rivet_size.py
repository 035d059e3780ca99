"""Diameter of the rivets of a doubler against the sheet.

Requires: the rivets of a doubler are at least as thick as the published multiple of the thickness of the thicker sheet.
Because: a thin rivet in a thick sheet shears before the sheet works, and its head pulls off as the joint bends.
Method: nominal diameter against three times the thicker of sheet and doubler.
Leaves out: the largest diameter, at which heads and driving force spoil a thin sheet.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.doublers import Doubler
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.doubler_rivet_diameter import doubler_rivet_diameter
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="doublers", tables=(methods,))
def doubler_rivet_size(doubler: Doubler, facts: Facts) -> Finding:
    sheet, rule = Worksheet(), methods.row("rivet diameter")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    sheet.given("t", doubler.sheet.thickness, "thickness of the sheet round the opening")
    sheet.given("t_d", doubler.thickness, "thickness of the doubler")
    sheet.given("k", rule.k, "least multiple of the thickness")
    sheet.work("d_min", "k * max(t, t_d)", "least diameter for this sheet", "in", by=rule)
    return sheet.at_least("d", "d_min")
