"""Least engine speed at which the battery does not discharge with the equipment on, by the declared output in the hottest air."""

from liftout.facts import Facts, Missing
from liftout.facts.electrical import SourceInPhase
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worked.electrical.source_capacity import between, in_hottest_air
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def least_engine_speed(case: SourceInPhase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    source = case.source
    load = load_analysis(case, facts)
    sheet.given("I_in", load.value("I_in"), "load, everything in, battery charging among it")
    sheet.given("I_b", case.battery.quantity("recharge"), "battery charging")
    sheet.work("I_load", "I_in - I_b", "load without battery charging", "A", places=2)
    if not source.output:
        sheet.needs(Missing(f"measure what the {source.name} gives by engine speed with the bus at its voltage", source.at_idle.where))
    curve = in_hottest_air(sheet, source)
    wanted = sheet.exact("I_load")
    enough = [n for n, point in enumerate(curve) if point.current.value.si >= wanted]
    if not enough:
        sheet.needs(
            Missing(f"measure at which engine speed the {source.name} carries all loads with the equipment on, if at any", source.at_idle.where)
        )
    step = sheet.row(methods, "placard steps")
    sheet.given("n_s", step.n, "step of an engine speed on a placard")
    if enough[0] == 0:
        sheet.given("n_1", curve[0].engine_speed, "slowest engine speed told, at which it gives more than the load")
        sheet.work("n_least", "n_1", "least engine speed for no discharge, as far as is told", "rpm", places=0)
    else:
        between(sheet, curve[enough[0] - 1], curve[enough[0]])
        sheet.work("n_least", "n_1 + (n_2 - n_1) * (I_load - I_1) / (I_2 - I_1)", "least engine speed for no discharge", "rpm", places=0)
    sheet.work("n_placard", "ceil(n_least / n_s) * n_s", "the same for the placard, in whole steps", "rpm", by=step, places=0)
    return sheet
