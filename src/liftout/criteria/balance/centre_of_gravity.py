"""Centre of gravity with the pilot alone.

Requires: in each state the aircraft with a standard pilot and the minimum fuel has its centre of gravity on or between the limits.
Because: this is the lightest aircraft that is flown, where equipment at the ends of the fuselage moves the centre of gravity most.
Method: amended empty weight and moment, one standard person, minimum fuel in the tank that matters; the limit straight between its corners.
Leaves out: passengers, baggage and full tanks, which the adverse loadings add.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.loads import fuel_arm, pilot_station
from liftout.facts.states import StateSide
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worked.balance.limit_line import limit_line
from liftout.worksheet import Worksheet

persons, methods = table("occupant_weights"), table("methods")


@criterion(each="state_sides", tables=(persons, methods))
def centre_of_gravity(checked: StateSide, facts: Facts) -> Finding:
    sheet = Worksheet()
    plane, fuel = facts.aircraft, methods.row("minimum fuel")
    empty, seat = amended_empty_weight(checked.state, facts), pilot_station(facts.aircraft)
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    sheet.given("M_e", empty.value("M"), "empty-weight moment in this state")
    sheet.given("w_p", persons.row("standard person").weight, "pilot")
    sheet.given("x_p", seat.arm if seat else plane.place.missing("stations"), "pilot's arm")
    sheet.given("k", fuel.k, "minimum fuel for each horsepower")
    sheet.given("P", plane.engine_power, "maximum continuous power")
    sheet.given("x_f", fuel_arm(plane, checked.side), f"arm of the fuel, where it does most against the {checked.side} limit")
    oil = drained_oil(sheet, plane)
    sheet.work("w_f", "k * P", "minimum fuel", "lb", by=fuel, places=1)
    sheet.work("W", f"W_e + w_p + w_f{oil.weight}", "weight", "lb", places=2)
    sheet.work("M", f"M_e + w_p * x_p + w_f * x_f{oil.moment}", "moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "centre of gravity", "in", places=2)
    if not limit_line(sheet, plane, checked.side):
        return sheet.refused("heavier than the last corner of the envelope with the pilot alone")
    compare = sheet.at_least if checked.side == "forward" else sheet.at_most
    return compare("x_cg", "x_limit", distance=True)
