"""How far the empty weight of a state may be off: the weighing, and every item that was added to it or taken out of it."""

from liftout.facts import Facts
from liftout.facts.states import State
from liftout.facts.tolerance import tolerance
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import as_recorded
from liftout.worked.balance.weighing_tolerance import weighing_tolerance
from liftout.worksheet import Worksheet


@worked
def empty_weight_tolerance(state: State, facts: Facts) -> Worksheet:
    sheet, record = Worksheet(), facts.aircraft.on(state.undercarriage).record
    counted = {item.name for item in as_recorded(record, facts).items}
    aboard = {item.name for item in state.items}  # by name: what travels as baggage stands elsewhere and is no equal of the item in its place
    sheet.given("t_w", weighing_tolerance(record.chain[0], facts).value("t_W"), "how far the weighing may be off")
    changed = [item for item in facts.items if (item.name in aboard) != (item.name in counted)]
    if changed:
        sheet.column("t", [(item.name, tolerance(item.place, "mass_dry")) for item in changed], "how far the weight of each item may be off")
    sheet.work(
        "t_W", "t_w + sum(t)" if changed else "t_w", "how far the empty weight may be off, liquids and earlier amendments aside", "lb", places=2
    )
    return sheet
