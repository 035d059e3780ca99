"""Empty weight and moment with everything of the fit in, and some of the changes that are made at the same time."""

from liftout.facts import Facts
from liftout.facts.changes import Scenario
from liftout.facts.states import everything_in
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.changed_weight import changed_weight
from liftout.worked.balance.record_in_force import record_in_force
from liftout.worksheet import Worksheet


@worked
def changed_weight_fitted(case: Scenario, facts: Facts) -> Worksheet:
    sheet, first = Worksheet(), facts.aircraft.undercarriages[0]
    state = everything_in(tuple(state for state in facts.states if state.undercarriage == first.name))
    bare, fitted = changed_weight(case, facts), amended_empty_weight(state, facts)
    sheet.given("W_c", bare.value("W"), f"empty weight from the record, {case.name}")
    sheet.given("M_c", bare.value("M"), f"empty-weight moment from the record, {case.name}")
    sheet.given("W_a", fitted.value("W"), f"empty weight of the amendment, {state.name}")
    sheet.given("M_a", fitted.value("M"), f"empty-weight moment of the amendment, {state.name}")
    record_in_force(sheet, first.record)
    sheet.work("W", "W_c + W_a - W_0", f"empty weight, {state.name}, {case.name}", "lb", places=1)
    sheet.work("M", "M_c + M_a - M_0", f"empty-weight moment, {state.name}, {case.name}", "lb-in", places=1)
    sheet.work("x", "M / W", f"empty-weight arm, {state.name}, {case.name}", "in", places=2)
    return sheet
