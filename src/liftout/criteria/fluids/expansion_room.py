"""Room for the coolant to expand.

Requires: the filled loop leaves at least as much air as its liquid grows from filling to its hottest.
Because: liquid does not give; a loop that is full and closed bursts its weakest joint when it warms.
Method: the quantity of the loop times the ratio of both densities, less one, against the air space that was measured.
Leaves out: growth of hose and tank, air that leaves with the first warm-up, and what the loop draws back when it cools.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.lines import Loop
from liftout.findings import Finding
from liftout.worked.fluids.expansion import expansion
from liftout.worksheet import Worksheet


@criterion(each="running_loops")
def expansion_room(loop: Loop, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("dV", expansion(loop, facts).value("dV"), "growth of the liquid from filling to its hottest")
    return sheet.at_most("dV", loop.expansion_room)
