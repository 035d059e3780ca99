"""Charge of the battery after the longest wait on the ground with the equipment on.

Requires: after the longest taxi, hold or wait after landing with the equipment on, the battery holds at least the charge that the job declares.
Because: at idle a generator gives little; what it lacks comes out of the battery unseen, and the take-off begins with less than is counted on.
Method: net current of the battery from the load of the phase without charging and what the source gives there, for the longest time of the phase, from the
    charge that a start leaves.
Leaves out: what a second source gives to the same battery; a battery that was not full before the start.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.electrical import SourceInPhase
from liftout.findings import Finding
from liftout.worked.electrical.ground_hold import ground_hold
from liftout.worksheet import Worksheet


@criterion(each="ground_holds")
def ground_charge(case: SourceInPhase, facts: Facts) -> Finding:
    sheet = Worksheet()
    hold = ground_hold(case, facts)
    sheet.given("I_net", hold.value("I_net"), "net battery current, into the battery positive")
    sheet.given("Q_a", hold.value("Q_a"), "charge after a start")
    sheet.given("Q_l", hold.value("Q_l"), "least charge")
    sheet.given("t", case.longest, f"longest time, {case.phase}")
    sheet.work("Q_end", "Q_a + min(I_net, 0 * I_net) * t", f"charge after the longest time, {case.phase}", "Ah")
    return sheet.at_least("Q_end", "Q_l", case={"phase": case.phase})
