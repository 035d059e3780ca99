"""Lateral arm of the empty weight in a state, right of the centre line positive, where the record gives one."""

from liftout.facts import Facts, Missing
from liftout.facts.states import State
from liftout.worked import worked
from liftout.worked.balance.amended_empty_weight import amended_empty_weight, as_recorded, liquids
from liftout.worked.fluids.liquid_lateral_moment import liquid_lateral_moment
from liftout.worksheet import Worksheet


@worked
def lateral_arm(state: State, facts: Facts) -> Worksheet:
    sheet, record = Worksheet(), facts.aircraft.on(state.undercarriage).record
    counted = as_recorded(record, facts)
    sheet.given("W_0", record.weight, f"empty weight, {record.title}")
    sheet.given("y_0", record.lateral, f"lateral arm, {record.title}")
    moment = "W_0 * y_0"
    for symbol, sign, items in (
        ("w", "+", [item for item in state.items if item not in counted.items]),
        ("r", "-", [item for item in counted.items if item not in state.items]),
    ):
        if items:
            sheet.column(symbol, [(item.name, item.mass_dry) for item in items], "weight of each item, dry")
            sheet.column(f"y_{symbol}", [(item.name, item.lateral) for item in items], "its lateral arm")
            moment += f" {sign} sum({symbol} * y_{symbol})"
    parts = [part for part in facts.displaced if (part.name in record.includes) == state.before]
    sheet.needs(*(Missing(f"measure the lateral arm of the {part.name}; the job has no key for it yet", "by hand") for part in parts))
    ballast = [place for place in facts.aircraft.ballast if place.carries and not state.before]
    sheet.needs(*(Missing(f"measure the lateral arm of the ballast at {place.name}; the job has no key for it yet", "by hand") for place in ballast))
    for number, (sign, filled) in enumerate(liquids(state, counted), 1):
        liquid = liquid_lateral_moment(filled, facts)
        sheet.given(f"L_{number}", liquid.value("L"), f"lateral moment of the liquid in the {filled.loop.name}")
        moment += f" {sign} L_{number}"
    sheet.given("W", amended_empty_weight(state, facts).value("W"), "empty weight in this state")
    sheet.work("L", moment, "lateral moment", "lb-in", places=1)
    sheet.work("y", "L / W", "lateral arm of the empty weight", "in", places=2)
    return sheet
