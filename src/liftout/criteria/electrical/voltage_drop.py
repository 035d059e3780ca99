"""Voltage drop of a circuit, out and back.

Requires: the drop between bus and load, out and back, stays within the limit for the system voltage and the duty.
Because: a starved motor or relay overheats or drops out, and the fault shows far from its cause.
Method: Ohm's law, over the length to which each wire is cut; conductor resistance corrected to working temperature; every contact and what breaks
    the current counted; a structure return counts as measured. The wider limit of an intermittent load holds only for as long as the circular calls it so.
Leaves out: inrush, and whether the wire can carry the current without overheating.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.electrical.circuit_drop import circuit_drop
from liftout.worked.electrical.larger_gauges import larger_gauges
from liftout.worked.electrical.stocked_sizes import told_sizes
from liftout.worksheet import Worksheet

limits, methods = table("voltage_drop_limits"), table("methods")


@criterion(each="runs", tables=(limits, methods))
def voltage_drop(run: Run, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("V_drop", circuit_drop(run, facts).value("V_drop"), "drop, out and back")
    metal = facts.electrical.answer("metal_structure")
    if isinstance(metal, Fact) and not metal.value and isinstance(run.return_path, Fact) and run.return_path.value == "structure":
        return sheet.refused("the structure between source and load is not metal throughout: return the current by wire")
    sheet.needs(run.supply, run.duty, run.load.demand.duty)
    assert isinstance(run.supply, Fact)
    assert isinstance(run.duty, Fact)
    duty = "continuous" if "continuous" in (run.duty.value, _duty_of_load(run)) else "intermittent"
    if duty == "intermittent":
        sheet.given("t_on", run.place.quantity("longest_on"), "longest time that the load stays on")
        sheet.given("t_max", methods.row("intermittent duty").t_max, "longest time that counts as intermittent")
        duty = "continuous" if sheet.exceeds("t_on", "t_max") else duty
    limit = sheet.row(limits, f"{run.supply.value} {duty}")
    return sheet.at_most("V_drop", limit.drop, otherwise=larger_gauges(run), case={"duty": duty, "system": run.supply.value} | told_sizes(run, facts))


def _duty_of_load(run: Run) -> str:
    """Duty of the item fed: a run cannot be less than what it feeds."""
    duty = run.load.demand.duty
    return duty.value if isinstance(duty, Fact) else ""
