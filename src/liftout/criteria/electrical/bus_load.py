"""Load on the protection that feeds a bus.

Requires: all that hangs on a bus and on the buses below it stays within the rating of the breaker or fuse that feeds the bus.
Because: a feeder that opens takes the whole bus with it, the essential loads among them, and not only the load that was added.
Method: in the phase in which they add up to most: existing loads whatever their duty, and the larger of steady and peak current of each item that a circuit
    on the bus feeds, an item on several circuits in full.
Leaves out: the wire of the feeder; a bus fed without a protection, whose load is that of its sources; and the charging of a battery that hangs below it.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.power import Feed
from liftout.findings import Finding
from liftout.worked.electrical.load_on_bus import load_on_bus
from liftout.worksheet import Worksheet, declined


@criterion(each="loaded_feeds")
def bus_load(bus: Feed, facts: Facts) -> Finding:
    through = bus.place.part("fed_through")
    sheet = Worksheet()
    sheet.needs(bus.fed_from, *bus.unplaced)
    if through.declined is not None:
        return declined(through.declined)
    phase, loads = load_on_bus(sheet, bus)
    sheet.given("I_n", through.quantity("rating"), "rating of the protection that feeds the bus")
    sheet.work("I", loads or "0 * I_n", "all loads on the bus and below it", "A")
    return sheet.at_most("I", "I_n", case={"phase": phase})
