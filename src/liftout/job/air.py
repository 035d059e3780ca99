"""What a job says of the air that takes heat away, and of the bays that it warms."""

from typing import Literal

from liftout.job.curve import Driven
from liftout.job.materials import Material, burnable
from liftout.job.values import (
    Bore,
    Density,
    Grounded,
    Length,
    Multiple,
    Number,
    Pressure,
    RatedFlow,
    Section,
    Share,
    Speed,
    Temperature,
    Warmer,
    Word,
    asked,
    chosen,
    group,
    several,
    told,
)

Watched = Literal["locator", "servo", "avionics", "battery", "composite"]
"""Each of these must be named in a bay, or said to be absent."""


class Fan(Driven):
    """The fan that must serve alone while the aircraft stands."""

    density: Density | None = asked(
        "take from the fan's data the density of the air of its curve", "density of the air at which the curve was measured"
    )


class Duct(Grounded):
    """A piece of duct of one bore."""

    bore: Bore | None = asked("measure the bore of the duct", "inside diameter")
    length: Length | None = asked("measure the duct along its route", "length")
    inside: Word | None = chosen("say what the inside of the duct is, as in the table of roughnesses", "a row of the table of roughnesses")
    loss_coefficient: Number | None = asked(
        "take the sum of the loss coefficients of entry, bends and exit of the duct from declared data", "sum of loss coefficients in this piece"
    )
    materials: dict[Word, Material] = burnable("the duct")


class InTheAir(Grounded):
    """A screen or a valve with a declared loss: pressure drop at one flow, growing with its square and with density."""

    flow: RatedFlow | None = asked("ask its maker for a point of air flow and pressure drop", "flow at which the drop is declared")
    pressure_drop: Pressure | None = asked("ask its maker for a point of air flow and pressure drop", "pressure drop at that flow")
    density: Density | None = asked("take from its data the density of the air at that point", "density of the air at that point")


class AirExchanger(InTheAir):
    """The air side of the exchanger, declared at one flow of air: its effectiveness, or the transfer units that lead to it."""

    effectiveness: Share | None = asked(
        "ask the exchanger's maker for its effectiveness at a flow of air and its least flow of coolant", "effectiveness at that flow of air"
    )
    transfer_units: Multiple | None = asked(
        "ask the exchanger's maker for its transfer units at a flow of air and its least flow of coolant",
        "transfer units (NTU) of a cross-flow exchanger, neither stream mixed, at that flow of air, where that is what its maker declares",
    )


class Scoop(Section):
    """A scoop. What it recovers counts in flight only, and only where somebody measured it."""

    recovery: Number | None = asked(
        "measure in flight how much of the dynamic pressure the scoop recovers", "share of the dynamic pressure that it recovers"
    )
    airspeed: Speed | None = asked("state the least true airspeed at which the recovery holds", "least true airspeed in flight with the equipment on")


class AirPath(Section):
    """The way of the air through one exchanger."""

    cools: Word = told("the item whose exchanger it cools")
    scoop: Scoop | None = asked("describe the scoop, or none with the reason", "the scoop; none counts as no recovery")
    fan: Fan | None = asked("take the fan curve from its data", "the fan")
    ducts: dict[Word, Duct] = group("pieces of duct by name")
    screens: dict[Word, InTheAir] = group("screens and valves by name")
    exchanger: AirExchanger | None = asked("ask the exchanger's maker for a point of its air side", "air side of the exchanger")
    leaves_into: Word | None = chosen(
        "say where the warm air leaves: outside, or the bay", "outside, or the name of the bay that the warm air leaves into"
    )
    hottest_ground: Temperature | None = asked("state the hottest outside air on the ground", "hottest declared outside air on the ground")
    recirculation: Warmer | None = asked(
        "measure on the ground by how much the air at the inlet is warmer than the outside air",
        "by how much the inlet is warmer than the outside air",
    )
    highest: Length | None = asked("state the highest altitude at which the equipment runs", "highest pressure altitude at which it runs")
    warmer_aloft: Warmer | None = asked("state how much warmer than standard the air aloft may be", "how much warmer than standard the air is there")


class InTheBay(Grounded):
    """Something in a bay that heat may harm."""

    kind: Literal[Watched, "wiring", "other"] = told("what it is")
    hottest: Temperature | None = asked("take from its data the hottest temperature that it stands", "hottest temperature that it stands")


class Bay(Section):
    """A bay that the equipment warms."""

    hottest_outside: Temperature | None = asked(
        "state the hottest outside air on the ground for the bay", "hottest declared outside air on the ground"
    )
    hot_idle_rise: Warmer | None = asked(
        "run the equipment at idle until the bay is steady and measure how much warmer than the outside air it is", "rise at idle, equipment on"
    )
    after_shutdown_rise: Warmer | None = asked(
        "shut down after hot idle and record the highest bay temperature over the outside air", "highest rise after shutdown"
    )
    holds: dict[Word, InTheBay] = group("what is in the bay and may be harmed by heat, by name")
    without: dict[Watched, Word] = group("kinds of which this bay has none, each with the reason")
    items: tuple[Word, ...] = several("items of the fit that stand in the bay")


class Air(Section):
    """All air paths and bays of the fit."""

    paths: dict[Word, AirPath] = group("air paths by name")
    bays: dict[Word, Bay] = group("bays that the equipment warms, by name")
