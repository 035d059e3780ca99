"""What a job says of each item of equipment."""

from typing import Literal

from liftout.job.aircraft import Location
from liftout.job.electrical import Duty, Phase
from liftout.job.materials import Material, burnable
from liftout.job.values import (
    Area,
    Arm,
    Bore,
    Choice,
    Count,
    Current,
    Grounded,
    Heat,
    Length,
    Mass,
    Pressure,
    RatedFlow,
    Section,
    ShortTime,
    Temperature,
    Voltage,
    Volume,
    Weight,
    Word,
    asked,
    chosen,
    group,
    optional,
    told,
)


class Place(Grounded):
    """Where an item is: its centre of gravity, and the corner of its box that lies forward, left and low."""

    arm: Arm | None = asked("measure the arm of the item's centre of gravity", "fore-and-aft, positive aft of the datum")
    lateral: Arm | None = asked("measure left or right of the centre line", "right of the centre line positive")
    height: Arm | None = asked("measure the height", "above the water line of the datum")
    front: Arm | None = asked("measure the arm of the front face of the item's box", "front face of its box, arm aft of the datum")
    left: Arm | None = asked(
        "measure the left face of the item's box from the centre line", "left face of its box, right of the centre line positive"
    )
    underside: Arm | None = asked("measure the height of the underside of the item's box", "underside of its box, above the water line of the datum")
    datum: Word = told("name of the datum of the arms")


class Projection(Section):
    """How far handles, couplings and hoses stick out of the box, in each direction."""

    forward: Length | None = asked("measure what sticks out of the item's box forward", "forward")
    aft: Length | None = asked("measure what sticks out of the item's box rearward", "rearward")
    left: Length | None = asked("measure what sticks out of the item's box to the left", "to the left")
    right: Length | None = asked("measure what sticks out of the item's box to the right", "to the right")
    up: Length | None = asked("measure what sticks out of the item's box upward", "upward")
    down: Length | None = asked("measure what sticks out of the item's box downward", "downward")


class Box(Section):
    """Outside size."""

    length: Bore | None = asked("measure the item fore and aft", "fore and aft")
    width: Bore | None = asked("measure the item side to side", "side to side")
    height: Bore | None = asked("measure the item up and down", "up and down")
    projection: Projection | None = asked(
        "measure how far handles, couplings and hoses stick out of the item's box, or none with the reason", "what sticks out of the box"
    )


class Motor(Section):
    """The largest motor of an item with its rotor held."""

    locked_rotor: Current | None = asked("take the current with the rotor held from the motor's data", "current with the rotor held")
    withstands: ShortTime | None = asked("take from the motor's data for how long it stands that current", "how long it stands that current")


class Demand(Section):
    """Electrical demand of an item."""

    steady: Current | None = asked("clamp-meter the item at work", "steady current")
    peak: Current | None = asked("clamp-meter the item at its hottest working point", "highest current for more than two minutes")
    inrush: Current | None = asked("record the starting current with an oscilloscope", "starting current")
    duty: Duty | None = asked("say whether it may run more than two minutes", "continuous, or intermittent (at most two minutes)")
    lowest_voltage: Voltage | None = asked("read the item's data", "lowest voltage at its terminals")
    highest_voltage: Voltage | None = asked("read the item's data", "highest voltage at its terminals")
    essential: Choice | None = asked(
        "say whether continued flight and landing need the item after the loss of all generators",
        "whether it stays on after the loss of all generators",
    )
    phases: tuple[Phase, ...] | None = chosen("say in which phases of flight it may run", "phases of flight in which it may run")
    keeps: Literal["power", "current"] | None = asked(
        "lower the voltage at the item and look whether its current rises", "power (draws more at a lower voltage) or current (does not)"
    )
    measured_at: Voltage | None = asked(
        "measure the voltage at the item's terminals beside its current", "voltage at which its currents were measured"
    )
    lowest_at_start: Voltage | None = asked("read the item's data for the voltage at which it still starts", "lowest voltage while it starts")
    motor: Motor | None = asked("describe the item's largest motor, or none with the reason", "its largest motor, rotor held")


class Standing(Section):
    """How an item stands on a floor."""

    floor: Word | None = chosen("name the floor it stands on", "name of the floor it stands on")
    footprint: Area | None = asked("measure the item's outline on the floor", "outline on the floor")
    contact: Area | None = asked("measure the contact of all feet together", "contact area of all feet together")


class SeatsTaken(Section):
    """Seats that nobody can sit on while an item is in."""

    station: Word | None = chosen("name the station whose seats the item takes", "station whose seats it takes")
    seats: Count | None = asked("count the seats that the item takes", "how many of them")


class Refrigerant(Section):
    """What circulates in the cold part of an item."""

    name: Word | None = asked("read the refrigerant from the nameplate of the item", "which one, as in the table of refrigerants")
    charge: Mass | None = asked("read the charge of refrigerant from the nameplate of the item", "its mass")
    flammable: Choice | None = asked("read from the data of the refrigerant whether it burns", "whether it burns")


class InternalBattery(Section):
    """A battery inside an item."""

    chemistry: Literal["lithium", "lead acid", "nickel"] | None = asked("read the chemistry of the item's battery from its data", "its chemistry")


class UsedUp(Section):
    """What an item carries and uses up in flight: oxygen, say. The weight of the item is told with it."""

    what: Word | None = asked("say what the item carries and uses up", "what it is")
    mass: Mass | None = asked("weigh the item full and empty", "mass of it when full, which the item's own mass counts")
    relief: Word | None = chosen("say where relief and vent of the contents lead", "where relief and vent lead")


class Item(Grounded):
    """One item of equipment."""

    description: Word = told("what it is")
    item_number: Word | None = optional("its number in the parts list")
    part_number: Word | None = optional("part number")
    serial: Word | None = optional("serial number of this one")
    stays: Literal["removable", "provision"] = told("removable (lifts out) or provision (stays)")
    mass_dry: Weight | None = asked("weigh the item dry on a calibrated scale", "mass without liquid")
    position: Place | None = asked("measure where the item sits", "where its centre of gravity is")
    places: dict[Word, Place] = group("places by name, on the same floor in the same part of the aircraft, where it could stand")
    stands_at: Word | None = chosen("say at which of its places the item stands", "name of the place where it stands, instead of a position")
    box: Box | None = asked("measure the item, or none with the reason", "outside size")
    location: Location | None = chosen("say in which part of the aircraft it sits", "location class, on which load factors depend")
    compartment: Word | None = chosen(
        "name the station for baggage that the item stands in", "station for baggage whose limit it takes of, where it stands in one"
    )
    takes_seats: SeatsTaken | None = asked(
        "say which seats the item takes, or none with the reason", "seats that nobody can sit on while it is in, of an item with the occupants"
    )
    travels_in: Word | None = optional(
        "station for baggage that the item may travel in when it is lifted out; without it, it is not carried elsewhere"
    )
    electrical: Demand | None = asked("state the electrical demand, or none with the reason", "electrical demand")
    standing: Standing | None = asked("say on which floor and feet it stands, or none with the reason", "how it stands on a floor")
    holds_liquid: Volume | None = asked("measure how much liquid the item holds", "liquid inside it when filled")
    minimum_flow: RatedFlow | None = asked("read the item's data", "least coolant flow it needs")
    makes_condensate: Choice | None = asked("say whether the item cools air and so makes water", "whether it cools air, and so makes water")
    cooling: Heat | None = asked(
        "take the cooling power of the item at its hottest working point from its data, or 0 W", "heat that it takes from the cabin, 0 W for none"
    )
    coldest: Temperature | None = asked("take the coldest temperature that the item stands from its data", "lowest temperature it stands")
    hottest: Temperature | None = asked("take the hottest temperature that the item stands from its data", "highest temperature it stands")
    highest_pressure: Pressure | None = asked(
        "take the highest pressure of the item's liquid side from its data", "highest pressure its liquid side stands"
    )
    magnetic: Choice | None = optional("whether it holds magnets or a motor")
    materials: dict[Word, Material] = burnable("the item")
    refrigerant: Refrigerant | None = asked("describe the refrigerant of the item, or none with the reason", "refrigerant in it")
    internal_battery: InternalBattery | None = asked("describe the battery inside the item, or none with the reason", "battery inside it")
    contents: UsedUp | None = asked("describe what the item carries and uses up, or none with the reason", "what it uses up in flight")
    hardware: dict[Word, Word] = group("hardware by name with its description")
