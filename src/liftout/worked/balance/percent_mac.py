"""Empty-weight arm of a state in per cent of the mean aerodynamic chord."""

from liftout.facts import Facts
from liftout.facts.states import State
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worksheet import Worksheet


@worked
def percent_mac(state: State, facts: Facts) -> Worksheet:
    sheet, chord = Worksheet(), facts.aircraft.chord
    sheet.given("x_cg", amended_empty_weight(state, facts).value("x_cg"), "empty-weight arm in this state")
    sheet.given("x_le", chord.leading_edge, "leading edge of the mean aerodynamic chord")
    sheet.given("c", chord.length, "its length")
    sheet.work("p", "(x_cg - x_le) / c", "empty-weight arm, share of the chord", "%", places=1)
    return sheet
