"""The aircraft: datums made one, stations, tanks, limits, the weight record in force."""

from __future__ import annotations

import itertools
from decimal import Decimal
from typing import NamedTuple

from liftout.facts.fact import Amount, Fact, Missing, Place, shifted
from liftout.job.errors import Fault


class Datums(NamedTuple):
    """Reference planes. Every arm leaves this class told from the first, the maker's."""

    places: dict[str, Place]
    faults: list[Fault]

    def check(self) -> None:
        """The first datum is the maker's: what others are offset from has no offset itself."""
        for place in list(self.places.values())[:1]:
            offset = place.quantity("offset")
            if isinstance(offset, Fact) and offset.value.magnitude:
                self.faults.append(
                    place.fault(
                        "offset", "is given for the first datum, from which all others are told.", "Leave it out, or put the maker's datum first."
                    )
                )

    @property
    def first(self) -> str:
        """Name of the maker's datum."""
        return next(iter(self.places), "")

    def arm(self, holder: Place, field: str = "arm") -> Amount:
        """The arm at `field` of `holder`, told from the maker's datum."""
        return self.from_named(holder.quantity(field), holder)

    def from_named(self, told: Amount, holder: Place) -> Amount:
        """An arm told from the datum that `holder` names, told from the maker's."""
        name = holder.said_at("datum")
        if not holder.there or name == self.first:
            return told
        if name is None:
            return holder.missing("datum")
        if name not in self.places:
            self.faults.append(
                holder.fault("datum", f'there is no datum "{name}".', f"Write one of: {', '.join(self.places) or 'none is described yet'}.")
            )
            return told
        return shifted(told, self.places[name].quantity("offset"), str(name))


class Record(NamedTuple):
    """The weight record in force."""

    title: str
    date: str
    weight: Amount
    moment: Amount
    arm: Amount
    oil: Fact[str] | Missing


class RecordSheet(NamedTuple):
    """One sheet of the weight record as it is written, from its own datum."""

    name: str
    place: Place
    weight: Amount
    moment: Amount
    arm: Amount


class Oil(NamedTuple):
    """Full oil, where the empty weight is without it."""

    weight: Amount
    arm: Amount


class Station(NamedTuple):
    """A place where persons or baggage are loaded."""

    name: str
    holds: str
    arm: Amount
    seats: Amount
    maximum: Amount


class Compartment(NamedTuple):
    """A station with a limit of its own, or several that share one."""

    name: str
    stations: tuple[str, ...]
    maximum: Amount
    combined: bool
    baggage: bool


class Tank(NamedTuple):
    """A fuel tank."""

    name: str
    arm: Amount
    usable: Amount
    density: Amount


class Corner(NamedTuple):
    """A corner of a limit line."""

    weight: Amount
    arm: Amount


class Limits(NamedTuple):
    """Weight and centre-of-gravity limits."""

    maximum_takeoff: Amount
    maximum_landing: Amount
    forward: tuple[Corner, ...]
    aft: tuple[Corner, ...]


class Chord(NamedTuple):
    """Mean aerodynamic chord."""

    leading_edge: Amount
    length: Amount


class Basis(NamedTuple):
    """Certification basis."""

    regulation: Fact[str] | Missing
    amendment: Fact[str] | Missing
    category: Fact[str] | Missing


class Aircraft(NamedTuple):
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
    oil: Oil
    stations: tuple[Station, ...]
    compartments: tuple[Compartment, ...]
    tanks: tuple[Tank, ...]
    limits: Limits
    chord: Chord
    engine_power: Amount
    ceiling: Amount
    floors: dict[str, Amount]


def aircraft(place: Place, datums: Datums) -> Aircraft:
    """The aircraft that the job describes."""
    datums.check()
    stations = tuple(
        Station(name, part.said_at("holds"), datums.arm(part), part.quantity("seats"), part.quantity("maximum"))
        for name, part in place.each("stations").items()
    )
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
        oil=Oil(place.part("oil").quantity("weight"), datums.arm(place.part("oil"))),
        stations=stations,
        compartments=_compartments(place, stations, datums.faults),
        tanks=tuple(Tank(name, datums.arm(part), part.quantity("usable"), part.quantity("density")) for name, part in place.each("tanks").items()),
        limits=Limits(
            limits.quantity("maximum_takeoff"),
            limits.quantity("maximum_landing"),
            _corners(limits, "forward", datums),
            _corners(limits, "aft", datums),
        ),
        chord=Chord(datums.arm(place.part("chord"), "leading_edge"), place.part("chord").quantity("length")),
        engine_power=place.quantity("engine_power"),
        ceiling=place.quantity("ceiling"),
        floors={name: part.quantity("limit") for name, part in place.each("floors").items()},
    )


def _compartments(place: Place, stations: tuple[Station, ...], faults: list[Fault]) -> tuple[Compartment, ...]:
    """Every limit on what is loaded at stations: each station's own where it holds baggage or gives one, then those that several share."""
    names = [station.name for station in stations]
    baggage = {station.name for station in stations if station.holds == "baggage"}
    found = [
        Compartment(station.name, (station.name,), station.maximum, combined=False, baggage=station.name in baggage)
        for station in stations
        if station.name in baggage or isinstance(station.maximum, Fact)
    ]
    shared: list[Compartment] = []
    for name, part in place.each("combined_limits").items():
        together = tuple(part.said_at("stations"))
        right = f"Write some of: {', '.join(names) or 'none is described yet'}."
        faults.extend(part.fault("stations", f'there is no station "{wrong}".', right) for wrong in together if wrong not in names)
        if name in names:
            faults.append(part.fault("stations", f'stands under "{name}", which is also a station.', "Name the limit otherwise."))
        for other in shared:
            if set(together) & set(other.stations) not in (set(), set(together), set(other.stations)):
                wrong = f'has some of the stations of "{other.name}" and lacks others.'
                faults.append(part.fault("stations", wrong, "Let one of the two limits hold all stations of the other, or none of them."))
        shared.append(Compartment(name, together, part.quantity("maximum"), combined=True, baggage=not baggage.isdisjoint(together)))
    return (*found, *shared)


def _corners(limits: Place, side: str, datums: Datums) -> tuple[Corner, ...]:
    name = limits.said_at("datum")
    offset = datums.places[name].quantity("offset") if name in datums.places and name != datums.first else None
    if limits.there and name not in datums.places:
        datums.faults.append(limits.fault("datum", f'there is no datum "{name}".', f"Write one of: {', '.join(datums.places)}."))
    corners = []
    heaviest = max((part.said_at("weight").si for part in limits.each(side).values()), default=None)
    allowed = limits.said_at("maximum_takeoff")
    if heaviest is not None and allowed is not None and heaviest < allowed.si:
        datums.faults.append(limits.fault(side, f"ends below the maximum take-off weight of {allowed}.", "Write its corners up to that weight."))
    for part in limits.each(side).values():
        arm = part.quantity("arm")
        corners.append(Corner(part.quantity("weight"), arm if offset is None else shifted(arm, offset, str(name))))
        if len(corners) > 1 and not _rises(corners[-2].weight, corners[-1].weight):
            datums.faults.append(
                part.fault("weight", "is not more than that of the corner before.", "Write the corners in order of weight, each weight once.")
            )
    return tuple(corners)


def _rises(before: Amount, after: Amount) -> bool:
    return isinstance(before, Missing) or isinstance(after, Missing) or before.value.si < after.value.si


def _in_force(place: Place, datums: Datums) -> Record:
    records = list(place.each("weight_record").values())
    if not records:
        datums.faults.append(place.fault("weight_record", "is empty.", "Write the last weighing and every later sheet, oldest first."))
        need = Missing("read the weight record in force", " / ".join(place.path))
        return Record("", "", need, need, need, need)
    for before, after in itertools.pairwise(records):
        if after.said_at("date") < before.said_at("date"):
            datums.faults.append(
                after.fault("date", "is before that of the sheet above.", "Write the sheets in order of date, the one in force last.")
            )
    last = records[-1]
    date = last.said_at("date")
    # A moment has a datum as an arm has; it is told from the maker's only where the arm is.
    moment = last.quantity("moment")
    arm = datums.arm(last)
    if last.said_at("datum") != datums.first:
        moment = last.missing("moment")
    _agree(last, last.quantity("weight"), moment, arm, datums.faults)
    return Record(last.said_at("title"), date.isoformat() if date else "", last.quantity("weight"), moment, arm, last.word("oil"))


def weight_record(place: Place) -> tuple[RecordSheet, ...]:
    """Every sheet, oldest first."""
    return tuple(
        RecordSheet(f"{part.said_at('title')}, {part.said_at('date')}", part, part.quantity("weight"), part.quantity("moment"), part.quantity("arm"))
        for part in place.each("weight_record").values()
    )


def _agree(record: Place, weight: Amount, moment: Amount, arm: Amount, faults: list[Fault]) -> None:
    """Weight times arm must give the moment, as far as the written digits of the arm go."""
    if isinstance(weight, Missing) or isinstance(moment, Missing) or isinstance(arm, Missing):
        return
    exponent = arm.value.magnitude.as_tuple().exponent
    last_digit = arm.value.unit.to_si(Decimal(1).scaleb(exponent if isinstance(exponent, int) else 0))
    if abs(moment.value.si - weight.value.si * arm.value.si) > weight.value.si * last_digit:
        faults.append(
            record.fault("moment", f"{moment.value} is not {weight.value} at {arm.value}.", "Correct whichever is a slip, or leave the arm out.")
        )
