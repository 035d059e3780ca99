"""Starting current of one circuit: the item's, or its share where several circuits feed the item."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worked.electrical.share_of_circuit import share_of_circuit
from liftout.worksheet import Worksheet


@worked
def starting_share(run: Run, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("I_in", run.load.demand.inrush, "starting current of the item")
    if not share_of_circuit(sheet, run, facts, "I_in", "I_s", "starting current of the circuit, its share"):
        sheet.work("I_s", "I_in", "starting current of the circuit", "A")
    return sheet
