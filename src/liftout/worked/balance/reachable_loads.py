"""Everything that may be aboard in a state and category, as a sheet gives it and as the exact region is made of it."""

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from typing import NamedTuple

from liftout.facts import Amount as Told
from liftout.facts import Fact, Facts
from liftout.facts.aircraft import Aircraft, Station, Tank
from liftout.facts.fact import si_of, there
from liftout.facts.loads import full_tank
from liftout.facts.reach import Reach
from liftout.facts.states import Room
from liftout.physics.adverse_loading import Load, Shared, any_amount
from liftout.physics.filling_order import contents_kg, in_order
from liftout.physics.reachable import Amount, Either, Loads, under
from liftout.quantities import Quantity, rounded
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.drained_oil import Terms, drained_oil
from liftout.worked.balance.filling_stages import filling_stages
from liftout.worked.balance.found_weight import found_weight
from liftout.worked.balance.lateral_arm import lateral_arm
from liftout.worked.balance.limit_line import corners_needed
from liftout.worked.balance.tank_load import tank_load
from liftout.worksheet import DIGITS_CARRIED, Result, Source, Worksheet

FUEL = "fuel"


class ReachableLoads(NamedTuple):
    """Loads for the region, and what a sheet prints of a loading that was found in it."""

    reach: Reach
    stations: tuple[Station, ...]
    tanks: tuple[Tank, ...]
    stages_kg: tuple[tuple[float, ...], ...]
    fixed_kg: float
    fixed_kgm: float
    loads: Loads
    oil: Terms

    @property
    def fuels(self) -> list[tuple[str, str]]:
        """Name of each load of fuel, and how the shop calls it."""
        return [(FUEL, "fuel")] if self.stages_kg else [(_fuel_in(tank), f"fuel in {tank.name}") for tank in self.tanks]

    def rows(self, amounts: Iterable[Amount]) -> Iterator[tuple[str, Source, Source]]:
        """What is aboard, its weight and its arm; what is empty is left out."""
        stations = {station.name: station for station in self.stations}
        for amount in amounts:
            if amount.name in stations:
                station = stations[amount.name]
                weight = found_weight(amount.weight_kg, station.maximum, station.least)
                if not _nothing(weight):
                    yield station.name, weight, there(_told_arm(station, self.reach))
            else:
                yield from self._fuel(amount)

    def _fuel(self, amount: Amount) -> Iterator[tuple[str, Source, Source]]:
        if self.stages_kg:
            contents = contents_kg(self.stages_kg, min(amount.weight_kg, math.fsum(self.stages_kg[-1])))
        else:
            contents = tuple(amount.weight_kg if amount.name == _fuel_in(tank) else 0 for tank in self.tanks)
        for tank, weight_kg in zip(self.tanks, contents, strict=True):
            weight = found_weight(weight_kg, full_tank(tank))
            if not _nothing(weight):
                yield _fuel_in(tank), weight, _arm(tank, weight_kg, self.reach)


def reachable_loads(sheet: Worksheet, reach: Reach, facts: Facts) -> ReachableLoads:
    """Put on a sheet what is always aboard and what bounds the rest.

    Args:
        sheet: a new sheet; it gets W_e and M_e, the oil, R_1 and so on for the room of each station and each limit that several
            share, w_p for the lightest pilot, W_max, and W_zf where there is a zero-fuel limit.
        reach: state and category.
        facts: the job.

    Raises:
        NotAssessed: when something is missing.
    """
    plane, limits, empty = facts.aircraft, reach.limits, amended_empty_weight(reach.state, facts)
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    moment = lateral_arm(reach.state, facts).value("L") if reach.lateral else empty.value("M")
    sheet.given("M_e", moment, f"empty-weight {'lateral ' if reach.lateral else ''}moment in this state")
    left_empty = limits.empty.value if limits.empty else ()
    stations = tuple(one for one in plane.stations if one.name not in left_empty and one.there(reach.state.undercarriage))
    rooms = [Room(one, reach.state) for one in plane.compartments if set(one.stations) - set(left_empty)]
    for number, room in enumerate(rooms, 1):
        sheet.given(f"R_{number}", compartment_room(room, facts).value("R"), f"room for loads: {room.name}")
    pilot = next((station for station in stations if station.holds == "pilot"), None)
    sheet.given("w_p", pilot.least if pilot else plane.place.missing("stations"), "lightest pilot")
    sheet.given("W_max", limits.maximum_takeoff, "maximum take-off weight")
    if limits.maximum_zero_fuel is not None:
        sheet.given("W_zf", limits.maximum_zero_fuel, "maximum zero-fuel weight")
    oil = drained_oil(sheet, plane, reach.state, lateral=reach.lateral)
    # All of them decide where the worst loading lies, also those that it leaves out.
    needs: list[Told] = [value for station in stations for value in (_told_arm(station, reach), station.maximum)]
    needs += [value for tank in plane.tanks for value in (full_tank(tank), _told_arm(tank, reach), *(v for point in tank.contents for v in point))]
    needs += () if reach.lateral else corners_needed(limits, reach.side)
    sheet.needs(*needs, *([] if plane.tanks else [plane.place.missing("tanks")]), *([limits.empty] if limits.empty else []))
    fixed_kg = sheet.si("W_e") + (sheet.si("w_o") if oil.weight else 0)
    fixed_kgm = sheet.si("M_e") + (sheet.si("w_o") * sheet.si("x_o") if oil.weight else 0)
    shared = [Shared(frozenset(room.compartment.stations), max(sheet.si(f"R_{number}"), 0)) for number, room in enumerate(rooms, 1)]
    if limits.maximum_zero_fuel is not None:
        shared.append(Shared(frozenset(station.name for station in stations), sheet.si("W_zf") - fixed_kg))
    stages_kg, fuel = _fuel_loads(plane, reach)
    loads = _tree(reach, stations, sheet.si("w_p"), fuel, shared, sheet.si("W_max") - fixed_kg)
    return ReachableLoads(reach, stations, plane.tanks, stages_kg, fixed_kg, fixed_kgm, loads, oil)


def _tree(reach: Reach, stations: Sequence[Station], least_kg: float, fuel: Sequence[Load], shared: Sequence[Shared], most_kg: float) -> Loads:
    """The loads of all choices between stations that are not loaded together."""
    choices = [((station.name,), station.instead_of) for station in stations if station.instead_of]
    trees = []
    for left in itertools.product(*choices) if choices else [()]:
        without = {name for names in left for name in names}
        seats = [
            any_amount(one.name, least_kg if one.holds == "pilot" else 0, si_of(one.maximum), si_of(_told_arm(one, reach)))
            for one in stations
            if one.name not in without
        ]
        kept = frozenset(load.name for load in seats)
        groups = dict.fromkeys(Shared(group.names & kept, group.most_kg) for group in shared if group.names & kept)
        trees.append(under([*seats, *fuel], list(groups), most_kg))
    return trees[0] if len(trees) == 1 else Either("choices", tuple(trees))


def _fuel_loads(plane: Aircraft, reach: Reach) -> tuple[tuple[tuple[float, ...], ...], list[Load]]:
    """The tanks as loads, each by itself or all as one in their order, with the stages of that order."""
    if reach.lateral:
        return (), [any_amount(_fuel_in(tank), 0, si_of(full_tank(tank)), si_of(tank.lateral)) for tank in plane.tanks]
    tanks = tuple(tank_load(tank, _fuel_in(tank)) for tank in plane.tanks)
    if reach.any_order or not plane.fuel_order:
        return (), list(tanks)
    stages_kg = filling_stages(plane, tanks)
    return stages_kg, [in_order(FUEL, tanks, stages_kg, 0, math.fsum(stages_kg[-1]))]


def _told_arm(place: Station | Tank, reach: Reach) -> Told:
    return place.lateral if reach.lateral else place.arm


def _arm(tank: Tank, weight_kg: float, reach: Reach) -> Source:
    """The arm of what is in a tank: as it was told, or between two of its points."""
    if reach.lateral:
        return there(tank.lateral)
    for point in tank.contents:
        if si_of(point.volume) * si_of(tank.density) == weight_kg:
            return there(point.arm)
    if not tank.contents:
        return there(tank.arm)
    load = tank_load(tank, _fuel_in(tank))
    part = next(part for part in load.parts if weight_kg <= part.weight_kg + part.span_kg or part is load.parts[-1])
    moment_kgm = part.moment_kgm + (weight_kg - part.weight_kg) * part.arm_m
    facts = tuple(value for point in tank.contents for value in point if isinstance(value, Fact))
    inch = there(tank.arm).value.unit
    arm = rounded(inch.from_si(Decimal(repr(moment_kgm / weight_kg))), DIGITS_CARRIED)
    return Result(Quantity(arm, inch), f"between the points of {tank.name}", (), facts)


def _nothing(weight: Source) -> bool:
    """Whether a weight is nothing as it is printed."""
    return isinstance(weight, Fact | Result) and not (weight.value if isinstance(weight, Fact) else weight.quantity).magnitude


def _fuel_in(tank: Tank) -> str:
    return f"{FUEL}, {tank.name}"
