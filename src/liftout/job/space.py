"""What a job says of the spaces that must stay clear, as boxes square to the aircraft."""

from typing import Literal

from liftout.job.values import Arm, Choice, Grounded, Length, Section, Word, asked, chosen, group, several, told

Needed = Literal[
    "exit opening",
    "door swing",
    "passage",
    "seat travel",
    "head path",
    "control full travel",
    "fire extinguisher",
    "fuel selector",
    "static port",
    "vent",
    "recovery rocket",
    "recovery straps and cover",
    "emergency locator",
    "antenna",
    "pitot",
    "stall sensor",
    "fuel line",
    "oxygen line",
]
"""Each of these must be named, or said to be absent."""
Purpose = Literal[Needed, "other"]


class Space(Grounded):
    """A box whose faces lie square to the axes of the aircraft."""

    front: Arm | None = asked("measure the arm of its front face", "arm of the front face, positive aft of the datum")
    rear: Arm | None = asked("measure the arm of its rear face", "arm of the rear face")
    left: Arm | None = asked("measure its left face from the centre line", "left face, right of the centre line positive")
    right: Arm | None = asked("measure its right face from the centre line", "right face")
    bottom: Arm | None = asked("measure the height of its lower face", "height of the lower face")
    top: Arm | None = asked("measure the height of its upper face", "height of the upper face")
    datum: Word = told("name of the datum of the arms")


class Volume(Grounded):
    """A space that must stay clear, with everything that moves in it over its full travel."""

    kind: Purpose = told("what it is kept clear for")
    box: Space | None = asked("measure the six faces of the space that must stay clear", "the space, as a box")
    reached_from: tuple[Word, ...] = several("stations whose occupants leave by it; of an exit")
    by_way_of: tuple[Word, ...] = several("spaces that they pass on their way, by name; of an exit")
    head_of: Word | None = asked(
        "name the seats whose occupants' heads move through it", "station whose occupants' heads move through it; of a head path"
    )
    control: Literal["flexible", "rigid"] | None = asked(
        "say whether the control that moves here is flexible (a cable) or rigid (a rod, a lever)", "what moves here, where a control does"
    )
    clear: Choice | None = asked("measure the space; a yes alone proves nothing", "whether somebody looked and found it clear")
    clearance: Length | None = chosen("choose the least clearance", "least clearance, where the maker or the shop wants more than the published one")


class KeepClear(Section):
    """What must stay clear whatever is carried."""

    volumes: dict[Word, Volume] = group("spaces that must stay clear, by name")
    without: dict[Needed, Word] = group("kinds of which this aircraft has none, each with the reason")
