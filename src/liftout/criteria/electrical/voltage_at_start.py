"""Voltage at the item while it starts.

Requires: at its own terminals the item has the voltage that it needs to start, with the starting current in bus and wire.
Because: a motor that does not turn goes on drawing its starting current, and heats what a running one would cool.
Method: the dip of the bus less the starting current in the resistance of the circuit, out and back, at the temperature of the conductor at work.
Leaves out: how the current falls while the motor runs up.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.starting_dip import starting_dip
from liftout.worked.electrical.starting_share import starting_share
from liftout.worksheet import Worksheet


@criterion(each="runs")
def voltage_at_start(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V_dip", starting_dip(run, facts).value("V_dip"), "bus while the item starts")
    sheet.given("R_loop", circuit_drop(run, facts).value("R_loop"), "resistance of the circuit, out and back")
    sheet.given("I_s", starting_share(run, facts).value("I_s"), "starting current of the circuit")
    lowest = run.load.place.part("electrical").quantity("lowest_at_start")
    sheet.given("V_least", lowest, "lowest voltage at which the item starts")
    sheet.work("V_start", "V_dip - I_s * R_loop", "voltage at the item while it starts", "V")
    return sheet.at_least("V_start", "V_least", otherwise=larger_gauges(run))
