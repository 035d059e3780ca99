"""Starting current against what the protection carries for that long.

Requires: the breaker or fuse of a circuit carries the start of its load without opening.
Because: a motor draws a multiple of its current until it turns, and a protection that opens then leaves the crew to try again.
Method: the starting current, or the share of this circuit where several feed the item, against the current of a declared point, which must last at
    least as long as the start; of several the largest.
Leaves out: the drop while the load starts.
"""

from liftout.criteria import criterion
from liftout.facts import Amount, Fact, Facts, Missing, Place
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.starting_share import starting_share
from liftout.worksheet import Worksheet, declined


@criterion(each="runs")
def starting_current(run: Run, facts: Facts) -> Finding:
    if run.protection_declined is not None:
        return declined(run.protection_declined)
    sheet = Worksheet()
    sheet.given("t_s", run.start, "how long the start lasts")
    point = _point(run)
    sheet.given("t_c", point.quantity("time"), "how long the protection carries the current of the point")
    sheet.given("I_c", point.quantity("current"), "current that the protection carries for that time")
    sheet.given("I_s", starting_share(run, facts).value("I_s"), "starting current of the circuit")
    if sheet.exceeds("t_s", "t_c"):
        need = point.missing("time")
        sheet.needs(Missing("read a point of the time-current curve that lasts at least as long as the start", need.where))
    return sheet.at_most("I_s", "I_c")


def _point(run: Run) -> Place:
    """The point of the curve with the largest current among those that last as long as the start; the first where none does."""
    first = run.protection.part("carries")
    points = [first, *run.protection.each("further_points").values()]
    lasting = [(current.value.si, number) for number, point in enumerate(points) if isinstance(current := _lasts(point, run), Fact)]
    return points[max(lasting)[1]] if lasting else first


def _lasts(point: Place, run: Run) -> Amount | None:
    """The current of a point that lasts as long as the start."""
    time = point.quantity("time")
    long_enough = isinstance(time, Fact) and isinstance(run.start, Fact) and time.value.si >= run.start.value.si
    return point.quantity("current") if long_enough else None
