"""Change of the empty-weight arm since the last weighing, as a share of the chord, and below which it is negligible."""

from liftout.facts import Facts
from liftout.facts.states import State
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.last_weighing import last_weighing
from liftout.worksheet import Worksheet

negligible, cumulative = table("negligible_change"), table("cumulative_change")


@worked
def arm_change(state: State, facts: Facts) -> Worksheet:
    sheet, base = Worksheet(), last_weighing(facts.aircraft.on(state.undercarriage).record.chain[0], facts)
    sheet.given("x_cg", amended_empty_weight(state, facts).value("x_cg"), "empty-weight arm in this state")
    sheet.given("x_w", base.value("x_w"), "empty-weight arm of the last weighing")
    sheet.given("c", facts.aircraft.chord.length, "length of the mean aerodynamic chord")
    sheet.work("dx", "x_cg - x_w", "change of the empty-weight arm since the last weighing, positive aft", "in", places=2)
    sheet.work("d", "abs(dx)", "its amount", "in", places=2)
    sheet.work("p", "d / c", "the same as a share of the chord", "%", places=3)
    sheet.given("p_n", negligible.row("arm of an aeroplane").chord_share, "share below which the change is negligible")
    sheet.given("p_c", cumulative.row("dry operating mass").chord_share, "share above which the record is revised")
    return sheet
