"""Load factor to which an item is held.

Requires: straps, stops and floor hold the filled item against its ultimate inertia load in each direction, with the special factor on attachments.
Because: in an emergency landing an item that breaks loose strikes whoever sits ahead of it.
Method: equilibrium of forces and moments with straps that only pull and a floor that only pushes; the smaller of the plastic limit and the elastic share,
  for straps of equal stiffness need not pull alike. It rests on the ratings of what acts in the loading shown, and on no strap's where the floor
  holds alone. Friction counts only where the job tells it and the item is not held without it, and then a person decides: what presses the item on the
  floor is mostly its own straps, and not the load. Straps at one anchor may pull no more in sum than it is rated for.
Leaves out: the strength of the item's own case and of the floor under its feet; one strap missing (see structure.one_strap_missing).
"""

import math

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.restraint import ItemInDirection, Restraint, spots
from liftout.findings import Finding, Referral
from liftout.physics.restraint import LOAD_N, Item, Vector, held_factor, held_to
from liftout.quantities import Quantity
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.other_anchors import other_anchors
from liftout.worked.structure.rig import TOWARDS, compliances, governed, one_anchor, prove, rig, stretch_facts
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
    bare = held._replace(friction=None)
    if pull.direction == "down" and math.isinf(held_factor(rig(bare, sheet.si("k"), floor_only=True), direction)):
        return _by_floor(sheet, pull)
    sheet.needs(*(value for spot in spots(held) for value in (spot.arm, spot.lateral, spot.height)))
    sheet.needs(*(value for told in ratings.values() for value in told if isinstance(value, Missing)))
    item = rig(bare, sheet.si("k"))
    if math.isinf(held_factor(item, direction)):
        return _by_floor(sheet, pull)
    rubs = held.friction is not None and bool(held.friction.value.si) and _falls_short(sheet, bare, item, direction)
    if rubs:
        item = rig(held, sheet.si("k"))
        if math.isinf(held_factor(item, direction)):
            return sheet.refer(_by_friction(sheet, pull), case={"direction": pull.direction})
    if not held_factor(item, direction):
        reason = "not restrained: no straps, stops or floor lie so that forces and moments can balance"
        return sheet.refused(reason, remedies=other_anchors(held, held.straps))
    whole = held_to(item, direction, *compliances(sheet, held, item))
    if whole.stretching is None:
        return sheet.refused("not restrained: forces and moments cannot balance", remedies=other_anchors(held, held.straps))
    sheet.found("P_p", whole.plastic * LOAD_N, "load held if the straps yield and share (plastic limit)", "lbf")
    sheet.found("P_e", whole.elastic * LOAD_N, "load held if the straps stretch (elastic share)", "lbf")
    sheet.work("n_p", "P_p / (m * g)", "load factor held if the straps yield and share")
    sheet.work("n_e", "P_e / (m * g)", "load factor held if the straps stretch")
    sheet.work("n_held", "min(n_p, n_e)", "load factor held, the smaller")
    share = whole.stretching
    acting = prove(sheet, item, direction, share, whole.elastic, "P_e", "pull or push of each at that load, found by search")
    governed(sheet, held, item, share)
    # A strap that is slack in the loading that counts has no part in it.
    sheet.rests_on(*(value for name in acting for value in ratings.get(name, ()) if isinstance(value, Fact)))
    sheet.rests_on(*stretch_facts(held, acting))
    if rubs and held.friction is not None:
        sheet.rests_on(held.friction)
    seats = [strap.name for strap in held.straps if strap.name in acting and isinstance(strap.anchor, Fact) and strap.anchor.value in _asked(held)]
    case = {"direction": pull.direction, "governed by": ", ".join(share.governing(item))} | _working(held)
    otherwise = other_anchors(held, held.straps)
    questions = [_seated(pull, seats)] if seats else []
    questions += [question for question in (_with_others(pull, acting, facts), _by_friction(sheet, pull) if rubs else None) if question]
    return sheet.strength("n_held", "n", case=case, referral=_together(questions), otherwise=otherwise)


def _falls_short(sheet: Worksheet, bare: Restraint, item: Item, direction: Vector) -> bool:
    """Whether the item is not held to the demand without friction; what it is held to is printed."""
    left = held_to(item, direction, *compliances(sheet, bare, item)).factor
    sheet.found("P_o", left * LOAD_N, "load held without friction", "lbf")
    sheet.work("n_o", "P_o / (m * g)", "load factor held without friction")
    return sheet.exceeds("n", "n_o")


def _by_friction(sheet: Worksheet, pull: ItemInDirection) -> Referral:
    friction = pull.restraint.friction
    assert friction is not None
    without = f"is held to a load factor of {sheet.si('n_o'):.2f}" if sheet.si("n_o") else "is not held at all"
    return Referral(
        f"Without friction the {pull.item.name} {without} {pull.direction}: may friction hold it, which its own straps make as they are pulled?",
        f"friction of the contacts: {friction.value} ({friction.origin}, {friction.evidence})",
        "a licensed person with the structure's data",
        "straps or stops that hold it without friction, or a decision naming what presses it on the floor and how that was measured",
    )


def _together(questions: list[Referral]) -> Referral | None:
    """All that must be asked, as one question."""
    if len(questions) < 2:
        return questions[0] if questions else None
    return questions[0]._replace(
        question=" ".join(one.question for one in questions),
        facts="; ".join(one.facts for one in questions),
        who="; ".join(dict.fromkeys(one.who for one in questions)),
        closes="; ".join(one.closes for one in questions),
    )


def _by_floor(sheet: Worksheet, pull: ItemInDirection) -> Finding:
    return sheet.met("held by the floor alone, whatever the straps do", case={"direction": pull.direction})


def _working(held: Restraint) -> dict[str, str]:
    names = [strap.name for strap in held.straps if isinstance(strap.rating_is, Fact) and strap.rating_is.value == "working"]
    return {"working ratings taken as if they were ultimate": ", ".join(names)} if names else {}


def _with_others(pull: ItemInDirection, acting: list[str], facts: Facts) -> Referral | None:
    """What must be asked where straps of another item pull at the same anchor: each item is held as if it had the anchor for itself."""
    own = [(strap.name, end) for strap in pull.restraint.straps if strap.name in acting for _, end in strap.legs]
    others = [held for held in facts.strapped_items if held.item.name != pull.item.name]
    ends = [(f"{strap.name} of the {held.item.name}", end) for held in others for strap in held.straps for _, end in strap.legs]
    met = [(name, other) for name, end in own for other, at in ends if one_anchor(end, at)]
    if not met:
        return None
    return Referral(
        f"Does the anchor of {', '.join(dict.fromkeys(name for name, _ in met))} of the {pull.item.name} bear what pulls {pull.direction} on it in all?",
        f"{', '.join(dict.fromkeys(other for _, other in met))} pulls there too; each is computed as if it had the anchor for itself",
        "a licensed person with the structure's data",
        "an anchor of its own for each item, or a decision naming what the anchor bears in all",
    )


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
