"""The electrical system and the circuits of the fit."""

from __future__ import annotations

from dataclasses import dataclass

from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault


@dataclass(frozen=True)
class ExistingLoad:
    """A load that is there already."""

    name: str
    current: Amount
    phases: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class Source:
    """A generator or alternator with the loads that it feeds."""

    name: str
    rating: Amount
    at_phase: dict[str, Amount]
    monitoring: Fact[str] | Missing
    existing: tuple[ExistingLoad, ...]


@dataclass(frozen=True)
class Run:
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
    protected: bool
    protection_declined: Fact[str] | None


@dataclass(frozen=True)
class SourceInPhase:
    """A source in one phase of flight, with the equipment in: what a load share is computed for."""

    source: Source
    phase: str
    capacity: Amount
    existing: tuple[ExistingLoad, ...]
    added: tuple[tuple[Item, Run], ...]
    recharge: Amount

    @property
    def name(self) -> str:
        """Source and phase."""
        return f"{self.source.name}, {self.phase}"


def sources(place: Place) -> tuple[Source, ...]:
    """Generators and alternators with what they feed."""
    loads = [
        ExistingLoad(name, part.quantity("current"), part.said_at("phases") or (), part.said_at("source"))
        for name, part in place.each("loads").items()
    ]
    return tuple(
        Source(
            name,
            part.quantity("rating"),
            part.quantities("at_phase"),
            part.word("monitoring"),
            tuple(load for load in loads if load.source == name),
        )
        for name, part in place.each("sources").items()
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
                protected=protection.there and protection.declined is None,
                protection_declined=protection.declined,
            )
        )
    return tuple(found)


def sources_in_phases(all_sources: tuple[Source, ...], all_runs: tuple[Run, ...], electrical: Place) -> tuple[SourceInPhase, ...]:
    """Every source in every phase in which anything that it feeds runs."""
    recharge = electrical.part("battery").quantity("recharge")
    found = []
    for source in all_sources:
        fed = [(run.load, run) for run in all_runs if run.source == source.name and run.load is not None]
        phases = dict.fromkeys(phase for item, _ in fed for phase in item.demand.phases)
        for phase in phases:
            capacity = source.at_phase.get(phase, source.rating)
            found.append(
                SourceInPhase(
                    source,
                    phase,
                    capacity,
                    tuple(load for load in source.existing if phase in load.phases),
                    tuple((item, run) for item, run in fed if phase in item.demand.phases),
                    recharge,
                )
            )
    return tuple(found)
