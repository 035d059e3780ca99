"""Empty weight, moment and arm of a state: the record in force, less what made room, the items that are in, the liquid in filled loops."""

from liftout.facts import Facts, Missing
from liftout.facts.states import BEFORE, Filled, State
from liftout.worked import worked
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@worked
def amended_empty_weight(state: State, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    record = facts.aircraft.record
    sheet.given("W_0", record.weight, f"empty weight, {record.title}")
    if isinstance(record.moment, Missing) and not isinstance(record.arm, Missing):
        sheet.given("x_0", record.arm, f"empty-weight arm, {record.title}")
        sheet.work("M_0", "W_0 * x_0", "empty-weight moment", "lb-in", places=1)
    else:
        sheet.given("M_0", record.moment, f"empty-weight moment, {record.title}")
    weight, moment = "W_0", "M_0"
    if state.name != BEFORE:
        # What the fit displaces stays out, or in its new place, whatever equipment is in.
        gone = [part for part in facts.displaced if not part.aboard]
        moved = [part for part in facts.displaced if part.aboard]
        if gone:
            sheet.column("w_out", [(part.name, part.mass) for part in gone], "weight of each part taken out of the aircraft")
            sheet.column("x_out", [(part.name, part.arm) for part in gone], "its arm")
            weight, moment = weight + " - sum(w_out)", moment + " - sum(w_out * x_out)"
        if moved:
            sheet.column("w_mov", [(part.name, part.mass) for part in moved], "weight of each part moved")
            sheet.column("x_old", [(part.name, part.arm) for part in moved], "its arm in its old place")
            sheet.column("x_new", [(part.name, part.new_arm) for part in moved], "its arm in its new place")
            moment += " + sum(w_mov * (x_new - x_old))"
    if state.items:
        sheet.column("w", [(item.name, item.mass_dry) for item in state.items], "weight of each item, dry")
        sheet.column("x", [(item.name, item.arm) for item in state.items], "arm of each item")
        weight, moment = weight + " + sum(w)", moment + " + sum(w * x)"
    for number, loop in enumerate(state.filled, 1):
        fill = liquid_fill(Filled(loop, state), facts)
        sheet.given(f"m_{number}", fill.value("m"), f"liquid in the {loop.name}")
        sheet.given(f"M_{number}", fill.value("M"), f"moment of the liquid in the {loop.name}")
        weight, moment = f"{weight} + m_{number}", f"{moment} + M_{number}"
    sheet.work("W", weight, "empty weight", "lb", places=2)
    sheet.work("M", moment, "empty-weight moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "empty-weight arm", "in", places=2)
    return sheet
