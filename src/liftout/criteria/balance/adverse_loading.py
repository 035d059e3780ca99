"""Centre of gravity of the most adverse loading.

Requires: no loading up to the maximum take-off weight takes the centre of gravity outside a limit, in any state.
Because: sample loadings miss the one that the next pilot flies.
Method: the worst loading is searched among all combinations of persons, baggage and fuel; the sheet proves it by its sum of moments.
Leaves out: fuel burnt in flight below the minimum, and loads outside the stations of the flight manual.
"""

from decimal import ROUND_FLOOR, Decimal

from liftout.criteria import criterion
from liftout.facts import Facts, Missing
from liftout.facts.loads import PossibleLoad, fuel_arm, pilot_station, possible_loads
from liftout.facts.states import StateSide
from liftout.findings import Finding
from liftout.physics.adverse_loading import Aboard, Load, NoLoading, any_amount, in_or_out, worst
from liftout.physics.envelope import Limit
from liftout.quantities import Quantity, unit
from liftout.tables import table
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worked.balance.drained_oil import drained_oil
from liftout.worked.balance.limit_line import limit_line
from liftout.worksheet import Result, Source, Worksheet

HUNDREDTH = Decimal(1).scaleb(-2)
persons, methods = table("occupant_weights"), table("methods")


@criterion(each="state_sides", tables=(persons, methods))
def adverse_loading(checked: StateSide, facts: Facts) -> Finding:
    sheet = Worksheet()
    plane, fuel, rule = facts.aircraft, methods.row("minimum fuel"), methods.row("adverse loading")
    empty, seat, loads = amended_empty_weight(checked.state, facts), pilot_station(facts.aircraft), possible_loads(facts.aircraft)
    corners = plane.limits.forward if checked.side == "forward" else plane.limits.aft
    sheet.given("W_e", empty.value("W"), "empty weight in this state")
    sheet.given("M_e", empty.value("M"), "empty-weight moment in this state")
    sheet.given("w_p", persons.row("standard person").weight, "pilot")
    sheet.given("x_p", seat.arm if seat else plane.place.missing("stations"), "pilot's arm")
    sheet.given("k", fuel.k, "minimum fuel for each horsepower")
    sheet.given("P", plane.engine_power, "maximum continuous power")
    sheet.given("x_f", fuel_arm(plane, checked.side), f"arm of the minimum fuel, where it does most against the {checked.side} limit")
    oil = drained_oil(sheet, plane)
    sheet.given("W_max", plane.limits.maximum_takeoff, "maximum take-off weight")
    # All loads count, also those that the search leaves out: another figure for one of them could change which.
    sheet.needs(*(value for load in loads for value in (load.most, load.arm)), *([] if corners else [plane.place.missing("limits")]))
    sheet.needs(*(value for corner in corners for value in (corner.weight, corner.arm)))
    sheet.work("w_f", "k * P", "minimum fuel", "lb", by=fuel, places=1)
    sheet.work("W_p", f"W_e + w_p + w_f{oil.weight}", "empty weight, pilot and minimum fuel", "lb", places=2)
    sheet.work("M_p", f"M_e + w_p * x_p + w_f * x_f{oil.moment}", "their moment", "lb-in", places=1)
    limit = Limit(tuple((corner.weight.value.si_float, corner.arm.value.si_float) for corner in corners), in_moment=False)  # type: ignore[union-attr]
    choices = [_choice(load, sheet.si("w_f"), sheet.si("x_f")) for load in loads]
    try:
        found = worst(sheet.si("W_p"), sheet.si("M_p"), choices, [], sheet.si("W_max"), checked.side, limit)  # type: ignore[arg-type]
    except NoLoading:
        return sheet.refused("empty weight, pilot and minimum fuel together are heavier than the maximum take-off weight")
    aboard = [(load, amount) for load, amount in zip(loads, found.aboard, strict=True) if amount.weight_kg > 0]
    left = ", ".join(amount.name for amount in found.aboard if amount.weight_kg == 0)
    if aboard:
        sheet.column("w", [(load.name, _weight(load, amount)) for load, amount in aboard], "loaded besides, found by search")
        sheet.column("x", [(load.name, load.arm) for load, _ in aboard], "its arm")
    sheet.work("W", "W_p + sum(w)" if aboard else "W_p", "weight of the worst loading", "lb", by=rule, places=2)
    sheet.work("M", "M_p + sum(w * x)" if aboard else "M_p", "its moment", "lb-in", places=1)
    sheet.work("x_cg", "M / W", "its centre of gravity", "in", places=2)
    if not limit_line(sheet, plane, checked.side):
        return sheet.refused("heavier than the last corner of the envelope")
    compare = sheet.at_least if checked.side == "forward" else sheet.at_most
    return compare("x_cg", "x_limit", distance=True, case={"left empty": left} if left else {})


def _choice(load: PossibleLoad, least_fuel_kg: float, least_fuel_m: float) -> Load:
    """The load as the search sees it; the tank that holds the minimum fuel has that much less room."""
    assert not isinstance(load.most, Missing)
    assert not isinstance(load.arm, Missing)
    most_kg, arm_m = load.most.value.si_float, load.arm.value.si_float
    if not load.any_amount:
        return in_or_out(load.name, most_kg, arm_m)
    taken_kg = least_fuel_kg if load.fuel and arm_m == least_fuel_m else 0
    return any_amount(load.name, 0, max(most_kg - taken_kg, 0), arm_m)


def _weight(load: PossibleLoad, amount: Aboard) -> Source:
    """The weight as it is printed and summed: the whole load as it was told, a part of it to a hundredth of a pound."""
    assert not isinstance(load.most, Missing)
    whole = load.most.value.si_float
    if amount.weight_kg == whole:
        return load.most
    pound = unit("lb")
    part = pound.from_si(Decimal(repr(amount.weight_kg))).quantize(HUNDREDTH, ROUND_FLOOR)  # never over the cap
    return Result(Quantity(part, pound), f"part of {load.most.value} ({load.most.origin})", (), (load.most,))
