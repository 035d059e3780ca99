"""The wheels, and what may be on the aircraft while it stands on them."""

from __future__ import annotations

import itertools
from typing import NamedTuple

from liftout.facts.aircraft import Aircraft, Tank
from liftout.facts.datums import Datums
from liftout.facts.fact import Amount, Fact, Missing, Place
from liftout.facts.loads import full_tank
from liftout.facts.states import State
from liftout.quantities import Quantity
from liftout.tables import table


class Wheels(NamedTuple):
    """Where the aircraft stands."""

    place: Place
    declined: Fact[str] | None
    layout: Fact[str] | Missing
    main: Amount
    other: Amount
    """Arm of the nose or tail wheel."""
    least: Amount
    no_least: Fact[str] | None
    step: Amount
    no_step: Fact[str] | None
    belong: Fact[tuple[str, ...]] | Missing
    """Undercarriages that have these wheels, where the aircraft has several."""


def wheels(plane: Place, datums: Datums) -> Wheels:
    """The wheels of the aircraft."""
    place = plane.part("wheels")
    least, step = place.part("least_load"), place.part("rear_step")
    found = Wheels(
        place=place,
        declined=place.declined,
        layout=place.word("layout"),
        main=datums.arm(place, "main_wheels"),
        other=datums.arm(place, "nose_or_tail_wheel"),
        least=least.quantity("load"),
        no_least=least.declined,
        step=datums.from_named(step.quantity("arm"), place),
        no_step=step.declined,
        belong=place.list_of("undercarriages"),
    )
    several = list(plane.each("undercarriages"))
    for wrong in found.belong.value if isinstance(found.belong, Fact) else ():
        if wrong not in several:
            right = f"Write some of: {', '.join(several) or 'the aircraft has only one'}."
            datums.faults.append(place.fault("undercarriages", f'there is no undercarriage "{wrong}".', right))
    if isinstance(found.layout, Fact) and isinstance(found.main, Fact) and isinstance(found.other, Fact):
        ahead = found.layout.value == "nose wheel"
        if (found.other.value.si < found.main.value.si) != ahead:
            wrong = f"stands at {found.other.value}, which is not {'ahead of' if ahead else 'behind'} the main wheels at {found.main.value}."
            datums.faults.append(place.fault("nose_or_tail_wheel", wrong, "Measure both again, positive aft of the datum, or correct the layout."))
    return found


class GroundLoad(NamedTuple):
    """What may be aboard on the ground, in any amount: at a station, in a tank, on the step."""

    name: str
    kind: str
    """What the station holds, or fuel, or step."""
    most: Amount
    arm: Amount
    tank: Tank | None = None


def loads_on_ground(aircraft: Aircraft, stands: Wheels, state: State) -> tuple[GroundLoad, ...]:
    """Everything that may be aboard before anybody has sat down in front, and the pilot."""
    found = [
        GroundLoad(station.name, station.holds, station.maximum, station.arm)
        for station in aircraft.stations
        if not station.undercarriages or state.undercarriage in station.undercarriages
    ]
    found += [GroundLoad(f"fuel, {tank.name}", "fuel", full_tank(tank), tank.arm, tank) for tank in aircraft.tanks]
    if stands.no_step is None:
        cell = table("occupant_weights").row("person on a step").weight
        assert cell.quantity is not None
        weight: Fact[Quantity] = Fact(cell.quantity, cell.origin, cell.read)
        found.append(GroundLoad("person on the step", "step", weight, stands.step))
    return tuple(found)


def left_empty(aircraft: Aircraft) -> list[frozenset[str]]:
    """Stations that stay empty together, for each choice between stations that are not loaded at one time."""
    choices = [((station.name,), station.instead_of) for station in aircraft.stations if station.instead_of]
    return [frozenset(itertools.chain.from_iterable(chosen)) for chosen in itertools.product(*choices)]
