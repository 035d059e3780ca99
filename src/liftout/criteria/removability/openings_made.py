"""Whether an opening is cut for the fit, and who has to decide on it.

Requires: each opening was there before, by a record, and none goes through what holds cabin pressure.
Because: a hole cut for removable equipment is a lasting alteration; in a pressure structure it can open the cabin in flight.
Method: what the job says of the opening; a new one is a candidate for a major alteration, and one in pressure structure is always referred.
Leaves out: strength and reinforcement of the opening, which have criteria of their own, and its class, which the authority gives it.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts
from liftout.facts.removal import Opening
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet

FLAG = "MAJOR CANDIDATE: an opening cut for the fit may be a major alteration. The authority classifies it; this is no classification."

HULL = "MAJOR CANDIDATE: whatever goes through a pressure hull may be a major alteration. The authority classifies it; this is no classification."

NO_RECORD = ("measured ", "nameplate: ")
"""How evidence begins that is no record of the aircraft."""


@criterion(each="openings")
def openings_made(opening: Opening, facts: Facts) -> Finding:
    sheet = Worksheet()
    pressurised = facts.aircraft.place.answer("pressurised")
    sheet.needs(opening.made, pressurised)
    assert isinstance(opening.made, Fact)
    new = opening.made.value == "new"
    case = {"made": opening.made.value, "through": opening.through} | ({"flag": "major candidate"} if new else {})
    told = opening.place.answer("in_pressure_hull")
    if opening.through == "skin" and isinstance(told, Fact):
        sheet.rests_on(told)
    where = (
        f"{opening.name}, through the {opening.through}, for {opening.passes} ({opening.made.origin}); {opening.made.value}: {opening.made.evidence}"
    )
    if opening.in_pressure_hull:
        return sheet.refer(
            Referral(
                f"May the {opening.name} go through what holds cabin pressure, and by which data is it reinforced, sealed and leak-tested?",
                where,
                "the holder of a design approval for this pressure structure, with the authority, and the licensed person who inspects the fit",
                "data for this opening from that holder, and a leak test of the cabin to the maintenance manual",
            ),
            caution=FLAG if new else HULL,
            case={**case, "flag": "major candidate"},
        )
    if new:
        return sheet.refer(
            Referral(
                f"Is the {opening.name}, which is cut for the fit, a major or a minor alteration, and which data covers it?",
                where,
                "the authority, through the licensed person who inspects the fit",
                "the class that the authority gives it, and the data by which it is cut and reinforced",
            ),
            caution=FLAG,
            case=case,
        )
    if opening.made.evidence.startswith(NO_RECORD):
        return sheet.refer(
            Referral(
                f"By which record was the {opening.name} there before the fit?",
                f"{where}; a measurement shows that it is there, not since when",
                "the licensed person who inspects the fit",
                "a document of the aircraft that shows the opening, beside the word existing in the job",
            ),
            case=case,
        )
    return sheet.met(f"the {opening.name} was there before, by {opening.made.evidence}", case=case)
