"""What a job says of the water that an item makes by cooling air, and of the way it takes out of the aircraft."""

from typing import Literal

from liftout.job.passthrough import Part
from liftout.job.values import (
    Arm,
    Bore,
    Grounded,
    Length,
    Pressure,
    RatedFlow,
    Section,
    Share,
    Temperature,
    Word,
    asked,
    chosen,
    group,
    told,
)


class TubePoint(Grounded):
    """A point in aircraft coordinates."""

    arm: Arm | None = asked("measure the arm of this end of the condensate tube", "fore-and-aft, positive aft of the datum")
    lateral: Arm | None = asked("measure this end of the condensate tube left or right of the centre line", "right of the centre line positive")
    height: Arm | None = asked("measure the height of this end of the condensate tube", "upwards positive")
    datum: Word = told("name of the datum of the arm")


class Inlet(Grounded):
    """A static port or another inlet in the outside skin, or the end of the exhaust."""

    kind: Literal["static port", "cabin air inlet", "engine air inlet", "fuel vent", "exhaust outlet", "other inlet"] = told("what it is")
    arm: Arm | None = asked("measure the arm of the inlet", "fore-and-aft, positive aft of the datum")
    lateral: Arm | None = asked("measure the inlet left or right of the centre line", "right of the centre line positive")
    height: Arm | None = asked("measure the height of the inlet", "upwards positive")
    datum: Word = told("name of the datum of the arm")
    keep_clear: Length | None = asked(
        "ask the maker how far ahead of the inlet nothing may drain", "distance ahead of it within which nothing may drain, as the maker declares it"
    )


class WettestAir(Grounded):
    """The air out of which an item makes the most water."""

    temperature: Temperature | None = asked("state the wettest cabin air: its temperature", "air that the item draws in")
    humidity: Share | None = asked("state the wettest cabin air: its relative humidity", "its relative humidity")
    pressure: Pressure | None = asked("state the cabin pressure of the wettest air", "its absolute pressure, which is that of the cabin")
    flow: RatedFlow | None = asked("take the air flow of the item's cold surface from its data", "flow of air over the cold surface")
    coil: Temperature | None = asked(
        "take the temperature of the item's cold surface from its data", "temperature at which the air leaves the cold surface"
    )


class LiftPump(Grounded):
    """A pump that lifts the water out."""

    flow: RatedFlow | None = asked("take the flow of the condensate pump at its lift from its data", "flow at the lift that it has here")


class Outflow(Grounded):
    """What closes the tube against cabin pressure."""

    kind: Literal["open", "water trap", "valve", "pump"] | None = asked(
        "look what closes the condensate tube: nothing, a water trap, a valve or a pump", "what closes it"
    )
    trap: Length | None = asked("measure the depth of the water trap", "depth of the water in the trap")


class Tube(Section):
    """The condensate tube of one item."""

    bore: Bore | None = asked("measure the bore of the condensate tube", "inside diameter")
    tray: TubePoint | None = asked("measure where the tube leaves the tray", "where it leaves the tray")
    outlet: TubePoint | None = asked("measure where the water leaves the tube", "where the water leaves it")
    length: Bore | None = asked("measure the condensate tube along its route", "length along its route")
    inside: Word | None = chosen("say what the inside of the condensate tube is, as in the table of roughnesses", "a row of the table of roughnesses")
    wettest_air: WettestAir | None = asked("state the wettest cabin air that the item may draw in", "air out of which the item makes the most water")
    pump: LiftPump | None = asked("describe the condensate pump", "pump, where one lifts the water")
    outflow: Outflow | None = asked(
        "look what closes the condensate tube: nothing, a water trap, a valve or a pump", "what closes it against cabin pressure"
    )
    coldest_outside: Temperature | None = asked(
        "state the coldest outside air in which the item still makes water", "coldest outside air while water may stand in the tube"
    )
    begins_in: Part | None = chosen("say in which part of the aircraft the condensate tube begins", "part of the aircraft in which it begins")
    ends_in: Part | None = chosen("say in which part of the aircraft the condensate tube ends", "part of the aircraft in which it ends")
    passes: tuple[Word, ...] | None = chosen(
        "list the openings that the condensate tube passes; an empty list for none", "openings that it passes, by name"
    )
    drips_onto: Literal["clear air", "heated part", "electrical part"] | None = asked(
        "look below the outlet and below each joint: what does the water fall on?", "what lies below the outlet and below each joint"
    )


class Condensate(Section):
    """Condensate tubes, and the inlets that their water must not reach."""

    inlets: dict[Word, Inlet] = group("static ports, other inlets and the end of the exhaust, by name")
    tubes: dict[Word, Tube] = group("condensate tubes by the name of the item that makes the water")
