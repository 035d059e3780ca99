"""Current of a circuit at the lowest bus voltage.

Requires: an item that keeps its power still draws, at the lowest bus voltage, no more than its wire and its protection carry.
Because: a controlled motor answers a low voltage with more current, which lowers it further, in the hour in which the generator is already short.
Method: current, conductor temperature and resistance found together, so that the power at the terminals is the power that was measured; the sheet
    prints what the search left over. Temperature by the circular's estimate, resistance at that temperature.
Leaves out: items that keep their current, which the job declares, and the dip of a start.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.facts.stretches import Stretch
from liftout.findings import Finding, Referral
from liftout.physics.conductors import NoSteadyCurrent, constant_power_run
from liftout.tables import table
from liftout.worked.electrical.carrying import carrying
from liftout.worked.electrical.dropping import dropping
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.metal import metal
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="runs", tables=(methods,))
def current_at_lowest_voltage(run: Run, facts: Facts) -> Finding:
    sheet, estimate, hot = Worksheet(), methods.row("conductor temperature estimate"), metal(Worksheet(), run).hot
    demand = run.load.place.part("electrical")
    keeps = demand.word("keeps")
    if isinstance(keeps, Fact) and keeps.value == "current":
        sheet.needs(keeps)
        return sheet.met("the item draws no more current at a lower voltage")
    sheet.given("V_m", demand.quantity("measured_at"), "voltage at which the current was measured")
    sheet.given("V_bus", facts.electrical.quantity("bus_minimum"), "lowest bus voltage")
    dropping(sheet, run, facts)
    sheet.needs(keeps)
    carried = carrying(sheet, Stretch(run.name, run, run.ambient, run.altitude, run.bundle, run.bundle_load), facts, "I")
    if not carried.something:
        return sheet.refused("the air round the wire is as hot as its insulation stands, so that no current is left for it")
    ways = "2 * r * L_cut" if sheet.has("R_loop") and not sheet.has("R_s") else "r * L_cut"
    sheet.work("P", "V_m * I", "power of the item", "W")
    sheet.work("R_w", ways, "wire at the reference temperature", "mohm")
    sheet.work("R_o", f"R_loop - {'2 * R' if ways.startswith('2') else 'R'}", "contacts, devices and structure", "mohm")
    largest = "I_own" if sheet.has("I_own") else "I_max"
    try:
        found = constant_power_run(
            *(sheet.si(symbol) for symbol in ("P", "V_bus", "R_w", "R_o", "T_20", "alpha", "T_a", "T_R", largest)),
        )
    except NoSteadyCurrent:
        return sheet.refused("no current gives the item its power at the lowest bus voltage: its voltage collapses", remedies=larger_gauges(run))
    sheet.found("I_low", found.current_a, "current at the lowest bus voltage", "A")
    sheet.work("T_2", f"T_a + (T_R - T_a) * sqrt(I_low / {largest})", "conductor temperature by the circular's estimate", "°C", by=estimate)
    sheet.work("R_2", "R_w * (1 + alpha * (T_2 - T_20)) + R_o", "circuit at that temperature", "mohm", by=hot)
    sheet.work("V_2", "V_bus - I_low * R_2", "voltage at the item", "V")
    sheet.work("P_left", "P - I_low * V_2", "power asked for less power at the item: what the search left", "W", places=3)
    if sheet.exceeds("I_low", largest) or run.protection_declined is not None:
        return sheet.at_most("I_low", largest, otherwise=larger_gauges(run), referral=_question(run, carried.outside))
    sheet.given("I_n", run.device.rating, "rating of the protection")
    return sheet.at_most("I_low", "I_n", referral=_question(run, carried.outside))


def _question(run: Run, outside: str) -> Referral | None:
    if not outside:
        return None
    return Referral(
        f"Does the wire of {run.name} stand its current at the lowest bus voltage, though its rating is that of another case?",
        f"the current above; the published table holds for {outside}, and this wire lies outside",
        "a licensed avionics technician with the rating of the wire for this case",
        "a rating read for this case, or a test at the lowest bus voltage",
    )
