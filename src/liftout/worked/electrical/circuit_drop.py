"""Drop of a circuit, out and back, at the temperature of its conductor at work."""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.tables import table
from liftout.worked import worked
from liftout.worksheet import Worksheet

conductors, methods = table("conductors"), table("methods")


@worked
def circuit_drop(run: Run, facts: Facts) -> Worksheet:
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
    sheet.needs(run.return_path, run.material)
    assert isinstance(run.return_path, Fact)
    sheet.work("R", "r * L * (1 + alpha * (T - T_20))", "one conductor at work", "mohm", by=hot)
    if run.return_path.value == "wire":
        sheet.work("V_drop", "I * (2 * R + n * R_c)", "drop, out and back by wire", "V")
    else:
        sheet.needs(facts.electrical.answer("metal_structure"))
        sheet.given("R_s", run.return_resistance, "return through the structure, as measured")
        sheet.work("V_drop", "I * (R + R_s + n * R_c)", "drop, out by wire and back through the structure", "V")
    return sheet
