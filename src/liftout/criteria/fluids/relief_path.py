"""Relief and vent of what an item carries.

Requires: a person reads where relief and vent of contents that are used up lead; the change of centre of gravity as they are used is told.
Because: oxygen that vents into a closed space feeds any fire there, and an item that empties in flight moves the centre of gravity.
Method: the path as the job names it, and the moment of the full contents taken out of the amended empty weight.
Leaves out: whether the path will do, which no word of a job shows: lines of the checklist ask the inspector to look at it.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.equipment import Item
from liftout.facts.fact import Fact
from liftout.facts.states import everything_in
from liftout.findings import Finding, Referral
from liftout.worked.balance.amended_empty_weight import amended_empty_weight
from liftout.worksheet import Worksheet


@criterion(each="items")
def relief_path(item: Item, facts: Facts) -> Finding:
    sheet, place = Worksheet(), item.place.part("contents")
    sheet.described(place, item.place.missing("contents"))
    what, relief = place.word("what"), place.word("relief")
    full = amended_empty_weight(everything_in(facts.states), facts)
    sheet.given("W", full.value("W"), "empty weight with everything in, contents full")
    sheet.given("x_cg", full.value("x_cg"), "empty-weight arm with everything in, contents full")
    sheet.given("m_c", place.quantity("mass"), "mass of the full contents")
    sheet.given("x", item.arm, f"arm of the {item.name}")
    sheet.needs(what, relief)
    assert isinstance(what, Fact)
    assert isinstance(relief, Fact)
    sheet.work("x_used", "(W * x_cg - m_c * x) / (W - m_c)", "empty-weight arm when the contents are used up", "in", places=2)
    sheet.work("dx", "x_used - x_cg", "change of the arm as they are used", "in", places=3)
    return sheet.refer(_asks(item, what, relief))


def _asks(item: Item, what: Fact[str], relief: Fact[str]) -> Referral:
    return Referral(
        f"Do relief and vent of the {what.value} in the {item.name} lead where they harm nobody: {relief.value}?",
        f"{relief.origin}: {relief.evidence}; a job names the path in its own words, which nothing here can judge",
        "the licensed person who inspects the fit",
        "a decision that names who looked, and that the path is open and leads clear of closed spaces, oil, grease and sparks",
    )
