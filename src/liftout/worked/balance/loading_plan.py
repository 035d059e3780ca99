"""All that a loading of the aircraft is worked with: stations, tanks and limits, the empty weight of each state with full oil."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from liftout.facts import Amount, Fact, Facts, Missing
from liftout.facts.aircraft import Compartment, Station, Tank
from liftout.facts.limits import Corner, Limits
from liftout.facts.loads import seats_taken
from liftout.facts.states import Room, State
from liftout.physics import planned_loading as physics
from liftout.physics.envelope import Limit
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worksheet import AT_LIMIT, Lacking, Result


class Carried(NamedTuple):
    """What it costs to carry the removable equipment of a state.

    Attributes:
        against: name of the state with all removable equipment out, lines as they are.
        weight_kg: how much heavier the aircraft is.
        fuel_m3: the fuel of the first tank that weighs as much.
    """

    against: str
    weight_kg: float
    fuel_m3: float


class LoadingPlan(NamedTuple):
    """A plan, and what it lacks.

    Attributes:
        plan: for the states that can be planned in.
        states: those states.
        limits: limits of the plan, each with the name of its undercarriage.
        carried: what each of those states costs to carry; None where nothing removable is in.
        lacking: states that cannot be planned in, each with what is missing.
    """

    plan: physics.Plan
    states: tuple[State, ...]
    limits: tuple[tuple[str, Limits], ...]
    carried: tuple[Carried | None, ...]
    lacking: tuple[tuple[str, tuple[Missing, ...]], ...]


def loading_plan(facts: Facts) -> LoadingPlan | tuple[Missing, ...]:
    """The plan, or what is missing for every loading."""
    plane = facts.aircraft
    lacks = {state.name: _lacked_by(state, facts) for state in facts.states}
    known = tuple(state for state in facts.states if not lacks[state.name])
    missing = _lacked_by_all(facts) or (() if known else tuple(need for needs in lacks.values() for need in needs))
    if missing:
        return tuple(dict.fromkeys(missing))
    names = [station.name for station in plane.stations]
    limits = tuple((one.name, category) for one in plane.undercarriages for category in (one.limits, *one.further_limits))
    arms = [station.arm for station in plane.stations] + [tank.arm for tank in plane.tanks]
    arms += [point.arm for tank in plane.tanks for point in tank.contents]
    arms += [corner.arm for _, category in limits for corner in (*category.forward, *category.aft)]
    tanks = [tank.name for tank in plane.tanks]
    order = tuple(tanks.index(name) for name in plane.fuel_order)
    plan = physics.Plan(
        tuple(_station(station, names) for station in plane.stations),
        tuple(physics.Group(one.name, tuple(names.index(name) for name in one.stations)) for one in plane.compartments),
        tuple(_tank(tank) for tank in plane.tanks),
        order or ((0,) if len(tanks) == 1 else ()),
        tuple(_limits(category, names) for _, category in limits),
        tuple(_state(state, tuple(place for place, (on, _) in enumerate(limits) if on == state.undercarriage), facts) for state in known),
        float(AT_LIMIT),
        max(abs(_si(arm)) for arm in arms),
    )
    lacking = tuple((name, needs) for name, needs in lacks.items() if needs)
    return LoadingPlan(plan, known, limits, tuple(_carried(place, known, plan) for place in range(len(known))), lacking)


# --- what is missing ----------------------------------------------------------------------------------------------


def _lacked_by_all(facts: Facts) -> tuple[Missing, ...]:
    """What every loading needs and the job does not say."""
    plane = facts.aircraft
    needed: list[Amount] = []
    if not any(station.holds == "pilot" for station in plane.stations):
        needed.append(plane.place.missing("stations"))
    if not plane.tanks:
        needed.append(plane.place.missing("tanks"))
    for station in plane.stations:
        needed += [station.arm, *([station.seats] if station.holds in ("pilot", "occupants") else [])]
    for tank in plane.tanks:
        needed += [tank.arm, tank.usable, tank.density]
    for one in plane.undercarriages:
        for limits in (one.limits, *one.further_limits):
            needed.append(limits.maximum_takeoff)
            for corners in (limits.forward, limits.aft):
                needed += [amount for corner in corners for amount in corner] or [limits.silence]
    if len(plane.tanks) > physics.ORDERS_MAX and not plane.fuel_order:
        needed.append(plane.place.missing("fuel_order"))
    return tuple(need for need in needed if isinstance(need, Missing))


def _lacked_by(state: State, facts: Facts) -> tuple[Missing, ...]:
    """What a state lacks: its empty weight, its oil, the seats that its items take."""
    sheet = amended_empty_weight(state, facts)
    found: list[Amount] = [need for symbol in ("W", "M") for need in _needs(sheet.value(symbol))]
    found += _oil(state, facts)
    for _, taken in state.seat_takers:
        found += [need for need in (taken.station, taken.seats) if isinstance(need, Missing)]
    return tuple(dict.fromkeys(need for need in found if isinstance(need, Missing)))


def _needs(value: Result | Lacking) -> tuple[Missing, ...]:
    return value.needs if isinstance(value, Lacking) else ()


def _oil(state: State, facts: Facts) -> tuple[Amount, ...]:
    """Weight and arm of full oil, where the record leaves it out of the empty weight; or what is missing to say whether it does."""
    told, oil = facts.aircraft.on(state.undercarriage).record.oil, facts.aircraft.oil
    if isinstance(told, Missing):
        return (told,)
    return () if told.value == "in" else (oil.weight, oil.arm)


# --- what there is ------------------------------------------------------------------------------------------------


def _known(amount: Amount | None) -> float | None:
    return amount.value.si_float if isinstance(amount, Fact) else None


def _si(amount: Amount | Result | Lacking) -> float:
    """An amount that was seen not to be missing."""
    assert not isinstance(amount, Missing | Lacking)
    return (amount.quantity if isinstance(amount, Result) else amount.value).si_float


def _station(station: Station, names: Sequence[str]) -> physics.Station:
    return physics.Station(
        station.name,
        _si(station.arm),
        _places(station),
        station.holds == "pilot",
        (_known(station.least) or 0.0) if station.holds == "pilot" else 0.0,
        tuple(names.index(other) for other in station.instead_of),
    )


def _places(station: Station) -> int:
    """Seats of a station; none where it holds baggage or water."""
    return int(station.seats.value.magnitude) if station.holds in ("pilot", "occupants") and isinstance(station.seats, Fact) else 0


def _tank(tank: Tank) -> physics.Tank:
    density = _si(tank.density)
    told = [(_si(point.volume), _si(point.arm)) for point in tank.contents] or [(_si(tank.usable), _si(tank.arm))]
    return physics.Tank(tank.name, _si(tank.usable), density, tuple((volume * density, volume * density * arm) for volume, arm in told))


def _limits(limits: Limits, names: Sequence[str]) -> physics.Limits:
    told = (
        (physics.RAMP, limits.maximum_ramp),
        (physics.TAKEOFF, limits.maximum_takeoff),
        (physics.LANDING, limits.maximum_landing),
        (physics.NO_FUEL, limits.maximum_zero_fuel),
    )
    return physics.Limits(
        limits.category,
        tuple((when, _known(most)) for when, most in told if most is not None),
        _limit(limits.forward, in_moment=limits.in_moment),
        _limit(limits.aft, in_moment=limits.in_moment),
        tuple(names.index(name) for name in (limits.empty.value if limits.empty else ())),
    )


def _limit(corners: Sequence[Corner], *, in_moment: bool) -> Limit:
    points = [(_si(corner.weight), _si(corner.arm)) for corner in corners]
    return Limit(tuple((weight, weight * arm) if in_moment else (weight, arm) for weight, arm in points), in_moment=in_moment)


def _state(state: State, limits: tuple[int, ...], facts: Facts) -> physics.State:
    plane, sheet = facts.aircraft, amended_empty_weight(state, facts)
    weight, moment = _si(sheet.value("W")), _si(sheet.value("M"))
    if oil := _oil(state, facts):
        weight, moment = weight + _si(oil[0]), moment + _si(oil[0]) * _si(oil[1])
    absent = tuple(place for place, station in enumerate(plane.stations) if not station.there(state.undercarriage))
    seats = tuple(0 if place in absent else max(0, _places(one) - seats_taken(state, one)) for place, one in enumerate(plane.stations))
    return physics.State(state.name, weight, moment, limits, seats, tuple(_room(one, state, facts) for one in plane.compartments), absent)


def _room(compartment: Compartment, state: State, facts: Facts) -> float | None:
    """What a compartment may still hold beside the equipment in it; None where the job does not say it."""
    if not any(station.there(state.undercarriage) for station in facts.aircraft.stations if station.name in compartment.stations):
        return 0.0
    room = compartment_room(Room(compartment, state), facts).value("R")
    return None if isinstance(room, Lacking) else _si(room)


def _carried(place: int, known: Sequence[State], plan: physics.Plan) -> Carried | None:
    """What the removable items of a state cost, where the same aircraft without them can be planned in too."""
    state = known[place]
    kept = tuple(item.name for item in state.items if not item.removable)
    if len(kept) == len(state.items):
        return None
    for out, other in enumerate(known):
        names = tuple(item.name for item in other.items)
        if not other.before and (other.undercarriage, names, other.filled) == (state.undercarriage, kept, state.filled):
            weight = plan.states[place].weight_kg - plan.states[out].weight_kg
            return Carried(other.name, weight, weight / plan.tanks[0].density_kg_m3)
    return None
