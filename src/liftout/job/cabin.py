"""What a job says of the cabin itself: its volume, and what warms it on a hot day."""

from liftout.job.values import (
    Area,
    Count,
    Flow,
    Grounded,
    Heat,
    HeatFlux,
    HeatTransfer,
    Pressure,
    Room,
    Section,
    Share,
    Temperature,
    Word,
    asked,
    chosen,
    optional,
)


class CabinAir(Grounded):
    """A state of air."""

    temperature: Temperature | None = asked("state the temperature of the air for the estimate of the cabin load", "its temperature")
    humidity: Share | None = asked("state the relative humidity of the air for the estimate of the cabin load", "its relative humidity")


class CabinLoad(Section):
    """What warms the cabin, for an estimate; no finding rests on it, and none of it has a default."""

    glazing: Area | None = asked("measure the glass that the sun reaches", "area of glass that the sun reaches, square to it")
    transmittance: Share | None = asked(
        "take from the data of the glass what share of the sun it lets through", "share of the sun that it lets through"
    )
    sun: HeatFlux | None = asked("state the strength of the sun", "strength of the sun")
    skin: Area | None = asked("measure skin and glass to the outside", "area of skin and glass to the outside")
    conductance: HeatTransfer | None = asked("take from a source or a trial how well the skin passes heat", "how well skin and glass pass heat")
    occupants: Count | None = asked("say how many persons are aboard", "persons aboard")
    equipment: Heat | None = asked("add up radios, lights and blowers that warm the cabin", "heat of radios, lights and blowers")
    fresh_air: Flow | None = asked("measure or state the flow of fresh air", "flow of fresh air and leaks")
    pressure: Pressure | None = asked("state the cabin pressure for the estimate of the cabin load", "absolute pressure of the air")
    outside: CabinAir | None = asked("state the outside air for the estimate of the cabin load", "outside air")
    inside: CabinAir | None = asked("state the cabin air that is wanted", "cabin air that is wanted")
    uncertainty: Share | None = asked("say by which share the estimate may be off", "share by which the estimate may be off, either way")


class Cabin(Grounded):
    """The cabin."""

    volume: Room | None = asked("measure or read the free volume of the cabin", "free volume")
    vent_states: tuple[Word, ...] | None = chosen(
        "list each state of heater, vents and windows in which the aircraft is flown", "states of heater, vents and windows in which it is flown"
    )
    load: CabinLoad | None = optional("what warms it, for an estimate outside the findings")
