"""Pressure rating of what holds coolant.

Requires: each line, device and item of a loop is rated for the highest pressure that cap, pump, height of the liquid and cabin make together.
Because: a coupling left half closed or a kink puts the whole rise of the pump on what lies before it, and hot coolant sprays where it bursts.
Method: cap, pump at no flow, weight of the liquid and, where a part lies outside the hull, cabin pressure, added, against the rating when hot.
Leaves out: what the load factor in flight makes of the weight of the liquid, pressure peaks, ageing, and a rating given for cold parts only.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import LinePart
from liftout.findings import Finding
from liftout.worked.fluids.loop_pressure import loop_pressure
from liftout.worksheet import Worksheet


@criterion(each="line_parts")
def line_pressure(part: LinePart, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("p", loop_pressure(part.loop, facts).value("p"), "highest pressure in the loop")
    return sheet.at_most("p", part.pressure)
