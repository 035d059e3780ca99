"""Something that holds each item, in each direction.

Requires: each removable item is held in each of the six directions by a strap that leads away from the pull, a stop or a floor.
Because: an item held on five sides leaves by the sixth.
Method: for each direction, straps whose anchor lies against the pull, stops and floor contacts, counted.
Leaves out: whether they are strong enough.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.restraint import ItemInDirection, Spot, spots
from liftout.facts.structure import COORDINATE, SIGN
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet, declined


@criterion(each="items_in_directions")
def restraints(pull: ItemInDirection, facts: Facts) -> Finding:
    held = pull.restraint
    sheet = Worksheet()
    if held.declined is not None and facts.fastened(pull.item):
        return declined(held.declined)
    if held.declined is not None:
        return sheet.refer(
            Referral(
                f"Does anything else hold the {pull.item.name} {pull.direction}, for which the job declares no restraint?",
                f"the job gives as reason: {held.declined.value} ({held.declined.origin})",
                "the licensed person who inspects the fit",
                "a restraint described in the job, or a decision why none is needed",
            )
        )
    if not held.place.there:
        sheet.needs(held.place.silence)
    sheet.needs(*(getattr(spot, coordinate) for spot in spots(held) for coordinate in ("arm", "lateral", "height")))
    coordinate, towards = COORDINATE[pull.direction], SIGN[pull.direction]
    straps = [strap for strap in held.straps if any(towards * _lead(*leg, coordinate) < 0 for leg in strap.legs)]
    sheet.count("n_straps", len(straps), f"straps that hold against the pull {pull.direction}", held.place)
    sheet.count("n_stops", int(pull.direction in held.blocked), "stops at the base", held.place)
    sheet.count("n_floor", len(held.contacts) if pull.direction == "down" else 0, "floor contacts", held.place)
    sheet.work("n", "n_straps + n_stops + n_floor", "straps, stops and floor contacts that hold it", places=0)
    return sheet.at_least("n", 1)


def _lead(attached: Spot, anchored: Spot, coordinate: str) -> float:
    start, end = getattr(attached, coordinate), getattr(anchored, coordinate)
    return float(end.value.si - start.value.si)
