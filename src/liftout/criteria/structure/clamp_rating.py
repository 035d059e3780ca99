"""Rating of a clamp.

Requires: a clamp that holds equipment has a rating that a test has shown, and bears its ultimate load in each direction by it.
Because: what a clamp holds depends on grip, edge and wear; no computation and no seller's word replaces the test.
Method: ultimate load with the special factor against the smaller of tested rating and rating of the structure; a working rating counts as ultimate.
Leaves out: loosening by vibration, which the inspections ask.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import BracketInDirection
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.bracket_load import bracket_load
from liftout.worksheet import Worksheet

special_factors = table("special_factors")

TESTED = ("tested ultimate", "tested working")


@criterion(each="clamps", tables=(special_factors,))
def clamp_rating(load: BracketInDirection, facts: Facts) -> Finding:
    sheet, bracket = Worksheet(), load.bracket
    if not bracket.clamp.place.there:
        sheet.needs(bracket.place.missing("clamp"))
    sheet.needs(bracket.clamp.rating_is)
    assert isinstance(bracket.clamp.rating_is, Fact)
    if bracket.clamp.rating_is.value not in TESTED:
        return sheet.refused(f"the rating of the clamp is {bracket.clamp.rating_is.value}, and no test has shown it")
    sheet.given("P", bracket_load(load, facts).value("P"), f"ultimate load {load.direction} on the clamp")
    sheet.given("k", bracket_load(load, facts).value("k"), "special factor")
    sheet.given("R_c", bracket.clamp.rating, f"rating of the clamp, {bracket.clamp.rating_is.value}")
    sheet.given("R_s", bracket.anchor_rating, "rating of the structure that it clamps")
    sheet.work("P_k", "k * P", "load with the special factor", "lbf")
    sheet.work("R", "min(R_c, R_s)", "what clamp and structure bear, the smaller", "lbf")
    return sheet.at_most("P_k", "R", case={"direction": load.direction})
