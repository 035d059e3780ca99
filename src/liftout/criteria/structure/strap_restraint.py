"""Load factor to which an item is held.

Requires: straps, stops and floor hold the filled item against its ultimate inertia load in each direction, with the special factor on attachments.
Because: in an emergency landing an item that breaks loose strikes whoever sits ahead of it.
Method: equilibrium of forces and moments with straps that only pull and a floor that only pushes; the smaller of the plastic limit and the elastic share,
  or the plastic limit where all straps are equal in webbing and length. It rests on the ratings of what acts in the loading shown, and on no strap's
  where the floor holds alone. Friction counts only where the job tells it.
Leaves out: the strength of the item's own case and of the floor under its feet; one strap missing (see structure.one_strap_missing).
"""

import math

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.restraint import ItemInDirection, Restraint, spots
from liftout.findings import Finding, Referral
from liftout.physics.restraint import LOAD_N, held_factor, held_to, largest_factor
from liftout.quantities import Quantity
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.other_anchors import other_anchors
from liftout.worked.structure.rig import TOWARDS, alike, compliances, governed, prove, rig, stretch_facts
from liftout.worksheet import Worksheet, declined

special_factors, sets, methods = table("special_factors"), table("load_factor_sets"), table("methods")

SEATS = ("seat", "seat rail")


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
    # The floor only pushes upward; where it holds alone, nothing need be known of the straps.
    if pull.direction == "down" and math.isinf(held_factor(rig(held, sheet.si("k"), floor_only=True), direction)):
        return _by_floor(sheet, pull)
    sheet.needs(*(value for spot in spots(held) for value in (spot.arm, spot.lateral, spot.height)))
    sheet.needs(*(value for told in ratings.values() for value in told if isinstance(value, Missing)))
    item = rig(held, sheet.si("k"))
    plastic = held_factor(item, direction)
    if math.isinf(plastic):
        return _by_floor(sheet, pull)
    if not plastic:
        reason = "not restrained: no straps, stops or floor lie so that forces and moments can balance"
        return sheet.refused(reason, remedies=other_anchors(held, held.straps))
    whole = held_to(item, direction, *compliances(sheet, held, item))
    if whole.stretching is None:
        return sheet.refused("not restrained: forces and moments cannot balance", remedies=other_anchors(held, held.straps))
    sheet.found("P_p", whole.plastic * LOAD_N, "load held if the straps yield and share (plastic limit)", "lbf")
    sheet.found("P_e", whole.elastic * LOAD_N, "load held if the straps stretch (elastic share)", "lbf")
    sheet.work("n_p", "P_p / (m * g)", "load factor held if the straps yield and share")
    sheet.work("n_e", "P_e / (m * g)", "load factor held if the straps stretch")
    if alike(held, item):
        sheet.work("n_held", "n_p", "load factor held: of straps equal in webbing and length the plastic limit")
        share, times, load = largest_factor(item, direction), 1.0, "P_p"
        sheet.rests_on(*(strap.webbing for strap in held.straps if isinstance(strap.webbing, Fact)))
    else:
        sheet.work("n_held", "min(n_p, n_e)", "load factor held, the smaller")
        share, times, load = whole.stretching, whole.elastic, "P_e"
    acting = prove(sheet, item, direction, share, times, load, "pull or push of each at that load, found by search")
    governed(sheet, held, item, share)
    # A strap that is slack in the loading that counts has no part in it.
    sheet.rests_on(*(value for name in acting for value in ratings.get(name, ()) if isinstance(value, Fact)))
    sheet.rests_on(*stretch_facts(held, acting))
    if held.friction is not None and any(name.startswith("floor") for name in acting):
        sheet.rests_on(held.friction)
    seats = [strap.name for strap in held.straps if strap.name in acting and isinstance(strap.anchor, Fact) and strap.anchor.value in _asked(held)]
    case = {"direction": pull.direction, "governed by": ", ".join(share.governing(item))} | _working(held)
    otherwise = other_anchors(held, held.straps)
    return sheet.strength("n_held", "n", case=case, referral=_seated(pull, seats) if seats else None, otherwise=otherwise)


def _by_floor(sheet: Worksheet, pull: ItemInDirection) -> Finding:
    return sheet.met("held by the floor alone, whatever the straps do", case={"direction": pull.direction})


def _working(held: Restraint) -> dict[str, str]:
    names = [strap.name for strap in held.straps if isinstance(strap.rating_is, Fact) and strap.rating_is.value == "working"]
    return {"working ratings taken as if they were ultimate": ", ".join(names)} if names else {}


def _asked(held: Restraint) -> tuple[str, ...]:
    """Anchors that must be asked about. Where the item is belted on a seat nobody sits there, and the seat is assessed by itself."""
    return SEATS if held.belted is None else ("seat rail",)


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
