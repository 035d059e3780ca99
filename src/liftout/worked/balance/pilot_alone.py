"""The lightest aircraft that is flown: empty weight, pilot, minimum fuel where it does most against a limit, full oil."""

from liftout.facts import Fact, Facts, Missing
from liftout.facts.loads import arms_of_fuel, fuel_tank, pilot_station
from liftout.facts.states import StateSide
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.contents_moment import minimum_moment
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
    arm, candidates = f"arm of the minimum fuel, where it does most against the {checked.side} limit", arms_of_fuel(plane)
    by_contents = any(tank.contents for tank in plane.tanks)
    if not by_contents:
        tank = fuel_tank(plane, checked.side)
        sheet.given("x_f", tank if isinstance(tank, Missing) else tank.arm, arm)
    oil = drained_oil(sheet, plane, checked.state)
    if len(candidates) > 1:  # another arm of any of them could choose another tank
        sheet.rests_on(*(told for told in candidates if isinstance(told, Fact)))
    sheet.work("w_f", "k * P", "minimum fuel", "lb", by=fuel, places=1)
    if by_contents:
        tank = fuel_tank(plane, checked.side, sheet.exact("w_f"))
        if isinstance(tank, Missing):
            sheet.needs(*(told for told in candidates if isinstance(told, Missing)))
        elif tank.contents:
            sheet.work("x_f", f"({minimum_moment(sheet, tank)}) / w_f", arm, "in", places=2)
        else:
            sheet.given("x_f", tank.arm, arm)
    sheet.work("W", f"W_e + w_p + w_f{oil.weight}", "weight", "lb", places=2)
    sheet.work("M", f"M_e + w_p * x_p + w_f * x_f{oil.moment}", "moment", "lb-in", places=1)
    return sheet
