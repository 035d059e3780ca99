"""Diameter of a bolt in primary structure.

Requires: no steel bolt in primary structure is smaller than the published least size, and none of aluminium alloy smaller than its own.
Because: a small bolt is overtightened by hand before anybody feels it, and breaks later in flight.
Method: nominal diameter against the least size for the metal; screws and rivets are not asked.
Leaves out: strength, which shear and tension of the fastener ask.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.structure.fastener_diameter import fastener_diameter
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="threaded_brackets", tables=(methods,))
def bolt_size(bracket: Bracket, facts: Facts) -> Finding:
    sheet, rule = Worksheet(), methods.row("bolt size")
    sheet.needs(bracket.fastener)
    assert isinstance(bracket.fastener, Fact)
    if bracket.fastener.value != "bolt":
        return sheet.met("held by screws, for which no least size is published")
    if bracket.in_pressure_hull:
        return sheet.refer(
            Referral(
                f"Are the bolts {bracket.size.value if isinstance(bracket.size, Fact) else ''} of {bracket.name} large enough for the pressure hull?",
                "the published least size is for unpressurised structure",
                "the holder of a design approval for this pressure structure",
                "the size of these bolts from that holder's data",
            )
        )
    sheet.needs(bracket.fastener_material)
    assert isinstance(bracket.fastener_material, Fact)
    aluminium = bracket.fastener_material.value == "aluminium alloy"
    sheet.given("d", fastener_diameter(bracket, facts).value("d"), "diameter of the bolt")
    return sheet.at_least("d", rule.d_aluminium if aluminium else rule.d_min)
