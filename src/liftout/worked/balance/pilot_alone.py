"""The lightest aircraft that is flown: empty weight, pilot, minimum fuel where it does most against a limit, full oil."""

from liftout.facts import Facts
from liftout.facts.loads import fuel_arm, pilot_station
from liftout.facts.states import StateSide
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worksheet import Worksheet

persons, methods = table("occupant_weights"), table("methods")


@worked
def pilot_alone(checked: StateSide, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    plane, fuel = facts.aircraft, methods.row("minimum fuel")
    empty, seat = amended_empty_weight(checked.state, facts), pilot_station(plane)
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    sheet.given("M_e", empty.value("M"), "empty-weight moment in this state")
    sheet.given("w_p", persons.row("standard person").weight, "pilot")
    sheet.given("x_p", seat.arm if seat else plane.place.missing("stations"), "pilot's arm")
    sheet.given("k", fuel.k, "minimum fuel for each horsepower")
    sheet.given("P", plane.engine_power, "maximum continuous power")
    sheet.given("x_f", fuel_arm(plane, checked.side), f"arm of the minimum fuel, where it does most against the {checked.side} limit")
    oil = drained_oil(sheet, plane, checked.state)
    sheet.work("w_f", "k * P", "minimum fuel", "lb", by=fuel, places=1)
    sheet.work("W", f"W_e + w_p + w_f{oil.weight}", "weight", "lb", places=2)
    sheet.work("M", f"M_e + w_p * x_p + w_f * x_f{oil.moment}", "moment", "lb-in", places=1)
    return sheet
