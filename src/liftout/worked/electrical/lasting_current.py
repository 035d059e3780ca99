"""Largest current of a circuit that lasts: what it is computed for, or more where the item that it alone feeds draws more."""

from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def lasting_current(run: Run, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("I_run", run.current, "current for which the circuit is computed")
    load = run.load
    if any(other.load is load for other in facts.runs if other.name != run.name):
        # How circuits that feed one item together share its current is said by the currents they are computed for.
        sheet.work("I", "I_run", "share of the item's current", "A")
        return sheet
    sheet.given("I_s", load.demand.steady, "steady current of the item")
    sheet.given("I_p", load.demand.peak, "highest current of the item that lasts")
    sheet.work("I", "max(I_run, I_s, I_p)", "largest current that lasts", "A")
    return sheet
