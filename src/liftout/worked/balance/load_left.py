"""Useful load of a state, and the load left beside full tanks, against the state before any change."""

from liftout.facts import Facts
from liftout.facts.loads import full_tank
from liftout.facts.states import State
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worksheet import Worksheet


@worked
def load_left(state: State, facts: Facts) -> Worksheet:
    sheet, plane = Worksheet(), facts.aircraft
    before = next(one for one in facts.states if one.before and one.undercarriage == state.undercarriage)
    sheet.given("W_max", plane.on(state.undercarriage).limits.maximum_takeoff, "maximum take-off weight")
    sheet.given("W_e", amended_empty_weight(state, facts).value("W"), "empty weight in this state")
    sheet.given("W_b", amended_empty_weight(before, facts).value("W"), "empty weight before any change")
    sheet.column("w_f", [(tank.name, full_tank(tank)) for tank in plane.tanks], "usable fuel of each full tank")
    oil = drained_oil(sheet, plane, state)
    sheet.needs(*([] if plane.tanks else [plane.place.missing("tanks")]))
    less = " - w_o" if oil.weight else ""
    sheet.work("U_b", "W_max - W_b", "useful load before any change", "lb", places=2)
    sheet.work("U", "W_max - W_e", "useful load in this state", "lb", places=2)
    sheet.work("dU", "U_b - U", "useful load that is gone", "lb", places=2)
    sheet.work("W_f", "sum(w_f)", "usable fuel of all tanks", "lb", places=2)
    sheet.work("L_b", f"U_b - W_f{less}", "left for persons and baggage beside full tanks, before any change", "lb", places=2)
    sheet.work("L", f"U - W_f{less}", "left for persons and baggage beside full tanks in this state", "lb", places=2)
    return sheet
