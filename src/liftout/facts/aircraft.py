"""The aircraft: stations, compartments, tanks, the weight record in force."""

from __future__ import annotations

import datetime
import itertools
from decimal import Decimal
from typing import Any, NamedTuple

from liftout.facts.ballast import BallastPlace, ballast_places
from liftout.facts.chord import Chord
from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.limits import Limits
from liftout.facts.undercarriages import Undercarriage, undercarriages
from liftout.facts.weight_record import Sheet
from liftout.job.errors import Fault, one_of


class Oil(NamedTuple):
    """Full oil, where the empty weight is without it."""

    weight: Amount
    arm: Amount
    lateral: Amount


class Station(NamedTuple):
    """A place where persons or baggage are loaded."""

    name: str
    holds: str
    arm: Amount
    seats: Amount
    maximum: Amount
    least: Amount
    lateral: Amount
    instead_of: tuple[str, ...]
    undercarriages: tuple[str, ...]

    def there(self, undercarriage: str) -> bool:
        """Whether it is there on an undercarriage."""
        return not self.undercarriages or undercarriage in self.undercarriages


class Compartment(NamedTuple):
    """A station with a limit of its own, or several that share one."""

    name: str
    stations: tuple[str, ...]
    maximum: Amount
    combined: bool
    baggage: bool


class Contents(NamedTuple):
    """A point of a tank whose arm depends on what is in it."""

    volume: Amount
    arm: Amount


class Tank(NamedTuple):
    """A fuel tank."""

    name: str
    arm: Amount
    usable: Amount
    density: Amount
    lateral: Amount
    contents: tuple[Contents, ...]


class Basis(NamedTuple):
    """Certification basis."""

    regulation: Fact[str] | Missing
    amendment: Fact[str] | Missing
    category: Fact[str] | Missing
    applied_for: Fact[datetime.date] | Missing

    @property
    def edition(self) -> Fact[Any] | Missing:
        """What chooses among the editions of the regulation: the amendment, else the date of application; else the amendment is asked."""
        return self.amendment if isinstance(self.amendment, Fact) or isinstance(self.applied_for, Missing) else self.applied_for


class Aircraft(NamedTuple):
    """The aircraft."""

    place: Place
    model: str
    serial_number: Fact[str] | Missing
    registration: str
    operations: tuple[str, ...]
    basis: Basis
    limit_load_factors: dict[str, Place]
    undercarriages: tuple[Undercarriage, ...]
    datum: str
    oil: Oil
    stations: tuple[Station, ...]
    compartments: tuple[Compartment, ...]
    tanks: tuple[Tank, ...]
    fuel_order: tuple[str, ...]
    ballast: tuple[BallastPlace, ...]
    chord: Chord
    engine_power: Amount
    ceiling: Amount
    floors: dict[str, Amount]

    def on(self, undercarriage: str) -> Undercarriage:
        """The undercarriage of a name, which holds the weight record and the limits that go with it."""
        return next(one for one in self.undercarriages if one.name == undercarriage)

    @property
    def record(self) -> Sheet:
        """The weight record in force, on the first undercarriage where there are several."""
        return self.undercarriages[0].record

    @property
    def limits(self) -> Limits:
        """The limits of the category flown in, on the first undercarriage where there are several."""
        return self.undercarriages[0].limits

    @property
    def further_limits(self) -> tuple[Limits, ...]:
        """Limits of other categories, on the first undercarriage where there are several."""
        return self.undercarriages[0].further_limits


def aircraft(place: Place, datums: Datums) -> Aircraft:
    """The aircraft that the job describes."""
    datums.check()
    names, several = list(place.each("stations")), list(place.each("undercarriages"))
    stations = tuple(_station(name, part, names, several, datums) for name, part in place.each("stations").items())
    basis = place.part("certification_basis")
    chord = Chord(datums.arm(place.part("chord"), "leading_edge"), place.part("chord").quantity("length"))
    return Aircraft(
        place=place,
        model=place.said_at("model") or "",
        serial_number=place.word("serial_number"),
        registration=place.said_at("registration") or "",
        operations=place.said_at("kinds_of_operation") or (),
        basis=Basis(basis.word("regulation"), basis.word("amendment"), basis.word("category"), basis.date("applied_for")),
        limit_load_factors=place.each("limit_load_factors"),
        undercarriages=undercarriages(place, datums, names, chord),
        datum=datums.first,
        oil=Oil(place.part("oil").quantity("weight"), datums.arm(place.part("oil")), place.part("oil").quantity("lateral")),
        stations=stations,
        compartments=_compartments(place, stations, datums.faults),
        tanks=tuple(_tank(name, part, datums) for name, part in place.each("tanks").items()),
        fuel_order=_fuel_order(place, datums.faults),
        ballast=ballast_places(place, datums),
        chord=chord,
        engine_power=place.quantity("engine_power"),
        ceiling=place.quantity("ceiling"),
        floors={name: part.quantity("limit") for name, part in place.each("floors").items()},
    )


def _station(name: str, place: Place, names: list[str], several: list[str], datums: Datums) -> Station:
    instead = place.said_at("instead_of") or ()
    right = f"Write some of: {', '.join(other for other in names if other != name) or 'no other is described yet'}."
    for wrong in instead:
        if wrong not in names or wrong == name:
            datums.faults.append(place.fault("instead_of", f'there is no other station "{wrong}".', right))
    belongs = place.said_at("undercarriages") or ()
    for wrong in belongs:
        if wrong not in several:
            right = f"Write some of: {', '.join(several) or 'the aircraft has only one'}."
            datums.faults.append(place.fault("undercarriages", f'there is no undercarriage "{wrong}".', right))
    return Station(
        name,
        place.said_at("holds"),
        datums.arm(place),
        place.quantity("seats"),
        place.quantity("maximum"),
        place.quantity("least"),
        place.quantity("lateral"),
        instead,
        belongs,
    )


def _tank(name: str, place: Place, datums: Datums) -> Tank:
    """A tank; the last of its points is the full tank, and gives its arm."""
    contents = tuple(Contents(part.quantity("volume"), datums.from_named(part.quantity("arm"), place)) for part in place.each("contents").values())
    tank = Tank(name, datums.arm(place), place.quantity("usable"), place.quantity("density"), place.quantity("lateral"), contents)
    volumes = [point.volume.value.si for point in contents if isinstance(point.volume, Fact)]
    if any(later <= earlier for earlier, later in itertools.pairwise([Decimal(0), *volumes])):
        datums.faults.append(
            place.fault("contents", "does not rise from point to point.", "Write the points in order of volume, each above nothing.")
        )
    full = (tank.usable, tank.arm)
    if contents and (contents[-1].volume, contents[-1].arm) != full and not _same((contents[-1].volume, contents[-1].arm), full):
        datums.faults.append(
            place.fault("contents", "does not end at the full tank.", "Let the last point be the usable quantity at the arm of the full tank.")
        )
    return tank


def _same(one: tuple[Amount, ...], other: tuple[Amount, ...]) -> bool:
    """Whether what both give is the same; what is missing contradicts nothing."""
    return all(isinstance(a, Missing) or isinstance(b, Missing) or a.value.si == b.value.si for a, b in zip(one, other, strict=True))


def _fuel_order(place: Place, faults: list[Fault]) -> tuple[str, ...]:
    """The tanks in the order in which they are emptied; nothing where the job gives none."""
    told, tanks = tuple(place.said_at("fuel_order") or ()), list(place.each("tanks"))
    if told and sorted(told) != sorted(tanks):
        faults.append(place.fault("fuel_order", "does not name each tank once.", f"Write {', '.join(tanks)} in their order."))
        return ()
    return told


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
        faults.extend(
            part.fault("stations", f'there is no station "{wrong}".', one_of(wrong, names, "some")) for wrong in together if wrong not in names
        )
        if name in names:
            faults.append(part.fault("stations", f'stands under "{name}", which is also a station.', "Name the limit otherwise."))
        for other in shared:
            if set(together) & set(other.stations) not in (set(), set(together), set(other.stations)):
                wrong = f'has some of the stations of "{other.name}" and lacks others.'
                faults.append(part.fault("stations", wrong, "Let one of the two limits hold all stations of the other, or none of them."))
        shared.append(Compartment(name, together, part.quantity("maximum"), combined=True, baggage=not baggage.isdisjoint(together)))
    return (*found, *shared)
