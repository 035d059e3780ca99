"""Load factor to which an item is held with any one strap missing.

Requires: with any one strap missing the item is held to the lower load factors that the job declares for that; where it declares none, a person decides.
Because: a strap is forgotten, chafes through or works loose, and nobody sees it in flight.
Method: each strap left out in turn, in each direction; the smaller of the plastic limit and the elastic share, of the worst strap against the demand.
  Straps at one anchor may pull no more in sum than it is rated for. Friction counts only where the job tells it and the item is not held without it,
  and then a person decides.
Leaves out: two straps missing, a stop or a floor missing, and the jerk with which the load passes to those that are left.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.restraint import ItemInDirection, Restraint, spots
from liftout.findings import Finding, Referral
from liftout.physics.restraint import LOAD_N, Held, Item, held_without_each
from liftout.quantities import Quantity
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worked.structure.load_factor import load_factor
from liftout.worked.structure.rig import TOWARDS, as_found, compliances, governed, needed, prove, rig, stretch_facts
from liftout.worksheet import AT_LIMIT, Lacking, Result, Worksheet

special_factors, sets, methods = table("special_factors"), table("load_factor_sets"), table("methods")

OF_DEMAND = {"forward": "forward", "aft": "aft", "up": "up", "down": "down", "left": "side", "right": "side"}
"""Key of the lower demand by direction."""


class Worst(NamedTuple):
    """The strap whose loss lets the item go first in one direction."""

    direction: str
    strap: str
    left: Held

    def told(self, factor: float) -> str:
        """As a sentence gives it, with the load factor held."""
        return f"{self.direction} {factor:.2f} without {self.strap}" if self.left.factor else f"{self.direction} not restrained without {self.strap}"


@criterion(each="strapped_items", tables=(special_factors, sets, methods))
def one_strap_missing(held: Restraint, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("m", filled_mass(held.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("k_f", special_factors.row("fitting").factor, "fitting factor")
    sheet.given("k_r", special_factors.row("restraint attachment").factor, "factor on restraint attachments")
    sheet.needs(held.item.arm, held.item.lateral, held.item.height, *needed(held))
    sheet.needs(*(value for spot in spots(held) for value in spot))
    sheet.work("k", "max(k_f, k_r)", "special factor, the highest and not a product")
    bare = held._replace(friction=None)
    item = rig(bare, sheet.si("k"))
    soft, stiff = compliances(sheet, held, item)
    sheet.rests_on(*stretch_facts(held, [strap.name for strap in held.straps]))
    pulls = [pull for pull in facts.strapped_in_directions if pull.restraint is held]
    worst = [found for pull in pulls if (found := _worst(held, item, pull, soft, stiff))]
    if not worst:
        return sheet.met("floor and stops hold it in every direction, whatever the straps do")
    for one in worst:
        demand, whose = _demand(held, one.direction, facts)
        sheet.given(f"d_{one.direction}", demand, f"{whose} {one.direction}")
    weight = sheet.si("m") * sheet.si("g")
    short = [one for one in worst if one.left.factor * LOAD_N < sheet.si(f"d_{one.direction}") * weight * (1 - float(AT_LIMIT))]
    rubs = held.friction if held.friction is not None and held.friction.value.si and short else None
    without = "; ".join(one.told(one.left.factor * LOAD_N / weight) for one in short)
    if rubs is not None:
        sheet.rests_on(rubs)
        item = rig(held, sheet.si("k"))
        # What the floor holds without friction it holds with it: no direction comes in.
        worst = [found for pull in pulls if (found := _worst(held, item, pull, soft, stiff))]
        if not worst:
            return sheet.refer(_by_friction(held, rubs, without))
    first = min(worst, key=lambda one: one.left.factor / demanded if (demanded := sheet.si(f"d_{one.direction}")) else math.inf)
    for one in worst:
        _hold(sheet, one, proved=one is first and bool(one.left.factor))
    told = {one: one.told(sheet.si(f"n_{one.direction}")) for one in worst}
    gone = [told[one] for one in worst if not one.left.factor]
    if held.lower is not None and gone:
        return sheet.refused(f"not restrained with one strap missing: {', '.join(gone)}")
    _print(sheet, held, item, first)
    case = {"direction": first.direction, "strap missing": first.strap} | ({} if first.left.factor else {"without it": "not restrained"})
    allow = None if held.lower else _undeclared(held, told.values())
    asked = None if rubs is None else _by_friction(held, rubs, without)
    return sheet.strength(f"n_{first.direction}", f"d_{first.direction}", case=case, allow=allow, referral=asked)


def _worst(held: Restraint, item: Item, pull: ItemInDirection, soft: list[float], stiff: float) -> Worst | None:
    """None where the item is held whatever the straps do."""
    found = zip(held.straps, held_without_each(item, TOWARDS[pull.direction], soft, stiff), strict=False)
    worst = min((Worst(pull.direction, strap.name, left) for strap, left in found), key=lambda one: one.left.factor)
    return None if math.isinf(worst.left.factor) else worst


def _demand(held: Restraint, direction: str, facts: Facts) -> tuple[Fact[Quantity] | Missing | Result | Lacking, str]:
    """What must be held: the lower demand where the job declares it, else the whole."""
    if held.lower is not None:
        return held.lower.quantity(OF_DEMAND[direction]), "lower demand with one strap missing,"
    pull = next(pull for pull in facts.strapped_in_directions if pull.restraint is held and pull.direction == direction)
    return load_factor(pull, facts).value("n"), "ultimate load factor"


def _hold(sheet: Worksheet, one: Worst, *, proved: bool) -> None:
    """The load held in one direction, and the factor; only of the one that decides the loading is printed, which proves it."""
    meaning = f"load held {one.direction} without {one.strap}" if one.left.factor else f"nothing balances a load {one.direction} without {one.strap}"
    if proved:
        sheet.found(f"P_{one.direction}", one.left.factor * LOAD_N, meaning, "lbf")
    else:
        sheet.given(f"P_{one.direction}", as_found(one.left.factor * LOAD_N, "lbf", places=4 if one.left.factor else 0), meaning)
    sheet.work(f"n_{one.direction}", f"P_{one.direction} / (m * g)", f"load factor held {one.direction} without {one.strap}")


def _print(sheet: Worksheet, held: Restraint, item: Item, worst: Worst) -> None:
    """The loading that decides; none where nothing balances."""
    share = worst.left.stretching
    if share is not None:
        meaning = f"pull or push of each {worst.direction} without {worst.strap}, elastic share, found by search"
        left = item.without(worst.strap)
        prove(sheet, left, TOWARDS[worst.direction], share, worst.left.factor, f"P_{worst.direction}", meaning)
        governed(sheet, held, left, share)


def _by_friction(held: Restraint, friction: Fact[Quantity], without: str) -> Referral:
    return Referral(
        f"May the {held.item.name} be held with one strap missing by friction, which its own straps make as they are pulled?",
        f"without friction: {without}; friction of the contacts: {friction.value} ({friction.origin}, {friction.evidence})",
        "a licensed person with the structure's data",
        "straps or stops that hold it without friction, or a decision naming what presses it on the floor and how that was measured",
    )


def _undeclared(held: Restraint, told: Iterable[str]) -> Referral:
    return Referral(
        f"May the {held.item.name} be flown though it is not held to the whole demand with any one strap missing?",
        f"factors held with the worst strap missing: {'; '.join(told)}; the job declares no lower demand",
        "a licensed person with the structure's data",
        "a lower demand declared in the job with its source, more straps, or a decision that every strap is looked at before each flight",
    )
