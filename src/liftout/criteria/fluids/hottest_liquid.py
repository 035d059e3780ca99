"""Hottest liquid against what holds it.

Requires: each line, device and item of a loop stands the hottest liquid that the job declares.
Because: hose and seals soften and lose their pressure rating when they are hotter than their maker allows.
Method: the hottest liquid of the loop against the hottest temperature that the maker of each part declares.
Leaves out: heat from outside (exhaust, brakes, sun on a parked aircraft), and how long the part stays hot.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import LinePart
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="line_parts")
def hottest_liquid(part: LinePart, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("T", part.loop.hottest, "hottest liquid of the loop")
    return sheet.at_most("T", part.hottest, distance=True)
