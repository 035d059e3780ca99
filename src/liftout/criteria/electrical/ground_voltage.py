"""Voltage at the item on a source on the ground.

Requires: fully loaded, the source on the ground leaves the item no less than its lowest voltage, the drop of the circuit taken off.
Because: a cabin is cooled longest on the ground, and a source that sags there starves a motor for an hour and not for a minute.
Method: lowest voltage of the fully loaded source less the worked drop of the circuit; an item that keeps its power draws more at it, and has the voltage
    at which current and voltage make that power.
Leaves out: what the larger current heats the wire by; the start, which the battery beside the source holds; cable and connector of the source, in whose voltage they are measured.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.at_terminals import at_terminals
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
    sheet.given("V_min", run.load.demand.lowest_voltage, "lowest voltage of the item")
    if not at_terminals(sheet, run, facts, "V_g", "voltage at the item on the source on the ground"):
        return sheet.refused("no current gives the item its power at this voltage: its voltage collapses", remedies=larger_gauges(run))
    return sheet.at_least("V_load", "V_min", otherwise=larger_gauges(run))
