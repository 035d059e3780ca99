"""What a job says of the sheet that an opening is cut in, and of the doubler that restores it."""

from typing import Literal

from liftout.job.values import Arm, Bore, Count, Grounded, Section, Word, asked, chosen, group, told

Restored = Literal["sheet round an opening", "single-lap sheet joint", "intermediate frame", "stringer of upper wing or fuselage"]
"""What the rivets of a joint restore: for some members the published method takes a share of its number."""


class OpenedSheet(Grounded):
    """The sheet that an opening is cut in."""

    kind: Literal["metal", "composite", "wood", "fabric"] | None = asked(
        "say whether the structure round the opening is metal, composite, wood or fabric", "what the structure round the opening is made of"
    )
    material: Word | None = asked("say alloy and temper of the sheet round the opening", "alloy and temper, for example 2024-T3 clad")
    thickness: Bore | None = asked("measure the thickness of the sheet round the opening", "thickness")
    faces: Literal["left", "right", "up", "down", "forward", "aft"] | None = asked(
        "say which way the face of the sheet looks on which the doubler is marked out", "the way the face looks on which the doubler is marked out"
    )
    shape: Literal["round", "square", "rectangle"] | None = chosen("say whether the opening is round, square or a rectangle", "its shape")
    runs: Literal["arm", "lateral", "height"] | None = chosen(
        "say along which coordinate the longer side of the opening runs", "the coordinate along which the longer side of a rectangle runs"
    )
    corner_radius: Bore | None = chosen(
        "choose the radius of the corners of the opening; a sharp corner begins a crack", "radius of the corners of an opening that is not round"
    )
    cuts: Literal["sheet only", "stringer", "frame"] | None = asked(
        "look behind the place and say whether the opening cuts a stringer or a frame", "what the opening cuts besides the sheet"
    )


class Stiffener(Grounded):
    """A frame, a stringer or the like beside an opening; it runs straight through the neighbourhood."""

    kind: Literal["frame", "stringer", "rib", "floor beam", "web stiffener"] = told("what it is")
    told_by: Literal["arm", "lateral", "height"] = told("the coordinate that tells where it stands: the arm for a frame, say")
    stands_at: Arm | None = asked("measure where the stiffener stands", "that coordinate of its middle line")
    flange: Bore | None = asked("measure the width of the stiffener's flange on the sheet", "width of its flange on the sheet")


class Stiffeners(Section):
    """The nearest stiffeners on all sides of an opening."""

    near: dict[Word, Stiffener] = group("each by its name")


class DoublerRivets(Grounded):
    """Rivets of a doubler, alike on opposite sides of the opening."""

    size: Word | None = chosen("say the diameter of the rivets of the doubler", "diameter, for example 1/8 in")
    alloy: Word | None = chosen("say the alloy of the rivets of the doubler", "alloy, for example 2117-T (AD)")
    head: Literal["protruding", "countersunk"] | None = chosen(
        "say whether the heads of the doubler's rivets protrude or are countersunk", "shape of the heads"
    )
    in_a_row: Count | None = chosen("choose how many rivets stand in one row of the doubler", "rivets in one row; of a rectangle on its longer sides")
    in_a_short_row: Count | None = chosen(
        "choose how many rivets stand in one row on the shorter sides of the doubler", "rivets in one row on the shorter sides of a rectangle"
    )
    rows: Count | None = chosen("choose how many rows of rivets stand on each side of the opening", "rows on each side of the opening")
    pitch: Bore | None = chosen("choose the pitch of the doubler's rivets", "from rivet to rivet in a row")
    row_distance: Bore | None = chosen("choose the distance from row to row of the doubler's rivets", "from row to row, where there is more than one")
    rows_stand: Literal["behind each other", "staggered"] | None = chosen(
        "say whether the rows of the doubler stand behind each other or staggered",
        "staggered: every second row stands half a pitch on and has one rivet less",
    )
    from_opening: Bore | None = chosen(
        "choose the distance from the opening to the first row of rivets", "from the edge of the opening to the middle of the first row"
    )
    from_edge: Bore | None = chosen(
        "choose the distance from the last row of rivets to the edge of the doubler", "from the middle of the last row to the edge of the doubler"
    )


class Doubler(Section):
    """A square or rectangular sheet round an opening that restores what the opening took."""

    material: Word | None = chosen("say alloy and temper of the doubler", "alloy and temper")
    thickness: Bore | None = chosen("choose the thickness of the doubler", "thickness")
    side: Bore | None = chosen("choose the side of the square doubler", "its side; of a rectangle the longer one")
    shorter_side: Bore | None = chosen("choose the shorter side of the doubler", "the shorter side of a rectangle")
    restores: Restored | None = chosen("say what the doubler restores", "what it restores")
    rivets: DoublerRivets | None = chosen("describe the rivets of the doubler", "its rivets")
