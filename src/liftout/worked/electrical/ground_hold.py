"""The battery while the engine idles with the equipment on: what flows into or out of it, and how long its charge lasts."""

from liftout.facts import Facts
from liftout.facts.electrical import SourceInPhase
from liftout.worked import worked
from liftout.worked.electrical.load_analysis import load_analysis
from liftout.worksheet import Worksheet


@worked
def ground_hold(case: SourceInPhase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    battery = case.battery
    load = load_analysis(case, facts)
    sheet.given("I_in", load.value("I_in"), "load, everything in, battery charging among it")
    sheet.given("I_b", battery.quantity("recharge"), "battery charging")
    sheet.given("C_s", load.value("C"), f"what the {case.source.name} gives, {case.phase}")
    sheet.given("Q_r", battery.quantity("capacity"), "rated capacity of the battery")
    sheet.given("s_a", battery.quantity("after_start"), "share of it left after a start")
    sheet.given("s_l", battery.quantity("least_charge"), "share of it below which the battery may not fall on the ground")
    sheet.work("I_load", "I_in - I_b", "load without battery charging", "A", places=2)
    sheet.work("C", "C_s", f"capacity, {case.phase}", "A", places=2)
    sheet.work("I_net", "C - I_load", "net battery current, into the battery positive", "A", places=2)
    sheet.work("Q_a", "s_a * Q_r", "charge after a start", "Ah", places=2)
    sheet.work("Q_l", "s_l * Q_r", "least charge", "Ah", places=2)
    if sheet.sign("I_net") < 0:
        sheet.work("t_l", "(Q_a - Q_l) / -I_net", "time until the battery is down to its least charge", "min", places=1)
    return sheet
