"""What a job says of straps, anchors and mountings."""

from typing import Literal

from liftout.job.values import Arm, Choice, Force, Grounded, Length, Number, Section, Stretch, Word, asked, chosen, group, optional, several, told

AnchorKind = Literal["floor fitting", "structure", "seat rail", "seat"]


class Spot(Grounded):
    """A point in aircraft coordinates; of what holds an item measured from the item, how far it lies from the item's centre of gravity."""

    arm: Arm = told("fore-and-aft, positive aft of the datum")
    lateral: Arm = told("right of the centre line positive")
    height: Arm = told("upwards positive")


class Strap(Grounded):
    """A strap from the item to the aircraft; it only pulls."""

    attached: Spot = told("where it holds the item")
    anchored: Spot | None = asked(
        "measure where the strap holds the aircraft, or name the anchor it leads to", "where it holds the aircraft, for an anchor without a name"
    )
    at: Word | None = chosen("name the anchor that the strap leads to", "name of the anchor it leads to, instead of its coordinates and kind")
    runs_over: tuple[Spot, ...] = several(
        "of a strap or belt that runs over the item to a second anchor: further points where it bends on it, in order"
    )
    far_end: Spot | None = asked(
        "measure where the other end of the strap holds the aircraft", "where its other end holds the aircraft, of a strap that runs over the item"
    )
    could_go_to: tuple[Word, ...] = several("names of other anchors that it reaches, for remedies")
    rating: Force | None = asked(
        "read the tag of the strap", "rating of the weakest of strap, end fitting and anchor; the rating of a named anchor counts by itself"
    )
    rating_is: Literal["ultimate", "working"] | None = asked("read on the tag whether the rating is ultimate or working", "what the rating is")
    webbing: Word | None = asked("read on the tag of the strap which webbing it is", "designation of the webbing; equal webbing stretches alike")
    stretch: Stretch | None = asked(
        "take from the data of the strap how far it stretches under its rating", "how far it stretches under the rating told here, over its length"
    )
    weakest: Word | None = optional("which part of strap, fitting and anchor is the weakest")
    anchor: AnchorKind | None = asked("say what the strap is anchored to", "what it is anchored to")


class Slack(Grounded):
    """How far the tightened straps let the item move: one figure for all directions, or one for each."""

    most: Length | None = asked(
        "push the strapped item in each direction and measure the most it moves", "in any direction of which nothing else is said"
    )
    forward: Length | None = asked("push the strapped item forward and measure how far it moves", "forward")
    aft: Length | None = asked("push the strapped item rearward and measure how far it moves", "rearward")
    left: Length | None = asked("push the strapped item to the left and measure how far it moves", "to the left")
    right: Length | None = asked("push the strapped item to the right and measure how far it moves", "to the right")
    up: Length | None = asked("lift the strapped item and measure how far it moves", "upward")
    down: Length | None = asked("press the strapped item down and measure how far it moves", "downward")


class Lower(Grounded):
    """Load factors that the item must be held to with any one strap missing, ultimate."""

    forward: Number | None = asked("say what must be held forward with one strap missing", "forward")
    aft: Number | None = asked("say what must be held rearward with one strap missing", "aft")
    side: Number | None = asked("say what must be held sideways with one strap missing", "to either side")
    up: Number | None = asked("say what must be held upward with one strap missing", "up")
    down: Number | None = asked("say what must be held downward with one strap missing", "down")


class Belted(Grounded):
    """A seat on which the item is belted in place of an occupant; its belt is a strap that runs over the item."""

    seat: Word = told("station whose seat it is, one that the item takes")
    frees: tuple[Word, ...] = several("head paths that nobody uses while the item sits there, by name")
    rating: Force | None = asked("take the strength of the seat from its data", "strength of the seat in the weakest direction")
    rating_is: Literal["ultimate", "working"] | None = asked("read in the data whether the rating of the seat is ultimate or working", "what it is")


class Restraint(Section):
    """What holds one item."""

    datum: Word | None = asked("name the datum of the coordinates", "name of the datum of all arms here")
    told_from: Literal["item"] | None = chosen(
        "say where the points on the item are measured from, unless from the datum",
        "item: ends of straps on the item, and contacts, are measured from its centre of gravity and move with it; without it, from the datum",
    )
    straps: dict[Word, Strap] = group("straps by name")
    contacts: tuple[Spot, ...] = several("points where the item bears on the floor, which only pushes")
    friction: Number | None = asked(
        "measure the friction of the contacts, or leave it out", "coefficient of friction of the contacts; counted only where it is told"
    )
    blocked: tuple[Literal["forward", "aft", "left", "right"], ...] = several("sides on which a stop at the base holds the item")
    block_rating: Force | None = asked("take the strength of the stop from its data", "strength of one stop")
    frequent_removal: Choice | None = asked("say whether the attachment is worked at each removal", "whether it is worked at each removal")
    one_strap_missing: Lower | None = asked(
        "say to which lower load factors it must be held with any one strap missing", "lower demand that holds with any one strap missing"
    )
    belted_on: Belted | None = asked("name the seat that it is belted on", "the seat that it is belted on, where it stands in for an occupant")
    slack: Slack | None = asked("push the strapped item in each direction and measure the most it moves", "how far the tightened straps let it move")
