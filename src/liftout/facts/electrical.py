"""The electrical system and the circuits of the fit."""

from __future__ import annotations

import typing
from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.electrical import Phase
from liftout.job.errors import Fault
from liftout.quantities import Quantity

PHASES: tuple[str, ...] = typing.get_args(Phase)
AT_IDLE: tuple[Phase, ...] = ("start", "taxi")
"""Phases in which the engine idles: a generator gives less than its rating there, and nobody may suppose how much."""


class ExistingLoad(NamedTuple):
    """A load that is there already."""

    name: str
    current: Amount
    phases: tuple[str, ...]
    source: str


class Source(NamedTuple):
    """A generator or alternator with the loads that it feeds."""

    name: str
    rating: Amount
    at_phase: dict[str, Amount]
    monitoring: Fact[str] | Missing
    existing: tuple[ExistingLoad, ...]
    at_idle: Missing
    """What to measure where a phase at idle is not in `at_phase`."""

    def gives(self, phase: str) -> Amount | None:
        """What it gives in a phase; None where that is its rating."""
        return self.at_phase.get(phase, self.at_idle if phase in AT_IDLE else None)


class Bus(NamedTuple):
    """The bus that feeds a circuit."""

    name: Fact[str] | Missing
    dead: Fact[bool] | Missing
    """Whether it is dead with the master switch off."""
    path: tuple[str, ...]
    others: tuple[str, ...]
    """Buses that are said to be dead with the master switch off."""


class Device(NamedTuple):
    """Breaker or fuse of a circuit."""

    kind: Fact[str] | Missing
    rating: Amount
    rating_path: tuple[str, ...]
    available: tuple[Quantity, ...]
    """Ratings that can be fitted in its place, the smallest first."""
    carries: Amount
    carries_for: Amount


class Run(NamedTuple):
    """One circuit between a source and a load."""

    name: str
    place: Place
    source: str
    load: Item | None
    bus: Bus
    live_for: Fact[str] | Missing
    supply: Fact[str] | Missing
    duty: Fact[str] | Missing
    current: Amount
    length: Amount
    gauge: Fact[str] | Missing
    material: Fact[str] | Missing
    stocked: tuple[str, ...]
    gauge_path: tuple[str, ...]
    insulation_rating: Amount
    return_path: Fact[str] | Missing
    return_resistance: Amount
    terminations: Amount
    contact_resistance: Amount
    temperature: Amount
    ambient: Amount
    altitude: Amount
    bundle: Amount
    bundle_load: Amount
    start: Amount
    device: Device
    protection: Place
    protection_declined: Fact[str] | None

    @property
    def stays_live(self) -> bool:
        """Whether the job says that its bus is live with the master switch off."""
        return isinstance(self.bus.dead, Fact) and not self.bus.dead.value


class SourceInPhase(NamedTuple):
    """A source in one phase of flight, with the equipment in: what a load share is computed for."""

    source: Source
    phase: str
    rating: Amount
    at_phase: Amount | None
    existing: tuple[ExistingLoad, ...]
    added: tuple[tuple[Item, Run], ...]
    unsaid: tuple[Missing, ...]
    recharge: Amount

    @property
    def name(self) -> str:
        """Source and phase."""
        return f"{self.source.name}, {self.phase}"


def sources(place: Place, faults: list[Fault]) -> tuple[Source, ...]:
    """Generators and alternators with what they feed."""
    known = place.each("sources")
    loads = []
    for name, part in place.each("loads").items():
        source = part.said_at("source")
        if source not in known:
            faults.append(part.fault("source", f'there is no source "{source}".', f"Write one of: {', '.join(known) or 'none is described yet'}."))
        if not part.said_at("phases"):
            faults.append(part.fault("phases", "names no phase.", f"Write those in which it runs: {', '.join(PHASES)}."))
        loads.append(ExistingLoad(name, part.quantity("current"), part.said_at("phases") or (), source))
    return tuple(
        Source(
            name,
            part.quantity("rating"),
            part.quantities("at_phase"),
            part.word("monitoring"),
            tuple(load for load in loads if load.source == name),
            Missing(f"measure what the {name} gives with the engine at idle and the bus at its voltage", part.missing("at_phase").where),
        )
        for name, part in known.items()
    )


def runs(wiring: Place, electrical: Place, items: dict[str, Item], faults: list[Fault]) -> tuple[Run, ...]:
    """The circuits of the fit."""
    known = electrical.each("sources")
    found = []
    for name, place in wiring.each("runs").items():
        load, source = place.said_at("load"), place.said_at("source")
        if load not in items:
            faults.append(place.fault("load", f'there is no item "{load}".', f"Write one of: {', '.join(items)}."))
        if source not in known:
            faults.append(place.fault("source", f'there is no source "{source}".', f"Write one of: {', '.join(known) or 'none is described yet'}."))
        conductor, back, protection = place.part("conductor"), place.part("return_"), place.part("protection")
        found.append(
            Run(
                name=name,
                place=place,
                source=source,
                load=items.get(load),
                bus=_bus(place, electrical, faults),
                live_for=place.word("live_for"),
                supply=electrical.word("nominal"),
                duty=place.word("duty"),
                current=place.quantity("current"),
                length=place.quantity("length"),
                gauge=conductor.word("gauge"),
                material=conductor.word("material"),
                stocked=conductor.said_at("stocked") or (),
                gauge_path=(*conductor.path, "gauge"),
                insulation_rating=conductor.quantity("insulation_rating"),
                return_path=back.word("path"),
                return_resistance=back.quantity("resistance"),
                terminations=place.quantity("terminations"),
                contact_resistance=place.quantity("contact_resistance"),
                temperature=place.quantity("conductor_temperature"),
                ambient=place.quantity("ambient"),
                altitude=place.quantity("altitude"),
                bundle=place.quantity("bundle"),
                bundle_load=place.quantity("bundle_load"),
                start=place.quantity("start"),
                device=_device(protection),
                protection=protection,
                protection_declined=protection.declined,
            )
        )
    return tuple(found)


def _bus(run: Place, electrical: Place, faults: list[Fault]) -> Bus:
    """The bus that a circuit names."""
    known = electrical.each("buses")
    name = run.word("bus")
    if isinstance(name, Fact) and name.value not in known:
        faults.append(run.fault("bus", f'there is no bus "{name.value}".', f"Write one of: {', '.join(known) or 'none is described yet'}."))
    dead = known[name.value].answer("dead_with_master_off") if isinstance(name, Fact) and name.value in known else run.missing("bus")
    others = tuple(other for other, part in known.items() if part.said_at("dead_with_master_off"))
    return Bus(name, dead, (*run.path, "bus"), others)


def _device(place: Place) -> Device:
    """Breaker or fuse at `place`."""
    path, carries = (*place.path, "rating"), place.part("carries")
    told = place.job.said.at(path).value
    return Device(
        kind=place.word("device"),
        rating=place.quantity("rating"),
        rating_path=(*path, "value") if place.there and isinstance(told, dict) and "value" in told else path,
        available=tuple(sorted((rating.value for rating in place.said_at("available") or ()), key=lambda rating: rating.si)),
        carries=carries.quantity("current"),
        carries_for=carries.quantity("time"),
    )


def sources_in_phases(all_sources: tuple[Source, ...], all_runs: tuple[Run, ...], electrical: Place) -> tuple[SourceInPhase, ...]:
    """Every source in every phase in which anything of the fit that it feeds runs; where an item does not say, in every phase."""
    recharge = electrical.part("battery").quantity("recharge")
    found = []
    for source in all_sources:
        fed = [(run.load, run) for run in all_runs if run.source == source.name and run.load is not None]
        unsaid = tuple(item.demand.phases for item, _ in fed if isinstance(item.demand.phases, Missing))
        for phase in PHASES:
            running = tuple((item, run) for item, run in fed if isinstance(item.demand.phases, Missing) or phase in item.demand.phases.value)
            if not running:
                continue
            existing = tuple(load for load in source.existing if phase in load.phases)
            # An item fed by several circuits draws its demand once.
            once = {item.name: (item, run) for item, run in running}
            found.append(SourceInPhase(source, phase, source.rating, source.gives(phase), existing, tuple(once.values()), unsaid, recharge))
    return tuple(found)
