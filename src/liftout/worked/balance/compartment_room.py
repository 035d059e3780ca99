"""Room that equipment leaves at a station or in several: their limit, less the seats it takes, less what of it stands there."""

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
    most = "w_max"
    if room.seats_taken:
        station = next(one for one in facts.aircraft.stations if one.name in room.compartment.stations)
        sheet.given("n", station.seats, "seats there")
        sheet.column("n_t", [(item.name, seats) for item, seats in room.seats_taken], "seats that equipment takes")
        most = "w_max * (n - sum(n_t)) / n"
    if not room.items:
        sheet.work("R", most, "room for loads", "lb", places=2)
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
    # Who sits beside equipment has no more than the seats that are left; heavy equipment takes of their share too.
    left = f"min({most}, w_max - w_eq)" if room.seats_taken else f"{most} - w_eq"
    sheet.work("R", left, "room for loads", "lb", places=2)
    return sheet
