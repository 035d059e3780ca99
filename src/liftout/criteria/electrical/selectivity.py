"""Protection of a circuit against the protection of its bus.

Requires: a fault of the equipment opens its own protection and leaves the bus fed.
Because: a feeder that opens first takes everything on its bus away, with the radio among it, for a fault in a cooler.
Method: the rating above is no smaller; and at a current that has surely opened the protection of the circuit, with all else that hangs on the bus beside
    it, that of the bus carries on for at least as long.
Leaves out: faults so hard that both open at once, which only curves of both devices on one sheet show; protections further up than that of the bus.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import Run
from liftout.findings import Finding
from liftout.worked.electrical.load_on_bus import load_on_bus
from liftout.worksheet import Worksheet, declined


@criterion(each="runs")
def selectivity(run: Run, facts: Facts) -> Finding:
    if run.protection_declined is not None:
        return declined(run.protection_declined)
    sheet = Worksheet()
    feeder, opens = run.bus.feeder, run.protection.part("opens")
    if feeder is None:
        sheet.needs(run.bus.name if isinstance(run.bus.name, Missing) else run.place.missing("bus"))
    assert feeder is not None
    sheet.described(feeder)
    sheet.given("I_n", run.device.rating, "rating of the protection of the circuit")
    sheet.given("I_u", feeder.quantity("rating"), "rating of the protection of the bus")
    sheet.given("I_o", opens.quantity("current"), "current at which the protection of the circuit has opened")
    sheet.given("t_o", opens.quantity("time"), "time after which the protection of the circuit has opened")
    sheet.given("I_c", feeder.quantity("carries"), "current that the protection of the bus carries on")
    sheet.given("t_c", feeder.quantity("carries_for"), "how long the protection of the bus carries it on")
    sheet.needs(feeder.word("device"))
    if sheet.exceeds("I_n", "I_u"):
        return sheet.at_most("I_n", "I_u")
    if sheet.exceeds("t_o", "t_c"):
        need = feeder.missing("carries_for")
        sheet.needs(
            Missing("read a point of the lower curve of the bus protection that lasts as long as that of the circuit takes to open", need.where)
        )
    bus = next(feed for feed in facts.feeds if isinstance(run.bus.name, Fact) and feed.name == run.bus.name.value)
    sheet.needs(*bus.unplaced)
    _, beside = load_on_bus(sheet, bus, beside=run.load)
    sheet.work("I_f", f"I_o + {beside}" if beside else "I_o", "current through the protection of the bus until that of the circuit opens", "A")
    return sheet.at_most("I_f", "I_c")
