"""Deviation of compasses and other magnetic sensors by the circuits of the fit.

Requires: the deviation that a sensor has already, and what the circuits may add, together stay within the limit on any heading.
Because: a feeder of tens of amperes turns a compass while it carries current, and only then, so that no swing with the equipment off shows it.
Method: the law of Biot and Savart along the declared route of each circuit with its largest lasting current: a pair in the worst position of its wires,
    a wire with structure return as the route or a long straight wire at its nearest point; all fields added whatever their direction, and counted as
    horizontal.
Leaves out: magnets, motors and steel of the items; twisting, which makes it less; feeders before the protection; the way back through the structure,
    which adds as much again at worst, to a sensor between it and the wire. The swing finds them all.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.fact import Amount
from liftout.facts.neighbours import MAGNETIC, MagneticSensor, Spot, WireRoute
from liftout.findings import Finding, Referral
from liftout.physics.route_field import OnTheWire, Vector, nearest_m, pair_on_route_a_per_m, single_a_per_m
from liftout.tables import table
from liftout.worked.electrical.lasting_current import lasting_current
from liftout.worksheet import Worksheet

limits = table("compass_limits")


@criterion(each="magnetic_sensors", tables=(limits,))
def compass_deviation(sensor: MagneticSensor, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("delta_0", sensor.deviation, "largest deviation before the change")
    sheet.given("H_e", facts.neighbours.earth_field, "horizontal field of the earth, the smallest where the aircraft is flown")
    sheet.given("delta_max", limits.row("installed compass").deviation if sensor.kind == MAGNETIC else sensor.limit, "largest deviation allowed")
    sheet.needs(*sensor.at, *(need for route in sensor.routes for need in route.unsaid), *(route.run.return_path for route in sensor.routes))
    fields = []
    for number, route in enumerate(sensor.routes, 1):
        try:
            fields.append(_field(sheet, number, route, _point(sensor.at), facts))
        except OnTheWire as wrong:
            return sheet.refused(f"circuit {route.run.name} at the {sensor.name}: {wrong}")
    sheet.work("H", " + ".join(fields), "field of all circuits together at the sensor", "A/m")
    sheet.work("delta_s", "acos(H_e / sqrt(H_e**2 + H**2))", "deflection with the field square to that of the earth", "°")
    sheet.work("delta", "asin(min(H / H_e, 1))", "deflection on the worst heading", "°")
    sheet.work("delta_all", "delta_0 + delta", f"deviation of the {sensor.name}, equipment on", "°")
    case = {"sensor": sensor.kind}
    other = facts.neighbours.other_heading_indicator
    allowed = sensor.kind == MAGNETIC and isinstance(other, Fact) and other.value
    if isinstance(other, Fact) and allowed and sheet.exceeds("delta_all", "delta_max"):
        sheet.rests_on(other)
    return sheet.at_most("delta_all", "delta_max", case=case, allow=_question(sensor) if allowed else None)


def _field(sheet: Worksheet, number: int, route: WireRoute, at: Vector, facts: Facts) -> str:
    """Put in the field of one circuit, with the straight wire or pair at its nearest point beside it; the symbol of the field."""
    run = route.run
    assert isinstance(run.return_path, Fact)
    sheet.given(f"I_{number}", lasting_current(run, facts).value("I"), f"largest lasting current of circuit {run.name}")
    sheet.needs(*(value for spot in route.points for value in spot))
    points = [_point(spot) for spot in route.points]
    near = nearest_m(points, at)
    pair = run.return_path.value == "wire"
    if pair:
        sheet.given(f"s_{number}", route.spacing, f"between the wire out and the wire back of {run.name}")
        field = pair_on_route_a_per_m(1, points, sheet.si(f"s_{number}"), at)
    else:
        field = single_a_per_m(1, points, at)
    way = "pair" if pair else "one wire, back through the structure"
    sheet.found(f"r_{number}", near, f"nearest distance of {run.name}", "m")
    sheet.found(f"h_{number}", field, f"field along the route of {run.name} for each ampere, {way}", "1/m")
    straight = f"s_{number} / (2 * pi * (r_{number} - s_{number} / 2) * (r_{number} + s_{number} / 2))" if pair else f"1 / (2 * pi * r_{number})"
    sheet.work(f"k_{number}", straight, f"the same for a long straight {'pair' if pair else 'wire'} at the nearest distance, for comparison", "1/m")
    sheet.work(f"H_{number}", f"I_{number} * h_{number}", f"field of circuit {run.name}", "A/m")
    return f"H_{number}"


def _point(spot: Spot) -> Vector:
    return _metres(spot.arm), _metres(spot.lateral), _metres(spot.height)


def _metres(amount: Amount) -> float:
    assert not isinstance(amount, Missing)
    return amount.value.si_float


def _question(sensor: MagneticSensor) -> Referral:
    return Referral(
        f"May the {sensor.name} deviate by more than the limit while the equipment runs, with the other heading indicator and a placard?",
        "the deviation above, the swing with the equipment on and off, and the drafted placard (14 CFR 23.1327(b) and 23.1547(e))",
        "a licensed avionics technician",
        "two correction cards, and a decision naming the heading indicator and the placard",
    )
