"""Diameter of the fasteners of a bracket."""

from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

holes, bolts = table("rivet_holes"), table("bolts")


@worked
def fastener_diameter(bracket: Bracket, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.needs(bracket.fastener)
    assert isinstance(bracket.fastener, Fact)
    if bracket.fastener.value == "rivet":
        sheet.given("d", sheet.row(holes, bracket.size).diameter, "nominal diameter of the rivet")
    elif bracket.fastener.value == "bolt":
        sheet.given("d", sheet.row(bolts, bracket.size).diameter, "nominal diameter of the bolt")
    else:
        sheet.given("d", bracket.diameter, "diameter of the screw")
    sheet.needs()
    return sheet
