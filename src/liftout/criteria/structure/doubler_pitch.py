"""Largest pitch of the rivets of a doubler.

Requires: the rivets in a row of a doubler stand no farther apart than the published largest multiple of their diameter.
Because: sheets gape between rivets that stand far apart; water gets between them, and they buckle under load.
Method: pitch against the largest multiple of the diameter for the head.
Leaves out: the least spacing, which has a criterion of its own, and the free corners of a doubler.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.doublers import Doubler
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.structure.doubler_rivet_diameter import doubler_rivet_diameter
from liftout.worksheet import Worksheet

layout = table("fastener_layout")


@criterion(each="doublers", tables=(layout,))
def doubler_pitch(doubler: Doubler, facts: Facts) -> Finding:
    sheet, rivets = Worksheet(), doubler.rivets
    sheet.needs(rivets.head)
    assert isinstance(rivets.head, Fact)
    sheet.given("p", rivets.pitch, "pitch, from rivet to rivet in a row")
    sheet.given("d", doubler_rivet_diameter(doubler, facts).value("d"), "diameter of the rivets")
    key = f"spacing {rivets.head.value} head"
    sheet.given("r", sheet.row(layout, key).most, f"largest multiple of the diameter, {key}")
    sheet.work("p_max", "r * d", "largest pitch for this diameter", "in")
    return sheet.at_most("p", "p_max")
