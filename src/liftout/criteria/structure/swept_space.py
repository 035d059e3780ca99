"""Space that a strapped item sweeps under its ultimate load.

Requires: under the ultimate load in each direction the item enters neither the path of the head of an occupant nor an exit or the passage to it.
Because: straps stretch; an item that holds on to the end can still strike a head on its way, or stand in the only way out.
Method: the box with what sticks out and the slack, moved by as much as the farthest corner of its leading side moves in the elastic share (unit load),
  against each head path of a seat that somebody can sit on, each exit and each passage, as boxes; the nearest is shown.
Leaves out: spaces in which the item stands before it moves (see removability.clearance); how far anchors, stops and the case give, the jerk of a
  sudden load, and how far the corners move sideways as the item tilts.
"""

import itertools
import math
from decimal import Decimal
from typing import NamedTuple

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.clearance import HEADS, Space, Volume
from liftout.facts.fact import CHOSEN, si_of
from liftout.facts.restraint import ItemInDirection, Restraint, spots
from liftout.findings import Finding, Referral
from liftout.physics.boxes import Box, axis, separation
from liftout.physics.movement import UNIT_LEAST, Movement, movement
from liftout.physics.restraint import LOAD_N, Item, NotRestrained, Sharing, Vector, elastic_share, held_factor
from liftout.quantities import Quantity, unit
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.removability.occupied_space import FACES, SHRINKING, occupied_space
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.rig import TOWARDS, as_found, balance, compliances, forces, lay_out, needed, rig, unstretched
from liftout.worksheet import Worksheet, declined

sets, methods = table("load_factor_sets"), table("methods")

KEPT_FROM = (HEADS, "exit opening", "passage")
KEPT = {"x_front": "X_front", "x_rear": "X_rear", "y_left": "Y_left", "y_right": "Y_right", "z_low": "Z_low", "z_high": "Z_high"}
LEADING = {"forward": "x_front", "aft": "x_rear", "left": "y_left", "right": "y_right", "down": "z_low", "up": "z_high"}
"""Face of the item that goes ahead, by direction."""


class Corner(NamedTuple):
    """A corner of the leading side and how far it moves."""

    point_m: Vector
    moved: Movement


@criterion(each="strapped_in_directions", tables=(sets, methods))
def swept_space(pull: ItemInDirection, facts: Facts) -> Finding:
    held, sheet, kept = pull.restraint, Worksheet(), facts.keep_clear
    if pull.item.without_box is not None:
        return declined(pull.item.without_box)
    if kept.place.declined is not None:
        return declined(kept.place.declined)
    volumes = [one for one in kept.volumes if one.kind in KEPT_FROM and (pull.item.name, one.name) not in facts.unused_head_paths]
    if not volumes:
        sheet.needs(kept.place.missing("volumes") if kept.place.there else facts.aircraft.place.missing("keep_clear"))
    sheet.needs(*(volume.place.missing("box") for volume in volumes if volume.space is None))
    sheet.needs(*(face for volume in volumes if volume.space is not None for face in volume.space))
    sheet.needs(*(volume.head_of for volume in volumes if volume.head_of is not None))
    occupied = occupied_space(pull.item, facts)
    for face, (_, _, meaning) in FACES.items():
        sheet.given(face, occupied.value(face), f"item: {meaning}")
    sheet.given("m", filled_mass(pull.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("n", load_factor(pull, facts).value("n"), f"ultimate load factor {pull.direction}")
    sheet.needs(pull.item.arm, pull.item.lateral, pull.item.height, *(value for spot in spots(held) for value in spot))
    # Ratings scale the limit and not the share: the movement rests on those of the straps that move the corner, put in below.
    # One that is known within a tolerance may move it too: how the load is shared goes with all.
    stretches = [strap.stretch for strap in held.straps]
    sheet.needs(*(value for value in needed(held) if isinstance(value, Missing)))
    sheet.needs(*(value for value in (*needed(held), *stretches) if isinstance(value, Fact) and value.loose))
    item, direction = rig(held, 1), TOWARDS[pull.direction]
    limit = held_factor(item, direction)
    if not limit:
        return sheet.refused("not restrained: nothing bounds how far it moves")
    told = pull.item.front.value.unit.symbol if isinstance(pull.item.front, Fact) else "m"
    face, moved = LEADING[pull.direction], ""
    if not math.isinf(limit) and sheet.sign("n"):  # no load, no movement
        if not _move(sheet, held, item, direction, told):
            return sheet.refer(_unbounded(pull))
        moved = " - d" if pull.direction in SHRINKING else " + d"
    sheet.work("s", f"{face}{moved}", f"{FACES[face][2]}, as far as it goes", told)
    still = Box(*(sheet.si(one) for one in FACES))
    spaces = [(volume, _space(volume)) for volume in volumes]
    clear = [(volume, space) for volume, space in spaces if separation(still, space) >= 0]
    if not clear:
        return sheet.refused("it stands in every one of these spaces before it moves")
    return _nearest(sheet, pull, clear, told)


def _move(sheet: Worksheet, held: Restraint, item: Item, direction: Vector, told: str) -> bool:
    """Work how far the farthest corner of the leading side moves; False where nothing bounds it."""
    sheet.needs(*unstretched(held))
    soft, stiff = compliances(sheet, held, item)
    try:
        share = elastic_share(item, direction, 1.0, soft, stiff)
    except NotRestrained:  # so nearly a mechanism that nothing bounds it once the straps stretch
        return False
    box = Box(*(sheet.si(face) for face in FACES))
    corners = list(itertools.product((box.front_m, box.rear_m), (box.left_m, box.right_m), (box.bottom_m, box.top_m)))
    ahead = max(_along(point, direction) for point in corners)
    leading = [point for point in corners if _along(point, direction) == ahead]
    farthest = max((Corner(point, movement(item, share, soft, stiff, point, direction)) for point in leading), key=lambda one: one.moved.distance_m)
    if math.isinf(farthest.moved.distance_m):
        return False
    _prove(sheet, held, item, direction, share, farthest, told)
    return True


def _along(point: Vector, direction: Vector) -> float:
    return point[0] * direction[0] + point[1] * direction[1] + point[2] * direction[2]


def _prove(sheet: Worksheet, held: Restraint, item: Item, direction: Vector, share: Sharing, corner: Corner, told: str) -> None:
    """Print the loading and the unit load, each with its sums, and the movement that follows from both."""
    parts, units = [force / LOAD_N for force in (*share.tensions_n, *share.pushes_n)], [*corner.moved.unit_pulls, *corner.moved.unit_pushes]
    rows = forces(item, [member for member, (part, one) in enumerate(zip(parts, units, strict=True)) if part > UNIT_LEAST or abs(one) > UNIT_LEAST])
    sheet.work("P", "n * m * g", "ultimate inertia load", "lbf", places=0)
    sheet.column(
        "w", [(row.name, as_found(parts[row.member], "", places=6)) for row in rows], "pull or push of each for a load of one, found by search"
    )
    sheet.column(
        "f",
        [(row.name, as_found(units[row.member], "", places=6)) for row in rows],
        "the same for a load of one at the corner; below nothing it lets go",
    )
    lay_out(sheet, item, rows)
    balance(sheet, direction, "1", parts="w")
    offsets = [part - centre for part, centre in zip(corner.point_m, item.centre_m, strict=True)]
    for place, letter in enumerate("xyz"):
        sheet.given(f"b_{letter}", as_found(offsets[place], "in", places=2), f"the corner, from the centre of gravity, {letter}")
        sign = {1: " + 1", -1: " - 1"}.get(int(direction[place]), "")
        sheet.work(f"s_{letter}", f"sum(f * u_{letter}){sign}", f"sum of unit forces, {letter}: nothing but rounding", places=1)
    for letter, one, other in (("x", "y", "z"), ("y", "z", "x"), ("z", "x", "y")):
        sheet.work(
            f"q_{letter}",
            f"sum(f * (a_{one} * u_{other} - a_{other} * u_{one})){_moment(one, other, direction)}",
            f"sum of moments of the unit load about {letter}: nothing but rounding",
            "in",
            places=0,
        )
    stretched = [(index, strap) for index, strap in enumerate(held.straps) if parts[index] > UNIT_LEAST and abs(units[index]) > UNIT_LEAST]
    sheet.column(
        "W",
        [(strap.name, as_found(parts[index], "", places=6)) for index, strap in stretched],
        "pull for a load of one, of each strap that moves the corner",
    )
    sheet.column("t", [(strap.name, as_found(units[index], "", places=6)) for index, strap in stretched], "the same for a load of one at the corner")
    sheet.column("l", [(strap.name, as_found(item.straps[index].length_m, "in", places=5)) for index, strap in stretched], "its free length")
    sheet.column("e", [(strap.name, strap.stretch) for _, strap in stretched], "its stretch under its rating, over its length")
    sheet.column("R", [(strap.name, strap.own_rating) for _, strap in stretched], "its rating")
    sheet.work("d", "P * sum(t * e * l * W / R)" if stretched else "0 * b_x", "movement of the corner", told)


def _moment(one: str, other: str, direction: Vector) -> str:
    """Moment of a load of one at the corner about the third axis, as text of a formula."""
    along = dict(zip("xyz", (int(part) for part in direction), strict=True))
    terms = [(f"b_{one}", along[other]), (f"b_{other}", -along[one])]
    return "".join(f" {'+' if sign > 0 else '-'} {symbol}" for symbol, sign in terms if sign)


def _nearest(sheet: Worksheet, pull: ItemInDirection, spaces: list[tuple[Volume, Box]], told: str) -> Finding:
    """The space that the swept box comes nearest to, or goes deepest into."""
    ahead = LEADING[pull.direction]
    still = [sheet.si(face) for face in FACES]
    at_ends = [Box(*(end if face == ahead else at for face, at in zip(FACES, still, strict=True))) for end in sheet.ends("s")]
    nearest = [min(spaces, key=lambda one: separation(swept, one[1])) for swept in at_ends]
    if any(one is not nearest[0] for one in nearest):
        sheet.si("s")  # which one is the nearest hangs on what that was worked from
    swept, (volume, space) = at_ends[0], nearest[0]
    assert isinstance(volume.space, Space)
    for (face, (_, _, meaning)), of_space in zip(FACES.items(), volume.space, strict=True):
        sheet.given(KEPT[face], of_space, f"{volume.name}: {meaning}")
    symbols = {face: "s" if face == ahead else face for face in FACES}
    for letter, low, high in (("x", "x_front", "x_rear"), ("y", "y_left", "y_right"), ("z", "z_low", "z_high")):
        gap = f"max({KEPT[low]} - {symbols[high]}, {symbols[low]} - {KEPT[high]})"
        sheet.work(f"G_{letter}", gap, f"gap to the {volume.name}, {letter}", told)
    sheet.work("G", "max(G_x, G_y, G_z)", f"largest gap, {axis(swept, space)}", told)
    sheet.given("c", Fact(Quantity(Decimal(0), unit(told)), "the requirement itself", CHOSEN), "the item stays out of it")
    case = {"direction": pull.direction, "nearest": f"{volume.name}, {volume.kind}"}
    return sheet.at_least("G", "c", distance=True, case=case)


def _space(volume: Volume) -> Box:
    assert volume.space is not None
    return Box(*(si_of(face) for face in volume.space))


def _unbounded(pull: ItemInDirection) -> Referral:
    return Referral(
        f"How far does the {pull.item.name} go {pull.direction} before its straps hold it?",
        "its straps and feet allow a movement that stretches none of them, so that a small stretch bounds nothing",
        "the licensed person who inspects the fit",
        "a strap that holds it against that movement, or a trial with the distance measured",
    )
