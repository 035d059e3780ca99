"""What a job says of taking an item out."""

from typing import Literal

from liftout.job.values import Angle, Grounded, Length, Section, Thing, Time, Word, asked, chosen, group, several, told


class Disconnection(Grounded):
    """Something that parts when the item comes out."""

    kind: Literal["coolant line", "electrical connector", "air duct", "drain", "strap"] = told("what parts")
    closed_by: Thing | None = chosen(
        "name the cap, blank or self-sealing half that closes what stays", "cap, blank or self-sealing half that closes what stays"
    )


class Breaker(Grounded):
    """The breaker of a circuit while the item that it feeds is out."""

    position: Literal["off", "pulled", "on"] | None = chosen(
        "say how the breaker is left while the item is out: off, pulled or on", "off, pulled or on while the item is out"
    )
    label: Thing | None = chosen("say which label or collar marks the breaker while the item is out", "label or collar that marks it")


class Hands(Grounded):
    """Where the hands are at one end of a lift."""

    reach: Length | None = asked(
        "measure from the middle between the ankles to the middle between the hands, level", "from the ankles to the hands, level"
    )
    height: Length | None = asked("measure from the ground under the lifter to the hands", "from the ground under the lifter to the hands")
    turned: Angle | None = asked("measure the angle between straight ahead and the load", "angle between straight ahead and the load")


class Lift(Section):
    """How the item is lifted out by hand."""

    persons: Literal["1", "2"] | None = chosen("say whether one or two persons lift it", "one or two persons")
    start: Hands | None = asked("measure where the hands take hold of the item", "where the hands take hold of it")
    end: Hands | None = asked("measure where the hands put the item down", "where the hands put it down")
    grip: Literal["good", "fair", "poor"] | None = asked(
        "judge the grip: good with handles, fair with the fingers bent under it, else poor", "good, fair or poor"
    )
    hands: Literal["both", "one"] | None = asked("say whether both hands lift", "both hands, or one")
    posture: Literal["standing", "kneeling", "seated", "cramped"] | None = asked(
        "say how the lifter is: standing, kneeling, seated or cramped", "standing, kneeling, seated, or cramped by the space"
    )
    lifts_a_minute: Word | None = chosen(
        "say how many lifts are made in a minute: a row of the table of lifting frequencies, 0.2 for one now and then",
        "lifts in a minute, within one hour: a row of the table of lifting frequencies",
    )


class Removal(Section):
    """How one item comes out."""

    steps: tuple[Word, ...] = several("steps in order, one instruction each")
    tools: tuple[Word, ...] = several("tools needed")
    time: Time | None = asked("time one removal", "time for one person")
    disconnections: dict[Word, Disconnection] = group("what parts, by name")
    nothing_parts: Word | None = chosen(
        "list what parts when the item comes out, or say under nothing parts why nothing does",
        "the reason why nothing parts that leaves an opening behind; instead of disconnections",
    )
    breakers: dict[Word, Breaker] = group("the breaker of each circuit of the item while it is out, by the circuit's name")
    lift: Lift | None = asked("describe the lift, or none with the reason", "how it is lifted by hand")
    stowed: Thing | None = chosen("say where caps and the item go", "where the loose parts are kept while fitted")
