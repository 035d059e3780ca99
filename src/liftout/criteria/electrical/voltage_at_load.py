"""Lowest voltage at the terminals of the item.

Requires: the lowest bus voltage less the drop, out and back, stays at or above the lowest voltage of the item.
Because: below it a motor draws more current for the same work, and electronics stop and start again.
Method: lowest bus voltage with the generator running less the worked drop of the circuit; an item that keeps its power draws more at it, and has the
    voltage at which current and voltage make that power.
Leaves out: the dip of the start, the battery alone, and what the larger current heats the wire by.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.at_terminals import at_terminals
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worksheet import Worksheet


@criterion(each="runs")
def voltage_at_load(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V_bus", facts.electrical.quantity("bus_minimum"), "lowest bus voltage")
    sheet.given("V_min", run.load.demand.lowest_voltage, "lowest voltage of the item")
    if not at_terminals(sheet, run, facts, "V_bus", "voltage at the terminals of the item"):
        return sheet.refused("no current gives the item its power at this voltage: its voltage collapses", remedies=larger_gauges(run))
    return sheet.at_least("V_load", "V_min", otherwise=larger_gauges(run))
