"""What a job says of mountings: what fastens each item to the aircraft, down to the structure."""

from typing import Literal

from liftout.job.outside_parts import OutsidePart
from liftout.job.restraint import Spot
from liftout.job.values import Bore, Choice, Count, Force, Grounded, Pressure, Section, Torque, Weight, Word, asked, chosen, group, several, told


class Sheet(Grounded):
    """A sheet that fasteners go through."""

    material: Word | None = asked("say alloy and temper of the sheet", "alloy and temper, for example 2024-T3 clad")
    thickness: Bore | None = asked("measure the thickness of the sheet", "thickness")
    bearing_strength: Pressure | None = asked(
        "take the bearing strength of the sheet at this edge distance and thickness from the maker's data",
        "ultimate bearing stress, where the tables hold none",
    )
    shear_strength: Pressure | None = asked(
        "take the ultimate shear strength of the sheet from its data", "ultimate shear stress, where the tables hold none that was read"
    )


class Bending(Section):
    """How a bracket bends as a plate, or as the leg of an angle, about the line where it is clamped or bent."""

    as_: Literal["plate", "leg of an angle"] | None = asked("say whether the bracket bends as a plate or as the leg of an angle", "as what it bends")
    width: Bore | None = asked("measure the width of the bracket where it bends", "width of the section that bends")
    lever: Bore | None = asked("measure from the load to the line about which the bracket bends", "from the load to the line about which it bends")
    strength: Pressure | None = asked(
        "take the stress that the sheet of the bracket bears in bending from its data",
        "ultimate tension stress of its sheet, where the tables hold none that was read",
    )


class Clamp(Grounded):
    """A clamp that holds by friction or by its shape, with the load that a test has shown."""

    rating: Force | None = asked(
        "take the tested rating of the clamp from its maker's data, in the direction in which it holds least", "load that it was tested to hold"
    )
    rating_is: Literal["tested ultimate", "tested working", "calculated", "stated by the seller"] | None = asked(
        "read in the data whether the rating of the clamp was tested", "what that rating is"
    )


class Pattern(Grounded):
    """Fasteners in rows, measured from their middle."""

    middle: Spot = told("middle of the pattern, in the plane of the joint")
    along: Literal["arm", "lateral", "height"] = told("the coordinate along which the rows run")
    in_a_row: Count = told("fasteners in one row")
    pitch: Bore = told("from fastener to fastener in a row")
    rows: Count = told("rows")
    row_distance: Bore | None = asked("measure from row to row", "from row to row, where there is more than one")


class Bracket(Grounded):
    """One bracket, foot or clamp with its fasteners, which are alike and lie in one plane."""

    alike: Count | None = asked("count the brackets that are alike", "how many of this bracket there are, each carrying as much")
    carries: Weight | None = asked(
        "weigh what one bracket carries, filled", "weight that one bracket carries, filled; a sole bracket carries its whole item"
    )
    centre: Spot | None = asked(
        "measure where the weight sits that the bracket carries",
        "centre of gravity of what it carries; without it that of the item, for a sole bracket",
    )
    lies: Literal["above", "below", "ahead", "behind", "left", "right"] | None = chosen(
        "say on which side of the structure the bracket lies", "on which side of the sheet it is fastened to the bracket lies"
    )
    fastener: Literal["rivet", "bolt", "screw with plate nut", "clamp"] | None = chosen("say what fastens the bracket", "kind of fastener")
    size: Word | None = chosen(
        "say the size of the fasteners", "rivet by its diameter (1/8 in), bolt by its number (AN3), screw by its thread (10-32)"
    )
    clamp: Clamp | None = asked("describe the clamp and its tested rating", "the clamp, where no fastener goes through the structure")
    taken_apart: Literal["before or after each flight", "at each removal", "at maintenance only"] | None = chosen(
        "say when the fasteners are taken apart", "when the fasteners are taken apart"
    )
    retained_by: tuple[Word, ...] = several("devices that keep each fastener in place, for example self-locking nut, cotter pin, safety wire")
    nut_locks: Literal["self-locking", "castellated and pinned", "safety wire", "plain"] | None = chosen(
        "say how the nut of the fasteners locks", "how the nut locks"
    )
    fastener_material: Literal["steel", "aluminium alloy", "titanium"] | None = chosen(
        "say what the fasteners are made of", "material of bolts, screws and their nuts"
    )
    torque: Torque | None = asked("take the torque of the fasteners from their data", "torque to which they are tightened")
    head_diameter: Bore | None = asked(
        "measure the diameter of the head or washer that bears on the sheet", "diameter of the head or washer that bears on the thinner sheet"
    )
    bending: Bending | None = asked("describe how the bracket bends, or none with the reason", "how it bends under its load")
    stocked: tuple[Word, ...] = several("sizes that the shop has, for remedies")
    alloy: Word | None = chosen("say the alloy of the rivets", "alloy of rivets, for example 2117-T (AD)")
    head: Literal["protruding", "countersunk"] | None = chosen("say whether the heads protrude or are countersunk", "shape of the heads")
    nut: Literal["tension nut", "shear nut"] | None = chosen("say which nut the bolts have", "nut of a bolt: a shear nut holds less than the bolt")
    shear_plane: Literal["shank", "threads"] | None = asked(
        "measure the grip: say whether shank or threads lie where the sheets meet", "what of the bolt or screw lies where the sheets meet"
    )
    diameter: Bore | None = asked("measure the diameter of the screw", "diameter of a screw, which no table gives")
    shear_rating: Force | None = asked("take the strength of one fastener in shear from its data", "ultimate strength of one fastener in shear")
    tension_rating: Force | None = asked(
        "take the strength of one fastener with its nut in tension from its data", "ultimate strength of one fastener with its nut in tension"
    )
    positions: dict[Word, Spot] = group("each fastener by name, where it goes through the sheet")
    pattern: Pattern | None = asked("measure where each fastener goes through the sheet", "fasteners in rows, instead of each by name")
    bearing_edge: Bore | None = asked(
        "measure from the fasteners to the nearest edge on which the bracket bears when it tips",
        "from the fasteners to the nearest edge on which the bracket bears when it tips; for a single fastener or a single row",
    )
    edge_distance: Bore | None = asked(
        "measure from the middle of the outermost fastener to the nearest edge of either sheet",
        "least distance from the middle of a fastener to an edge, in either sheet",
    )
    bracket_sheet: Sheet | None = asked("say material and thickness of the bracket", "sheet of the bracket")
    structure_sheet: Sheet | None = asked("say material and thickness of the sheet of the aircraft", "sheet of the aircraft")
    fastened_to: (
        Literal[
            "frame", "stringer", "bulkhead", "pressure bulkhead", "floor beam", "skin", "pressure hull skin", "shelf", "panel", "seat rail", "seat"
        ]
        | None
    ) = asked("say what the bracket is fastened to", "what it is fastened to; what holds cabin pressure is always referred")
    anchor_rating: Force | None = asked(
        "take the load that the structure under the bracket bears from the maker's data", "load that the structure bears there, in any direction"
    )
    anchor_rating_is: Literal["ultimate", "working"] | None = asked(
        "read in the data whether the rating of the structure is ultimate or working", "what that rating is"
    )


class Mounting(Section):
    """What fastens one item to the aircraft."""

    datum: Word | None = asked("name the datum of the coordinates", "name of the datum of all arms here")
    frequent_removal: Choice | None = asked(
        "say whether the fasteners are worked at each removal", "whether the fasteners are worked at each removal"
    )
    brackets: dict[Word, Bracket] = group("brackets, feet and clamps by name")


class Structure(Section):
    """Mountings of the fit."""

    mountings: dict[Word, Mounting] = group("what fastens each item to the aircraft, by the item's name")
    outside_parts: dict[Word, OutsidePart] = group("scoops, deflectors and antennas of the fit, by name")
