"""Centre of gravity with the pilot alone.

Requires: in each state the aircraft with a standard pilot and the minimum fuel has its centre of gravity on or between the limits.
Because: this is the lightest aircraft that is flown, where equipment at the ends of the fuselage moves the centre of gravity most.
Method: amended empty weight and moment, one standard person, minimum fuel in the tank that matters; the limit straight between its corners.
Leaves out: passengers, baggage and full tanks, which the adverse loadings add.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.states import StateSide
from liftout.findings import Finding
from liftout.worked.balance.ballast import ballast_changes
from liftout.worked.balance.limit_line import limit_line
from liftout.worked.balance.other_places import other_places
from liftout.worked.balance.pilot_alone import pilot_alone
from liftout.worksheet import Worksheet


@criterion(each="state_sides")
def centre_of_gravity(checked: StateSide, facts: Facts) -> Finding:
    sheet, lightest = Worksheet(), pilot_alone(checked, facts)
    sheet.given("W", lightest.value("W"), "weight with pilot and minimum fuel")
    sheet.given("M", lightest.value("M"), "its moment")
    sheet.work("x_cg", "M / W", "centre of gravity", "in", places=2)
    if not limit_line(sheet, facts.aircraft.on(checked.state.undercarriage).limits, checked.side):
        return sheet.refused("heavier than the last corner of the envelope with the pilot alone")
    compare = sheet.at_least if checked.side == "forward" else sheet.at_most
    carried = ballast_changes(sheet, facts, checked.state, checked.side, "pilot alone")
    return compare("x_cg", "x_limit", distance=True, otherwise=[*other_places(checked.state.items, facts), *carried])
