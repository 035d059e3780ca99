"""Rating of a clamp.

Requires: a clamp that holds equipment has a rating that a test has shown, and bears its ultimate load in each direction by it.
Because: what a clamp holds depends on grip, edge and wear; no computation and no seller's word replaces the test.
Method: ultimate load with the special factor against the smaller of tested rating and rating of the structure; a working rating counts as ultimate.
  Where the job tells the bolts of the clamp and where the weight sits, a load that passes them farther off than they stand apart is a question.
Leaves out: the moment of a load that does not pass through the clamp, up to that distance, and at any where bolts or weight are not told; loosening by
  vibration, which the inspections ask.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.structure import COORDINATES, BracketInDirection
from liftout.findings import Finding, Referral
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
    return sheet.at_most("P_k", "R", case={"direction": load.direction}, referral=_beside(load) if _passes_by(sheet, load) else None)


def _passes_by(sheet: Worksheet, load: BracketInDirection) -> bool:
    """Whether the load passes the bolts of the clamp farther off than they stand apart, across the load."""
    bracket, across = load.bracket, [name for name in COORDINATES if name != load.along]
    spots = [bracket.centre, *(one.at for one in bracket.fasteners)]
    if not bracket.fasteners or not all(isinstance(getattr(spot, name), Fact) for spot in spots for name in across):
        return False
    for symbol, name in zip("xy", across, strict=True):
        sheet.column(symbol, [(one.name, getattr(one.at, name)) for one in bracket.fasteners], f"{name} of each bolt of the clamp")
        sheet.given(f"{symbol}_C", getattr(bracket.centre, name), f"{name} of the weight carried")
    sheet.count("N", len(bracket.fasteners), "bolts of the clamp", bracket.place)
    sheet.work("x_o", "sum(x) / N", f"middle of the bolts, {across[0]}", "in")
    sheet.work("y_o", "sum(y) / N", f"middle of the bolts, {across[1]}", "in")
    sheet.work("e", "sqrt((x_C - x_o)**2 + (y_C - y_o)**2)", "how far off the middle of the bolts the load passes", "in")
    sheet.work(
        "b", "2 * sqrt(sum((x - x_o)**2 + (y - y_o)**2) / N)", "how far the bolts stand apart: twice their mean distance from it, by squares", "in"
    )
    return sheet.exceeds("e", "b")


def _beside(load: BracketInDirection) -> Referral:
    return Referral(
        f"Does the clamp of {load.bracket.name} hold a load {load.direction} that does not pass through it?",
        "the load passes its bolts farther off than they stand apart, and twists the clamp besides; a rating says nothing of that",
        "a licensed person with the test of the clamp",
        "a test of the clamp with its load as far off, or a clamp nearer to the weight",
    )
