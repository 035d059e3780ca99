"""Pressure of an item's feet on the floor.

Requires: the static weight of an item over the area of all its feet stays within what the floor bears under single feet.
Because: four small feet press many times harder than the outline suggests, and dent or pierce a panel that bears the item easily.
Method: filled weight times standard gravity over the area in contact, before any strap is tightened.
  Where the maker gives no limit the job says so with its reason, and a licensed person decides.
Leaves out: the pull of tightened straps, and feet that do not share alike.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.floors import OnFloor
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worked.fluids.filled_mass import filled_mass
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="items_on_floors", tables=(methods,))
def foot_pressure(on: OnFloor, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.given("m", filled_mass(on.item, facts).value("m"), "weight of the item, filled")
    sheet.given("g", methods.row("standard gravity").g, "standard gravity")
    sheet.given("A_c", on.item.standing.contact, "area of all feet together")
    sheet.work("p", "m * g / A_c", "pressure under the feet", "psi")
    if on.feet_declined is not None:
        return sheet.refer(
            Referral(
                f"May the feet of the {on.item.name} press on the floor as they do, for which no limit under feet is known?",
                f"the job gives as reason: {on.feet_declined.value} ({on.feet_declined.origin})",
                "the licensed person who inspects the fit, with the maker's data of the floor",
                "a limit from the maker, or a plate under the feet that spreads their load",
            )
        )
    sheet.given("p_max", on.feet_limit, "limit of the floor under feet")
    sheet.work("s_p", "p / p_max", "share of the limit that the feet take")
    return sheet.at_most("p", "p_max")
