"""What a job says of openings that stay in the aircraft, and of what is moved or taken out to make room."""

from typing import Literal

from liftout.job.doubler import Doubler, OpenedSheet, Stiffeners
from liftout.job.restraint import Spot
from liftout.job.values import Arm, Bore, Choice, Grounded, Mass, Pressure, Section, Thing, Word, asked, chosen, group, optional, told

Part = Literal["with occupants", "baggage compartment", "aft of the cabin", "engine compartment", "nose", "wing", "belly", "outside"]
"""Parts of the aircraft that a wire, a line or a duct may begin or end in; whoever leaves one passes an opening."""


class Opening(Grounded):
    """A hole in skin, floor or bulkhead that something of the fit passes."""

    through: Literal["skin", "floor", "bulkhead", "pressure bulkhead"] = told("what it goes through")
    for_: Word = told("what passes")
    made: Literal["new", "existing"] | None = asked(
        "say whether the opening is new or existing, and for an existing one by which record", "new (cut for this fit) or existing (was there before)"
    )
    size: Bore | None = asked("measure the opening", "its diameter or longest side")
    shorter_side: Bore | None = asked("measure the shorter side of the opening", "the shorter side of a rectangular opening")
    edge: Literal["grommet", "bushing", "sealed feed-through", "bare"] | None = asked(
        "look at the edge of the opening where a line passes it", "what guards a line from its edge: grommet, bushing, sealed feed-through, or bare"
    )
    blank: Thing | None = chosen("name the blank that closes it when the equipment is out", "blank that closes it")
    blank_kept: Thing | None = chosen("say where its blank is kept while the equipment is in", "where its blank is kept while the equipment is in")
    drawing: Word | None = optional("drawing that shows it")
    in_pressure_hull: Choice | None = asked(
        "say whether the opening lies in the pressure hull",
        "whether the skin that it goes through holds cabin pressure; without it every skin of a pressurised aircraft counts so",
    )
    datum: Word | None = asked("name the datum of the arm of its middle", "name of the datum of the arm of its middle")
    middle: Spot | None = asked("measure where the middle of the opening is to lie", "where its middle is to lie")
    sheet: OpenedSheet | None = asked("describe the sheet round the opening", "the sheet that it is cut in")
    stiffeners: Stiffeners | None = asked(
        "measure where the nearest frames and stringers stand round the opening, or none with the reason", "the nearest stiffeners on all its sides"
    )
    doubler: Doubler | None = chosen("describe the doubler of the opening, or none with the reason", "the doubler that restores the sheet")
    seal_diameter: Bore | None = asked(
        "measure the diameter at which the seal of the pass-through sits", "diameter at which its seal sits, on which cabin pressure acts"
    )
    closure_rating: Pressure | None = asked(
        "take the ultimate pressure that the pass-through bears from its data", "ultimate pressure difference that the pass-through bears"
    )
    blank_rating: Pressure | None = asked(
        "take the ultimate pressure that the blank bears from its data", "ultimate pressure difference that its blank bears"
    )


class Openings(Section):
    """All openings that stay in the aircraft."""

    holes: dict[Word, Opening] = group("openings by name")


class DisplacedPart(Grounded):
    """Something of the aircraft that the fit moves or takes out."""

    what: Word = told("what it is")
    is_: Literal["moved", "taken out"] = told("moved, or taken out of the aircraft")
    to: Thing | None = chosen("say where the displaced part goes", "where it goes")
    mass: Mass | None = asked(
        "weigh the displaced part on a calibrated scale", "mass, which the weight record in force still counts in its old place"
    )
    arm: Arm | None = asked("measure the arm of the displaced part in its old place", "arm of its centre of gravity in its old place")
    new_arm: Arm | None = asked(
        "measure the arm of the moved part in its new place", "arm of its centre of gravity in its new place; for what is moved only"
    )
    datum: Word | None = asked("name the datum of the arms of the displaced part", "name of the datum of these arms")


class Displaced(Section):
    """All that the fit moves or takes out of the aircraft."""

    parts: dict[Word, DisplacedPart] = group("displaced parts by name")
