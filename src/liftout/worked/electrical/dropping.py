"""Lines of a drop out and back, at the temperature of the conductor at work, for whoever needs them on a sheet of its own."""

from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.worked.electrical.conductor_at_work import conductor_at_work, hottest_piece
from liftout.worked.electrical.cutting import cutting
from liftout.worked.electrical.metal import metal
from liftout.worksheet import Lacking, Result, Worksheet


def dropping(sheet: Worksheet, run: Run, facts: Facts) -> None:
    """Work the resistance of the circuit and V_drop: wire out, wire or structure back, every contact, and what breaks the current."""
    made_of = metal(sheet, run)
    hot = made_of.hot
    switched = run.place.part("switched")
    breaks = (run.protection.there and run.protection_declined is None) or (switched.there and switched.declined is None)
    sheet.given("I", run.current, "steady current of the load")
    if isinstance(run.temperature, Missing):
        sheet.given("T", _solved(run, facts), "conductor at work, solved")
    else:
        sheet.given("T", run.temperature, "conductor at work")
    sheet.given("r", made_of.wire.resistance, "conductor, per length, at reference temperature")
    sheet.given("alpha", hot.alpha, "temperature coefficient of resistance")
    sheet.given("T_20", hot.T_20, "reference temperature")
    sheet.given("n", run.terminations, "contacts in the loop")
    sheet.given("R_c", run.contact_resistance, "one contact")
    if breaks:
        sheet.given("R_b", run.device_resistance, "breaker, switch and contactor together")
    sheet.needs(run.return_path, run.material)
    assert isinstance(run.return_path, Fact)
    by_wire = run.return_path.value == "wire"
    if not by_wire:
        sheet.needs(facts.electrical.answer("metal_structure"))
        sheet.given("R_s", run.return_resistance, "return through the structure, as measured")
    cutting(sheet, run)
    sheet.work("R", "r * L_cut * (1 + alpha * (T - T_20))", "one conductor at work", "mohm", by=hot)
    also = " + R_b" if breaks else ""
    if by_wire:
        sheet.work("V_drop", f"I * (2 * R + n * R_c{also})", "drop, out and back by wire", "V")
        sheet.work("R_loop", f"2 * R + n * R_c{also}", "resistance of the circuit, out and back", "mohm")
    else:
        sheet.work("V_drop", f"I * (R + R_s + n * R_c{also})", "drop, out by wire and back through the structure", "V")
        sheet.work("R_loop", f"R + R_s + n * R_c{also}", "resistance of the circuit, out and back", "mohm")


def _solved(run: Run, facts: Facts) -> Result | Lacking:
    """The temperature that was solved, where the job tells none: of the circuit itself, or of another size in its place."""
    if any(run is fitted for fitted in facts.runs):
        return conductor_at_work(run, facts).value("T_c")
    return hottest_piece(run, facts).result("T_c", f"worked: {run.name} in another size")
