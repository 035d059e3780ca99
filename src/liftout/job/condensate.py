"""What a job says of the water that an item makes by cooling air, and of the way it takes out of the aircraft."""

from typing import Literal

from liftout.job.passthrough import Part
from liftout.job.values import Arm, Bore, Grounded, Length, Section, Word, asked, chosen, group, told


class Point(Grounded):
    """A point in aircraft coordinates."""

    arm: Arm | None = asked("measure the arm of this end of the condensate tube", "fore-and-aft, positive aft of the datum")
    lateral: Arm | None = asked("measure this end of the condensate tube left or right of the centre line", "right of the centre line positive")
    height: Arm | None = asked("measure the height of this end of the condensate tube", "upwards positive")
    datum: Word = told("name of the datum of the arm")


class Inlet(Grounded):
    """A static port, or another inlet in the outside skin."""

    kind: Literal["static port", "cabin air inlet", "engine air inlet", "fuel vent", "other inlet"] = told("what it is")
    arm: Arm | None = asked("measure the arm of the inlet", "fore-and-aft, positive aft of the datum")
    lateral: Arm | None = asked("measure the inlet left or right of the centre line", "right of the centre line positive")
    height: Arm | None = asked("measure the height of the inlet", "upwards positive")
    datum: Word = told("name of the datum of the arm")
    keep_clear: Length | None = asked(
        "ask the maker how far ahead of the inlet nothing may drain", "distance ahead of it within which nothing may drain, as the maker declares it"
    )


class Tube(Section):
    """The condensate tube of one item."""

    bore: Bore | None = asked("measure the bore of the condensate tube", "inside diameter")
    tray: Point | None = asked("measure where the tube leaves the tray", "where it leaves the tray")
    outlet: Point | None = asked("measure where the water leaves the tube", "where the water leaves it")
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

    inlets: dict[Word, Inlet] = group("static ports and other inlets in the outside skin, by name")
    tubes: dict[Word, Tube] = group("condensate tubes by the name of the item that makes the water")
