"""Highest voltage at the terminals of the item.

Requires: the highest bus voltage stays at or below the highest voltage of the item.
Because: too high a voltage burns lamps, heats coils and breaks down electronics long before anybody notices it on a meter.
Method: highest bus voltage against the item's; no drop is taken off, since an item at rest draws none.
Leaves out: surges, and the voltage after a failure of the regulator.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs")
def highest_voltage(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V_bus", facts.electrical.quantity("bus_maximum"), "highest bus voltage")
    sheet.given("V_max", run.load.demand.highest_voltage, "highest voltage of the item")
    sheet.needs()
    return sheet.at_most("V_bus", "V_max")
