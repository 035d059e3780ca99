"""Current of all equipment that may be switched on in a state of the aircraft."""

from liftout.facts import Facts
from liftout.facts.electrical_state import ElectricalState
from liftout.worked import worked
from liftout.worked.electrical.running_current import running_current
from liftout.worksheet import Worksheet


@worked
def state_current(state: ElectricalState, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    live = {run.load.name: run.load for run in state.live}
    for number, item in enumerate(live.values(), 1):
        sheet.given(f"I_{number}", running_current(item, facts).value("I"), f"{item.name}, the larger of steady and highest lasting current")
    sheet.needs()
    if live:
        sheet.work("I", " + ".join(f"I_{number}" for number in range(1, len(live) + 1)), f"equipment, {state.name}", "A", places=2)
    return sheet
