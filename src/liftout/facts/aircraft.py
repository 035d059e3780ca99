"""The aircraft: datums made one, stations, tanks, limits, the weight record in force."""

from __future__ import annotations

from dataclasses import dataclass

from liftout.facts.fact import Amount, Fact, Missing, Place, shifted
from liftout.job.errors import Fault


@dataclass(frozen=True)
class Datums:
    """Reference planes. Every arm leaves this class told from the first, the maker's."""

    places: dict[str, Place]
    faults: list[Fault]

    @property
    def first(self) -> str:
        """Name of the maker's datum."""
        return next(iter(self.places), "")

    def arm(self, holder: Place, field: str = "arm") -> Amount:
        """The arm at `field` of `holder`, told from the maker's datum."""
        told = holder.quantity(field)
        name = holder.said_at("datum")
        if not holder.there or name == self.first:
            return told
        if name not in self.places:
            self.faults.append(
                holder.fault("datum", f'there is no datum "{name}".', f"Write one of: {', '.join(self.places) or 'none is described yet'}.")
            )
            return told
        return shifted(told, self.places[name].quantity("offset"), str(name))


@dataclass(frozen=True)
class Record:
    """The weight record in force."""

    title: str
    date: str
    weight: Amount
    moment: Amount
    arm: Amount
    oil_in: Fact[str] | Missing


@dataclass(frozen=True)
class Station:
    """A place where persons or baggage are loaded."""

    name: str
    holds: str
    arm: Amount
    seats: Amount
    maximum: Amount


@dataclass(frozen=True)
class Tank:
    """A fuel tank."""

    name: str
    arm: Amount
    usable: Amount
    density: Amount


@dataclass(frozen=True)
class Corner:
    """A corner of a limit line."""

    weight: Amount
    arm: Amount


@dataclass(frozen=True)
class Limits:
    """Weight and centre-of-gravity limits."""

    maximum_takeoff: Amount
    forward: tuple[Corner, ...]
    aft: tuple[Corner, ...]


@dataclass(frozen=True)
class Chord:
    """Mean aerodynamic chord."""

    leading_edge: Amount
    length: Amount


@dataclass(frozen=True)
class Basis:
    """Certification basis."""

    regulation: Fact[str] | Missing
    amendment: Fact[str] | Missing
    category: Fact[str] | Missing


@dataclass(frozen=True)
class Aircraft:
    """The aircraft."""

    place: Place
    model: str
    serial_number: Fact[str] | Missing
    registration: str
    operations: tuple[str, ...]
    basis: Basis
    limit_load_factors: dict[str, Place]
    record: Record
    datum: str
    stations: tuple[Station, ...]
    tanks: tuple[Tank, ...]
    limits: Limits
    chord: Chord
    engine_power: Amount
    ceiling: Amount
    floors: dict[str, Amount]


def aircraft(place: Place, datums: Datums) -> Aircraft:
    """The aircraft that the job describes."""
    basis = place.part("certification_basis")
    limits = place.part("limits")
    return Aircraft(
        place=place,
        model=place.said_at("model") or "",
        serial_number=place.word("serial_number"),
        registration=place.said_at("registration") or "",
        operations=place.said_at("kinds_of_operation") or (),
        basis=Basis(basis.word("regulation"), basis.word("amendment"), basis.word("category")),
        limit_load_factors=place.each("limit_load_factors"),
        record=_in_force(place, datums),
        datum=datums.first,
        stations=tuple(
            Station(name, part.said_at("holds"), datums.arm(part), part.quantity("seats"), part.quantity("maximum"))
            for name, part in place.each("stations").items()
        ),
        tanks=tuple(Tank(name, datums.arm(part), part.quantity("usable"), part.quantity("density")) for name, part in place.each("tanks").items()),
        limits=Limits(limits.quantity("maximum_takeoff"), _corners(limits, "forward", datums), _corners(limits, "aft", datums)),
        chord=Chord(datums.arm(place.part("chord"), "leading_edge"), place.part("chord").quantity("length")),
        engine_power=place.quantity("engine_power"),
        ceiling=place.quantity("ceiling"),
        floors={name: part.quantity("limit") for name, part in place.each("floors").items()},
    )


def _corners(limits: Place, side: str, datums: Datums) -> tuple[Corner, ...]:
    name = limits.said_at("datum")
    offset = datums.places[name].quantity("offset") if name in datums.places and name != datums.first else None
    if limits.there and name not in datums.places:
        datums.faults.append(limits.fault("datum", f'there is no datum "{name}".', f"Write one of: {', '.join(datums.places)}."))
    corners = []
    for part in limits.each(side).values():
        arm = part.quantity("arm")
        corners.append(Corner(part.quantity("weight"), arm if offset is None else shifted(arm, offset, str(name))))
    return tuple(corners)


def _in_force(place: Place, datums: Datums) -> Record:
    records = list(place.each("weight_record").values())
    if not records:
        datums.faults.append(place.fault("weight_record", "is empty.", "Write the last weighing and every later sheet, oldest first."))
        need = Missing("read the weight record in force", " / ".join(place.path))
        return Record("", "", need, need, need, need)
    last = records[-1]
    date = last.said_at("date")
    # A moment has a datum as an arm has; it is told from the maker's only where the arm is.
    moment = last.quantity("moment")
    arm = datums.arm(last)
    if last.said_at("datum") != datums.first:
        moment = last.missing("moment")
    return Record(last.said_at("title"), date.isoformat() if date else "", last.quantity("weight"), moment, arm, last.word("oil"))
