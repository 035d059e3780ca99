"""Weight and centre of gravity of a named loading.

Requires: each loading that the job names stays within compartment limits, maximum weight and both centre-of-gravity limits, in each state.
Because: these are the loadings that are flown; equipment takes of their weight, of their compartment and of their distance to a limit.
Method: sum of weights and moments at take-off and again at landing, against the limit that leaves least at that weight.
Leaves out: the flight between take-off and landing, in which tanks may be emptied one after another, and any other loading.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.loadings import TAKEOFF, Loaded
from liftout.facts.states import Room
from liftout.findings import Finding
from liftout.worked.balance.compartment_room import compartment_room
from liftout.worked.balance.limit_line import limit_line
from liftout.worked.balance.loaded_weight import loaded_weight
from liftout.worked.balance.other_places import other_places
from liftout.worksheet import Worksheet


@criterion(each="loaded")
def named_loading(loaded: Loaded, facts: Facts) -> Finding:
    sheet, limits, total = Worksheet(), facts.aircraft.on(loaded.state.undercarriage).limits, loaded_weight(loaded, facts)
    sheet.given("W", total.value("W"), f"weight at {loaded.when}")
    sheet.given("M", total.value("M"), "its moment")
    most = limits.maximum_takeoff if loaded.when == TAKEOFF else limits.maximum_landing
    sheet.given("W_max", most, f"maximum {loaded.when} weight")
    weights = [("W", "W_max", "weight")]
    if loaded.when == TAKEOFF and limits.maximum_ramp is not None:
        sheet.given("W_rmax", limits.maximum_ramp, "maximum ramp weight")
        sheet.given("w_t", facts.place.part("loadings").quantity("taxi_fuel"), "fuel for start, taxi and run-up")
        sheet.work("W_r", "W + w_t", "weight on the ramp", "lb", places=2)
        weights.append(("W_r", "W_rmax", "weight on the ramp"))
    if limits.maximum_zero_fuel is not None:
        sheet.given("W_zmax", limits.maximum_zero_fuel, "maximum zero-fuel weight")
        sheet.given("W_f", total.value("W_f"), f"fuel aboard at {loaded.when}")
        sheet.work("W_z", "W - W_f", "weight without fuel", "lb", places=2)
        weights.append(("W_z", "W_zmax", "weight without fuel"))
    rooms = [Room(compartment, loaded.state) for compartment in facts.aircraft.compartments if loaded.inside(compartment)]
    for number, room in enumerate(rooms, 1):
        sheet.column(f"b_{number}", loaded.inside(room.compartment), f"loaded: {room.name}")
        sheet.given(f"R_{number}", compartment_room(room, facts).value("R"), f"room for loads: {room.name}")
    sheet.work("x_cg", "M / W", "centre of gravity", "in", places=2)
    for number, room in enumerate(rooms, 1):
        sheet.work(f"w_{number}", f"sum(b_{number})", f"whole load, {room.name}", "lb", places=1)
    weights = [*((f"w_{n}", f"R_{n}", f"what is loaded, {room.name}") for n, room in enumerate(rooms, 1)), *weights]
    for symbol, limit, governs in weights:
        if sheet.exceeds(symbol, limit):
            return sheet.at_most(symbol, limit, case={"governs": governs})
    if not (limit_line(sheet, limits, "forward", both=True) and limit_line(sheet, limits, "aft", both=True)):
        return sheet.refused("heavier than the last corner of the envelope")
    if not (sheet.exceeds("x_forward", "x_cg") or sheet.exceeds("x_cg", "x_aft")):
        for symbol, limit, governs in weights:  # what fails comes before what only tolerances may carry over a limit
            if sheet.may_exceed(symbol, limit):
                return sheet.at_most(symbol, limit, case={"governs": governs})
    otherwise = other_places(loaded.state.items, facts)
    if sheet.nearer("x_cg", "x_forward", "x_aft"):
        return sheet.at_least("x_cg", "x_forward", distance=True, otherwise=otherwise)
    return sheet.at_most("x_cg", "x_aft", distance=True, otherwise=otherwise)
