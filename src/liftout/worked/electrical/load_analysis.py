"""Electrical load analysis of one source in one phase of flight: everything out, everything in, and what is left of the source.

Loads said to run at most two minutes stand in a sum of their own; equipment counts whatever its duty.
"""

from liftout.facts import Facts
from liftout.facts.electrical import SourceInPhase
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.electrical.source_capacity import source_capacity
from liftout.worksheet import Worksheet

limits = table("generator_load_limits")


@worked
def load_analysis(case: SourceInPhase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    lasting = [load for load in case.existing if not load.short]
    short = [load for load in case.existing if load.short]
    if lasting:
        sheet.column("I_old", [(load.name, load.current) for load in lasting], "continuous loads that run before the change")
    if short:
        sheet.column("I_short", [(load.name, load.current) for load in short], "loads of at most two minutes that run before the change")
    if case.equipment:
        sheet.column("I_s", [(item.name, item.demand.steady) for item in case.equipment], "equipment, steady current")
        sheet.column("I_p", [(item.name, item.demand.peak) for item in case.equipment], "equipment, highest lasting current")
    sheet.given("I_b", case.battery.quantity("recharge"), "battery charging")
    sheet.given("C_s", source_capacity(case, facts).value("C"), f"what the {case.source.name} gives, {case.phase}")
    sheet.given("s_n", limits.row("neither placard nor monitoring").share, "share that may be drawn with neither placard nor monitoring")
    sheet.given("s_m", limits.row("monitored").share, "share that may be drawn with monitoring")
    sheet.needs(*case.unsaid, *(load.duty for load in case.existing))
    sheet.work("C", "C_s", f"capacity, {case.phase}", "A", places=2)
    sheet.work("I_out", "sum(I_old) + I_b" if lasting else "I_b", "load, everything out", "A", places=2)
    if case.equipment:
        sheet.work("I_eq", "sum(max(I_s, I_p))", "load of the equipment", "A", places=2)
    sheet.work("I_in", "I_out + I_eq" if case.equipment else "I_out", "load, everything in", "A", places=2)
    sheet.work("I_most", "I_in + sum(I_short)" if short else "I_in", "load, everything in, while all short loads run", "A", places=2)
    sheet.work("left_out", "C - I_out", "left, everything out", "A", places=2)
    sheet.work("left_in", "C - I_in", "left, everything in", "A", places=2)
    if sheet.sign("C"):  # an idling generator may give nothing, of which no load is a share
        sheet.work("share_out", "I_out / C", "share of the capacity, everything out", "%", places=1)
        sheet.work("share_in", "I_in / C", "share of the capacity, everything in", "%", places=1)
    sheet.work("I_n", "s_n * C", "most that may be drawn with neither placard nor monitoring", "A", places=2)
    sheet.work("I_m", "s_m * C", "most that may be drawn with monitoring", "A", places=2)
    return sheet
