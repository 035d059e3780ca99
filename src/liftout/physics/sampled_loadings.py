"""Loadings to compare two computations with: anywhere, exactly at a limit, and just beyond one; the same for the same start.

Every state of the equipment comes up in turn, and every category in which a state may be flown. A third of the loadings
is left as it falls; of the others one amount is moved until a limit is met (to rounding), or passed by `BEYOND` of its scale.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Final, NamedTuple

from liftout.physics.planned_loading import BURN, NO_FUEL, Check, Loading, Plan, burnt, outcome

BEYOND: Final = 1e-6
"""How far beyond a limit a loading is put, as a share of the limit or of the largest arm: far more than counts as on it."""
MET: Final = 1e-12
"""How near to where it is put it has to come, likewise."""
TRIES_MAX: Final = 12
DIGITS: Final = 5
"""Decimals of the amounts in kg and m³ that are not moved to a limit."""
MOVED: Final = ("weight", "group", "pilot", "tank", "forward", "aft")
"""Kinds of limits that an amount can be moved to; the others are limits of yes and no."""


def sampled(plan: Plan, count: int, start: int) -> Iterator[Loading]:
    """Loadings of an aircraft.

    Args:
        plan: the aircraft.
        count: how many.
        start: where the sequence of chances begins; the same gives the same loadings.

    Example (a pilot alone, a tank, and limits that are far away):
        >>> from liftout.physics.envelope import Limit
        >>> from liftout.physics.planned_loading import Limits, State, Station, Tank
        >>> limits = Limits("normal", (("take-off", 900.0),), Limit(((900.0, 1.0),), False), Limit(((900.0, 3.0),), False), ())
        >>> seat, tank = Station("pilot", 2.0, 1, True, 55.0, ()), Tank("main", 0.1, 720.0, ((72.0, 144.0),))
        >>> plan = Plan((seat,), (), (tank,), (0,), (limits,), (State("in", 600.0, 1200.0, (0,), (1,), (), ()),), 1e-9, 3.0)
        >>> [len(loading.fuel_m3) for loading in sampled(plan, 3, 1)]
        [1, 1, 1]
    """
    chance = random.Random(start)  # noqa: S311 - chosen to be repeatable
    for number in range(count):
        state = number % len(plan.states)
        within = plan.states[state].limits
        base = _anywhere(plan, chance, state, within[number // len(plan.states) % len(within)])
        target = (None, 0.0, -BEYOND)[int(chance.random() * 3)]
        moved = base if target is None else _moved(plan, chance, base, target)
        yield moved or base


def _anywhere(plan: Plan, chance: random.Random, state: int, limits: int) -> Loading:
    """A loading as it may fall; a few sit where nobody may, fill too much, or burn what is not there."""
    fullness = chance.random() if chance.random() < 0.8 else 1.2
    stations: list[tuple[float, ...]] = []
    for index, station in enumerate(plan.stations):
        most, free = _room_kg(plan, state, index), plan.states[state].seats[index]
        if not station.places:
            stations.append((_rounded(most * fullness * chance.random()),))
            continue
        seats = station.places if chance.random() < 0.05 else free
        persons = [_rounded(most * fullness * chance.random()) if chance.random() < 0.7 else 0.0 for _ in range(seats)]
        if station.pilot and persons and chance.random() < 0.97:
            persons[0] = _rounded(station.least_kg + (most - station.least_kg) * chance.random())
        stations.append((*persons, *[0.0] * (station.places - seats)))
    fuel = tuple(_rounded(tank.usable_m3 * min(1.02, chance.random() * 1.1)) for tank in plan.tanks)
    if plan.order and chance.random() < 0.8:
        # Filled in the reverse of the order in which they are emptied, as the flight manual has it.
        total = math.fsum(tank.usable_m3 for tank in plan.tanks) * chance.random()
        filled = dict.fromkeys(plan.order, 0.0)
        for index in reversed(plan.order):
            filled[index] = min(plan.tanks[index].usable_m3, total)
            total -= filled[index]
        fuel = tuple(_rounded(filled[index]) if filled[index] < plan.tanks[index].usable_m3 else filled[index] for index in range(len(plan.tanks)))
    taxi = _share(plan, fuel, chance, 0.03)
    trip = _share(plan, burnt(plan, fuel, taxi), chance, 1.03)
    return Loading(state, limits, tuple(stations), fuel, taxi, trip)


def _share(plan: Plan, fuel: tuple[float, ...], chance: random.Random, most: float) -> tuple[float, ...]:
    """A part of what is in the tanks: one total where they have an order, or of each."""
    amounts = [math.fsum(fuel)] if plan.order else fuel
    return tuple(_rounded(max(0.0, amount) * chance.random() * most) for amount in amounts)


def _room_kg(plan: Plan, state: int, station: int) -> float:
    """What a station may hold at most, as far as a limit says it; otherwise what the aircraft may weigh."""
    rooms = [room for group, room in zip(plan.groups, plan.states[state].room_kg, strict=True) if station in group.stations and room is not None]
    limits = plan.limits[plan.states[state].limits[0]]
    heaviest = max((most for _, most in limits.weights if most is not None), default=0.0)
    return max(0.0, min([*rooms, heaviest - plan.states[state].weight_kg]))


def _rounded(amount: float) -> float:
    return math.floor(amount * 10**DIGITS + 0.5) / 10**DIGITS


# --- to a limit ---------------------------------------------------------------------------------------------------


class _Setting(NamedTuple):
    """An amount as it is, what a unit of it weighs, the arm at which it is loaded, and the loading with another amount in its place."""

    amount: float
    unit_kg: float
    arm_m: float
    put: Callable[[float], Loading]


def _moved(plan: Plan, chance: random.Random, base: Loading, target: float) -> Loading | None:
    """The loading with one amount moved until one limit lies `target` of its scale inside; None where it cannot be."""
    checks = outcome(plan, base).checks
    candidates = [place for place, check in enumerate(checks) if check.kind in MOVED and check.of != NO_FUEL and check.limit]
    place = candidates[int(chance.random() * len(candidates))]
    check = checks[place]
    settings = _settings(plan, base, check)
    if not settings:
        return None
    if check.kind not in ("forward", "aft"):
        setting = settings[int(chance.random() * len(settings))]
        assert check.limit is not None
        assert check.inside is not None
        missed_kg = check.inside - target * abs(check.limit)
        amount = setting.amount + (-missed_kg if check.kind == "pilot" else missed_kg) / setting.unit_kg
        return setting.put(amount) if amount >= 0 else None
    # What moves the centre of gravity most, so that the limit is met more often than not.
    setting = (min if check.kind == "forward" else max)(settings, key=lambda one: one.arm_m)

    def missed(amount: float) -> float | None:
        inside = outcome(plan, setting.put(amount)).checks[place].inside
        return None if inside is None else inside / plan.span_m - target

    found = _zero(missed, setting.amount)
    return None if found is None else setting.put(found)


def _zero(missed: Callable[[float], float | None], first: float) -> float | None:
    """An amount at which nothing is missed, by secants; None where they do not lead to one."""
    one, other = first, first * 0.9
    at_one, at_other = missed(one), missed(other)
    for _ in range(TRIES_MAX):
        if at_one is None or at_other is None or at_one == at_other:
            return None
        one, at_one, other = other, at_other, other - at_other * (other - one) / (at_other - at_one)
        if other < 0:
            return None
        at_other = missed(other)
        if at_other is not None and abs(at_other) <= MET:
            return other
    return None


def _settings(plan: Plan, base: Loading, check: Check) -> list[_Setting]:
    """Amounts that are there and that move a check."""
    stations: Sequence[int] = range(len(plan.stations))
    tanks: Sequence[int] = range(len(plan.tanks)) if check.kind in ("weight", "forward", "aft") else ()
    if check.kind == "tank":
        stations, tanks = (), [index for index, tank in enumerate(plan.tanks) if tank.name == check.of]
    elif check.kind == "group":
        stations = next(group.stations for group in plan.groups if group.name == check.of)
    elif check.kind == "pilot":
        stations = [index for index, station in enumerate(plan.stations) if station.name == check.of]
    if check.of in (BURN, NO_FUEL):
        tanks = ()  # where the burn ends, or that nothing is left, moves with the fuel
    loads = [
        _Setting(load, 1.0, plan.stations[index].arm_m, partial(_load, base, index, seat))
        for index in stations
        for seat, load in enumerate(base.stations[index])
        if load > 0
    ]
    return [*loads, *(_fuel(plan, base, index, volume=check.kind == "tank") for index in tanks if base.fuel_m3[index] > 0)]


def _load(base: Loading, station: int, seat: int, amount: float) -> Loading:
    loads = list(base.stations[station])
    loads[seat] = amount
    return base._replace(stations=(*base.stations[:station], tuple(loads), *base.stations[station + 1 :]))


def _fuel(plan: Plan, base: Loading, index: int, *, volume: bool) -> _Setting:
    tank = plan.tanks[index]
    weight_kg, moment_kgm = tank.points[-1]

    def put(amount: float) -> Loading:
        return base._replace(fuel_m3=(*base.fuel_m3[:index], amount, *base.fuel_m3[index + 1 :]))

    return _Setting(base.fuel_m3[index], 1.0 if volume else tank.density_kg_m3, moment_kgm / weight_kg, put)
