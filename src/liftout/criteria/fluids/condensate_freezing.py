"""Freezing of water in a condensate tube.

Requires: no water may stand in the tube in outside air that is colder than its freezing point.
Because: ice closes the tube, the next water backs up into the cabin, and a lump that lets go strikes what is behind it.
Method: the coldest outside air in which the item still makes water, against the freezing point of water.
Leaves out: cold metal in still warm air, water that is left from before, and wind chill on a wet outlet.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.condensate import Condensate
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

methods = table("methods")


@criterion(each="condensates", tables=(methods,))
def condensate_freezing(made: Condensate, facts: Facts) -> Finding:
    sheet = Worksheet()
    sheet.needs(made.makes)
    assert isinstance(made.makes, Fact)
    if not made.makes.value:
        return sheet.met("it makes no water that could freeze")
    sheet.described(made.section, facts.place.missing("condensate"))
    sheet.described(made.tube)
    sheet.given("T_a", made.tube.quantity("coldest_outside"), "coldest outside air in which water is made")
    return sheet.at_least("T_a", methods.row("moist air").T_ice, distance=True, allow=_asks(made))


def _asks(made: Condensate) -> Referral:
    told = made.tube.quantity("coldest_outside")
    return Referral(
        f"May the {made.name} make water in air in which its tube can freeze?",
        f"coldest outside air {told.value} ({told.origin})" if isinstance(told, Fact) else "",
        "the maker of the equipment, or the licensed person who inspects the fit",
        "a limit of outside air written in the pilot's pages, a heated tube from declared data, or a decision that says why it does not freeze",
    )
