"""Items of equipment."""

from __future__ import annotations

from typing import NamedTuple

from liftout.facts.aircraft import Station
from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.job.errors import Fault, one_of


class Demand(NamedTuple):
    """Electrical demand of an item."""

    declined: Fact[str] | None
    steady: Amount
    peak: Amount
    inrush: Amount
    duty: Fact[str] | Missing
    lowest_voltage: Amount
    highest_voltage: Amount
    phases: Fact[tuple[str, ...]] | Missing


class Standing(NamedTuple):
    """How an item stands on a floor."""

    declined: Fact[str] | None
    floor: Fact[str] | Missing
    limit: Amount
    footprint: Amount
    contact: Amount


class SeatsTaken(NamedTuple):
    """Seats of a station that nobody can sit on while an item is in."""

    declined: Fact[str] | None
    station: Fact[str] | Missing
    seats: Amount


class Item(NamedTuple):
    """One item of equipment."""

    name: str
    place: Place
    position: Place | Missing
    """Where the job says where it stands; missing where it names places and not which of them."""
    description: str
    removable: bool
    mass_dry: Amount
    arm: Amount
    lateral: Amount
    height: Amount
    length: Amount
    width: Amount
    tall: Amount
    front: Amount
    left: Amount
    underside: Amount
    without_box: Fact[str] | None
    projection: Place
    location: Fact[str] | Missing
    compartment: Fact[str] | Missing | None
    travels_in: Station | None
    """The station for baggage that it may travel in, lifted out."""
    takes_seats: SeatsTaken | None
    """None of an item that is not with the occupants, where nothing is said."""
    demand: Demand
    standing: Standing
    holds_liquid: Amount
    minimum_flow: Amount


def item(name: str, place: Place, datums: Datums, floors: dict[str, Amount], stations: tuple[Station, ...]) -> Item:
    """The item at `place`."""
    box, demand, standing = (place.part(field) for field in ("box", "electrical", "standing"))
    position = _position(place, datums.faults)
    return Item(
        name=name,
        place=place,
        position=position,
        description=place.said_at("description") or "",
        removable=place.said_at("stays") == "removable",
        mass_dry=place.quantity("mass_dry"),
        arm=_arm(position, "arm", datums),
        lateral=_across(position, "lateral"),
        height=_across(position, "height"),
        length=box.quantity("length"),
        width=box.quantity("width"),
        tall=box.quantity("height"),
        front=_arm(position, "front", datums),
        left=_across(position, "left"),
        underside=_across(position, "underside"),
        without_box=box.declined,
        projection=box.part("projection"),
        location=place.word("location"),
        compartment=_compartment(place, stations, datums),
        travels_in=_travels_in(place, stations, datums.faults),
        takes_seats=_takes_seats(place, stations, datums.faults),
        demand=Demand(
            demand.declined,
            demand.quantity("steady"),
            demand.quantity("peak"),
            demand.quantity("inrush"),
            demand.word("duty"),
            demand.quantity("lowest_voltage"),
            demand.quantity("highest_voltage"),
            demand.list_of("phases"),
        ),
        standing=_standing(standing, datums, floors),
        holds_liquid=place.quantity("holds_liquid"),
        minimum_flow=place.quantity("minimum_flow"),
    )


def numbered_twice(items: dict[str, Item]) -> list[Fault]:
    """A fault for each item whose number in the parts list is another's."""
    numbers: dict[str, str] = {}
    faults = []
    for name, item in items.items():
        number = item.place.said_at("item_number")
        first = numbers.setdefault(number, name) if number is not None else name
        if first != name:
            faults.append(item.place.fault("item_number", f'"{number}" is also the number of the {first}.', "Give each item a number of its own."))
    return faults


def _position(place: Place, faults: list[Fault]) -> Place | Missing:
    """The place that the item stands at: a named one, or its only position."""
    places, at = place.each("places"), place.said_at("stands_at")
    if place.part("position").there:
        right = "Keep either the position, or the places and where it stands."
        faults.extend(place.fault(field, "stands beside a position.", right) for field in ("places", "stands_at") if place.said_at(field))
        return place.part("position")
    if at is None:
        return place.missing("stands_at") if places else place.part("position")
    if at not in places:
        faults.append(place.fault("stands_at", f'there is no place "{at}".', one_of(at, places)))
        return place.part("position")
    return places[at]


def _arm(position: Place | Missing, field: str, datums: Datums) -> Amount:
    return position if isinstance(position, Missing) else datums.arm(position, field)


def _across(position: Place | Missing, field: str) -> Amount:
    return position if isinstance(position, Missing) else position.quantity(field)


def _compartment(place: Place, stations: tuple[Station, ...], datums: Datums) -> Fact[str] | Missing | None:
    """The station for baggage that the item stands in; None where it is said to be elsewhere, missing where nothing is said of that."""
    location, told = place.word("location"), place.word("compartment")
    if isinstance(told, Missing):
        if isinstance(location, Missing):
            return location
        return told if location.value == "baggage compartment" else None
    names = [station.name for station in stations if station.holds == "baggage"]
    if told.value not in names:
        right = one_of(told.value, names)
        datums.faults.append(place.fault("compartment", f'there is no station for baggage "{told.value}".', right))
    return told


def _travels_in(place: Place, stations: tuple[Station, ...], faults: list[Fault]) -> Station | None:
    told, baggage = place.said_at("travels_in"), {station.name: station for station in stations if station.holds == "baggage"}
    if told is not None and told not in baggage:
        right = one_of(told, baggage)
        faults.append(place.fault("travels_in", f'there is no station for baggage "{told}".', right))
    if told is not None and place.said_at("stays") != "removable":
        faults.append(place.fault("travels_in", "is said of an item that stays.", "Leave it out, or say that the item is removable."))
    return baggage.get(told)


def _takes_seats(place: Place, stations: tuple[Station, ...], faults: list[Fault]) -> SeatsTaken | None:
    """The seats that the item takes: of an item with the occupants somebody has to say, of others only where it is so."""
    location, told = place.word("location"), place.part("takes_seats")
    if not told.there:
        with_occupants = isinstance(location, Fact) and location.value == "with occupants"
        return SeatsTaken(None, told.silence, told.silence) if with_occupants else None
    station = told.word("station")
    names = [one.name for one in stations if one.holds != "baggage"]
    if isinstance(station, Fact) and station.value not in names:
        right = one_of(station.value, names)
        faults.append(told.fault("station", f'there is no station with seats "{station.value}".', right))
    return SeatsTaken(told.declined, station, told.quantity("seats"))


def _standing(place: Place, datums: Datums, floors: dict[str, Amount]) -> Standing:
    floor = place.word("floor")
    limit: Amount = floor if isinstance(floor, Missing) else floors.get(floor.value, Missing("read the floor's placard", "aircraft / floors"))
    if isinstance(floor, Fact) and floor.value not in floors:
        datums.faults.append(place.fault("floor", f'there is no floor "{floor.value}".', one_of(floor.value, floors)))
    return Standing(place.declined, floor, limit, place.quantity("footprint"), place.quantity("contact"))
