"""Lowest voltage at the terminals of the item.

Requires: the lowest bus voltage less the drop, out and back, stays at or above the lowest voltage of the item.
Because: below it a motor draws more current for the same work, and electronics stop and start again.
Method: lowest bus voltage with the generator running less the worked drop of the circuit.
Leaves out: the dip of the start, and the battery alone.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worksheet import Worksheet


@criterion(each="runs")
def voltage_at_load(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V_bus", facts.electrical.quantity("bus_minimum"), "lowest bus voltage")
    sheet.given("V_drop", circuit_drop(run, facts).value("V_drop"), "drop, out and back")
    sheet.given("V_min", run.load.demand.lowest_voltage, "lowest voltage of the item")
    sheet.work("V_load", "V_bus - V_drop", "voltage at the terminals of the item", "V")
    return sheet.at_least("V_load", "V_min", otherwise=larger_gauges(run))
