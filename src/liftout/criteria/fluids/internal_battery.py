"""A battery inside an item.

Requires: a lithium battery inside an item of the fit is a licensed person's decision.
Because: a lithium cell that runs away burns with its own oxygen, and cannot be put out with what a cabin carries.
Method: what the job says of a battery inside each item, and its chemistry.
Leaves out: capacity, charging in flight, shorted terminals in baggage, and what a passenger brings along.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.equipment import Item
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet

LITHIUM = "lithium"


@criterion(each="items")
def internal_battery(item: Item, facts: Facts) -> Finding:
    sheet, place = Worksheet(), item.place.part("internal_battery")
    sheet.described(place, item.place.missing("internal_battery"))
    chemistry = place.word("chemistry")
    sheet.needs(chemistry)
    assert isinstance(chemistry, Fact)
    if chemistry.value == LITHIUM:
        caution = f"WARNING: a lithium battery in the {item.name} can catch fire without a cause from outside, and burns without air."
        return sheet.refer(_asks(item, chemistry), caution=caution)
    return sheet.met(f"its battery is a {chemistry.value} one")


def _asks(item: Item, chemistry: Fact[str]) -> Referral:
    return Referral(
        f"May the {item.name} be carried with the lithium battery inside it?",
        f"{chemistry.origin}: {chemistry.value}",
        "the licensed person who inspects the fit, by the certification basis of the aircraft",
        "a battery of another chemistry, or a decision that names the battery's own approval and how it is contained",
    )
