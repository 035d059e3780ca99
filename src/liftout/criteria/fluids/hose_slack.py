"""Slack of hoses.

Requires: each hose is longer than the way between its fittings by the published least share, and not by more than the largest.
Because: a hose changes its length under pressure, and pulls at its fittings where it is stretched; too much of it kinks and chafes.
Method: length less the distance between the fittings, over that distance, against the nearer of the two published shares.
Leaves out: twist, and metal end fittings, which do not count as hose and are to be left out of the measured length.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import Line
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

conditions = table("line_conditions")


@criterion(each="hoses", tables=(conditions,))
def hose_slack(line: Line, facts: Facts) -> Finding:
    sheet, row = Worksheet(), conditions.row("hose slack")
    sheet.given("L", line.segment.length, "length of the hose")
    sheet.given("D", line.segment.place.quantity("between_fittings"), "distance between its fittings along the route")
    sheet.work("s", "(L - D) / D", "slack of the hose", "%")
    least, most = row.least.quantity, row.most.quantity
    assert least is not None
    assert most is not None
    nearer_least = sheet.exact("s") - least.si < most.si - sheet.exact("s")
    return sheet.at_least("s", row.least) if nearer_least else sheet.at_most("s", row.most)
