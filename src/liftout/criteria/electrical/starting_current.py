"""Starting current against what the protection carries for that long.

Requires: a breaker or fuse with a declared point of its time-current curve carries the start of its load without opening.
Because: a motor draws a multiple of its current until it turns, and a protection that opens then leaves the crew to try again.
Method: the starting current against the current of the declared point, which must last at least as long as the start.
Leaves out: circuits whose protection declares no such point, and the drop while the load starts.
"""

from liftout.criteria import criterion
from liftout.facts import Facts, Missing
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worksheet import Worksheet


@criterion(each="runs_with_a_curve")
def starting_current(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("t_s", run.start, "how long the start lasts")
    sheet.given("t_c", run.device.carries_for, "how long the protection carries the current of the point")
    sheet.given("I_c", run.device.carries, "current that the protection carries for that time")
    sheet.given("I_s", run.load.demand.inrush if run.load else run.place.missing("load"), "starting current of the item")
    if sheet.exact("t_s") > sheet.exact("t_c"):
        point = run.protection.part("carries").missing("time")
        sheet.needs(Missing("read a point of the time-current curve that lasts at least as long as the start", point.where))
    return sheet.at_most("I_s", "I_c")
