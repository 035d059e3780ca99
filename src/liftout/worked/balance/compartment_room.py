"""Room that equipment leaves in a compartment: its limit less what stands in it."""

from liftout.facts import Facts
from liftout.facts.states import Room
from liftout.worked import worked
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worksheet import Worksheet


@worked
def compartment_room(room: Room, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    sheet.given("w_max", room.compartment.maximum, "most that may be loaded there")
    sheet.needs(*room.unknown)
    if not room.items:
        sheet.work("R", "w_max", "room for loads", "lb", places=2)
        return sheet
    wet = {item.name for loop in room.state.filled for item in loop.items}
    symbols = []
    for number, item in enumerate(room.items, 1):
        symbols.append(f"w_{number}")
        if item.name in wet:
            sheet.given(symbols[-1], filled_mass(item, facts).value("m"), f"{item.name}, filled")
        else:
            sheet.given(symbols[-1], item.mass_dry, f"{item.name}, dry")
    sheet.work("w_eq", " + ".join(symbols), "equipment that stands there", "lb", places=2)
    sheet.work("R", "w_max - w_eq", "room for loads", "lb", places=2)
    return sheet
