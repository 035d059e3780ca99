"""Load on the protection that feeds a bus.

Requires: all that hangs on a bus and on the buses below it stays within the rating of the breaker or fuse that feeds the bus.
Because: a feeder that opens takes the whole bus with it, the essential loads among them, and not only the load that was added.
Method: in the phase in which they add up to most: existing loads whatever their duty, and the larger of steady and peak current of each item that a circuit
    on the bus feeds, an item on several circuits in full.
Leaves out: the wire of the feeder; a bus fed without a protection, whose load is that of its sources.
"""

import math

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import PHASES, ExistingLoad
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount
from liftout.facts.power import Feed
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined


@criterion(each="loaded_feeds")
def bus_load(bus: Feed, facts: Facts) -> Finding:
    through = bus.place.part("fed_through")
    sheet = Worksheet()
    sheet.needs(bus.fed_from, *bus.unplaced)
    if through.declined is not None:
        return declined(through.declined)
    items = {run.load.name: run.load for run in bus.runs}.values()
    amounts = [*(load.current for load in bus.existing), *(amount for item in items for amount in (item.demand.steady, item.demand.peak))]
    sheet.needs(*(item.demand.phases for item in items if isinstance(item.demand.phases, Missing)), *amounts)
    phase, existing, running = max(_by_phase(bus, list(items)), key=lambda case: _sum(case[1], case[2]))
    if existing:
        sheet.column("I_old", [(load.name, load.current) for load in existing], f"loads on the bus and below it before the change, {phase}")
    if running:
        sheet.column("I_s", [(item.name, item.demand.steady) for item in running], "equipment, steady current")
        sheet.column("I_p", [(item.name, item.demand.peak) for item in running], "equipment, highest lasting current")
    sheet.given("I_n", through.quantity("rating"), "rating of the protection that feeds the bus")
    parts = (["sum(I_old)"] if existing else []) + (["sum(max(I_s, I_p))"] if running else [])
    sheet.work("I", " + ".join(parts) or "0 * I_n", "all loads on the bus and below it", "A")
    return sheet.at_most("I", "I_n", case={"phase": phase})


def _by_phase(bus: Feed, items: list[Item]) -> list[tuple[str, list[ExistingLoad], list[Item]]]:
    return [
        (
            phase,
            [load for load in bus.existing if phase in load.phases],
            [item for item in items if isinstance(item.demand.phases, Fact) and phase in item.demand.phases.value],
        )
        for phase in PHASES
    ]


def _sum(existing: list[ExistingLoad], items: list[Item]) -> float:
    return math.fsum(map(_si, (load.current for load in existing))) + math.fsum(max(_si(item.demand.steady), _si(item.demand.peak)) for item in items)


def _si(amount: Amount) -> float:
    return amount.value.si_float if isinstance(amount, Fact) else 0
