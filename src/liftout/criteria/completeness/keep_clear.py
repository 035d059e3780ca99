"""Each kind of space that must stay clear, named or said to be absent.

Requires: the job names every space of each kind that must stay clear, or says why the aircraft has none of that kind.
Because: a fit is checked against what was measured; an exit of which nobody spoke is the one that is blocked.
Method: spaces of the kind, counted; a reason takes their place, except for exits and controls, which every aeroplane has.
Leaves out: whether all spaces of the kind are named, and whether each was measured, which the clearances ask.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.clearance import KeptKind
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet, declined

ALWAYS = ("exit opening", "control full travel")
"""Kinds that every aeroplane has."""


@criterion(each="kinds_kept_clear")
def keep_clear(kind: KeptKind, facts: Facts) -> Finding:
    sheet, kept = Worksheet(), facts.keep_clear.place
    if not kept.there:
        sheet.needs(facts.aircraft.place.missing("keep_clear"))
    reason = kept.declined or kind.without
    if reason is not None and (kept.declined is not None or kind.name in ALWAYS):
        return sheet.refer(
            Referral(
                f"Is there nothing in this aircraft that must stay clear as {kind.name}?",
                f"the job gives as reason: {reason.value} ({reason.origin})",
                "the licensed person who inspects the fit",
                "the spaces measured and named in the job, or a decision why there are none",
            )
        )
    if reason is not None:
        return declined(reason)
    sheet.count("n", len(kind.volumes), f"spaces named as {kind.name}", kept)
    return sheet.at_least("n", 1)
