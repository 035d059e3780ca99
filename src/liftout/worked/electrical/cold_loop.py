"""Resistance of a circuit, out and back, with its wire at the reference temperature: what a test on a cold aircraft may find at most."""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.worked import worked
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worksheet import Worksheet


@worked
def cold_loop(run: Run, facts: Facts) -> Worksheet:
    sheet, hot = Worksheet(), circuit_drop(run, facts)
    sheet.given("R_loop", hot.value("R_loop"), "resistance of the circuit at work, out and back")
    sheet.given("R", hot.value("R"), "one conductor at work")
    sheet.given("T", hot.value("T"), "conductor at work")
    sheet.given("alpha", hot.value("alpha"), "temperature coefficient of resistance")
    sheet.given("T_20", hot.value("T_20"), "reference temperature")
    sheet.needs(run.return_path)
    assert isinstance(run.return_path, Fact)
    wires = "2 * " if run.return_path.value == "wire" else ""
    sheet.work("R_20", "R / (1 + alpha * (T - T_20))", "one conductor at the reference temperature", "mohm")
    sheet.work("R_cold", f"R_loop - {wires}(R - R_20)", "resistance of the circuit, out and back, wire at the reference temperature", "mohm")
    return sheet
