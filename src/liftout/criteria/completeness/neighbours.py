"""Each kind of instrument that the equipment may disturb, named or said to be absent.

Requires: the job names every compass, radio, receiver, autopilot, intercom, transponder and gauge aboard, or says why there is none of a kind.
Because: interference is looked for on the instruments of a list; on one that is not on it nobody looks.
Method: instruments of the kind, counted, of each of which the job says what is watched or heard on it; a reason takes their place, except for the
    compass, which every aircraft has.
Leaves out: whether all of a kind are named; what is found when they are watched.
"""

from liftout.criteria import criterion
from liftout.facts import Facts
from liftout.facts.neighbours import MAGNETIC, NeighbourKind
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet, declined


@criterion(each="neighbour_kinds")
def neighbours(kind: NeighbourKind, facts: Facts) -> Finding:
    sheet = Worksheet()
    if not kind.place.there:
        sheet.needs(facts.aircraft.place.missing("magnetic_sensors" if kind.name == MAGNETIC else "instruments"))
    reason = kind.place.declined or kind.without
    if reason is not None and kind.name == MAGNETIC:
        return sheet.refer(
            Referral(
                "Is there no compass in this aircraft that the equipment could turn?",
                f"the job gives as reason: {reason.value} ({reason.origin})",
                "the licensed person who inspects the fit",
                "the compass named in the job with its place, or a decision why there is none",
            )
        )
    if reason is not None:
        return declined(reason)
    sheet.needs(*(one.watched for one in facts.instruments if one.kind == kind.name))
    sheet.count("n", len(kind.named), f"instruments named as {kind.name}", kind.place)
    return sheet.at_least("n", 1)
