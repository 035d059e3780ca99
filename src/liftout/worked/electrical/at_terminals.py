"""Voltage at the terminals of an item that its circuit leaves of the voltage at its source, for whoever needs it on a sheet of its own."""

from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worksheet import Worksheet


def at_terminals(sheet: Worksheet, run: Run, facts: Facts, source: str, meaning: str) -> bool:
    """Work V_load: the drop taken off, or for an item that keeps its power the voltage at which it still has it.

    Args:
        sheet: where it is worked.
        run: the circuit.
        facts: all facts.
        source: symbol of the voltage at its source.
        meaning: what the result is.

    Returns:
        Whether there is such a voltage; at none does an item have its power where the circuit resists too much.
    """
    drop, demand = circuit_drop(run, facts), run.load.place.part("electrical")
    keeps = demand.word("keeps")
    sheet.needs(keeps)
    if isinstance(keeps, Fact) and keeps.value == "current":
        sheet.given("V_drop", drop.value("V_drop"), "drop, out and back")
        sheet.work("V_load", f"{source} - V_drop", meaning, "V")
        return True
    sheet.given("R_loop", drop.value("R_loop"), "resistance of the circuit, out and back")
    sheet.given("V_m", demand.quantity("measured_at"), "voltage at which the current was measured")
    sheet.given("I", run.current, "current at that voltage")
    sheet.work("P", "V_m * I", "power of the item, which it keeps", "W")
    sheet.work("D", f"({source} / 2)**2 - R_loop * P", "below nothing no current gives the item its power", "V^2")
    if sheet.sign("D") < 0:
        return False
    sheet.work("V_load", f"{source} / 2 + sqrt(D)", meaning, "V")
    return True
