"""Load of a bracket on the structure it is fastened to.

Requires: the structure under each bracket is rated for the ultimate load of the bracket in each direction, with the special factor.
Because: the fasteners are rarely the weakest part; a stringer, a panel or a seat rail gives way while they hold.
Method: the whole load of the bracket against the rating of the structure there; a working rating is taken as if it were ultimate.
Leaves out: loads that the structure carries already, and moments where the rating does not name them.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worksheet import Worksheet

special_factors = table("special_factors")


@criterion(each="brackets_in_directions", tables=(special_factors,))
def anchor_load(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    sheet.given("P", bracket_load(load, facts).value("P"), f"ultimate load {load.direction} on the bracket")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.needs(bracket.fastened_to, bracket.anchor_rating_is)
    assert isinstance(bracket.fastened_to, Fact)
    assert isinstance(bracket.anchor_rating_is, Fact)
    sheet.given("R", bracket.anchor_rating, f"rating of the {bracket.fastened_to.value}, {bracket.anchor_rating_is.value}")
    working = {"a working rating, taken as if it were ultimate": bracket.fastened_to.value} if bracket.anchor_rating_is.value == "working" else {}
    sheet.work("P_k", "k * P", "load on the structure with the special factor", "lbf")
    seat = bracket.fastened_to.value in ("seat", "seat rail")
    return sheet.at_most("P_k", "R", case={"direction": load.direction} | working, referral=_seated(load) if seat else None)


def _seated(load: BracketInDirection) -> Referral:
    """What must be asked where a seat or its rail is the anchor, even when the numbers hold."""
    rating, anchor = load.bracket.anchor_rating, load.bracket.fastened_to
    assert isinstance(rating, Fact)
    assert isinstance(anchor, Fact)
    return Referral(
        f"Is the {anchor.value} under {load.bracket.name} rated for this load {load.direction} beside that of its occupant?",
        f"declared rating: {rating.value} ({rating.origin}, {rating.evidence})",
        "a licensed person with the seat maker's data",
        "the seat maker's rating for a bracket there, with its document",
    )
