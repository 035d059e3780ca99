"""Equipment in a compartment against the limit of that compartment.

Requires: equipment in a baggage compartment or on seats weighs no more than may be loaded there, alone and with what shares the limit.
Because: an item that takes of the limit leaves less for baggage, and a load to the full placard beside it is too much for floor and balance.
Method: weight of the items that are in, filled where their loop is, against the placard; the rest is what may still be loaded there.
Leaves out: the load on the area that an item stands on, and what else is loaded beside it.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.states import Room
from liftout.findings import Finding
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worksheet import Worksheet


@criterion(each="rooms")
def compartment_load(room: Room, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("w_eq", compartment_room(room, facts).value("w_eq"), "equipment that stands there")
    sheet.given("w_max", room.compartment.maximum, "most that may be loaded there")
    if sheet.sign("w_max"):  # where nothing may be loaded there is nothing to take a share of
        sheet.work("s_w", "w_eq / w_max", "share of the limit that the equipment takes")
    if room.seats_taken:
        sheet.given("R", compartment_room(room, facts).value("R"), "room left for all else that is loaded there")
    else:
        sheet.work("R", "w_max - w_eq", "room left for all else that is loaded there", "lb", places=2)
    return sheet.at_most("w_eq", "w_max")
