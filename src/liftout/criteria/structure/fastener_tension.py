"""Tension of the fasteners of a bracket.

Requires: the worst fastener of each bracket bears its ultimate tension in each direction, with the special factor; rivets are not pulled.
Because: a load at a distance from the sheet tips the bracket and pulls its fasteners out on the far side, a rivet by its head.
Method: straight pull and overturning, linear in the distance from the centroid of the group; for a single row, about the edge of the bracket.
Leaves out: prying by a bracket that bends, heads pulled through a thin sheet, which have a criterion of their own, and the weight that helps.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Change, Finding, Referral
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worked.structure.fastener_tension_load import fastener_tension_load
from liftout.worked.structure.fastener_tension_strength import fastener_tension_strength
from liftout.worksheet import Worksheet

bolts = table("bolt_tension")


@criterion(each="brackets_in_directions", tables=(bolts,))
def fastener_tension(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    sheet.needs(bracket.fastener)
    assert isinstance(bracket.fastener, Fact)
    sheet.given("T", fastener_tension_load(load, facts).value("T"), "tension of the worst fastener")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.work("T_k", "k * T", "tension with the special factor", "lbf")
    if sheet.sign("T") <= 0:
        return sheet.met("no fastener is pulled")
    riveted = bracket.fastener.value == "rivet"
    if riveted and not isinstance(bracket.tension_rating, Fact):
        return sheet.refused("rivets are pulled, which they must not be; use bolts, or move the bracket so that they are sheared")
    sheet.given("F", fastener_tension_strength(bracket, facts).value("F"), "strength of one fastener in tension")
    sheet.needs()
    larger = [Change((*bracket.place.path, "size"), size, f"use fasteners {size}") for size in bracket.stocked]
    return sheet.at_most("T_k", "F", otherwise=larger, case={"direction": load.direction}, referral=_pulled(load) if riveted else None)


def _pulled(load: BracketInDirection) -> Referral:
    """Rivets with a declared rating in tension: still a question."""
    rating = load.bracket.tension_rating
    assert isinstance(rating, Fact)
    return Referral(
        f"May the rivets of {load.bracket.name} be pulled {load.direction}, which AC 43.13-1B par. 4-57g advises against?",
        f"declared rating in tension: {rating.value} ({rating.origin}, {rating.evidence})",
        "a licensed person with the data of the rivet",
        "a decision naming the data, or bolts in place of the rivets",
    )
