"""Extension lead to a source on the ground.

Requires: the lead is rated for the input current of the source, the source still has its lowest input voltage at the end of it, and earth and
    residual-current device were tested by the local rules.
Because: a long thin lead starves the source and heats on its drum; a broken earth puts the whole airframe at mains voltage.
Method: input current against the rating of the lead; mains voltage less the drop of both conductors of the lead; the record of the test by the local electrical code, which outranks anything
    here.
Leaves out: the fixed installation of the building, rain, and what the local code asks beyond that record.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Place
from liftout.findings import Finding
from liftout.worksheet import Worksheet, declined

CODE = "WARNING: mains voltage kills. The local electrical code and a licensed electrician decide on lead, earth and residual-current device."


@criterion(each="ground_powers")
def ground_lead(power: Place, facts: Facts) -> Finding:
    if power.declined is not None:
        return declined(power.declined)
    sheet, mains = Worksheet(), power.part("mains")
    sheet.described(mains, mains.silence if power.there else power.silence)
    sheet.given("V_1", mains.quantity("voltage"), "mains at the socket")
    sheet.given("V_least", mains.quantity("lowest"), "lowest input voltage of the source")
    sheet.given("I", mains.quantity("current"), "input current of the source")
    sheet.given("L", mains.quantity("lead_length"), "length of the extension lead")
    sheet.given("r", mains.quantity("lead_resistance"), "one conductor of the lead, per length")
    sheet.given("I_lead", mains.quantity("lead_rating"), "rated current of the lead, unwound")
    earth = mains.word("earth")
    sheet.needs(earth)
    sheet.work("V_lead", "2 * r * L * I", "drop of the lead, out and back", "V")
    sheet.work("V_2", "V_1 - V_lead", "mains at the source", "V")
    case = {"earth": earth.value} if isinstance(earth, Fact) else {}
    if sheet.exceeds("I", "I_lead"):
        return sheet.at_most("I", "I_lead", case=case, caution=CODE)
    return sheet.at_least("V_2", "V_least", case=case, caution=CODE)
