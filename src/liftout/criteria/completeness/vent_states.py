"""States of the vents in which cabin air is measured.

Requires: where the fit has an opening, the job names each state of heater, vents and windows in which the aircraft is flown.
Because: air flows in through openings of the tail as the vents draw it, and exhaust gas with it; carbon monoxide has no smell, and one state may be safe and the next not.
Method: the states that the job names, two at least; the functional tests ask for a measurement in each, equipment in and out, against the published limit.
Leaves out: the measurement itself, which needs the aircraft, and states that nobody named.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Place
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

limits = table("cabin_air_limits")


@criterion(each="opened_cabins", tables=(limits,))
def vent_states(cabin: Place, facts: Facts) -> Finding:
    sheet, states = Worksheet(), cabin.list_of("vent_states")
    sheet.needs(states)
    assert isinstance(states, Fact)
    sheet.given("c", limits.row("carbon monoxide").share, "largest share of carbon monoxide in cabin air, to be measured in each state")
    sheet.count("N", len(states.value), "states of heater, vents and windows that the job names", cabin)
    return sheet.at_least("N", 2)
