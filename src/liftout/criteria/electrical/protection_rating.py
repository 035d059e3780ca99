"""Rating of a breaker or fuse against its wire.

Requires: breaker or fuse is no larger than the published chart gives for the gauge of the wire.
Because: a protection that carries more than its wire does leaves the wire to be the fuse.
Method: the chart of breakers and fuses by gauge, which holds in its own case of ambient, altitude and bundle; it is never compared with ratings of wires.
Leaves out: whether the protection carries its load, its time-current curve, and what the wire of a bundle may carry where that is less than the rating.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.other_ratings import other_ratings
from liftout.worked.electrical.surroundings import surroundings, within
from liftout.worksheet import Worksheet, declined

chart, methods = table("circuit_protection"), table("methods")


@criterion(each="runs", tables=(chart, methods))
def protection_rating(run: Run, facts: Facts) -> Finding:
    if run.protection_declined is not None:
        return declined(run.protection_declined)
    sheet, case = Worksheet(), methods.row("table 11-3 basis")
    sheet.given("I_n", run.device.rating, "rating of the protection")
    surroundings(sheet, run, facts)
    sheet.needs(run.gauge, run.material, run.device.kind)
    assert isinstance(run.gauge, Fact)
    assert isinstance(run.device.kind, Fact)
    kind = run.device.kind.value
    row = sheet.row(chart, run.gauge)
    sheet.given("I_max", row.fuse if kind == "fuse" else row.breaker, f"largest {kind} for a wire of gauge {run.gauge.value}")
    of_copper = isinstance(run.material, Fact) and run.material.value == "copper"
    covered = of_copper and within(sheet, "T_a", case.T_a) and within(sheet, "H", case.H) and within(sheet, "s", case.share)
    outside = Referral(
        f"Does the {kind} of {run.name} open before its wire is too hot?",
        f"ambient, bundle and altitude above; the chart holds for copper, up to {case.T_a}, {case.H} and {case.share} of the capacity of the bundle in use, "
        f"and this wire lies outside; {case.citation}",
        "a licensed avionics technician",
        f"a decision naming the time-current curve of the {kind} and the rating of the wire for this case",
    )
    changes = [*other_ratings(run, "smaller"), *larger_gauges(run)]
    return sheet.at_most("I_n", "I_max", otherwise=changes, case={"device": kind}, referral=None if covered else outside)
