"""Electrical load analysis of one source in one phase of flight: everything out, everything in, and what is left of the source."""

from typing import NamedTuple

from liftout.facts import Facts, Missing
from liftout.facts.electrical import PHASES, Source
from liftout.facts.equipment import Item
from liftout.worked import worked
from liftout.worksheet import Worksheet


class SourceAtPhase(NamedTuple):
    """A source in a phase in which something that it feeds runs."""

    source: Source
    phase: str
    equipment: tuple[Item, ...]

    @property
    def name(self) -> str:
        """Source and phase."""
        return f"{self.source.name}, {self.phase}"


def sources_at_phases(facts: Facts) -> tuple[SourceAtPhase, ...]:
    """Every source in every phase in which any load runs, old or new; an item that names no phase counts in every phase."""
    found = []
    for source in facts.sources:
        # An item fed by several circuits draws its demand once.
        fed = {run.load.name: run.load for run in facts.runs if run.source == source.name and run.load is not None}
        for phase in PHASES:
            equipment = tuple(item for item in fed.values() if isinstance(item.demand.phases, Missing) or phase in item.demand.phases.value)
            if equipment or any(phase in load.phases for load in source.existing):
                found.append(SourceAtPhase(source, phase, equipment))
    return tuple(found)


@worked
def load_analysis(case: SourceAtPhase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    source = case.source
    existing = [load for load in source.existing if case.phase in load.phases]
    if existing:
        sheet.column("I_old", [(load.name, load.current) for load in existing], "loads that run before the change")
    if case.equipment:
        sheet.column("I_s", [(item.name, item.demand.steady) for item in case.equipment], "equipment, steady current")
        sheet.column("I_p", [(item.name, item.demand.peak) for item in case.equipment], "equipment, highest lasting current")
    sheet.given("I_b", facts.electrical.part("battery").quantity("recharge"), "battery charging")
    sheet.given("C_r", source.rating, "rating of the source")
    given = source.gives(case.phase)
    if given is not None:
        sheet.given("C_p", given, "what it gives at the engine speed of the phase")
    sheet.needs(*(item.demand.phases for item in case.equipment if isinstance(item.demand.phases, Missing)))
    sheet.work("C", "C_r" if given is None else "min(C_r, C_p)", "capacity", "A")
    sheet.work("I_out", "sum(I_old) + I_b" if existing else "I_b", "load, everything out", "A")
    if case.equipment:
        sheet.work("I_eq", "sum(max(I_s, I_p))", "load of the equipment", "A")
    sheet.work("I_in", "I_out + I_eq" if case.equipment else "I_out", "load, everything in", "A")
    sheet.work("left_out", "C - I_out", "left, everything out", "A")
    sheet.work("left_in", "C - I_in", "left, everything in", "A")
    sheet.work("share_in", "I_in / C", "share of the capacity, everything in", "%")
    return sheet
