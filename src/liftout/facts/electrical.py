"""The electrical system and the circuits of the fit."""

from __future__ import annotations

import typing
from collections.abc import Mapping
from typing import NamedTuple

from liftout.facts.equipment import Item
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.stretches import Segment, hardest, segments, whole_length
from liftout.job.electrical import InPhase, Phase
from liftout.job.errors import Fault, one_of
from liftout.quantities import Quantity

PHASES: tuple[str, ...] = typing.get_args(Phase)
AT_IDLE: tuple[Phase, ...] = ("start", "taxi and hold", "after landing")
"""Phases in which the engine idles: a generator gives less than its rating there, and nobody may suppose how much."""
ON_GROUND: tuple[Phase, ...] = ("taxi and hold", "after landing")
"""Phases that may last long at idle, so that the battery may be drawn down unseen."""
AT_NIGHT: Phase = "night"
NIGHT_OPERATIONS = ("night VFR", "IFR")
"""Kinds of operation in which an aircraft flies at night."""


class ExistingLoad(NamedTuple):
    """A load that is there already."""

    name: str
    current: Amount
    phases: tuple[str, ...]
    source: str
    bus: Fact[str] | Missing
    duty: Fact[str] | Missing
    essential: Fact[bool] | Missing

    @property
    def short(self) -> bool:
        """Whether it is said to run for at most two minutes."""
        return isinstance(self.duty, Fact) and self.duty.value == "intermittent"


class OutputPoint(NamedTuple):
    """What a source gives at an engine speed, with the air round it so warm."""

    engine_speed: Fact[Quantity]
    temperature: Fact[Quantity]
    current: Fact[Quantity]


class Source(NamedTuple):
    """A generator or alternator with the loads that it feeds."""

    name: str
    rating: Amount
    resistance: Amount
    at_phase: dict[str, Amount]
    output: tuple[OutputPoint, ...]
    hottest: Amount
    monitoring: Fact[str] | Missing
    existing: tuple[ExistingLoad, ...]
    at_idle: Missing
    """What to measure where neither `at_phase` nor `output` tells what it gives in a phase at idle."""


class Bus(NamedTuple):
    """The bus that feeds a circuit."""

    name: Fact[str] | Missing
    dead: Fact[bool] | Missing
    """Whether it is dead with the master switch off."""
    path: tuple[str, ...]
    feeder: Place | None
    """Where the job says what protects the feeder of the bus."""
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
    load: Item
    bus: Bus
    live_for: Fact[str] | Missing
    supply: Fact[str] | Missing
    duty: Fact[str] | Missing
    current: Amount
    length: Amount
    segments: tuple[Segment, ...]
    gauge: Fact[str] | Missing
    material: Fact[str] | Missing
    stocked: tuple[str, ...]
    gauge_path: tuple[str, ...]
    insulation_rating: Amount
    return_path: Fact[str] | Missing
    return_resistance: Amount
    terminations: Amount
    contact_resistance: Amount
    device_resistance: Amount
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
    """A source in one phase of flight with the loads, old and new, that run there."""

    source: Source
    phase: str
    battery: Place
    engine_speed: Amount
    longest: Amount
    existing: tuple[ExistingLoad, ...]
    equipment: tuple[Item, ...]
    """Items that run in the phase, or of which nobody says whether they do."""
    unsaid: tuple[Missing, ...]
    """What decides what runs, and is not said."""
    scenario: str = ""
    """Which of the changes made at the same time are counted, where not all are."""

    @property
    def name(self) -> str:
        """Source and phase."""
        return f"{self.source.name}, {self.phase}{', ' if self.scenario else ''}{self.scenario}"


def sources(place: Place, faults: list[Fault]) -> tuple[Source, ...]:
    """Generators and alternators with what they feed."""
    known = place.each("sources")
    loads = []
    for name, part in place.each("loads").items():
        source = part.said_at("source")
        if source not in known:
            faults.append(part.fault("source", f'there is no source "{source}".', one_of(source, known)))
        if not part.said_at("phases"):
            faults.append(part.fault("phases", "names no phase.", f"Write those in which it runs: {', '.join(PHASES)}."))
        loads.append(
            ExistingLoad(
                name,
                part.quantity("current"),
                part.said_at("phases") or (),
                source,
                part.word("bus"),
                part.word("duty"),
                part.answer("essential"),
            )
        )
    return tuple(source_at(name, part, tuple(load for load in loads if load.source == name)) for name, part in known.items())


def source_at(name: str, part: Place, existing: tuple[ExistingLoad, ...]) -> Source:
    """The source that stands at a part of the job."""
    return Source(
        name,
        part.quantity("rating"),
        part.quantity("resistance"),
        part.quantities("at_phase"),
        _output(part),
        part.quantity("hottest"),
        part.word("monitoring"),
        existing,
        Missing(f"measure what the {name} gives with the engine at idle and the bus at its voltage", part.missing("at_phase").where),
    )


def _output(part: Place) -> tuple[OutputPoint, ...]:
    found = []
    for point in part.each("output").values():
        speed, warm, current = (point.quantity(field) for field in ("engine_speed", "temperature", "current"))
        assert isinstance(speed, Fact)
        assert isinstance(warm, Fact)
        assert isinstance(current, Fact)
        found.append(OutputPoint(speed, warm, current))
    return tuple(sorted(found, key=lambda point: point.engine_speed.value.si))


def runs(wiring: Place, electrical: Place, items: dict[str, Item], faults: list[Fault]) -> tuple[Run, ...]:
    """The circuits of the fit."""
    known = electrical.each("sources")
    found = []
    for name, place in wiring.each("runs").items():
        load, source = place.said_at("load"), place.said_at("source")
        if source not in known:
            faults.append(place.fault("source", f'there is no source "{source}".', one_of(source, known)))
        pieces, bus = segments(place, faults), _bus(place, electrical, faults)
        conductor, back, protection = place.part("conductor"), place.part("return_"), place.part("protection")
        if load not in items:
            faults.append(place.fault("load", f'there is no item "{load}".', one_of(load, items)))
            continue
        found.append(
            Run(
                name=name,
                place=place,
                source=source,
                load=items[load],
                bus=bus,
                live_for=place.word("live_for"),
                supply=electrical.word("nominal"),
                duty=place.word("duty"),
                current=place.quantity("current"),
                length=whole_length(pieces) if pieces else place.quantity("length"),
                segments=pieces,
                gauge=conductor.word("gauge"),
                material=conductor.word("material"),
                stocked=conductor.said_at("stocked") or (),
                gauge_path=(*conductor.path, "gauge"),
                insulation_rating=conductor.quantity("insulation_rating"),
                return_path=back.word("path"),
                return_resistance=back.quantity("resistance"),
                terminations=place.quantity("terminations"),
                contact_resistance=place.quantity("contact_resistance"),
                device_resistance=place.quantity("device_resistance"),
                temperature=place.quantity("conductor_temperature"),
                ambient=hardest(pieces, "ambient") if pieces else place.quantity("ambient"),
                altitude=hardest(pieces, "altitude") if pieces else place.quantity("altitude"),
                bundle=hardest(pieces, "bundle") if pieces else place.quantity("bundle"),
                bundle_load=hardest(pieces, "bundle_load") if pieces else place.quantity("bundle_load"),
                start=place.quantity("start"),
                device=_device(protection),
                protection=protection,
                protection_declined=protection.declined,
            )
        )
    names = list(wiring.each("runs"))
    off = wiring.part("off_switch")
    faults.extend(
        off.fault("cuts", f'there is no circuit "{name}".', one_of(name, names, "some")) for name in off.said_at("cuts") or () if name not in names
    )
    return tuple(found)


def _bus(run: Place, electrical: Place, faults: list[Fault]) -> Bus:
    """The bus that a circuit names."""
    known = electrical.each("buses")
    name = run.word("bus")
    if isinstance(name, Fact) and name.value not in known:
        faults.append(run.fault("bus", f'there is no bus "{name.value}".', one_of(name.value, known)))
    dead = known[name.value].answer("dead_with_master_off") if isinstance(name, Fact) and name.value in known else run.missing("bus")
    others = tuple(other for other, part in known.items() if part.said_at("dead_with_master_off"))
    feeder = known[name.value].part("fed_through") if isinstance(name, Fact) and name.value in known else None
    return Bus(name, dead, (*run.path, "bus"), feeder, others)


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


def sources_in_phases(
    all_sources: tuple[Source, ...],
    battery: Place,
    all_runs: tuple[Run, ...],
    electrical: Place,
    operations: tuple[str, ...],
    scenario: str = "",
) -> tuple[SourceInPhase, ...]:
    """Every source in every phase in which anything that it feeds runs; an item that does not say counts in every phase."""
    said = electrical.each("phases")
    found = []
    for source in all_sources:
        # An item fed by several circuits draws its demand once.
        fed = {run.load.name: run.load for run in all_runs if run.source == source.name}
        for phase in PHASES:
            equipment = tuple(item for item in fed.values() if isinstance(item.demand.phases, Missing) or phase in item.demand.phases.value)
            existing = tuple(load for load in source.existing if phase in load.phases)
            if not equipment and not existing:
                continue
            unsaid = [item.demand.phases for item in equipment if isinstance(item.demand.phases, Missing)]
            if phase == AT_NIGHT and not existing and any(kind in operations for kind in NIGHT_OPERATIONS):
                unsaid.append(Missing("name the loads that run at night, lights among them", electrical.missing("loads").where))
            case = in_a_phase(source, phase, battery, electrical, said)
            found.append(case._replace(existing=existing, equipment=equipment, unsaid=tuple(unsaid), scenario=scenario))
    return tuple(found)


def in_a_phase(source: Source, phase: str, battery: Place, electrical: Place, said: Mapping[str, Place]) -> SourceInPhase:
    """A source in a phase, with nothing on it yet."""
    place = said.get(phase) or _phase_not_said(electrical, phase)
    return SourceInPhase(source, phase, battery, place.quantity("engine_speed"), place.quantity("longest"), (), (), (), "")


def _phase_not_said(electrical: Place, phase: str) -> Place:
    return Place(electrical.job, (*electrical.path, "phases", phase), InPhase, None)
