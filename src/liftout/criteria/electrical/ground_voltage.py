"""Voltage at the item on a source on the ground.

Requires: fully loaded, the source on the ground leaves the item no less than its lowest voltage, the drop of the circuit taken off.
Because: a cabin is cooled longest on the ground, and a source that sags there starves a motor for an hour and not for a minute.
Method: lowest voltage of the fully loaded source less the worked drop of the circuit.
Leaves out: the start, which the battery beside the source holds; cable and connector of the source, in whose voltage they are measured.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worksheet import Worksheet, declined


@criterion(each="runs")
def ground_voltage(run: Run, facts: Facts) -> Finding:
    power = facts.electrical.part("ground_power")
    if power.declined is not None:
        return declined(power.declined)
    sheet = Worksheet()
    sheet.described(power)
    sheet.given("V_g", power.quantity("lowest"), "lowest voltage of the source on the ground, fully loaded")
    sheet.given("V_drop", circuit_drop(run, facts).value("V_drop"), "drop, out and back")
    sheet.given("V_min", run.load.demand.lowest_voltage, "lowest voltage of the item")
    sheet.work("V_load", "V_g - V_drop", "voltage at the item on the source on the ground", "V")
    return sheet.at_least("V_load", "V_min", otherwise=larger_gauges(run))
