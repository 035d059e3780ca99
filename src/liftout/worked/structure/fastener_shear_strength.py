"""Strength of one fastener in shear by itself, in single shear."""

from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

rivets, holes, bolts = table("rivets"), table("rivet_holes"), table("bolts")


@worked
def fastener_shear_strength(bracket: Bracket, facts: Facts) -> Worksheet:
    """The published strength where a table holds one, the declared rating where it is smaller or the only one."""
    sheet = Worksheet()
    sheet.needs(bracket.fastener)
    assert isinstance(bracket.fastener, Fact)
    published = False
    if bracket.in_pressure_hull:
        # Strengths that stand in works for unpressurised structure are not named beside a pressure hull: the fastener's own data count.
        sheet.given("S", bracket.shear_rating, "rating of one fastener in shear")
        sheet.needs()
        return sheet
    if bracket.fastener.value == "rivet":
        sheet.needs(bracket.alloy, bracket.size, bracket.head)
        sheet.given("s", sheet.row(rivets, bracket.alloy).shear, "shear strength of the rivet, on the area of its hole")
        sheet.given("d_h", sheet.row(holes, bracket.size).hole, "diameter of the hole")
        sheet.work("S_p", "s * pi * (d_h / 2)**2", "strength of the driven rivet in single shear", "lbf")
        # A countersunk head weakens the joint by an amount that only tests of the joint give.
        published = isinstance(bracket.head, Fact) and bracket.head.value == "protruding"
    elif bracket.fastener.value == "bolt":
        sheet.needs(bracket.size, bracket.shear_plane)
        sheet.given("S_p", sheet.row(bolts, bracket.size).shear, "single shear strength of the shank")
        published = isinstance(bracket.shear_plane, Fact) and bracket.shear_plane.value == "shank"
    if published and not isinstance(bracket.shear_rating, Fact):
        sheet.work("S", "S_p", "strength of one fastener in shear", "lbf")
        return sheet
    sheet.given("S_r", bracket.shear_rating, "rating of one fastener in shear")
    sheet.work("S", "min(S_p, S_r)" if sheet.has("S_p") else "S_r", "strength of one fastener in shear", "lbf")
    return sheet
