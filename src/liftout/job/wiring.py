"""What a job says of wiring."""

from typing import Literal

from liftout.job.electrical import Duty
from liftout.job.neighbours import WireRoute
from liftout.job.passthrough import Part
from liftout.job.values import (
    Choice,
    Count,
    Current,
    Grounded,
    Length,
    Rating,
    Resistance,
    Section,
    Share,
    ShortTime,
    Temperature,
    Text,
    Thing,
    Time,
    Torque,
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
    material: Literal["copper", "aluminium"] | None = chosen("say what the conductor is", "copper, or aluminium")
    aluminium_for: Text | None = asked("say why the conductor is aluminium, and by whose data", "why it is aluminium, and by whose data")
    plating: Literal["tin", "silver", "nickel"] | None = asked("read the wire specification for the plating", "plating of its strands")
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
    time: ShortTime | None = asked("read the time-current curve of the device", "for how long it carries it without opening")


class Opened(Grounded):
    """A point above the time-current curve of a protection: at this current it has surely opened after so long."""

    current: Rating | None = asked("read the upper time-current curve of the device", "current at which it surely opens")
    time: ShortTime | None = asked("read the upper time-current curve of the device", "time after which it has surely opened")


class Protection(Section):
    """Breaker or fuse at the source end."""

    device: Literal["breaker", "fuse"] | None = chosen("say whether breaker or fuse", "breaker or fuse")
    rating: Rating | None = asked("read the rating on the device", "rating")
    available: tuple[Rating, ...] = several("ratings of the same device that the shop can fit in its place")
    carries: TimeCurrent | None = asked(
        "read a point of the time-current curve of the device", "a current that it carries for a time without opening, where the start needs one"
    )
    further_points: tuple[TimeCurrent, ...] = several("further points below the same curve")
    opens: Opened | None = asked("read a point of the upper time-current curve of the device", "a current at which it has surely opened after a time")
    from_source: Length | None = asked("measure the wire between bus and protection", "unprotected length from the bus")
    nearest_possible: Length | None = asked(
        "take from the aircraft's data how near to its bus a protection can stand", "shortest unprotected length that the place of the bus allows"
    )
    label: Word | None = optional("its name on the panel")


class WireSegment(Grounded):
    """A piece of the route with surroundings of its own."""

    length: Length | None = asked("measure along the route", "length of the route in this piece, one way")
    ambient: Temperature | None = asked(
        "measure the air at the hottest place of this piece, parked in the sun and at work", "hottest air round the wire in this piece"
    )
    altitude: Length | None = asked(
        "say the highest altitude of the air round the wire", "highest altitude of the air round it, where that is not the ceiling of the aircraft"
    )
    bundle: Count | None = asked("count the wires in the bundle at its thickest", "wires in the bundle in this piece; 1 for a wire alone in open air")
    bundle_load: Share | None = asked(
        "add the currents of all wires of the bundle and divide by the sum of what each may carry",
        "share of the capacity of the bundle that is in use in this piece",
    )


class Switched(Section):
    """The contact that makes and breaks the current of the circuit."""

    kind: Literal["switch", "contactor"] | None = chosen("say whether a switch or a contactor breaks the current", "switch or contactor")
    rating: Rating | None = asked("read the rating on the switch or contactor", "nominal rating of its contact")
    rated_for: Literal["direct current", "alternating current"] | None = asked(
        "read for which kind of current the switch or contactor is rated", "kind of current for which it is rated"
    )
    switches: Literal["lamp", "inductive", "resistive heater", "motor"] | None = chosen(
        "say what kind of load the contact switches", "kind of load as the table of switch factors names it"
    )


class Contact(Section):
    """The contacts of the connector that parts."""

    specification: Word | None = chosen(
        "name the connector specification and the size of the contact", "specification and size, as the rating names it"
    )
    rating: Rating | None = asked("take the rating of one contact from the connector's specification", "rating of one contact")
    in_parallel: Count | None = asked("count the contacts that share the current", "contacts that share the current of one pole")
    parted_dead_by: Text | None = asked(
        "say what makes the contacts dead before the connector can part", "what makes the contacts dead before the connector parts"
    )


class Stud(Grounded):
    """A terminal stud of the circuit."""

    torque: Torque | None = asked("take the torque of the stud from its maker's data", "torque that its maker declares")
    terminals: Count | None = asked("count the terminals on the stud", "terminals on it, those of other circuits among them")


class Studs(Section):
    """Terminal studs of the circuit."""

    named: dict[Word, Stud] = group("terminal studs by name")


class Joints(Section):
    """Joints of coolant lines near the circuit."""

    drip_zone: Choice | None = asked(
        "look whether coolant that leaks at a joint can run or drip onto wire or contact", "whether leaking coolant can reach its wire or contacts"
    )
    contact_plating: Literal["tin", "silver", "nickel", "gold"] | None = asked(
        "read the connector's specification for the plating of its contacts", "plating of the contacts within reach of the coolant"
    )


class LinesBeside(Section):
    """Lines with liquid that run along with the circuit."""

    above: Choice | None = asked("look whether the wire runs above every line beside it", "whether the wire runs above every line beside it")
    distance: Length | None = asked("measure the distance from the wire to the nearest line", "distance from the wire to the nearest line")
    clamped: Choice | None = asked("look whether wire and line are both clamped where they are near", "whether wire and line are positively clamped")


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
    longest_on: Time | None = asked(
        "time the longest that the load stays on", "longest time that the load stays on, where the circuit is intermittent"
    )
    current: Current | None = asked("clamp-meter the load", "steady current of the load")
    allowance: Length | None = asked("say how much longer than its route each wire is cut", "length added to the route when the wire is cut")
    length: Length | None = asked("measure along the route", "length of the route one way; the wire is cut longer by the allowance")
    route: WireRoute | None = asked(
        "measure the corners of the route of the circuit, both ends among them", "way that it takes past compasses and other magnetic sensors"
    )
    segments: dict[Word, WireSegment] = group("pieces of the route with different surroundings, instead of one length and one set of surroundings")
    conductor: Conductor | None = asked("describe the conductor", "conductor")
    return_: Return | None = asked("describe the way back", "return path")
    terminations: Count | None = asked("count the contacts in the loop, out and back", "contacts in the loop")
    contact_resistance: Resistance | None = asked("measure one contact with a millivolt-drop test", "resistance of one contact")
    device_resistance: Resistance | None = asked(
        "measure breaker, switch and contactor with a millivolt-drop test", "resistance of breaker, switch and contactor together"
    )
    conductor_temperature: Temperature | None = asked(
        "take the hottest place on the route plus the conductor's own rise", "conductor at work; solved where it is not told"
    )
    start: ShortTime | None = asked("record the starting current with an oscilloscope", "how long the starting current lasts")
    ambient: Temperature | None = asked(
        "measure the air at the hottest place on the route, parked in the sun and at work", "hottest air round the wire"
    )
    altitude: Length | None = asked(
        "say the highest altitude of the air round the wire", "highest altitude of the air round it, where that is not the ceiling of the aircraft"
    )
    bundle: Count | None = asked("count the wires in the bundle at its thickest", "wires in the bundle; 1 for a wire alone in open air")
    bundle_load: Share | None = asked(
        "add the currents of all wires of the bundle and divide by the sum of what each may carry",
        "share of the capacity of the bundle that is in use",
    )
    protection: Protection | None = asked("describe breaker or fuse", "protection")
    connector: Thing | None = optional("connector that parts when the item comes out")
    contact: Contact | None = asked("describe the contacts of the connector, or none with the reason", "contacts of the connector that parts")
    switched: Switched | None = asked("describe the switch or contactor of the circuit, or none with the reason", "switch or contactor")
    inhibited_while_cranking: Choice | None = asked(
        "select the unit, crank the engine and look whether the circuit stays dead", "whether the circuit stays dead while the starter turns"
    )
    studs: Studs | None = asked("name the terminal studs of the circuit, or none with the reason", "terminal studs")
    coolant_joints: Joints | None = asked(
        "say whether a joint of a coolant line lies over or beside the circuit, or none with the reason", "joints of coolant lines near the circuit"
    )
    lines_beside: LinesBeside | None = asked("say which lines run along with the circuit, or none with the reason", "lines that run along with it")


class OffSwitch(Section):
    """The one control with which the pilot stops the equipment."""

    label: Word | None = chosen("write the words on the placard of the OFF control", "words on its placard")
    kind: Literal["switch", "breaker"] | None = chosen("say whether a switch or a breaker is the OFF control", "switch or breaker")
    guarded: Choice | None = asked("look whether a guard keeps the OFF control from being worked by accident", "whether it is guarded")
    within_reach: Choice | None = asked(
        "sit in the pilot's seat with belt and harness fastened and reach for the OFF control", "whether the belted pilot reaches it"
    )
    cuts: tuple[Word, ...] | None = chosen("list the circuits that the OFF control cuts", "circuits that it cuts, by name")
    stops_within: Time | None = optional("longest time from the call until everything stands still, as a licensed person set it")


class Wiring(Section):
    """All circuits of the fit."""

    off_switch: OffSwitch | None = asked("describe the OFF control of the equipment, or none with the reason", "OFF control of the equipment")
    runs: dict[Word, Run] = group("circuits by name")
