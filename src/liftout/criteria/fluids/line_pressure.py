"""Pressure rating of what holds coolant.

Requires: each line, device and item of a loop is rated for the highest pressure that cap, pump and height of the liquid can make together.
Because: a coupling left half closed or a kink puts the whole rise of the pump on what lies before it, and hot coolant sprays where it bursts.
Method: the pressure at which the cap opens, the rise of the pump at its least flow and the weight of the liquid, added, against the rating when hot.
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
