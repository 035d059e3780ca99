"""Length of wire between a bus and its protection.

Requires: the protection stands as near to its bus as the place allows.
Because: a short circuit ahead of the protection is fed by the whole battery, and nothing opens it.
Method: the length that was measured against the shortest that the data of the aircraft allow; no figure for it is published.
Leaves out: how that length is guarded against chafing, which the inspector looks at.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined


@criterion(each="runs")
def unprotected_length(run: Run, facts: Facts) -> Finding:
    if run.protection_declined is not None:
        return declined(run.protection_declined)
    sheet = Worksheet()
    sheet.given("L", run.protection.quantity("from_source"), "wire between bus and protection")
    sheet.given("L_least", run.protection.quantity("nearest_possible"), "shortest that the place of the bus allows")
    return sheet.at_most("L", "L_least")
