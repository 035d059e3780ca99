"""Lines of all that hangs on a bus and below it, in the phase in which that is most, for whoever needs them on a sheet of its own."""

import math

from liftout.facts import Fact, Missing
from liftout.facts.electrical import PHASES, ExistingLoad
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount
from liftout.facts.power import Feed
from liftout.worksheet import Worksheet


def load_on_bus(sheet: Worksheet, bus: Feed, *, beside: Item | None = None) -> tuple[str, str]:
    """Put in the loads that run together on a bus.

    Args:
        sheet: where they are put in.
        bus: the bus.
        beside: an item that is left out: what counts is all else beside it.

    Returns:
        The phase, and their sum as a formula; nothing where nothing runs.
    """
    items = list({run.load.name: run.load for run in bus.runs if run.load is not beside}.values())
    amounts = [*(load.current for load in bus.existing), *(amount for item in items for amount in (item.demand.steady, item.demand.peak))]
    sheet.needs(*(item.demand.phases for item in items if isinstance(item.demand.phases, Missing)), *amounts)
    phase, existing, running = max(_by_phase(bus, items), key=lambda case: _sum(case[1], case[2]))
    if existing:
        sheet.column("I_old", [(load.name, load.current) for load in existing], f"loads on the bus and below it before the change, {phase}")
    if running:
        sheet.column("I_s", [(item.name, item.demand.steady) for item in running], "equipment, steady current")
        sheet.column("I_p", [(item.name, item.demand.peak) for item in running], "equipment, highest lasting current")
    return phase, " + ".join((["sum(I_old)"] if existing else []) + (["sum(max(I_s, I_p))"] if running else []))


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
