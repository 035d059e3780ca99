"""Load on the seat on which an item is belted.

Requires: an item belted on a seat takes the place of one occupant, its belt runs over it from end to end, and seat and belt are rated, with evidence, for
  its ultimate load in each direction.
Because: a seat and its belt are proved for an occupant, who sits low in it; what is belted there instead is another load on them.
Method: the whole ultimate load of the item with the special factor, against the rating of the seat; the belt is assessed as a strap.
Leaves out: where on the seat the load acts, how the cushion gives, and the rails below the seat.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.restraint import Belted, ItemInDirection, Restraint
from liftout.findings import Finding
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worksheet import Worksheet

special_factors, sets, methods = table("special_factors"), table("load_factor_sets"), table("methods")


@criterion(each="belted_in_directions", tables=(special_factors, sets, methods))
def belted_seat(pull: ItemInDirection, facts: Facts) -> Finding:
    sheet, held = Worksheet(), pull.restraint
    belted = held.belted
    assert belted is not None
    taken = held.item.takes_seats
    if taken is not None and taken.declined is None:
        sheet.needs(taken.station, taken.seats)
    sheet.needs(belted.rating, belted.rating_is, *(strap.rating for strap in held.straps))
    refused = _refused(held, belted)
    if refused:
        return sheet.refused(refused)
    sheet.given("m", filled_mass(pull.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("n", load_factor(pull, facts).value("n"), f"ultimate load factor {pull.direction}")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("k_r", special_factors.row("restraint attachment").factor, "factor on restraint attachments")
    sheet.given("R", belted.rating, f"rating of the seat, {_word(belted.rating_is)}")
    sheet.work("P_k", "max(k_f, k_r) * n * m * g", "load on the seat with the special factor", "lbf")
    working = {"a working rating, taken as if it were ultimate": "the seat"} if _word(belted.rating_is) == "working" else {}
    return sheet.at_most("P_k", "R", case={"direction": pull.direction} | working)


def _refused(held: Restraint, belted: Belted) -> str:
    """Why the arrangement is none, or nothing."""
    taken, item = held.item.takes_seats, held.item.name
    there = taken is not None and taken.declined is None and isinstance(taken.seats, Fact) and taken.seats.value.magnitude >= 1
    if taken is None or not there or _word(taken.station) != belted.seat:
        return f"the {item} is belted on a seat of the {belted.seat}, and the job does not count one occupant fewer there"
    if not any(len(strap.legs) > 1 for strap in held.straps):
        return f"no belt of the {item} runs over it from end to end"
    bare = [f"the belt {strap.name}" for strap in held.straps if isinstance(strap.rating, Fact) and strap.rating.stated]
    bare += ["the seat"] if isinstance(belted.rating, Fact) and belted.rating.stated else []
    return f"seat and belt of the {item} need ratings that rest on evidence: {', '.join(bare)}" if bare else ""


def _word(fact: Fact[str] | Missing) -> str:
    return fact.value if isinstance(fact, Fact) else ""
