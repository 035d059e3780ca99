"""Starting current of one circuit: the item's, or its share where several circuits feed the item."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def starting_share(run: Run, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    feeding = [other for other in facts.runs if other.load is run.load]
    sheet.given("I_in", run.load.demand.inrush, "starting current of the item")
    if len(feeding) <= 1:
        sheet.work("I_s", "I_in", "starting current of the circuit", "A")
        return sheet
    # How circuits that feed one item together share its start is told, as its current is, by what they are computed for.
    sheet.given("I_run", run.current, "current for which the circuit is computed")
    sheet.column("I_n", [(other.name, other.current) for other in feeding], "currents for which the item's circuits are computed")
    sheet.work("I_s", "I_in * I_run / sum(I_n)", "starting current of the circuit, its share", "A")
    return sheet
