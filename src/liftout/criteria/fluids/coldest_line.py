"""Coldest air against what holds the coolant.

Requires: each line, device and item of a loop stands the coldest air that the job declares.
Because: hose and seals turn stiff in the cold, crack where they are bent and leak at their fittings.
Method: the coldest air of the loop against the coldest temperature that the maker of each part declares.
Leaves out: whether the part is bent or drawn while it is cold, and the coolant itself, whose freezing point is another requirement.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import LinePart
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="line_parts")
def coldest_line(part: LinePart, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("T_a", part.loop.coldest, "coldest air of the loop")
    return sheet.at_least("T_a", part.coldest, distance=True)
