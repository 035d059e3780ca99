"""Circuit while the engine is cranked.

Requires: the circuit stays dead while the starter turns.
Because: the starter takes all that a cold battery gives; a unit that starts at the same moment stalls, and may leave the engine unstarted.
Method: what was seen when the engine was cranked with the unit selected.
Leaves out: what keeps it dead, which the wiring diagram shows, and starts from ground power.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs")
def cranking_inhibit(run: Run, facts: Facts) -> Finding:
    sheet, inhibited = Worksheet(), run.place.answer("inhibited_while_cranking")
    sheet.needs(inhibited)
    assert isinstance(inhibited, Fact)
    if not inhibited.value:
        return sheet.refused(f"{run.name} is live while the starter turns ({inhibited.origin})")
    return sheet.met(f"{run.name} stays dead while the starter turns")
