"""Path of an item's load to the structure.

Requires: from each item a path leads to the structure in each direction, through links that are named and rated; a seat or its rail only with evidence.
Because: a load goes where it finds the stiffest way, and what nobody named on that way nobody has checked.
Method: straps that lead away from the pull, stops, floor and brackets, each followed to its anchor; brackets must carry the whole filled weight.
Leaves out: whether each link is strong enough; what an item that leans on a tray or a stop adds to the load of that; and how the
    structure beyond the anchor passes the load on.
"""

from collections.abc import Iterable

from liftout.criteria import criterion
from liftout.facts import Amount, Fact, Facts, Missing
from liftout.facts.restraint import ItemInDirection, Restraint, Strap, spots
from liftout.facts.structure import COORDINATE, SIGN, Bracket, Mounting
from liftout.findings import Finding, Referral
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.other_anchors import other_anchors
from liftout.worksheet import Worksheet

SEATS = ("seat", "seat rail")


@criterion(each="load_paths")
def load_path(pull: ItemInDirection, facts: Facts) -> Finding:
    sheet, held = Worksheet(), pull.restraint
    mounting = next(one for one in facts.mountings if one.item is pull.item)
    if mounting.brackets:
        return _by_brackets(sheet, pull, mounting, facts)
    if held.straps or held.blocked or held.contacts:
        return _by_restraint(sheet, pull, held)
    reasons = [reason for reason in (mounting.declined, held.declined) if reason is not None]
    if not reasons:
        sheet.needs(held.place.silence if pull.item.removable else mounting.place.silence)
    return sheet.refer(
        Referral(
            f"By what does the load of the {pull.item.name} {pull.direction} reach the structure, with neither straps nor brackets described?",
            "; ".join(f"the job gives as reason: {reason.value} ({reason.origin})" for reason in reasons) or "neither straps nor brackets",
            "the licensed person who inspects the fit",
            "brackets or straps described in the job, or a decision naming what carries the load",
        )
    )


def _by_brackets(sheet: Worksheet, pull: ItemInDirection, mounting: Mounting, facts: Facts) -> Finding:
    refused = _seats((bracket.label, bracket.fastened_to, bracket.anchor_rating) for bracket in mounting.brackets)
    if refused:
        return sheet.refused(refused)
    for bracket in mounting.brackets:
        sheet.needs(bracket.fastener, bracket.fastened_to, bracket.anchor_rating, bracket.anchor_rating_is)
    path = "; ".join(f"{bracket.label}, {_word(bracket.fastener)}, {_word(bracket.fastened_to)}" for bracket in mounting.brackets)
    if len(mounting.brackets) == 1 and _alone(mounting.brackets[0]):
        return sheet.met(f"one bracket carries the whole item: {path}", case={"direction": pull.direction})
    sheet.given("m", filled_mass(pull.item, facts).value("m"), "weight of the item, filled")
    sheet.column("m_b", [(bracket.label, bracket.carries) for bracket in mounting.brackets], "weight that one bracket carries")
    sheet.column("n_b", [(bracket.label, bracket.alike) for bracket in mounting.brackets], "brackets that are alike")
    sheet.work("m_all", "sum(m_b * n_b)", "weight that has a path to the structure", "lb", places=2)
    return sheet.at_least("m_all", "m", case={"direction": pull.direction, "path": path})


def _alone(bracket: Bracket) -> bool:
    return bracket.sole and isinstance(bracket.carries, Missing)


def _by_restraint(sheet: Worksheet, pull: ItemInDirection, held: Restraint) -> Finding:
    sheet.needs(*(value for spot in spots(held) for value in spot))
    straps = [strap for strap in held.straps if _leads_away(strap, pull.direction)]
    refused = _seats((strap.name, strap.anchor, strap.rating) for strap in straps)
    if refused:
        return sheet.refused(refused, remedies=other_anchors(held, straps))
    for strap in straps:
        sheet.needs(strap.rating, strap.rating_is, strap.anchor, *strap.besides)
    links = [f"{strap.name}, {_word(strap.anchor)}" for strap in straps]
    if held.belted is not None and links:
        sheet.needs(held.belted.rating, held.belted.rating_is)
        links.append(f"the seat, {held.belted.seat}")
    if pull.direction in held.blocked:
        sheet.needs(held.block_rating)
        links.append("a stop at the base")
    if pull.direction == "down" and held.contacts:
        if pull.item.standing.declined is None:
            sheet.needs(pull.item.standing.floor)
        links.append(f"floor contacts, {_word(pull.item.standing.floor)}")
    if not links:
        return sheet.refused(f"nothing leads the load {pull.direction} to the structure", remedies=other_anchors(held, held.straps))
    return sheet.met("; ".join(links), case={"direction": pull.direction})


def _leads_away(strap: Strap, direction: str) -> bool:
    """Whether an anchor lies against the pull."""
    ends = [(getattr(leaves, COORDINATE[direction]), getattr(anchor, COORDINATE[direction])) for leaves, anchor in strap.legs]
    return any(SIGN[direction] * (end.value.si - start.value.si) < 0 for start, end in ends)


def _seats(anchors: Iterable[tuple[str, Fact[str] | Missing, Amount]]) -> str:
    """Why seats among these anchors are refused, or nothing."""
    bare = [
        f"{name} ({anchor.value})"
        for name, anchor, rating in anchors
        if isinstance(anchor, Fact) and anchor.value in SEATS and (isinstance(rating, Missing) or rating.stated)
    ]
    return f"a seat or its rail is the anchor without a rating that rests on evidence: {', '.join(bare)}" if bare else ""


def _word(fact: Fact[str] | Missing) -> str:
    return fact.value if isinstance(fact, Fact) else "the floor"
