"""Voltage drop of a circuit, out and back.

Requires: the drop between bus and load, out and back, stays within the limit for the system voltage and the duty.
Because: a starved motor or relay overheats or drops out, and the fault shows far from its cause.
Method: Ohm's law; conductor resistance corrected to working temperature; every contact counted; a structure return counts as measured.
Leaves out: inrush, and whether the wire can carry the current without overheating.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Change, Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

conductors, limits, methods = table("conductors"), table("voltage_drop_limits"), table("methods")


@criterion(each="runs", tables=(conductors, limits, methods))
def voltage_drop(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    wire = sheet.row(conductors, run.gauge)
    hot = sheet.row(methods, "copper temperature coefficient")
    sheet.given("I", run.current, "steady current of the load")
    sheet.given("L", run.length, "length of the wire, one way")
    sheet.given("T", run.temperature, "conductor at work")
    sheet.given("r", wire.resistance, "conductor, per length, at reference temperature")
    sheet.given("alpha", hot.alpha, "temperature coefficient of resistance")
    sheet.given("T_20", hot.T_20, "reference temperature")
    sheet.given("n", run.terminations, "contacts in the loop")
    sheet.given("R_c", run.contact_resistance, "one contact")
    sheet.needs(run.return_path, run.supply, run.duty, *([run.load.demand.duty] if run.load else []))
    assert isinstance(run.return_path, Fact)
    assert isinstance(run.supply, Fact)
    assert isinstance(run.duty, Fact)
    sheet.work("R", "r * L * (1 + alpha * (T - T_20))", "one conductor at work", "mohm", by=hot)
    if run.return_path.value == "wire":
        sheet.work("V_drop", "I * (2 * R + n * R_c)", "drop, out and back by wire", "V")
    else:
        sheet.given("R_s", run.return_resistance, "return through the structure, as measured")
        sheet.work("V_drop", "I * (R + R_s + n * R_c)", "drop, out by wire and back through the structure", "V")
    duty = "continuous" if "continuous" in (run.duty.value, _duty_of_load(run)) else "intermittent"
    limit = sheet.row(limits, f"{run.supply.value} {duty}")
    thicker = [Change(run.gauge_path, row.key, f"use gauge {row.key}") for row in conductors.after(wire.key) if row.key in run.stocked]
    return sheet.at_most("V_drop", limit.drop, otherwise=thicker, case={"duty": duty, "system": run.supply.value})


def _duty_of_load(run: Run) -> str:
    """Duty of the item fed: a run cannot be less than what it feeds."""
    duty = run.load.demand.duty if run.load else None
    return duty.value if isinstance(duty, Fact) else ""
