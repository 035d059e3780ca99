"""Empty weight, moment and arm of a state: the record in force, less what it includes that is out, what made room, the items and liquids that are in."""

from collections.abc import Sequence

from liftout.facts import Facts, Missing
from liftout.facts.equipment import Item
from liftout.facts.lines import Loop
from liftout.facts.states import Filled, State
from liftout.facts.weight_record import Sheet
from liftout.worked import worked
from liftout.worked.balance.fixed_ballast import fixed_ballast
from liftout.worked.balance.record_in_force import record_in_force
from liftout.worked.fluids.liquid_fill import liquid_fill
from liftout.worksheet import Worksheet


@worked
def amended_empty_weight(state: State, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    record = facts.aircraft.on(state.undercarriage).record
    record_in_force(sheet, record)
    counted = as_recorded(record, facts)
    weight, moment = "W_0", "M_0"
    for symbol, sign, items, how in (
        ("w", "+", [item for item in state.items if item not in counted.items], "that the record does not include"),
        ("r", "-", [item for item in counted.items if item not in state.items], "that the record includes and that is out"),
    ):
        if items:
            means = how if counted.items else ""
            weight, moment = (f"{one} {sign} {term}" for one, term in zip((weight, moment), _items(sheet, symbol, items, means), strict=True))
    weight, moment = _displaced(sheet, state, record, facts, weight, moment)
    if not state.before:
        more = fixed_ballast(sheet, facts.aircraft)
        weight, moment = weight + more[0], moment + more[1]
    for number, (sign, filled) in enumerate(liquids(state, counted), 1):
        fill = liquid_fill(filled, facts)
        in_record = " that the record includes" if sign == "-" else ""
        sheet.given(f"m_{number}", fill.value("m"), f"liquid in the {filled.loop.name}{in_record}")
        sheet.given(f"M_{number}", fill.value("M"), f"moment of the liquid in the {filled.loop.name}{in_record}")
        weight, moment = f"{weight} {sign} m_{number}", f"{moment} {sign} M_{number}"
    sheet.work("W", weight, "empty weight", "lb", places=2)
    if min(sheet.ends("W")) <= 0:
        sheet.needs(
            Missing(
                f"the weights of {record.title} and of what it includes, which together weigh more than the aircraft",
                record.place.missing("weight").where,
            )
        )
    sheet.work("M", moment, "empty-weight moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "empty-weight arm", "in", places=2)
    return sheet


def as_recorded(record: Sheet, facts: Facts) -> State:
    """What of the job is in the figures of a sheet, as a state."""
    items = tuple(item for item in facts.items if item.name in record.includes)
    return State(f"as recorded in {record.name}", items, tuple(loop for loop in facts.loops if loop.name in record.filled))


def _items(sheet: Worksheet, symbol: str, items: Sequence[Item], how: str) -> tuple[str, str]:
    """Columns of weights and arms: their terms in the sums of weight and of moment."""
    arm = "x" if symbol == "w" else f"x_{symbol}"
    sheet.column(
        symbol, [(item.name, item.mass_dry) for item in items], " ".join(part for part in ("weight of each item, dry,", how) if part).rstrip(",")
    )
    sheet.column(arm, [(item.name, item.arm) for item in items], "arm of each item")
    return f"sum({symbol})", f"sum({symbol} * {arm})"


def _displaced(sheet: Worksheet, state: State, record: Sheet, facts: Facts, weight: str, moment: str) -> tuple[str, str]:
    """What the fit displaces stays out, or in its new place, whatever equipment is in; before any change it is where it was."""
    changed = [part for part in facts.displaced if (part.name in record.includes) == state.before]
    sign, back = ("+", "-") if state.before else ("-", "+")
    gone, moved = [part for part in changed if not part.aboard], [part for part in changed if part.aboard]
    if gone:
        sheet.column("w_out", [(part.name, part.mass) for part in gone], "weight of each part taken out of the aircraft")
        sheet.column("x_out", [(part.name, part.arm) for part in gone], "its arm")
        weight, moment = f"{weight} {sign} sum(w_out)", f"{moment} {sign} sum(w_out * x_out)"
    if moved:
        sheet.column("w_mov", [(part.name, part.mass) for part in moved], "weight of each part moved")
        sheet.column("x_old", [(part.name, part.arm) for part in moved], "its arm in its old place")
        sheet.column("x_new", [(part.name, part.new_arm) for part in moved], "its arm in its new place")
        moment = f"{moment} {back} sum(w_mov * (x_new - x_old))"
    return weight, moment


def liquids(state: State, counted: State) -> list[tuple[str, Filled]]:
    """Loops whose liquid comes in (+) or that the record includes and that is out (-); what is in both is left alone."""

    def in_both(loop: Loop) -> bool:
        return loop in state.filled and loop in counted.filled and Filled(loop, state).items == Filled(loop, counted).items

    return [(sign, Filled(loop, held)) for sign, held in (("+", state), ("-", counted)) for loop in held.filled if not in_both(loop)]
