"""Load after the loss of one of several generators.

Requires: after the loss of any one generator, what stays on is within the rated capacity of those that remain.
Because: the load of all falls on what is left; it trips too unless loads are shed at once.
Method: the phase in which what is said to stay on adds up to most, equipment that stays on among it, against the ratings of the sources that remain,
    added; what must be shed of everything that runs is printed with it, and what a maker allows who
    keeps a reserve.
Leaves out: how fast loads are shed.
"""

import math

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import PHASES, ExistingLoad
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount
from liftout.facts.power import Loss, essential
from liftout.findings import Finding
from liftout.tables import table
from liftout.worksheet import Worksheet

limits = table("generator_load_limits")


@criterion(each="losses", tables=(limits,))
def one_source_left(loss: Loss, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(
        *(load.essential for load in loss.existing),
        *(essential(item) for item in loss.equipment),
        *(item.demand.phases for item in loss.equipment if isinstance(item.demand.phases, Missing)),
        *(load.current for load in loss.existing),
        *(amount for item in loss.equipment for amount in (item.demand.steady, item.demand.peak)),
    )
    phase, all_on, items = max(_by_phase(loss), key=lambda case: _kept_on(case[1], case[2]))
    kept, items_kept = [load for load in all_on if _stays(load.essential)], [item for item in items if _stays(essential(item))]
    sheet.column("C_r", [(source.name, source.rating) for source in loss.left], "ratings of the sources that remain")
    sheet.given("s", limits.row("one source left").share, "share of them that may be drawn")
    sheet.given("s_r", limits.row("one source left with reserve").share, "share with a reserve, by one maker")
    for symbol, loads, what in (("I_on", all_on, "all loads"), ("I_kept", kept, "loads that stay on")):
        if loads:
            sheet.column(symbol, [(load.name, load.current) for load in loads], f"{what} that were there before, {phase}")
    for symbol, some, what in (("I_eq", items, "equipment"), ("I_eqk", items_kept, "equipment that stays on")):
        if some:
            sheet.column(f"{symbol}_s", [(item.name, item.demand.steady) for item in some], f"{what}, steady current")
            sheet.column(f"{symbol}_p", [(item.name, item.demand.peak) for item in some], f"{what}, highest lasting current")
    sheet.work("I_max", "s * sum(C_r)", "capacity of what remains", "A")
    sheet.work("I_res", "s_r * sum(C_r)", "the same with the reserve that one maker keeps, for comparison", "A")
    sheet.work("I_all", _formula(sheet, "I_on", "I_eq"), "everything that runs", "A")
    sheet.work("I", _formula(sheet, "I_kept", "I_eqk"), "load that stays on", "A")
    sheet.work("I_shed", "max(I_all - I_max, 0 * I_max)", "to be shed at once, at least", "A")
    return sheet.at_most("I", "I_max", case={"phase": phase})


def _formula(sheet: Worksheet, loads: str, items: str) -> str:
    parts = [f"sum({loads})"] if sheet.has(loads) else []
    parts += [f"sum(max({items}_s, {items}_p))"] if sheet.has(f"{items}_s") else []
    return " + ".join(parts) or "0 * I_max"


def _by_phase(loss: Loss) -> list[tuple[str, list[ExistingLoad], list[Item]]]:
    return [
        (
            phase,
            [load for load in loss.existing if phase in load.phases],
            [item for item in loss.equipment if isinstance(item.demand.phases, Fact) and phase in item.demand.phases.value],
        )
        for phase in PHASES
    ]


def _stays(said: Fact[bool] | Missing) -> bool:
    return isinstance(said, Fact) and said.value


def _kept_on(existing: list[ExistingLoad], items: list[Item]) -> float:
    loads = [load.current.value.si_float for load in existing if _stays(load.essential) and isinstance(load.current, Fact)]
    peaks = [max(_si(item.demand.steady), _si(item.demand.peak)) for item in items if _stays(essential(item))]
    return math.fsum(loads) + math.fsum(peaks)


def _si(amount: Amount) -> float:
    return amount.value.si_float if isinstance(amount, Fact) else 0
