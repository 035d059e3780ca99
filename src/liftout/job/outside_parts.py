"""What a job says of parts that stand out into the air: scoops, deflectors, antennas."""

from typing import Literal

from liftout.job.values import Area, Bore, CountFromOne, Force, Grounded, Pressure, Word, asked, chosen, told

OutsidePartKind = Literal["scoop", "deflector", "other blunt part", "streamlined antenna"]
"""The small coefficient of drag holds for a streamlined antenna and for nothing else."""


class SheetUnder(Grounded):
    """The sheet that an outside part is fastened to."""

    material: Word | None = asked("say alloy and temper of the sheet under the outside part", "alloy and temper, for example 2024-T3 clad")
    thickness: Bore | None = asked("measure the thickness of the sheet under the outside part", "thickness")
    bearing_strength: Pressure | None = asked(
        "take the bearing strength of the sheet under the outside part from the maker's data", "ultimate bearing stress, where the tables hold none"
    )
    shear_strength: Pressure | None = asked(
        "take the ultimate shear strength of the sheet under the outside part from its data",
        "ultimate shear stress, where the tables hold none that was read",
    )


class OutsidePart(Grounded):
    """A part that stands out into the air."""

    what: OutsidePartKind = told("what it is")
    frontal_area: Area | None = asked("measure the frontal area of the outside part", "area that it shows to the air ahead")
    intake_area: Area | None = asked("measure the open area of the scoop", "open area through which air goes in; for a scoop")
    plan_area: Area | None = asked("measure the area of skin that the outside part covers", "area of skin that it covers, on which the air lifts it")
    lever: Bore | None = asked(
        "measure how far the middle of its front stands out from the skin", "from the skin to the middle of its front, the lever of the drag"
    )
    length: Bore | None = asked("measure the length of the outside part", "its length along the aircraft")
    width: Bore | None = asked("measure the width of the outside part", "its width")
    stands_out: Bore | None = asked("measure how far the outside part stands out from the skin", "how far it stands out from the skin")
    fasteners: CountFromOne | None = chosen("choose how many fasteners hold the outside part", "fasteners that hold it, all alike")
    fastened_with: Literal["rivets", "bolts", "screws with plate nuts"] | None = chosen(
        "say whether rivets, bolts or screws hold the outside part", "what holds it: rivets are not to be pulled"
    )
    size: Word | None = chosen("say the diameter of the rivets of the outside part", "rivets by their diameter, for example 1/8 in")
    alloy: Word | None = chosen("say the alloy of the rivets of the outside part", "alloy of the rivets, for example 2117-T (AD)")
    shear_rating: Force | None = asked(
        "take the strength of one fastener of the outside part in shear from its data", "ultimate strength of one fastener, where it is no rivet"
    )
    foremost: CountFromOne | None = chosen(
        "count the fasteners of the outside part in its foremost row", "fasteners in the foremost row, which the drag pulls"
    )
    to_rear_edge: Bore | None = asked(
        "measure from the foremost fasteners to the rear edge on which the outside part bears",
        "from the foremost fasteners to the rear edge about which the drag tips it",
    )
    tension_rating: Force | None = asked(
        "take the strength of one fastener of the outside part in tension from its data", "ultimate strength of one fastener in tension"
    )
    head_diameter: Bore | None = asked(
        "measure the diameter of the heads or washers of the outside part's fasteners", "diameter of the head or washer that bears on the sheet"
    )
    edge_distance: Bore | None = asked(
        "measure the least edge distance of the fasteners of the outside part", "least distance from the middle of a fastener to an edge"
    )
    sheet: SheetUnder | None = asked("describe the sheet under the outside part", "the sheet under it")
