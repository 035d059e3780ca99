"""Pull of each strap under the ultimate inertia load of an item in one direction, as the straps share it by stretching."""

import math

from liftout.facts import Facts, Missing
from liftout.facts.restraint import ItemInDirection, spots
from liftout.physics.restraint import LOAD_N, NotRestrained, elastic_share, held_factor
from liftout.tables import table
from liftout.worked import worked
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.rig import TOWARDS, as_found, compliances, needed, prove, rig
from liftout.worksheet import Worksheet

methods = table("methods")


@worked
def strap_loads(pull: ItemInDirection, facts: Facts) -> Worksheet:
    """The special factor on attachments is in the ratings and not in these loads. Nothing but the load where the floor holds it, or nothing does."""
    sheet, held, direction = Worksheet(), pull.restraint, TOWARDS[pull.direction]
    sheet.given("m", filled_mass(pull.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("n", load_factor(pull, facts).value("n"), f"ultimate load factor {pull.direction}")
    sheet.work("P", "n * m * g", f"ultimate inertia load {pull.direction}", "lbf", places=0)
    sheet.needs(pull.item.arm, pull.item.lateral, pull.item.height, *(value for spot in spots(held) for value in spot))
    sheet.needs(*(value for value in needed(held) if isinstance(value, Missing)))
    # Friction takes from the pulls what they make themselves: it counts only where nothing balances without it.
    item = rig(held._replace(friction=None), 1)
    if held.friction is not None and not held_factor(item, direction):
        item = rig(held, 1)
    if not 0 < held_factor(item, direction) < math.inf:
        return sheet
    try:
        share = elastic_share(item, direction, sheet.si("P") / LOAD_N, *compliances(sheet, held, item))
    except NotRestrained:
        return sheet
    for number, (strap, tension) in enumerate(zip(held.straps, share.tensions_n, strict=False), 1):
        sheet.given(f"T_{number}", as_found(tension, "lbf", places=0), f"pull of {strap.name}")
    prove(sheet, item, direction, share, 1.0, "P", "pull or push of each, elastic share, found by search")
    return sheet
