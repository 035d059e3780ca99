"""Refrigerant in the volume of the cabin.

Requires: all of the refrigerant of an item, leaked into the cabin, stays below the published limit; one that burns is a person's decision.
Because: refrigerant is heavier than air, puts persons to sleep or displaces their oxygen, and turns poisonous at a hot surface.
Method: charge over the free volume of the cabin, evenly spread, against the limit for occupied spaces of buildings.
Leaves out: pools near the floor, fresh air, cabin altitude, what fire makes of it, and the trade's own rules for who may open the circuit.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.equipment import Item
from liftout.findings import Finding, Referral
from liftout.tables import table
from liftout.worksheet import Worksheet

limits = table("refrigerant_limits")


@criterion(each="items", tables=(limits,))
def refrigerant_charge(item: Item, facts: Facts) -> Finding:
    sheet, place = Worksheet(), item.place.part("refrigerant")
    sheet.described(place, item.place.missing("refrigerant"))
    burns = place.answer("flammable")
    sheet.needs(burns)
    assert isinstance(burns, Fact)
    if burns.value:
        caution = f"WARNING: the refrigerant of the {item.name} burns. A leak in a closed cabin can explode."
        return sheet.refer(_asks(item, burns), caution=caution)
    sheet.given("m", place.quantity("charge"), "charge of refrigerant")
    sheet.given("V", facts.place.part("cabin").quantity("volume"), "free volume of the cabin")
    limit = sheet.row(limits, place.word("name")).limit
    sheet.work("c", "m / V", "refrigerant in the air of the cabin, were all of it to leak", "kg/m^3")
    return sheet.at_most("c", limit)


def _asks(item: Item, burns: Fact[bool]) -> Referral:
    return Referral(
        f"May the {item.name} be carried in the cabin, whose refrigerant burns?",
        f"{burns.origin}: the job says that it is flammable",
        "the authority or its delegate, by the certification basis of the aircraft",
        "another refrigerant, or a decision from data that show what a leak does in this cabin",
    )
