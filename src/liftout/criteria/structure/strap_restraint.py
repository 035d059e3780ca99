"""Load factor to which an item is held.

Requires: straps, stops and floor hold the filled item against its ultimate inertia load in each direction, with the special factor on attachments.
Because: in an emergency landing an item that breaks loose strikes whoever sits ahead of it.
Method: equilibrium of forces and moments with straps that only pull and a floor that only pushes; the smaller of the plastic limit and the elastic share.
  It rests on the ratings of what acts in the loading shown, and on no strap's where the floor holds alone.
Leaves out: friction, the strength of the item's own case and of the floor under its feet, and one strap missing.
"""

import math
from decimal import Decimal

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.restraint import ItemInDirection, Restraint, Spot, spots
from liftout.findings import Finding, Referral
from liftout.physics.restraint import RIGID, Item, NotRestrained, Sharing, Strap, Support, Vector, elastic_share, held_factor
from liftout.quantities import Quantity, from_si, half_up, unit
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.other_anchors import other_anchors
from liftout.worksheet import Result, Worksheet, declined

special_factors, sets, methods = table("special_factors"), table("load_factor_sets"), table("methods")

SEATS = ("seat", "seat rail")

TOWARDS: dict[str, Vector] = {"forward": (-1, 0, 0), "aft": (1, 0, 0), "right": (0, 1, 0), "left": (0, -1, 0), "up": (0, 0, 1), "down": (0, 0, -1)}
"""Direction of the inertia force: arms count aft, lateral arms to the right, heights up."""


@criterion(each="items_in_directions", tables=(special_factors, sets, methods))
def strap_restraint(pull: ItemInDirection, facts: Facts) -> Finding:
    held = pull.restraint
    sheet = Worksheet()
    if held.declined is not None and facts.fastened(pull.item):
        return declined(held.declined)
    if held.declined is not None:
        return sheet.refer(
            Referral(
                f"May the {pull.item.name} stay unrestrained against its inertia {pull.direction}?",
                f"the job gives as reason: {held.declined.value} ({held.declined.origin})",
                "a licensed person with the structure's data",
                "a decision naming what holds the item instead, and its strength",
            )
        )
    if not held.place.there:
        sheet.needs(held.place.silence)
    sheet.given("m", filled_mass(pull.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("n", load_factor(pull, facts).value("n"), f"ultimate load factor {pull.direction}")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("k_r", special_factors.row("restraint attachment").factor, "factor on restraint attachments")
    sheet.needs(held.frequent_removal, pull.item.arm, pull.item.lateral, pull.item.height)
    sheet.needs(*(value for spot in held.contacts for value in (spot.arm, spot.lateral, spot.height)))
    ratings: dict[str, tuple[Fact[Quantity] | Fact[str] | Missing, ...]] = {
        **{strap.name: (strap.rating, strap.rating_is, strap.anchor, *strap.besides) for strap in held.straps},
        **{f"stop {side}": (held.block_rating,) for side in held.blocked},
    }
    direction = TOWARDS[pull.direction]
    sheet.work("k", "max(k_f, k_r)", "special factor, the highest and not a product")
    weight_n = sheet.si("m") * sheet.si("g")
    # The floor only pushes upward; where it holds alone, nothing need be known of the straps.
    if pull.direction == "down" and math.isinf(held_factor(_rigid(held, weight_n, sheet.si("k"), floor_only=True), direction)):
        return _by_floor(sheet, pull)
    sheet.needs(*(value for spot in spots(held) for value in (spot.arm, spot.lateral, spot.height)))
    sheet.needs(*(value for told in ratings.values() for value in told if isinstance(value, Missing)))
    item = _rigid(held, weight_n, sheet.si("k"))
    plastic = held_factor(item, direction)
    if math.isinf(plastic):
        return _by_floor(sheet, pull)
    if not plastic:
        reason = "not restrained: no straps, stops or floor lie so that forces and moments can balance"
        return sheet.refused(reason, remedies=other_anchors(held, held.straps))
    lengths = [strap.length_m for strap in item.straps[: len(held.straps)]]
    rigid = min(lengths, default=1) * RIGID
    try:
        elastic = elastic_share(item, direction, 1, [*lengths, *(rigid for _ in item.straps[len(held.straps) :])], rigid)
    except NotRestrained:
        return sheet.refused("not restrained: forces and moments cannot balance", remedies=other_anchors(held, held.straps))
    sheet.found("n_p", plastic, "factor held if the straps yield and share (plastic limit)", "")
    sheet.found("n_e", 1 / elastic.utilisation, "factor held if the straps stretch (elastic share)", "")
    sheet.work("n_held", "min(n_p, n_e)", "factor held, the smaller")
    acting = _prove(sheet, item, direction, elastic, 1 / elastic.utilisation)
    # The factor held is that of the elastic share, since no more can be shared than the plastic limit; a strap that is slack in it has no part.
    sheet.rests_on(*(value for name in acting for value in ratings.get(name, ()) if isinstance(value, Fact)))
    seats = [strap.name for strap in held.straps if strap.name in acting and isinstance(strap.anchor, Fact) and strap.anchor.value in SEATS]
    working = [strap.name for strap in held.straps if isinstance(strap.rating_is, Fact) and strap.rating_is.value == "working"]
    case = {"direction": pull.direction} | ({"working ratings taken as if they were ultimate": ", ".join(working)} if working else {})
    otherwise = other_anchors(held, held.straps)
    return sheet.strength("n_held", "n", case=case, referral=_seated(pull, seats) if seats else None, otherwise=otherwise)


def _by_floor(sheet: Worksheet, pull: ItemInDirection) -> Finding:
    return sheet.met("held by the floor alone, whatever the straps do", case={"direction": pull.direction})


def _seated(pull: ItemInDirection, seats: list[str]) -> Referral:
    """What must be asked where a seat or its rail is the anchor, even when the numbers hold."""
    ratings = [
        f"{strap.name}: {strap.rating.value}, {strap.rating.evidence}"
        for strap in pull.restraint.straps
        if strap.name in seats and isinstance(strap.rating, Fact)
    ]
    return Referral(
        f"Is the seat or seat rail that holds {', '.join(seats)} of the {pull.item.name} rated for this load {pull.direction}, beside its occupant's?",
        "; ".join(ratings),
        "a licensed person with the seat maker's data",
        "the seat maker's rating for this use, with its document",
    )


def _rigid(held: Restraint, weight_n: float, special: float, *, floor_only: bool = False) -> Item:
    floor = [Support(f"floor {number}", _point(spot), (0, 0, 1)) for number, spot in enumerate(held.contacts, 1)]
    centre = (_coordinate(held.item.arm), _coordinate(held.item.lateral), _coordinate(held.item.height))
    if floor_only:
        return Item(weight_n, centre, (), tuple(floor))
    straps = tuple(
        Strap(strap.name, _point(strap.attached), _point(strap.anchored), strap.rating.value.si_float / special)
        for strap in held.straps
        if isinstance(strap.rating, Fact)
    )
    low = min((support.point_m[2] for support in floor), default=centre[2])
    return Item(weight_n, centre, (*straps, *_stops(held, (centre[0], centre[1], low), special)), tuple(floor))


def _stops(held: Restraint, foot: Vector, special: float) -> list[Strap]:
    """Stops at the base, each as something that pulls the foot of the item back with no more than its strength."""
    if not isinstance(held.block_rating, Fact):
        return []
    rating = held.block_rating.value.si_float / special
    return [
        Strap(f"stop {side}", foot, (foot[0] - TOWARDS[side][0], foot[1] - TOWARDS[side][1], foot[2] - TOWARDS[side][2]), rating)
        for side in held.blocked
    ]


def _point(spot: Spot) -> Vector:
    return _coordinate(spot.arm), _coordinate(spot.lateral), _coordinate(spot.height)


def _coordinate(value: Fact[Quantity] | Missing) -> float:
    assert isinstance(value, Fact)
    return value.value.si_float


def _prove(sheet: Worksheet, item: Item, direction: Vector, share: Sharing, factor: float) -> list[str]:
    """Print the loading at the elastic factor and its six sums, which must be nothing.

    Returns:
        Names of all that acts in it.
    """
    forces = [
        (strap.name, tension * factor, strap.pull, strap.attachment_m)
        for strap, tension in zip(item.straps, share.tensions_n, strict=True)
        if tension * factor > 1 / 2
    ]
    forces += [
        (support.name, push * factor, support.push, support.point_m)
        for support, push in zip(item.supports, share.pushes_n, strict=True)
        if push * factor > 1 / 2
    ]
    sheet.column(
        "F", [(name, _rounded(force, "lbf", 1)) for name, force, _, _ in forces], "pull or push of each at the elastic factor, found by search"
    )
    for axis, letter in enumerate("xyz"):
        sheet.column(f"u_{letter}", [(name, _rounded(pull[axis], "", 5)) for name, _, pull, _ in forces], f"its direction, {letter}")
        sheet.column(
            f"a_{letter}",
            [(name, _rounded(point[axis] - item.centre_m[axis], "in", 2)) for name, _, _, point in forces],
            f"from the centre of gravity, {letter}",
        )
    for axis, letter in enumerate("xyz"):
        sign = {1: " + n_e * m * g", -1: " - n_e * m * g"}.get(int(direction[axis]), "")
        sheet.work(f"S_{letter}", f"sum(F * u_{letter}){sign}", f"sum of forces, {letter}: nothing but rounding", "lbf", places=0)
    for letter, one, other in (("x", "y", "z"), ("y", "z", "x"), ("z", "x", "y")):
        sheet.work(
            f"Q_{letter}",
            f"sum(F * (a_{one} * u_{other} - a_{other} * u_{one}))",
            f"sum of moments about {letter}: nothing but rounding",
            "lbf·in",
            places=0,
        )
    return [name for name, _, _, _ in forces]


def _rounded(value_si: float, symbol: str, places: int) -> Result:
    quantity = from_si(Decimal(repr(value_si)), symbol)
    return Result(Quantity(half_up(quantity.magnitude, places), unit(symbol)), "found by search")
