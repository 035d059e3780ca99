"""Pressure rating of what holds coolant.

Requires: each line, device and item of a loop is rated for the highest pressure that cap and pump can make together.
Because: a coupling left half closed or a kink puts the whole rise of the pump on what lies before it, and hot coolant sprays where it bursts.
Method: the pressure at which the cap opens and the pump's rise at its least flow, added, against the rating declared for the hottest liquid.
Leaves out: the weight of the liquid, pressure peaks, ageing, and a rating given for cold parts only.
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
