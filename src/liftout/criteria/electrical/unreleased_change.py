"""Need of the fit for a change that is not released yet.

Requires: where the loads keep their limit only with another change made at the same time, that change is released before the equipment is powered.
Because: papers that count on the larger alternator are followed on the day on which the old one is still in.
Method: the load of each phase in which the equipment runs, without this change and with all others, against what may be drawn; the phase nearest to it or
    farthest over it. A change of the battery that is not released is always a question, since the endurance counts on it. What each change weighs must
    be told: the empty weight without it, with it alone and with all is printed beside the loads.
Leaves out: the change's own data and release, which are a record of their own.
"""

from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.changes import Change
from liftout.facts.electrical import SourceInPhase
from liftout.findings import Finding, Referral
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worksheet import Worksheet


@criterion(each="changes")
def unreleased_change(change: Change, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(change.released, change.mass_in, change.arm_in, change.mass_out, change.arm_out)
    assert isinstance(change.released, Fact)
    if change.released.value:
        return sheet.met(f"the {change.name} is released to service by the record named")
    others = tuple(other for other in facts.changes if other is not change)
    cases = [case for case in facts.with_changes(others, f"without the {change.name}") if case.equipment]
    sheet.needs(*(case.source.monitoring for case in cases))
    loads = [load_analysis(case, facts) for case in cases]
    sheet.needs(*(need for load in loads for need in load.missing))
    if not cases or change.battery is not None:
        return sheet.refer(_question(change))
    case = max(cases, key=lambda one: _share(one, facts))
    load = load_analysis(case, facts)
    sheet.given("I", load.value("I_in"), f"all loads together, {case.name}")
    sheet.given("I_max", load.value(_allowed(case)), f"most that may be drawn, {case.name}")
    if sheet.exceeds("I", "I_max"):
        return sheet.refer(_question(change), case={"phase": case.phase})
    return sheet.at_most("I", "I_max", case={"phase": case.phase})


def _allowed(case: SourceInPhase) -> str:
    monitoring = case.source.monitoring
    return "I_m" if isinstance(monitoring, Fact) and monitoring.value == "ammeter with redline" else "I_n"


def _share(case: SourceInPhase, facts: Facts) -> Decimal:
    sheet = load_analysis(case, facts).sheet
    assert sheet is not None
    return sheet.exact("I_in") / sheet.exact(_allowed(case))


def _question(change: Change) -> Referral:
    return Referral(
        f"Is the {change.name} released to service, on which the loads of the fit count?",
        f"{change.what}; without it the loads above do not keep their limit. The equipment is not to be powered until it is released",
        "a licensed avionics technician",
        "the release of that change, said in the job with its record",
    )
