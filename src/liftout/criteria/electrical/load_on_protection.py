"""Load of a breaker or fuse.

Requires: the current that lasts stays within the rating of the breaker or fuse.
Because: a protection that carries more than its rating opens in flight without a fault, and whoever closes it again learns to trust no protection.
Method: the larger of steady and lasting peak current against the rating, strictly; the margin is printed for a person to judge.
Leaves out: the start, and whether the protection suits the wire.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worked.electrical.other_ratings import other_ratings
from liftout.worksheet import Worksheet, declined


@criterion(each="runs")
def load_on_protection(run: Run, facts: Facts) -> Finding:
    if run.protection_declined is not None:
        return declined(run.protection_declined)
    sheet = Worksheet()
    sheet.given("I", lasting_current(run, facts).value("I"), "largest current of the circuit that lasts")
    sheet.given("I_n", run.device.rating, "rating of the protection")
    sheet.needs()
    return sheet.at_most("I", "I_n", otherwise=other_ratings(run, "larger"))
