"""Instruments aboard that the equipment may disturb, and the way of each circuit past the magnetic ones."""

from __future__ import annotations

import typing
from typing import NamedTuple

from liftout.facts.datums import Datums
from liftout.facts.electrical import Run
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.neighbours import InstrumentKind

INSTRUMENT_KINDS: tuple[str, ...] = typing.get_args(InstrumentKind)
MAGNETIC = "compass"
"""The kind of neighbour that feels the field of the earth; every aircraft has one."""


class Spot(NamedTuple):
    """A point in aircraft coordinates."""

    arm: Amount
    lateral: Amount
    height: Amount


class WireRoute(NamedTuple):
    """The way of a circuit from its protection to its load."""

    run: Run
    points: tuple[Spot, ...]
    spacing: Amount
    unsaid: tuple[Missing, ...]
    """What to measure where no route is told."""


class MagneticSensor(NamedTuple):
    """A compass, flux valve or magnetometer, with the circuits that pass it."""

    name: str
    kind: str
    at: Spot
    deviation: Amount
    limit: Amount
    routes: tuple[WireRoute, ...]


class Instrument(NamedTuple):
    """A radio, receiver, autopilot or gauge that is watched for interference."""

    name: str
    kind: str
    watched: Fact[str] | Missing


class NeighbourKind(NamedTuple):
    """A kind of instrument, with what the job names of it."""

    name: str
    place: Place
    named: tuple[str, ...]
    without: Fact[str] | None


class Neighbours(NamedTuple):
    """All instruments that the equipment may disturb."""

    sensors: tuple[MagneticSensor, ...]
    routes: tuple[WireRoute, ...]
    instruments: tuple[Instrument, ...]
    kinds: tuple[NeighbourKind, ...]
    earth_field: Amount
    other_heading_indicator: Fact[bool] | Missing

    def route_of(self, run: Run) -> WireRoute:
        """The way of a circuit of the fit."""
        return next(route for route in self.routes if route.run is run)


def neighbours(aircraft: Place, runs: tuple[Run, ...], datums: Datums) -> Neighbours:
    """What the job says of them."""
    magnetic, others = aircraft.part("magnetic_sensors"), aircraft.part("instruments")
    routes = tuple(_route(run, datums) for run in runs)
    sensors = tuple(
        MagneticSensor(name, part.said_at("kind"), _spot(part, datums), part.quantity("deviation"), part.quantity("limit"), routes)
        for name, part in magnetic.each("named").items()
    )
    instruments = tuple(Instrument(name, part.said_at("kind"), part.word("watched")) for name, part in others.each("named").items())
    return Neighbours(
        sensors,
        routes,
        instruments,
        (_magnetic_kind(magnetic, sensors), *(_kind(kind, others, instruments) for kind in INSTRUMENT_KINDS)),
        magnetic.quantity("earth_field"),
        magnetic.answer("other_heading_indicator"),
    )


def _spot(part: Place, datums: Datums) -> Spot:
    return Spot(datums.arm(part), part.quantity("lateral"), part.quantity("height"))


def _route(run: Run, datums: Datums) -> WireRoute:
    part = run.place.part("route")
    points = tuple(
        Spot(datums.from_named(point.quantity("arm"), part), point.quantity("lateral"), point.quantity("height"))
        for point in part.each("points").values()
    )
    return WireRoute(run, points, part.quantity("spacing"), () if len(points) > 1 else (run.place.missing("route"),))


def _magnetic_kind(place: Place, sensors: tuple[MagneticSensor, ...]) -> NeighbourKind:
    return NeighbourKind(MAGNETIC, place, tuple(sensor.name for sensor in sensors if sensor.kind == MAGNETIC), None)


def _kind(kind: str, place: Place, instruments: tuple[Instrument, ...]) -> NeighbourKind:
    reason = (getattr(place.said, "without", None) or {}).get(kind)
    path = (*place.path, "without", kind)
    without = Fact(str(reason), place.job.place(path), place.ground[0], path) if reason is not None else None
    return NeighbourKind(kind, place, tuple(one.name for one in instruments if one.kind == kind), without)
