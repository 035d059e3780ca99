"""Change of the empty weight above which the record is revised under the European rules."""

from liftout.facts import Facts
from liftout.facts.states import State
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.weight_change import weight_change
from liftout.worksheet import Worksheet

cumulative = table("cumulative_change")


@worked
def cumulative_change(state: State, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("a", weight_change(state, facts).value("a"), "amount of the change since the last weighing")
    sheet.given("W_ldg", facts.aircraft.on(state.undercarriage).limits.maximum_landing, "maximum landing weight")
    sheet.given("q", cumulative.row("dry operating mass").mass_share, "share of it")
    sheet.work("a_c", "q * W_ldg", "change above which the record is revised", "lb", places=2)
    return sheet
