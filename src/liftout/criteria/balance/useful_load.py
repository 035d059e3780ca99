"""Useful load that a state leaves.

Requires: what is left up to the maximum take-off weight carries at least the pilot and the minimum fuel.
Because: equipment that leaves no room for pilot and fuel cannot be flown with, whatever its arm.
Method: maximum take-off weight less the amended empty weight, against a standard person and half a pound of fuel for each horsepower.
Leaves out: what else may be loaded, and where it may sit.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.states import State
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worksheet import Worksheet

persons, methods = table("occupant_weights"), table("methods")


@criterion(each="states", tables=(persons, methods))
def useful_load(state: State, facts: Facts) -> Finding:
    sheet = Worksheet()
    fuel = methods.row("minimum fuel")
    sheet.given("W_max", facts.aircraft.on(state.undercarriage).limits.maximum_takeoff, "maximum take-off weight")
    sheet.given("W_e", amended_empty_weight(state, facts).value("W"), "empty weight in this state")
    sheet.given("w_p", persons.row("standard person").weight, "pilot")
    sheet.given("k", fuel.k, "minimum fuel for each horsepower")
    sheet.given("P", facts.aircraft.engine_power, "maximum continuous power")
    oil = drained_oil(sheet, facts.aircraft, state)
    sheet.work("w_f", "k * P", "minimum fuel", "lb", by=fuel, places=1)
    sheet.work("W_need", f"w_p + w_f{oil.weight}", "pilot and minimum fuel", "lb", places=1)
    sheet.work("W_u", "W_max - W_e", "useful load", "lb", places=2)
    return sheet.at_least("W_u", "W_need")
