"""Change of the empty weight since the last weighing, and up to which it is negligible."""

from liftout.facts import Facts
from liftout.facts.states import State
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.last_weighing import last_weighing
from liftout.worksheet import Worksheet

negligible = table("negligible_change")


@worked
def weight_change(state: State, facts: Facts) -> Worksheet:
    sheet, base = Worksheet(), last_weighing(facts.aircraft.on(state.undercarriage).record.chain[0], facts)
    sheet.given("W", amended_empty_weight(state, facts).value("W"), "empty weight in this state")
    sheet.given("W_w", base.value("W_0"), "empty weight of the last weighing")
    sheet.work("dW", "W - W_w", "change of the empty weight since the last weighing", "lb", places=2)
    sheet.work("a", "abs(dW)", "its amount", "lb", places=2)
    # An aircraft between two classes of the circular, or in another after the change, stands in the stricter one.
    lighter = min(sheet.exact("W"), sheet.exact("W_w"))
    row = next(row for row in negligible if row.weight.given and (row.below.quantity is None or lighter <= row.below.quantity.si))
    if row.below.given:
        sheet.given("W_class", row.below, "class of aircraft: empty weight up to")
    sheet.given("a_n", row.weight, "largest change that is negligible")
    return sheet
