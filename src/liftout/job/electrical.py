"""What a job says of the aircraft's electrical system before any change."""

from typing import Literal

from liftout.job.values import (
    Charge,
    Choice,
    Current,
    EngineSpeed,
    Grounded,
    Length,
    LinearResistance,
    Rating,
    Resistance,
    Section,
    Share,
    ShortTime,
    Temperature,
    Text,
    Time,
    Voltage,
    Word,
    asked,
    chosen,
    group,
    optional,
    several,
    told,
)

Phase = Literal["start", "taxi and hold", "take-off", "climb", "cruise", "night", "landing", "after landing"]
"""Phases of a load analysis; night is cruise with all that is on at night."""
Supply = Literal["14 V", "28 V"]
Duty = Literal["continuous", "intermittent"]


class Output(Grounded):
    """A point of what a generator gives: at an engine speed, with the air round it so warm."""

    engine_speed: EngineSpeed = told("engine speed")
    temperature: Temperature = told("temperature of the air round it")
    current: Current = told("current it gives with the bus at its voltage")


class Source(Grounded):
    """A generator or alternator."""

    rating: Rating | None = asked("read the nameplate of the generator", "rated current")
    resistance: Resistance | None = optional("internal resistance, where its maker declares one; without it the battery alone holds the bus")
    at_phase: dict[Phase, Rating] = group(
        "current it gives at the engine speed of a phase, where less than its rating; for phases on the ground, where the engine idles, this or its output"
    )
    output: tuple[Output, ...] = several("what it gives by engine speed and temperature of the air round it; straight lines between speeds")
    hottest: Temperature | None = asked(
        "measure the air round the generator with the engine at idle after a hot start", "hottest air round it, for which its output is read"
    )
    monitoring: Literal["none", "placard", "ammeter with redline"] | None = asked(
        "say how the crew sees that the source is overloaded", "how the crew sees that it is overloaded"
    )


class InPhase(Grounded):
    """How the engine runs in a phase, and how long."""

    engine_speed: EngineSpeed | None = asked("read the tachometer in this phase", "engine speed")
    longest: Time | None = asked("say how long the phase lasts at most, queue and hold counted", "longest time of the phase")


class Feeder(Section):
    """Breaker or fuse that feeds a bus."""

    device: Literal["breaker", "fuse"] | None = chosen("say whether breaker or fuse feeds the bus", "breaker or fuse")
    rating: Rating | None = asked("read the rating on the device that feeds the bus", "rating")
    carries: Rating | None = asked(
        "read the lower time-current curve of the device that feeds the bus", "current of a point below its time-current curve"
    )
    carries_for: ShortTime | None = asked("read the lower time-current curve of the device that feeds the bus", "how long it carries that current")


class Bus(Grounded):
    """A bus that circuits are fed from."""

    fed_from: tuple[Word, ...] | None = asked("trace what feeds the bus", "sources, battery or the one other bus that feed it, by name")
    fed_through: Feeder | None = asked("describe what protects the feeder of the bus, or none with the reason", "protection of its feeder")
    dead_with_master_off: Choice | None = asked(
        "open the master switch and measure the voltage of the bus", "whether it is dead with the master switch off"
    )


class ExistingLoad(Grounded):
    """A load that is there already."""

    current: Current | None = asked("measure or read the load analysis", "current it draws")
    phases: tuple[Phase, ...] = told("phases of flight in which it runs")
    source: Word = told("name of the source that feeds it")
    bus: Word | None = asked("trace the bus that feeds the load", "name of the bus that feeds it")
    duty: Duty | None = asked("say whether the load may run more than two minutes", "continuous, or intermittent (at most two minutes)")
    essential: Choice | None = asked(
        "say whether continued flight and landing need the load after the loss of all generators", "whether it stays on after that loss"
    )


class Discharge(Grounded):
    """Capacity of the battery at a discharge current."""

    current: Rating = told("discharge current")
    charge: Charge = told("charge that the battery gives at it")


class Battery(Grounded):
    """The battery."""

    capacity: Charge | None = asked("read the nameplate of the battery", "rated capacity")
    discharge: tuple[Discharge, ...] = several("its capacity at discharge currents, in order of current, from its data or its last capacity test")
    after_start: Share | None = asked(
        "state the share of the capacity that is left in the battery after a start", "share of its capacity left after a start"
    )
    least_charge: Share | None = asked(
        "state the share of its capacity to which the battery may fall on the ground",
        "share of its capacity below which it may not fall on the ground",
    )
    open_circuit: Voltage | None = asked(
        "measure the battery at rest, at the least charge with which the equipment may be started", "voltage at rest, at the least charge"
    )
    resistance: Resistance | None = asked("take the internal resistance of the battery from its maker's data, cold", "internal resistance, cold")
    recharge: Current | None = asked("measure the charging current after a start", "charging current drawn from the source")


class Mains(Section):
    """Mains supply of the ground power source, with its extension lead."""

    voltage: Voltage | None = asked("measure the mains at the socket with the source off", "mains voltage at the socket")
    lowest: Voltage | None = asked("read the nameplate of the ground power source", "lowest input voltage of the source")
    current: Current | None = asked("clamp-meter the lead with the source fully loaded", "input current of the source")
    lead_length: Length | None = asked("measure the extension lead", "length of the extension lead")
    lead_resistance: LinearResistance | None = asked("read the data of the lead", "resistance of one conductor of the lead, per length")
    lead_rating: Rating | None = asked("read the rating of the lead, unwound from its drum", "rated current of the lead, unwound")
    earth: Text | None = asked(
        "have the lead, its earth and its residual-current device tested by the local rules",
        "record of the test of earth and residual-current device",
    )


class GroundPower(Section):
    """A source on the ground that feeds the equipment."""

    rating: Rating | None = asked("read the nameplate of the ground power source", "rated current")
    highest: Voltage | None = asked("measure the ground power source without load", "highest voltage it gives")
    lowest: Voltage | None = asked(
        "measure the ground power source at the aircraft, fully loaded and at the lowest mains",
        "lowest voltage it gives at the aircraft, fully loaded",
    )
    connector_rating: Rating | None = asked("take the rating of the ground power connector from its specification", "rating of its connector")
    mains: Mains | None = asked("describe mains and extension lead, or none with the reason", "mains supply and extension lead")


class Electrical(Section):
    """The electrical system."""

    nominal: Supply | None = asked("say the system voltage: 14 V or 28 V", "system voltage with the generator running")
    bus_minimum: Voltage | None = asked("measure the bus voltage under load", "lowest bus voltage with the generator running")
    bus_maximum: Voltage | None = asked("read the regulator setting", "highest bus voltage")
    sources: dict[Word, Source] = group("generators and alternators by name")
    buses: dict[Word, Bus] = group("buses by name")
    loads: dict[Word, ExistingLoad] = group("existing loads by name")
    phases: dict[Phase, InPhase] = group("phases with their engine speed and longest time")
    shed: tuple[Word, ...] | None = chosen(
        "list the loads and items that are switched off after the loss of all generators, the first one first",
        "order in which loads and items are switched off after the loss of all generators",
    )
    low_voltage_warning: Voltage | None = asked(
        "lower the bus voltage and read at which the low-voltage warning lights", "bus voltage below which the low-voltage warning lights"
    )
    battery: Battery | None = asked("describe the battery", "battery")
    lowest_in_a_dip: Voltage | None = asked(
        "read at which voltage the essential equipment on the bus drops out", "bus voltage below which what else is on it drops out"
    )
    ground_power: GroundPower | None = asked("describe the ground power source, or none with the reason", "ground power source")
    metal_structure: Choice | None = asked("say whether the structure between source and load is metal throughout", "whether the structure is metal")
