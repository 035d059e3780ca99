"""What a job says of liquid loops."""

from typing import Literal

from liftout.job.curve import Driven
from liftout.job.materials import Material, burnable
from liftout.job.passthrough import Part
from liftout.job.values import (
    Area,
    Arm,
    Bore,
    Count,
    Grounded,
    Length,
    Number,
    Pressure,
    RatedFlow,
    Section,
    Share,
    Temperature,
    Time,
    Volume,
    Warmer,
    Word,
    asked,
    chosen,
    group,
    optional,
    several,
    told,
)


class Coolant(Grounded):
    """The liquid."""

    kind: Literal["ethylene glycol", "propylene glycol"] | None = asked("read the drum", "ethylene glycol or propylene glycol, in water")
    fraction: Share | None = asked("measure with a refractometer", "glycol concentration")
    basis: Literal["mass", "volume"] | None = asked("say whether the share is by mass or by volume", "by mass or by volume")
    freezing: Temperature | None = asked(
        "take the freezing point at this share from the maker's data", "freezing point at this share, where its maker gives one"
    )


class Turn(Grounded):
    """A point of a line's route, where it turns or ends."""

    arm: Arm = told("fore-and-aft, positive aft of the datum")
    lateral: Arm = told("right of the centre line positive")
    height: Arm = told("upwards positive")


class LineRoute(Grounded):
    """The middle line of a segment, straight between its points."""

    datum: Word = told("name of the datum of the arms")
    points: tuple[Turn, ...] = told("the points, from where it begins to where it ends")


class Fitting(Grounded):
    """A fitting of a line, one or several alike, with its declared loss."""

    count: Count | None = asked("count the fittings of this kind on the line", "how many of them on the line")
    part_number: Word | None = optional("part number, to order it by")
    loss_coefficient: Number | None = asked(
        "take the loss coefficient of the fitting from its maker's data, or name its row in the table of fitting losses", "loss coefficient of one"
    )
    as_: Word | None = chosen(
        "name the row of the fitting in the table of fitting losses", "row of the table of fitting losses, where its maker declares no loss"
    )
    rated_pressure: Pressure | None = asked("take the rated pressure of the fitting from its maker's data", "pressure it is rated for at its hottest")
    coldest_rated: Temperature | None = asked("take the coldest temperature of the fitting from its maker's data", "coldest that it stands")
    hottest_rated: Temperature | None = asked("take the hottest temperature of the fitting from its maker's data", "hottest that it stands")


class Clamps(Grounded):
    """What holds a line along its way."""

    count: Count | None = asked("count the clamps of the line", "how many of them")
    part: Word | None = optional("what they are and their part number, to order them by")


class LineSegment(Grounded):
    """A piece of line of one bore."""

    kind: Literal["hose", "tube"] = told("hose (known by its inside diameter) or tube (known by its outside diameter)")
    part_number: Word | None = optional("part number, to order it by")
    begins: Word = told("where it begins")
    ends: Word = told("where it ends")
    begins_in: Part | None = chosen(
        "say in which part of the aircraft the line begins", "part of the aircraft in which it begins, where that is no item's"
    )
    ends_in: Part | None = chosen("say in which part of the aircraft the line ends", "part of the aircraft in which it ends, where that is no item's")
    passes: tuple[Word, ...] | None = chosen("list the openings that the line passes; an empty list for none", "openings that it passes, by name")
    inside_diameter: Bore | None = asked("measure the bore", "inside diameter, of a hose")
    outside_diameter: Bore | None = asked("measure the outside diameter of the tube", "outside diameter, of a tube")
    wall: Bore | None = asked("measure the wall of the tube", "thickness of its wall, of a tube")
    material: Literal["aluminium alloy", "steel"] | None = asked("say what the tube is made of", "what a tube is made of")
    specification: Word | None = chosen(
        "name the specification of the hose and its dash size", "specification and dash size, as in the table of hoses"
    )
    inside: Word | None = chosen("say what the inside is, as in the table of roughnesses", "what the inside is: a row of the table of roughnesses")
    length: Length | None = asked("measure along the route", "length")
    route: LineRoute | None = asked("measure where the line runs, point by point", "where it runs; its middle is worked from that")
    arm: Arm | None = asked("measure the arm of the middle of the segment", "arm of its middle, where no route is told")
    datum: Word | None = asked("name the datum of the arm of the segment", "name of the datum of that arm")
    between_fittings: Bore | None = asked(
        "measure along the route from fitting to fitting", "distance along the route between the fittings of a hose"
    )
    tightest_bend: Bore | None = asked("gauge the tightest bend of the line", "radius of its tightest bend as it lies, to the middle of the line")
    smallest_bend: Bore | None = asked(
        "take the smallest bend radius of the line from its maker's data", "smallest bend radius that its maker allows"
    )
    support_spacing: Bore | None = asked("measure the largest distance between supports of the line", "largest distance between two supports")
    rated_pressure: Pressure | None = asked("take the rated pressure of the line from its maker's data", "pressure it is rated for at its hottest")
    coldest_rated: Temperature | None = asked("take the coldest temperature of the line from its maker's data", "coldest that it stands")
    hottest_rated: Temperature | None = asked("take the hottest temperature of the line from its maker's data", "hottest that it stands")
    fittings: dict[Word, Fitting] = group(
        "fittings of the line by name, those at its ends among them", "list the fittings of the line, those at its ends among them"
    )
    clamps: Clamps | None = asked("count the clamps of the line", "clamps that hold it between its ends")
    loss_coefficient: Number | None = asked(
        "take the sum of the loss coefficients of its bends from declared data", "sum of loss coefficients of its bends, fittings left out"
    )
    materials: dict[Word, Material] = burnable("the line")


class Device(Grounded):
    """A quick-disconnect, exchanger or valve with a declared loss: pressure drop at one flow, growing with its square."""

    flow: RatedFlow | None = asked("ask its maker for a point of flow and pressure drop", "flow at which the drop is declared")
    pressure_drop: Pressure | None = asked("ask its maker for a point of flow and pressure drop", "pressure drop at that flow")
    count: Count | None = asked("count them in the loop", "how many in the loop")
    part_number: Word | None = optional("part number, to order it by")
    declared_by: Word | None = optional("who declared it")
    rated_pressure: Pressure | None = asked("take the rated pressure of the device from its maker's data", "pressure it is rated for at its hottest")
    coldest_rated: Temperature | None = asked("take the coldest temperature of the device from its maker's data", "coldest that it stands")
    hottest_rated: Temperature | None = asked("take the hottest temperature of the device from its maker's data", "hottest that it stands")


class Pump(Driven):
    """The pump."""


class LeakTest(Section):
    """The leak test that a maker declares for a loop."""

    pressure: Pressure | None = asked("take the pressure of the leak test from declared data", "test pressure")
    time: Time | None = asked("take the time of the leak test from declared data", "how long it is held")
    most_drop: Pressure | None = asked("take the largest drop of the leak test from declared data", "largest drop in that time")


class Loop(Section):
    """One closed loop."""

    coolant: Coolant | None = asked("name the coolant", "the liquid")
    filling: Temperature | None = asked("state the temperature of the liquid when the loop is filled", "liquid when the loop is filled")
    coldest: Temperature | None = asked("state the coldest air the loop stands or flies in", "coldest declared ambient")
    freezing_margin: Warmer | None = asked(
        "declare by how much the coldest air stays above the freezing point", "least distance from the freezing point to the coldest air"
    )
    cold_start: Temperature | None = asked("state the coldest liquid at which the loop must run", "liquid at the coldest start")
    at_work: Temperature | None = asked("measure the liquid at work", "liquid at work")
    hottest: Temperature | None = asked("state the hottest liquid", "liquid at its hottest")
    cap_pressure: Pressure | None = asked(
        "read the pressure at which the cap or relief of the loop opens", "pressure at which its cap or relief opens"
    )
    static_head: Length | None = asked(
        "measure how high the cap of the loop stands over the lowest point of the loop", "height of its cap over its lowest point"
    )
    expansion_room: Volume | None = asked("measure the air that the filled loop leaves for its liquid to expand", "air space left when it is filled")
    reserve: Volume | None = asked(
        "measure how much of the liquid of the filled loop stands above the level at which its tank draws air",
        "liquid in its tank, when filled, above the level at which the tank draws air",
    )
    tolerable_leak: Area | None = asked(
        "ask the holder of the aircraft's design for the largest leak that its pressurisation makes up",
        "largest leak area that the cabin can make up",
    )
    leak_test: LeakTest | None = asked("take the leak test from declared data", "its leak test")
    segments: dict[Word, LineSegment] = group("line segments by name")
    devices: dict[Word, Device] = group("quick-disconnects, exchangers, valves by name")
    pump: Pump | None = asked("take the pump curve from its data", "the pump")
    serves: Word | None = chosen("name the item whose least flow counts", "item whose least flow counts")
    items: tuple[Word, ...] = several("items filled by this loop")


class Lines(Section):
    """All liquid loops of the fit."""

    loops: dict[Word, Loop] = group("closed loops by name")
