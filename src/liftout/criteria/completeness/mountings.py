"""A mounting for each item that stays.

Requires: each item that stays in the aircraft has a bracket, foot or clamp described with its fasteners.
Because: brackets, panels and lines that stay fly on every flight, with the equipment in and without it.
Method: brackets that the job describes for the item, counted.
Leaves out: items that lift out, whose straps or brackets the load path follows, and whether a bracket is strong enough.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.structure import Mounting
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet


@criterion(each="provisions")
def mountings(mounting: Mounting, facts: Facts) -> Finding:
    sheet, item = Worksheet(), mounting.item
    if mounting.declined is not None:
        return sheet.refer(
            Referral(
                f"Is the {item.name}, which stays in the aircraft, held by something that the job need not describe?",
                f"the job gives as reason: {mounting.declined.value} ({mounting.declined.origin})",
                "the licensed person who inspects the fit",
                "brackets described in the job, or a decision why none are needed",
            )
        )
    if not mounting.place.there:
        sheet.needs(mounting.place.silence)
    sheet.count("n", len(mounting.brackets), f"brackets of the {item.name}", mounting.place)
    return sheet.at_least("n", 1)
