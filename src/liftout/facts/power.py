"""What the sources, the battery and the buses carry: the cases in which loads are summed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from liftout.facts.electrical import ON_GROUND, PHASES, ExistingLoad, Run, Source, SourceInPhase, in_a_phase
from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault, one_of
from liftout.quantities import Quantity

OUT, IN = "everything out", "everything in"
CRUISING = ("cruise", "night")
"""Phases of which one is flown while the battery alone feeds what is left on."""


class BatteryCase(NamedTuple):
    """The battery alone, after the loss of all generators, with the equipment out or in."""

    side: str
    battery: Place
    existing: tuple[ExistingLoad, ...]
    """Loads that run in cruise or at night."""
    landing: tuple[ExistingLoad, ...]
    equipment: tuple[Item, ...]
    """Items that run in cruise or at night, or of which nobody says whether they do."""
    equipment_landing: tuple[Item, ...]

    @property
    def name(self) -> str:
        """The battery and what it carries."""
        return f"battery, {self.side}"

    @property
    def discharge(self) -> tuple[tuple[Fact[Quantity], Fact[Quantity]], ...]:
        """Discharge currents with the charge that the battery gives at them, the smallest current first."""
        found = []
        for point in self.battery.each("discharge").values():
            current, charge = point.quantity("current"), point.quantity("charge")
            assert isinstance(current, Fact)
            assert isinstance(charge, Fact)
            found.append((current, charge))
        return tuple(sorted(found, key=lambda pair: pair[0].value.si))


def essential(item: Item) -> Fact[bool] | Missing:
    """Whether an item stays on after the loss of all generators."""
    return item.place.part("electrical").answer("essential")


def battery_cases(sources: tuple[Source, ...], battery: Place, runs: tuple[Run, ...]) -> tuple[BatteryCase, ...]:
    """The battery with everything out, and with everything in where the fit draws current."""
    if not sources:
        return ()
    loads = [load for source in sources for load in source.existing]
    fed = tuple({run.load.name: run.load for run in runs}.values())
    cruising = tuple(load for load in loads if set(CRUISING) & set(load.phases))
    landing = tuple(load for load in loads if "landing" in load.phases)
    found = [BatteryCase(OUT, battery, cruising, landing, (), ())]
    if fed:
        found.append(BatteryCase(IN, battery, cruising, landing, _running(fed, CRUISING), _running(fed, ("landing",))))
    return tuple(found)


def _running(items: tuple[Item, ...], phases: tuple[str, ...]) -> tuple[Item, ...]:
    return tuple(item for item in items if isinstance(item.demand.phases, Missing) or set(phases) & set(item.demand.phases.value))


def ground_holds(cases: tuple[SourceInPhase, ...]) -> tuple[SourceInPhase, ...]:
    """Phases on the ground in which the equipment runs while the engine idles."""
    return tuple(case for case in cases if case.phase in ON_GROUND and case.equipment)


class Feed(NamedTuple):
    """A bus with what feeds it, and all that hangs on it and below it."""

    name: str
    place: Place
    fed_from: Fact[tuple[str, ...]] | Missing
    parent: str
    """The bus that feeds it; empty where sources or the battery do."""
    own: tuple[ExistingLoad, ...]
    own_runs: tuple[Run, ...]
    existing: tuple[ExistingLoad, ...]
    """Loads on it and on buses below it."""
    runs: tuple[Run, ...]
    """Circuits of the fit on it and on buses below it."""
    unplaced: tuple[Missing, ...]
    """Loads and circuits of which nobody says on which bus they hang."""


def feeds(sources: tuple[Source, ...], runs: tuple[Run, ...], electrical: Place, faults: list[Fault]) -> tuple[Feed, ...]:
    """The buses as a tree, in the order in which the job names them."""
    places = electrical.each("buses")
    loads = [load for source in sources for load in source.existing]
    names = {source.name for source in sources} | {"battery"}
    parents: dict[str, str] = {}
    for name, place in places.items():
        parents[name] = _parent(place, places, names, faults)
    for name, place in places.items():
        if _goes_round(name, parents):
            faults.append(
                place.fault("fed_from", "leads back to the bus itself.", "Write what feeds it: a source, the battery, or a bus nearer to one.")
            )
            parents[name] = ""
    for load in loads:
        if isinstance(load.bus, Fact) and load.bus.value not in places:
            part = electrical.each("loads")[load.name]
            faults.append(part.fault("bus", f'there is no bus "{load.bus.value}".', one_of(load.bus.value, places)))
    said = electrical.each("loads")
    fed = [(run.place, run.source, run.bus.name) for run in runs]
    fed += [(said[load.name], source.name, load.bus) for source in sources for load in source.existing]
    for part, source, bus in fed:
        told = [name for name in _sources_of(bus, places, parents) if name != "battery"]  # which a generator charges, whatever the bus
        if told and source not in told:
            faults.append(
                part.fault(
                    "source",
                    f"is {source}, and the bus that it hangs on is fed from {', '.join(told)}.",
                    "Write the source that feeds the bus, or the bus on which it hangs.",
                )
            )
    unplaced = tuple(need for need in (*(load.bus for load in loads), *(run.bus.name for run in runs)) if isinstance(need, Missing))
    return tuple(
        Feed(
            name,
            place,
            place.list_of("fed_from"),
            parents[name],
            tuple(load for load in loads if _on(load.bus, {name})),
            tuple(run for run in runs if _on(run.bus.name, {name})),
            tuple(load for load in loads if _on(load.bus, _below(name, parents))),
            tuple(run for run in runs if _on(run.bus.name, _below(name, parents))),
            unplaced,
        )
        for name, place in places.items()
    )


def _parent(place: Place, places: dict[str, Place], sources: set[str], faults: list[Fault]) -> str:
    told = place.said_at("fed_from") or ()
    faults.extend(
        place.fault("fed_from", f'there is no source and no bus "{name}".', one_of(name, (*sorted(sources), *places), "some"))
        for name in told
        if name not in places and name not in sources
    )
    above = [name for name in told if name in places]
    if len(above) > 1:
        faults.append(place.fault("fed_from", "names more than one bus.", "Write the one bus that feeds it; buses are a tree."))
    return above[0] if above else ""


def _sources_of(bus: Fact[str] | Missing, places: dict[str, Place], parents: dict[str, str]) -> tuple[str, ...]:
    """What feeds a bus from the end, by the buses above it; nothing where the job does not say."""
    at = bus.value if isinstance(bus, Fact) else ""
    while parents.get(at):
        at = parents[at]
    return tuple(places[at].said_at("fed_from") or ()) if at in places else ()


def _goes_round(name: str, parents: dict[str, str]) -> bool:
    seen, at = {name}, parents[name]
    while at:
        if at in seen:
            return True
        seen.add(at)
        at = parents[at]
    return False


def _below(name: str, parents: dict[str, str]) -> set[str]:
    found = {name}
    while more := {child for child, parent in parents.items() if parent in found} - found:
        found |= more
    return found


def _on(bus: Fact[str] | Missing, names: set[str]) -> bool:
    return isinstance(bus, Fact) and bus.value in names


class Loss(NamedTuple):
    """The loss of one of several sources."""

    lost: Source
    left: tuple[Source, ...]
    equipment: tuple[Item, ...]
    recharge: Amount
    """What the battery takes while it is charged."""
    in_phase: Mapping[str, tuple[SourceInPhase, ...]]
    """Those that are left, in each phase."""

    @property
    def name(self) -> str:
        """The source that is lost."""
        return f"{self.lost.name} lost"

    @property
    def existing(self) -> tuple[ExistingLoad, ...]:
        """All loads that were there before, whatever fed them."""
        return tuple(load for source in (self.lost, *self.left) for load in source.existing)


def losses(sources: tuple[Source, ...], runs: tuple[Run, ...], electrical: Place) -> tuple[Loss, ...]:
    """Each source lost while others are left; none where there is only one."""
    fed = tuple({run.load.name: run.load for run in runs}.values())
    battery, said = electrical.part("battery"), electrical.each("phases")
    found = []
    for source in sources if len(sources) > 1 else ():
        left = tuple(other for other in sources if other is not source)
        in_phase = {phase: tuple(in_a_phase(other, phase, battery, electrical, said) for other in left) for phase in PHASES}
        found.append(Loss(source, left, fed, battery.quantity("recharge"), in_phase))
    return tuple(found)


class Shed(NamedTuple):
    """A load or an item of which the job must say whether it is switched off after the loss of all generators, and when."""

    name: str
    essential: Fact[bool] | Missing
    order: Fact[tuple[str, ...]] | Missing
    equipment: bool


def shed(sources: tuple[Source, ...], runs: tuple[Run, ...], electrical: Place, faults: list[Fault]) -> tuple[Shed, ...]:
    """Every load and item, with the order in which loads are switched off."""
    order = electrical.list_of("shed")
    fed = {run.load.name: run.load for run in runs}
    loads = {load.name: load.essential for source in sources for load in source.existing}
    if isinstance(order, Fact):
        known = (*fed, *loads)
        faults.extend(
            electrical.fault("shed", f'there is no load and no item on a circuit "{name}".', one_of(name, known, "some"))
            for name in order.value
            if name not in known
        )
    return (
        *(Shed(name, essential(item), order, equipment=True) for name, item in fed.items()),
        *(Shed(name, fact, order, equipment=False) for name, fact in loads.items()),
    )


__all__ = ["IN", "OUT", "BatteryCase", "Feed", "Loss", "Shed", "battery_cases", "essential", "feeds", "ground_holds", "losses", "shed"]
