"""What a job says of wiring."""

from typing import Literal

from liftout.job.electrical import Duty
from liftout.job.passthrough import Part
from liftout.job.values import (
    Count,
    Current,
    Grounded,
    Length,
    Number,
    Rating,
    Resistance,
    Section,
    Temperature,
    Text,
    Thing,
    Time,
    Word,
    asked,
    chosen,
    group,
    optional,
    several,
    told,
)


class Conductor(Grounded):
    """The wire itself."""

    gauge: Word | None = chosen("read the gauge on the wire", "size, for example 4 or 1/0")
    material: Literal["copper"] | None = chosen("say what the conductor is", "copper")
    insulation_rating: Temperature | None = asked("read the wire specification", "highest conductor temperature")
    specification: Word | None = optional("wire specification")
    stocked: tuple[Word, ...] = several("sizes that the shop stocks and the terminals take")


class Return(Grounded):
    """The way back."""

    path: Literal["wire", "structure"] | None = chosen("say how the current returns: wire or structure", "wire or structure")
    resistance: Resistance | None = asked(
        "measure the resistance of the return path at the ground point", "measured resistance of a structure return"
    )


class TimeCurrent(Grounded):
    """A point below the time-current curve of a protection: what it carries for so long without opening."""

    current: Rating | None = asked("read the time-current curve of the device", "current that it carries")
    time: Time | None = asked("read the time-current curve of the device", "for how long it carries it without opening")


class Protection(Section):
    """Breaker or fuse at the source end."""

    device: Literal["breaker", "fuse"] | None = chosen("say whether breaker or fuse", "breaker or fuse")
    rating: Rating | None = asked("read the rating on the device", "rating")
    available: tuple[Rating, ...] = several("ratings of the same device that the shop can fit in its place")
    carries: TimeCurrent | None = asked(
        "read a point of the time-current curve of the device", "a current that it carries for a time without opening, where the start needs one"
    )
    from_source: Length | None = asked("measure the wire between bus and protection", "unprotected length from the bus")
    label: Word | None = optional("its name on the panel")


class Run(Grounded):
    """One circuit between a bus and a load."""

    source: Word = told("name of the source that feeds it")
    load: Word = told("name of the item it feeds")
    begins_in: Part | None = chosen("say in which part of the aircraft the circuit begins", "part of the aircraft in which its protection is")
    ends_in: Part | None = chosen(
        "say in which part of the aircraft the circuit ends", "part of the aircraft in which it ends, where that is not its item's"
    )
    passes: tuple[Word, ...] | None = chosen("list the openings that the circuit passes; an empty list for none", "openings that it passes, by name")
    bus: Word | None = chosen("name the bus that feeds the circuit", "name of the bus that feeds it")
    live_for: Text | None = asked(
        "say for what purpose the circuit stays live with the master switch off", "purpose for which it stays live with the master switch off"
    )
    duty: Duty | None = chosen("say whether the load may run more than two minutes", "continuous or intermittent")
    current: Current | None = asked("clamp-meter the load", "steady current of the load")
    length: Length | None = asked("measure along the route", "length of the wire one way")
    conductor: Conductor | None = asked("describe the conductor", "conductor")
    return_: Return | None = asked("describe the way back", "return path")
    terminations: Count | None = asked("count the contacts in the loop, out and back", "contacts in the loop")
    contact_resistance: Resistance | None = asked("measure one contact with a millivolt-drop test", "resistance of one contact")
    conductor_temperature: Temperature | None = asked("take the hottest place on the route plus the conductor's own rise", "conductor at work")
    start: Time | None = asked("record the starting current with an oscilloscope", "how long the starting current lasts")
    ambient: Temperature | None = asked(
        "measure the air at the hottest place on the route, parked in the sun and at work", "hottest air round the wire"
    )
    altitude: Length | None = asked(
        "say the highest altitude of the air round the wire", "highest altitude of the air round it, where that is not the ceiling of the aircraft"
    )
    bundle: Count | None = asked("count the wires in the bundle at its thickest", "wires in the bundle; 1 for a wire alone in open air")
    bundle_load: Number | None = asked(
        "add the currents of all wires of the bundle and divide by the sum of what each may carry",
        "share of the capacity of the bundle that is in use",
    )
    protection: Protection | None = asked("describe breaker or fuse", "protection")
    connector: Thing | None = optional("connector that parts when the item comes out")


class Wiring(Section):
    """All circuits of the fit."""

    runs: dict[Word, Run] = group("circuits by name")
