"""Load after the loss of one of several generators.

Requires: after the loss of any one generator, what stays on is within what those that remain give.
Because: the load of all falls on what is left; it trips too unless loads are shed at once.
Method: what is said to stay on, equipment that stays on and the charging of the battery among it, against what the sources that remain give, added; in
    the phase in which that is the largest share. What must be shed of everything that runs is printed with it, and what a maker allows who keeps a
    reserve.
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
from liftout.worked.electrical.source_capacity import source_capacity
from liftout.worksheet import Result, Worksheet

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
    sheet.given("I_b", loss.recharge, "battery charging")
    sheet.needs(*(source.rating for source in loss.left))
    phase, all_on, items = max(_by_phase(loss), key=lambda case: _share(loss, case[0], case[1], case[2], facts))
    kept, items_kept = [load for load in all_on if _stays(load.essential)], [item for item in items if _stays(essential(item))]
    gives = [(case.source.name, source_capacity(case, facts).value("C")) for case in loss.in_phase[phase]]
    sheet.column("C_r", gives, f"what the sources that remain give, {phase}")
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
    sheet.work("I_all", _formula(sheet, "I_on", "I_eq"), "everything that runs, with the charging", "A")
    sheet.work("I", _formula(sheet, "I_kept", "I_eqk"), "load that stays on, with the charging", "A")
    sheet.work("I_shed", "max(I_all - I_max, 0 * I_max)", "to be shed at once, at least", "A")
    return sheet.at_most("I", "I_max", case={"phase": phase})


def _formula(sheet: Worksheet, loads: str, items: str) -> str:
    parts = ["I_b", f"sum({loads})"] if sheet.has(loads) else ["I_b"]
    parts += [f"sum(max({items}_s, {items}_p))"] if sheet.has(f"{items}_s") else []
    return " + ".join(parts)


def _by_phase(loss: Loss) -> list[tuple[str, list[ExistingLoad], list[Item]]]:
    return [
        (
            phase,
            [load for load in loss.existing if phase in load.phases],
            [item for item in loss.equipment if isinstance(item.demand.phases, Fact) and phase in item.demand.phases.value],
        )
        for phase in PHASES
    ]


def _share(loss: Loss, phase: str, existing: list[ExistingLoad], items: list[Item], facts: Facts) -> float:
    """Which share of what the sources left give stays on in a phase; without end where they give nothing, or nobody says what they give."""
    if not existing and not items:
        return 0
    gives = [source_capacity(case, facts).value("C") for case in loss.in_phase[phase]]
    capacity_a = math.fsum(found.quantity.si_float for found in gives if isinstance(found, Result))
    kept_a = _kept_on(existing, items) + _si(loss.recharge)
    known = capacity_a > 0 and all(isinstance(found, Result) for found in gives)
    return kept_a / capacity_a if known else math.inf


def _stays(said: Fact[bool] | Missing) -> bool:
    return isinstance(said, Fact) and said.value


def _kept_on(existing: list[ExistingLoad], items: list[Item]) -> float:
    loads = [load.current.value.si_float for load in existing if _stays(load.essential) and isinstance(load.current, Fact)]
    peaks = [max(_si(item.demand.steady), _si(item.demand.peak)) for item in items if _stays(essential(item))]
    return math.fsum(loads) + math.fsum(peaks)


def _si(amount: Amount) -> float:
    return amount.value.si_float if isinstance(amount, Fact) else 0
