"""Strength of one fastener with its nut in tension."""

from liftout.facts import Fact, Facts
from liftout.facts.structure import Bracket
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

bolts = table("bolt_tension")


@worked
def fastener_tension_strength(bracket: Bracket, facts: Facts) -> Worksheet:
    """The published strength of a bolt with a tension nut; the declared rating where it is smaller or the only one."""
    sheet = Worksheet()
    sheet.needs(bracket.fastener)
    assert isinstance(bracket.fastener, Fact)
    if bracket.fastener.value == "bolt":
        sheet.needs(bracket.size, bracket.nut)
        sheet.given("F_p", sheet.row(bolts, bracket.size).tension, "tension strength of the bolt")
        if isinstance(bracket.nut, Fact) and bracket.nut.value == "tension nut" and not isinstance(bracket.tension_rating, Fact):
            sheet.work("F", "F_p", "strength of one bolt in tension", "lbf")
            return sheet
    sheet.given("F_r", bracket.tension_rating, "rating of one fastener with its nut in tension")
    sheet.work("F", "min(F_p, F_r)" if sheet.has("F_p") else "F_r", "strength of one fastener in tension", "lbf")
    return sheet
