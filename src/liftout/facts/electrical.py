"""The electrical system and the circuits of the fit."""

from __future__ import annotations

import typing
from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.electrical import Phase
from liftout.job.errors import Fault

PHASES: tuple[str, ...] = typing.get_args(Phase)


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


class Run(NamedTuple):
    """One circuit between a source and a load."""

    name: str
    place: Place
    source: str
    load: Item | None
    supply: Fact[str] | Missing
    duty: Fact[str] | Missing
    current: Amount
    length: Amount
    gauge: Fact[str] | Missing
    stocked: tuple[str, ...]
    gauge_path: tuple[str, ...]
    insulation_rating: Amount
    return_path: Fact[str] | Missing
    return_resistance: Amount
    terminations: Amount
    contact_resistance: Amount
    temperature: Amount
    protection: Place
    protection_declined: Fact[str] | None


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
                supply=electrical.word("nominal"),
                duty=place.word("duty"),
                current=place.quantity("current"),
                length=place.quantity("length"),
                gauge=conductor.word("gauge"),
                stocked=conductor.said_at("stocked") or (),
                gauge_path=(*conductor.path, "gauge"),
                insulation_rating=conductor.quantity("insulation_rating"),
                return_path=back.word("path"),
                return_resistance=back.quantity("resistance"),
                terminations=place.quantity("terminations"),
                contact_resistance=place.quantity("contact_resistance"),
                temperature=place.quantity("conductor_temperature"),
                protection=protection,
                protection_declined=protection.declined,
            )
        )
    return tuple(found)


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
            found.append(SourceInPhase(source, phase, source.rating, source.at_phase.get(phase), existing, tuple(once.values()), unsaid, recharge))
    return tuple(found)
