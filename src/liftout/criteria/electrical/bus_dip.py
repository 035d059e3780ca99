"""Dip of the bus when an item starts.

Requires: the bus stays at or above the voltage at which what else is on it drops out.
Because: a radio or an engine monitor that starts again in the middle of an approach is missed at the worst moment.
Method: battery at rest at its least charge, less its share of the starting current in its internal resistance. A generator whose resistance is declared
    takes a share beside it, and no more than it has left in the phase in which that is least.
Leaves out: loads beside the item, which the generator carries; cables and contactor between battery and bus; items that start together; and the shape
    of the dip in time, which an oscilloscope shows.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.starting_dip import starting_dip
from liftout.worksheet import Worksheet


@criterion(each="runs")
def bus_dip(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V_dip", starting_dip(run, facts).value("V_dip"), "bus while the item starts")
    sheet.given("V_least", facts.electrical.quantity("lowest_in_a_dip"), "bus voltage below which what else is on it drops out")
    return sheet.at_least("V_dip", "V_least")
