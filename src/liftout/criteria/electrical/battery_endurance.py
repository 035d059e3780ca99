"""Endurance of the battery after the loss of all generators.

Requires: the battery carries what flight and landing need for as long as is published, the time to notice and to shed counted in.
Because: a removable load that is on when the generator is lost takes of the same charge until somebody switches it off.
Method: usable share of the charge that the battery gives at the largest discharge current; everything that runs in cruise or at night until it is shed,
    then what is said to be essential, then the landing load; with everything out and with everything in, equipment at its highest lasting current.
Leaves out: cold and age of the battery, unless its charge was told for them; an automatic cut-off, which may shed earlier and is not relied on.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.power import BatteryCase
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.electrical.battery_time import battery_time
from liftout.worksheet import Worksheet

durations = table("battery_durations")


@criterion(each="battery_cases", tables=(durations,))
def battery_endurance(case: BatteryCase, facts: Facts) -> Finding:
    sheet = Worksheet()
    ceiling = facts.aircraft.ceiling
    sheet.needs(ceiling)
    assert isinstance(ceiling, Fact)
    low = durations.row("up to 25000 ft")
    assert low.ceiling.quantity is not None
    row = low if ceiling.value.si <= low.ceiling.quantity.si else durations.row("above 25000 ft")
    lasts = battery_time(case, facts)
    said = {"ceiling": row.key, "equipment": case.side}
    if lasts.sheet is not None and not lasts.sheet.has("t"):
        # Nothing is left to share out: no load stays on, or the charge is gone before any time in between.
        sheet.given("Q_need", lasts.value("Q_need"), f"charge for shedding and landing, {case.side}")
        sheet.given("Q_use", lasts.value("Q_use"), "usable charge")
        return sheet.at_most("Q_need", "Q_use", case=said)
    sheet.given("t", lasts.value("t"), f"time that the battery lasts, {case.side}")
    return sheet.at_least("t", row.duration, case=said)
