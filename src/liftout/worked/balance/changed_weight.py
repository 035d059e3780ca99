"""Empty weight and moment with some of the changes that are made at the same time as the fit; of the fit there is in it what the record includes."""

from liftout.facts import Facts
from liftout.facts.changes import Scenario
from liftout.worked import worked
from liftout.worked.balance.record_in_force import record_in_force
from liftout.worksheet import Worksheet


@worked
def changed_weight(case: Scenario, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    record_in_force(sheet, facts.aircraft.undercarriages[0].record)
    if case.changes:
        sheet.column("m_in", [(change.name, change.mass_in) for change in case.changes], "what comes in")
        sheet.column("x_in", [(change.name, change.arm_in) for change in case.changes], "its arm")
        sheet.column("m_out", [(change.name, change.mass_out) for change in case.changes], "what goes out")
        sheet.column("x_out", [(change.name, change.arm_out) for change in case.changes], "its arm")
    sheet.work("W", "W_0 + sum(m_in) - sum(m_out)" if case.changes else "W_0", f"empty weight, {case.name}", "lb", places=1)
    sheet.work("M", "M_0 + sum(m_in * x_in) - sum(m_out * x_out)" if case.changes else "M_0", f"empty-weight moment, {case.name}", "lb-in", places=1)
    sheet.work("x", "M / W", f"empty-weight arm, {case.name}", "in", places=2)
    return sheet
