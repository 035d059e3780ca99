"""Longest time at idle with the equipment on, as a placard says it; only where the battery discharges."""

from liftout.facts import Facts
from liftout.facts.electrical import SourceInPhase
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.electrical.ground_hold import ground_hold
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def longest_hold(case: SourceInPhase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    hold = ground_hold(case, facts)
    step = sheet.row(methods, "placard steps")
    sheet.given("I_net", hold.value("I_net"), "net battery current, into the battery positive")
    sheet.given("t_s", step.t, "step of a time on a placard")
    sheet.needs()
    if sheet.sign("I_net") < 0:
        sheet.given("t_l", hold.value("t_l"), "time until the battery is down to its least charge")
        sheet.work("t_placard", "-ceil(-t_l / t_s) * t_s", "longest time at idle with the equipment on, in whole steps", "min", by=step, places=0)
    return sheet
