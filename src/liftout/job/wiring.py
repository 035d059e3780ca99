"""What a job says of wiring."""

from typing import Literal

from liftout.job.electrical import Duty
from liftout.job.values import (
    Count,
    Current,
    Grounded,
    Length,
    Rating,
    Resistance,
    Section,
    Temperature,
    Thing,
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


class Protection(Section):
    """Breaker or fuse at the source end."""

    device: Literal["breaker", "fuse"] | None = chosen("say whether breaker or fuse", "breaker or fuse")
    rating: Rating | None = asked("read the rating on the device", "rating")
    from_source: Length | None = asked("measure the wire between bus and protection", "unprotected length from the bus")
    label: Word | None = optional("its name on the panel")


class Run(Grounded):
    """One circuit between a bus and a load."""

    source: Word = told("name of the source that feeds it")
    load: Word = told("name of the item it feeds")
    duty: Duty | None = chosen("say whether the load may run more than two minutes", "continuous or intermittent")
    current: Current | None = asked("clamp-meter the load", "steady current of the load")
    length: Length | None = asked("measure along the route", "length of the wire one way")
    conductor: Conductor | None = asked("describe the conductor", "conductor")
    return_: Return | None = asked("describe the way back", "return path")
    terminations: Count | None = asked("count the contacts in the loop, out and back", "contacts in the loop")
    contact_resistance: Resistance | None = asked("measure one contact with a millivolt-drop test", "resistance of one contact")
    conductor_temperature: Temperature | None = asked("take the hottest place on the route plus the conductor's own rise", "conductor at work")
    bundle: Count | None = asked("count the wires in the bundle at its thickest", "wires in the bundle")
    protection: Protection | None = asked("describe breaker or fuse", "protection")
    connector: Thing | None = optional("connector that parts when the item comes out")


class Wiring(Section):
    """All circuits of the fit."""

    runs: dict[Word, Run] = group("circuits by name")
