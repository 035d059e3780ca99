"""Drop of a circuit, out and back, at the temperature of its conductor at work."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worked.electrical.dropping import dropping
from liftout.worksheet import Worksheet


@worked
def circuit_drop(run: Run, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    dropping(sheet, run, facts)
    return sheet
