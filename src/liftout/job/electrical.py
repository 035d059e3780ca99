"""What a job says of the aircraft's electrical system before any change."""

from typing import Literal

from liftout.job.values import Charge, Choice, Current, Grounded, Rating, Section, Voltage, Word, asked, group, told

Phase = Literal["start", "taxi", "take-off and climb", "cruise", "landing"]
Supply = Literal["14 V", "28 V"]
Duty = Literal["continuous", "intermittent"]


class Source(Grounded):
    """A generator or alternator."""

    rating: Rating | None = asked("read the nameplate of the generator", "rated current")
    at_phase: dict[Phase, Rating] = group(
        "current it gives at the engine speed of a phase, where less than its rating; always for start and taxi, where the engine idles"
    )
    monitoring: Literal["none", "placard", "ammeter with redline"] | None = asked(
        "say how the crew sees that the source is overloaded", "how the crew sees that it is overloaded"
    )


class Bus(Grounded):
    """A bus that circuits are fed from."""

    dead_with_master_off: Choice | None = asked(
        "open the master switch and measure the voltage of the bus", "whether it is dead with the master switch off"
    )


class ExistingLoad(Grounded):
    """A load that is there already."""

    current: Current | None = asked("measure or read the load analysis", "current it draws")
    phases: tuple[Phase, ...] = told("phases of flight in which it runs")
    source: Word = told("name of the source that feeds it")


class Battery(Grounded):
    """The battery."""

    capacity: Charge | None = asked("read the nameplate of the battery", "rated capacity")
    recharge: Current | None = asked("measure the charging current after a start", "charging current drawn from the source")


class Electrical(Section):
    """The electrical system."""

    nominal: Supply | None = asked("say the system voltage: 14 V or 28 V", "system voltage with the generator running")
    bus_minimum: Voltage | None = asked("measure the bus voltage under load", "lowest bus voltage with the generator running")
    bus_maximum: Voltage | None = asked("read the regulator setting", "highest bus voltage")
    sources: dict[Word, Source] = group("generators and alternators by name")
    buses: dict[Word, Bus] = group("buses by name")
    loads: dict[Word, ExistingLoad] = group("existing loads by name")
    battery: Battery | None = asked("describe the battery", "battery")
    metal_structure: Choice | None = asked("say whether the structure between source and load is metal throughout", "whether the structure is metal")
